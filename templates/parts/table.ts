// Tables of figures, made as trees directly: cells are by far the most elements of a page, and cost a tenth of what
// JSX takes.
import type { Element, ElementContent } from 'hast';
import { madeOnce } from '../of-many-pages.js';

/** What stands in a cell: words, or parts already made. */
export type Cell = string | readonly ElementContent[];

/**
 * A column that holds words; without it a column holds figures, which line up at the right. The first always names
 * its row.
 */
export interface Column {
  readonly head: string;
  readonly words?: boolean;
}

/** An element made directly. */
export const make = (tagName: string, children: ElementContent[], className?: string): Element => ({
  type: 'element',
  tagName,
  properties: className === undefined ? {} : { className: [className] },
  children,
});

function inside(cell: Cell): ElementContent[] {
  if (typeof cell !== 'string') return [...cell];
  return cell === '' ? [] : [{ type: 'text', value: cell }];
}

/** A row whose first cell names it. */
export const row = (cells: readonly Cell[], className?: string): Element =>
  make(
    'tr',
    cells.map((cell, column) => make(column === 0 ? 'th' : 'td', inside(cell))),
    className,
  );

/** Classes of a table that say which columns hold words (`w3`: the third). */
const kinds = (columns: readonly Column[]): string[] =>
  columns.flatMap(({ words }, column) => (words && column > 0 ? [`w${column + 1}`] : []));

/** Most columns, and most letters in one of them, of a table that no screen is too narrow for. */
const narrow = { columns: 3, letters: 7 } as const;

/** Whether a table needs no frame to scroll in, be its letters twice as large. */
export const isNarrow = (rows: readonly (readonly string[])[]): boolean =>
  rows.every((cells) => cells.length <= narrow.columns && cells.every(({ length }) => length <= narrow.letters));

/** The row of heads; an empty corner heads nothing. */
const headRow = madeOnce((...heads: string[]) =>
  make('thead', [
    make(
      'tr',
      heads.map((head) => make(head === '' ? 'td' : 'th', inside(head))),
    ),
  ]),
);

/**
 * A table in a frame that scrolls sideways where it is too wide. Heads stand in the first row and in the first column
 * only, which is what makes each of them a column's or a row's head without more being said (HTML, `scope`, automatic).
 * @param label shorter name of the frame, where the caption is long
 * @param framed false where it never is too wide
 */
export function figuresTable({
  caption,
  label = caption,
  columns,
  rows,
  className = 'figures-table',
  framed = true,
}: {
  readonly caption: string;
  readonly label?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Element[];
  readonly className?: string;
  readonly framed?: boolean;
}): Element {
  const table = make('table', [
    make('caption', [{ type: 'text', value: caption }]),
    headRow(...columns.map(({ head }) => head)),
    make('tbody', [...rows]),
  ]);
  table.properties.className = [className, ...kinds(columns)];
  if (!framed) return table;
  return {
    type: 'element',
    tagName: 'div',
    properties: { tabIndex: 0, role: 'region', ariaLabel: label },
    children: [table],
  };
}
