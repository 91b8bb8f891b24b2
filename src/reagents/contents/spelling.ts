// Words that a misspelt word may be: one slip in short words, two in long ones.
import { onceFor } from '../../once.js';

/** Letters to change, leave out, add or swap with a neighbour; more than `most` counts as `most + 1`. */
export function slipsBetween(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let row = 1; row <= a.length; row += 1) {
    const line = [row];
    for (let at = 1; at <= b.length; at += 1) {
      const same = a[row - 1] === b[at - 1] ? 0 : 1;
      let least = Math.min(last[at]! + 1, line[at - 1]! + 1, last[at - 1]! + same);
      const swapped = row > 1 && at > 1 && a[row - 1] === b[at - 2] && a[row - 2] === b[at - 1];
      if (swapped) least = Math.min(least, before[at - 2]! + 1);
      line.push(least);
    }
    before = last;
    last = line;
  }
  return last[b.length]!;
}

const shortest = 5;
const longWord = 9;

/** Words by their first letter. */
const byFirstLetter = onceFor((known: ReadonlySet<string>): ReadonlyMap<string, readonly string[]> => {
  const words = new Map<string, string[]>();
  for (const word of known) {
    if (word.length < shortest) continue;
    const alike = words.get(word[0]!);
    if (alike) alike.push(word);
    else words.set(word[0]!, [word]);
  }
  return words;
});

/**
 * The known words nearest to one that nothing knows, the nearest first; none where it is short or far from all.
 * @example nearestWords('hydrocloric', new Set(['hydrochloric', 'hydrogen'])) // ['hydrochloric']
 */
export function nearestWords(word: string, known: ReadonlySet<string>): readonly string[] {
  if (word.length < shortest || !/^[a-z]+$/.test(word)) return [];
  const most = word.length >= longWord ? 2 : 1;
  const found: (readonly [number, string])[] = [];
  for (const one of byFirstLetter(known).get(word[0]!) ?? []) {
    if (Math.abs(one.length - word.length) > most) continue;
    const slips = slipsBetween(word, one, most);
    if (slips <= most) found.push([slips, one]);
  }
  const nearest = Math.min(...found.map(([slips]) => slips));
  return found
    .filter(([slips]) => slips === nearest)
    .map(([, one]) => one)
    .sort();
}
