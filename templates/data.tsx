// The page that lists the journal's data files.
import type { Root } from 'hast';
import { authorFacts } from './parts/shared-head.js';
import { cautionLine, href, page, type SiteContext } from './frame.js';

export function dataPage(site: SiteContext, files: readonly { readonly name: string; readonly what: string }[]): Root {
  return page(site, {
    title: 'Data',
    description: 'The whole journal as JSON and CSV.',
    address: '/data/',
    shared: {
      facts: {
        '@type': 'Dataset',
        creator: authorFacts(site.author),
        distribution: files.map(({ name, what }) => ({
          '@type': 'DataDownload',
          name: what,
          contentUrl: `${site.address}/data/${name}`,
        })),
      },
    },
    main: [
      <h1>Data</h1>,
      <p>
        The whole journal as files for a spreadsheet or a program. Numbers stand unrounded, as text where they are exact
        decimals; uncertainties are expanded (k = 2).{site.licence ? ` Licence: ${site.licence}.` : ''}
      </p>,
      <ul>
        {files.map(({ name, what }) => (
          <li>
            <a href={href(site, `/data/${name}`)}>{name}</a>
            {`: ${what}`}
          </li>
        ))}
      </ul>,
      cautionLine(),
    ] as never,
  });
}
