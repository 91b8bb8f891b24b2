// What the table of this room holds, column by column.
import { oneOf, table, text } from '../tables/cells.js';

/** Headings of a cupboard list, in small letters without punctuation, and the key of the shelf that each stands for. */
export const shelfHeadings = table({
  heading: text,
  key: oneOf(
    'name',
    'id',
    'formula',
    'cas',
    'also-called',
    'strength',
    'purity',
    'density',
    'price',
    'pack',
    'supplier',
    'grade',
    'note',
  ),
  basis: text,
});
