// Tables of figures, made as trees directly: cells are by far the most elements of a page, and cost a tenth of what
// JSX takes.
import type { Element, ElementContent } from 'hast';

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

const inside = (cell: Cell): ElementContent[] =>
  typeof cell === 'string' ? [{ type: 'text' as const, value: cell }].filter(({ value }) => value !== '') : [...cell];

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

/**
 * A table in a frame that scrolls sideways where it is too wide. Heads stand in the first row and in the first column
 * only, which is what makes each of them a column's or a row's head without more being said (HTML, `scope`, automatic).
 * @param label shorter name of the frame, where the caption is long
 */
export function figuresTable({
  caption,
  label = caption,
  columns,
  rows,
  className = 'figures-table',
}: {
  readonly caption: string;
  readonly label?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Element[];
  readonly className?: string;
}): Element {
  const table = make('table', [
    make('caption', [{ type: 'text', value: caption }]),
    make('thead', [
      make(
        'tr',
        // An empty corner heads nothing.
        columns.map(({ head }) => make(head === '' ? 'td' : 'th', inside(head))),
      ),
    ]),
    make('tbody', [...rows]),
  ]);
  table.properties.className = [className, ...kinds(columns)];
  return {
    type: 'element',
    tagName: 'div',
    properties: { tabIndex: 0, role: 'region', ariaLabel: label },
    children: [table],
  };
}
