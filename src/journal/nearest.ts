// The name that was probably meant.
import { closest, distance } from 'fastest-levenshtein';

/** Longer names are not compared. */
const longest = 80;

/**
 * The nearest of some names, if one is near enough to have been meant.
 * @example nearest('statis', ['status', 'title']) // 'status'
 */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (known.length === 0 || name.length > longest) return undefined;
  const found = closest(name.toLowerCase(), [...known]);
  const near = Math.max(2, Math.floor(name.length / 3));
  return distance(name.toLowerCase(), found.toLowerCase()) <= near ? found : undefined;
}

/** Letters of a word, whatever their order: two that changed places make no difference. */
const lettersOf = (word: string): string => [...word].sort().join('');

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
