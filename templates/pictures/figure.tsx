// A drawing on the page: the picture, a caption, and behind it the table of what it shows.
import type { Element, ElementContent } from 'hast';

export interface PictureTable {
  readonly caption: string;
  readonly head: readonly string[];
  /** Cells as text; the first of a row names it. */
  readonly rows: readonly (readonly string[])[];
  /** Columns (from 0) that hold numbers; default all but the first. */
  readonly words?: readonly number[];
}

/** A table whose first column names the row; the others hold numbers (the table's class says so) unless said to hold words. */
export function pictureTable({ caption, head, rows, words = [] }: PictureTable): Element {
  const kind = (column: number): string | null => (column > 0 && words.includes(column) ? 'words' : null);
  return (
    <div class="scroll" tabindex="0" role="region" aria-label={caption}>
      <table class="figures-table">
        <caption>{caption}</caption>
        <thead><tr>{head.map((cell, column) => <th scope="col" class={kind(column)}>{cell}</th>)}</tr></thead>
        <tbody>{rows.map((row) => <tr>{row.map((cell, column) => (column === 0 ? <th scope="row">{cell}</th> : <td class={kind(column)}>{cell}</td>))}</tr>)}</tbody>
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
