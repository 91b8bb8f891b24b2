// What the tables of this room hold, column by column.
import { oneOf, table, text } from '../../tables/cells.js';

/** Other words for a key, or for a word that may stand behind it: `resolution` for `step`, `done` for `finished`. */
export const otherWords = table({
  written: text,
  /** What the format calls it. */
  meant: text,
  kind: oneOf('key', 'choice'),
  basis: text,
});

/** What a product is weighed in or on, and what that is called when it is taken off, in five languages. */
export const tareWords = table({ word: text, basis: text });

/** Words beside a weighing that tell whether it was wet or dry, in six languages. */
export const drynessWords = table({ word: text, kind: oneOf('wet', 'dry'), basis: text });

/** Words that put something in: before its amount, behind its name, or between it and what it is dissolved in. */
export const putInWords = table({ words: text, place: oneOf('before', 'behind', 'between'), basis: text });
