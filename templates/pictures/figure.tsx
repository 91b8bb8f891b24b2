// A drawing on the page: the picture, a caption, and behind it the table of what it shows.
import type { Element, ElementContent, Properties } from 'hast';

/** A number for readers, with a true minus and no minus before nought; what is no number is a dash. */
export function figure(value: number, digits = 1): string {
  if (!Number.isFinite(value)) return '–';
  const text = value.toFixed(digits);
  if (!text.startsWith('-')) return text;
  return Number(text) === 0 ? text.slice(1) : `−${text.slice(1)}`;
}

/** Heads and cells of a table of CIELAB: L*, a*, b*, chroma, and the hue angle where there is a hue. */
export const labHead = ['L*', 'a*', 'b*', 'C*', 'h°'];
export function labCells([lightness, a, b]: readonly [number, number, number]): string[] {
  const chroma = Math.hypot(a, b);
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  return [figure(lightness), figure(a), figure(b), figure(chroma), chroma < 0.5 ? '–' : figure(hue, 0)];
}

export interface PictureTable {
  readonly caption: string;
  readonly head: readonly string[];
  /** Cells as text; the first of a row names it. */
  readonly rows: readonly (readonly string[])[];
  /** Columns (from 0) that hold numbers; default all but the first. */
  readonly words?: readonly number[];
}

// Cells are by far the most elements of a page with drawings; made directly they cost a tenth of what JSX takes for them.
const cell = (tagName: 'td' | 'th', text: string, properties: Properties = {}): Element => ({ type: 'element', tagName, properties, children: [{ type: 'text', value: text }] });
const row = (children: Element[]): Element => ({ type: 'element', tagName: 'tr', properties: {}, children });

/** A table whose first column names the row; the others hold numbers unless said to hold words (a class of the cell, or of the table where all do). */
export function pictureTable({ caption, head, rows, words = [] }: PictureTable): Element {
  const allWords = words.length === head.length - 1;
  const kind = (column: number): Properties => (column > 0 && !allWords && words.includes(column) ? { className: ['words'] } : {});
  return (
    <div class="scroll" tabindex="0" role="region" aria-label={caption}>
      <table class={allWords ? 'words-table' : 'figures-table'}>
        <caption>{caption}</caption>
        <thead>{row(head.map((text, column) => cell('th', text, { scope: 'col', ...kind(column) })))}</thead>
        <tbody>{rows.map((cells) => row(cells.map((text, column) => (column === 0 ? cell('th', text, { scope: 'row' }) : cell('td', text, kind(column))))))}</tbody>
      </table>
    </div>
  ) as Element;
}

/** A figure; the table opens on request, and always in print. */
export function pictureFigure({ picture, caption, table, summary = 'The numbers behind this drawing' }: {
  readonly picture: Element;
  readonly caption?: ElementContent | string;
  readonly table?: PictureTable;
  readonly summary?: string;
}): Element {
  return (
    <figure class="picture">
      {picture}
      {caption ? <figcaption>{caption}</figcaption> : null}
      {table && table.rows.length > 0 ? <details class="behind"><summary>{summary}</summary>{pictureTable(table)}</details> : null}
    </figure>
  ) as Element;
}
