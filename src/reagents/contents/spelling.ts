// Words that a misspelt word may be: one slip in short words, two in long ones.

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

/** Words that are known, by their first letter and how many they have. */
export type KnownWords = (first: string, length: number) => readonly string[];

/**
 * The known words nearest to one that nothing knows, the nearest first; none where it is short or far from all.
 * @example nearestWords('clorine', (_, length) => (length === 8 ? ['chlorine'] : [])) // ['chlorine']
 */
export function nearestWords(word: string, known: KnownWords): readonly string[] {
  if (word.length < shortest || !/^[a-z]+$/.test(word)) return [];
  const most = word.length >= longWord ? 2 : 1;
  const found: (readonly [number, string])[] = [];
  for (let length = Math.max(word.length - most, shortest); length <= word.length + most; length += 1)
    for (const one of known(word[0]!, length)) {
      const slips = slipsBetween(word, one, most);
      if (slips <= most) found.push([slips, one]);
    }
  const nearest = Math.min(...found.map(([slips]) => slips));
  return found
    .filter(([slips]) => slips === nearest)
    .map(([, one]) => one)
    .sort();
}
