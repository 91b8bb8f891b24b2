// What the reading copy shows while the journal cannot be read at all.
import type { Element, Root } from 'hast';
import { h } from 'hastscript';

interface Trouble {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly cure: string;
}

export function troublePage(
  remarks: readonly Trouble[],
  reading: { readonly script: string; readonly stylesheet: string },
  /** The site's own. */
  stylesheet: string,
): Root {
  return h(null, [
    { type: 'doctype' } as never,
    <html lang="en-GB">
      <head>
        <meta charSet="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>The journal cannot be read yet</title>
        <link rel="stylesheet" href={stylesheet} />
        <link rel="stylesheet" href={reading.stylesheet} />
        <script type="module" src={reading.script}></script>
      </head>
      <body>
        <main class="frame">
          <h1>The journal cannot be read yet</h1>
          <ul>
            {remarks.map((remark) => (
              <li>
                <code>{`${remark.file}:${remark.line}:${remark.column}`}</code>
                {` ${remark.found} `}
                <strong>{remark.cure}</strong>
              </li>
            ))}
          </ul>
          <p>This page shows the journal as soon as that is mended.</p>
        </main>
      </body>
    </html>,
  ]);
}

/** What stands above a page that is older than its file, with the remark and its place. */
export const staleBanner = (where: string): Root => ({
  type: 'root',
  children: [
    (
      <p class="reading-stale" role="alert">
        <b>This page is older than its file, which cannot be read now. </b>
        {where}
      </p>
    ) as Element,
  ],
});
