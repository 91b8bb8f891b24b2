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
