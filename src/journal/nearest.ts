// The name that was probably meant.
import { closest, distance } from 'fastest-levenshtein';

/** Longer names are not compared. */
const longest = 80;

/** Up to so many letters a word is short. */
const shortWord = 4;

/** Letters of a word, whatever their order: two that changed places make no difference. */
const lettersOf = (word: string): string => [...word].sort().join('');

/**
 * The nearest of some names, if one is near enough to have been meant.
 * @example nearest('statis', ['status', 'title']) // 'status'
 */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (known.length === 0 || name.length > longest) return undefined;
  const written = name.toLowerCase();
  const found = closest(written, [...known]);
  const other = found.toLowerCase();
  // Of short words two letters are most of what there is: `wet` is not `sent`.
  const near = name.length > shortWord ? Math.max(2, Math.floor(name.length / 3)) : 1;
  const isNear = distance(written, other) <= near || lettersOf(written) === lettersOf(other);
  return isNear ? found : undefined;
}

/**
 * The name that a misspelt one can only be meant for: one letter off, or two in long words, or two changed places, and
 * the same first letter.
 * @example misspelt('titel', ['title', 'date']) // 'title'
 */
export function misspelt(name: string, known: readonly string[]): string | undefined {
  const near = nearest(name, known);
  if (near === undefined || near === name || name.length < 4 || near[0] !== name[0]) return undefined;
  const swapped = lettersOf(name) === lettersOf(near) && distance(name, near) <= 2;
  return swapped || distance(name, near) <= (name.length > 7 ? 2 : 1) ? near : undefined;
}
