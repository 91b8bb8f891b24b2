// Sheets of labels: one document that is printed, cut and stuck; what must be said with them stands on a page of its
// own.
import type { Element, ElementContent, Root } from 'hast';
import { h } from 'hastscript';
import type { Face, Line } from '../src/site/labels/faces.js';
import type { LabelSheets, Notes, Page } from '../src/site/labels/sheets.js';
import { formula } from './parts/formula.js';
import { pictogram } from './pictograms/pictogram.js';

export interface LabelsDocument {
  readonly sheets: Omit<LabelSheets, 'sheet'>;
  /** The whole style sheet. */
  readonly style: string;
  readonly policy: string;
  /** Which of the grids of the style sheet a page has. */
  readonly gridNumber: (page: Page) => number;
  readonly back?: { readonly href: string; readonly title: string };
}

const className = (name: string): string => name.replaceAll(' ', '-');

const lineOf = ({ as, text, formula: set }: Line): Element =>
  (
    <p class={className(as)}>
      {set ? formula(set) : null}
      {text}
    </p>
  ) as Element;

/** A code as a drawing, with the address it leads to. */
function codeOf({ code, side }: NonNullable<Face['code']>): Element {
  const across = code.modules + 8;
  return h(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      className: ['code'],
      viewBox: `0 0 ${across} ${across}`,
      width: `${side}mm`,
      height: `${side}mm`,
      shapeRendering: 'crispEdges',
      role: 'img',
      ariaLabel: `QR code: ${code.address}`,
      'data-address': code.address,
      'data-level': code.level,
    },
    [
      h('rect', { width: String(across), height: String(across), fill: '#ffffff' }),
      h('path', { d: code.path, fill: '#000000' }),
    ],
  ) as Element;
}

function swatchOf({ hex, width, height }: NonNullable<Face['swatch']>): Element {
  return h(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      className: ['swatch'],
      viewBox: `0 0 ${width} ${height}`,
      width: `${width}mm`,
      height: `${height}mm`,
      role: 'img',
      ariaLabel: `swatch ${hex}`,
    },
    [h('rect', { width: String(width), height: String(height), fill: hex })],
  ) as Element;
}

/** Pictograms column by column. */
function pictogramsOf({ pictograms, pictogramColumns, pictogramSide }: Face): Element | null {
  if (pictograms.length === 0) return null;
  const inColumn = Math.ceil(pictograms.length / pictogramColumns);
  const columns = Array.from({ length: pictogramColumns }, (_, at) =>
    pictograms.slice(at * inColumn, (at + 1) * inColumn),
  );
  return (
    <div class={`pictograms side-${pictogramSide}`}>
      {columns.map((column) => (
        <div>{column.map((code) => pictogram(code))}</div>
      ))}
    </div>
  ) as Element;
}

const labelOf = (face: Face): Element =>
  (
    <article class={`label ${face.kind}`}>
      <div class="band">
        {face.code || face.swatch ? (
          <div class="code-and-swatch">
            {face.code ? codeOf(face.code) : null}
            {face.swatch ? swatchOf(face.swatch) : null}
          </div>
        ) : null}
        <div class="words">{face.lines.map(lineOf)}</div>
        {pictogramsOf(face)}
      </div>
      {face.below ? <div class="words below">{face.below.map(lineOf)}</div> : null}
    </article>
  ) as Element;

const sheetOf = (page: Page, grid: number): Element =>
  (<section class={`sheet ${page.sheet.paper} grid-${grid}`}>{page.faces.map(labelOf)}</section>) as Element;

const noted = ({ of, sentences }: Notes): ElementContent[] => [
  (<h3>{of}</h3>) as Element,
  (
    <ul>
      {sentences.map((sentence) => (
        <li>{sentence}</li>
      ))}
    </ul>
  ) as Element,
];

export function labelsDocument({ sheets, style, policy, gridNumber, back }: LabelsDocument): Root {
  const { title, language, pages, general, notes, transport } = sheets;
  const document = (
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="content-security-policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex" />
        <title>{title}</title>
        <style>{style}</style>
      </head>
      <body>
        {back ? (
          <nav>
            <a href={back.href}>{back.title}</a>
          </nav>
        ) : null}
        <main>
          <h1 class="on-screen">{title}</h1>
          {pages.map((page) => sheetOf(page, gridNumber(page)))}
          <section class="notes">
            <h2>Before these labels are used</h2>
            <ul>
              {general.map((sentence) => (
                <li>{sentence}</li>
              ))}
            </ul>
            {notes.flatMap(noted)}
            <h2>Before it is posted</h2>
            {transport.flatMap(noted)}
          </section>
        </main>
      </body>
    </html>
  ) as Element;
  return h(null, [{ type: 'doctype' } as never, document]);
}
