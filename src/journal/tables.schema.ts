// What the tables of this room hold, column by column.
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

/** What the row of a spreadsheet that adds up is called, as headings are compared. */
export const totalWords = table({ word: text, basis: text });

/** Words in which samples tell what they differ in, and what kind of thing that is; `cold*` stands for longer words. */
export const differsWords = table({ word: text, kind: text, basis: text });

/** Letters of other scripts that a keyboard puts where a Latin letter is meant, which they look like. */
export const lookAlikes = table({ letter: text, looks_like: text, source: text });

/** What a maker writes who has not filled in yet: it counts as blank. */
export const blankWords = table({ word: text, basis: text });
