// A drawing on the page: the picture, a caption, and behind it the table of what it shows.
import type { Element, ElementContent } from 'hast';
import { figuresTable, isNarrow, row } from '../parts/table.js';

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
  /** Shorter name, where the caption is long. */
  readonly label?: string;
  readonly head: readonly string[];
  /** Cells as text; the first of a row names it. */
  readonly rows: readonly (readonly string[])[];
  /** Columns (from 0) that hold words; the others but the first hold numbers. */
  readonly words?: readonly number[];
}

/** A table whose first column names the row; the others hold numbers unless said to hold words. */
export function pictureTable({ caption, label, head, rows, words = [] }: PictureTable): Element {
  return figuresTable({
    caption,
    label,
    columns: head.map((text, column) => ({ head: text, words: words.includes(column) })),
    rows: rows.map((cells) => row(cells)),
    framed: !isNarrow([head, ...rows]),
  });
}

/** A figure; the table opens on request, and always in print. */
export function pictureFigure({
  picture,
  caption,
  table,
  summary = 'The numbers behind this drawing',
}: {
  readonly picture: Element;
  readonly caption?: ElementContent | string;
  readonly table?: PictureTable;
  readonly summary?: string;
}): Element {
  return (
    <div class="picture">
      <figure>
        {picture}
        {caption ? <figcaption>{caption}</figcaption> : null}
      </figure>
      {table && table.rows.length > 0 ? (
        <details class="behind">
          <summary>{summary}</summary>
          {pictureTable(table)}
        </details>
      ) : null}
    </div>
  ) as Element;
}
