// The colour families in the order in which a series is laid out, and by what other words they are looked for.
import { familyWordsTable } from '../tables/compiled/crosslinks/family-words.js';

export const families = [
  'violet',
  'blue',
  'blue-green',
  'green',
  'yellow',
  'orange',
  'red',
  'pink',
  'brown',
  'black',
  'grey',
  'white',
] as const;

/** Place of a family in the layout; unknown ones come last. */
export function familyOrder(family: string): number {
  const at = (families as readonly string[]).indexOf(family);
  return at < 0 ? families.length : at;
}

/** Other words for a family: `purple` for violet. */
export const familyWords = (family: string): readonly string[] =>
  familyWordsTable().flatMap((row) => (row.family === family ? row.words : []));
