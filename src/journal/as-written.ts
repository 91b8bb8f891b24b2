// Places in front matter as it stands in the file, where it is read with slips mended and keys as they are meant: a
// line that was mended is laid beside the one that was written.

/** What changes as one: a word, or a sign. */
const token = /[\p{L}\p{N}]+|[^\p{L}\p{N}]/gu;

interface Token {
  readonly text: string;
  readonly from: number;
}
const tokensOf = (line: string): readonly Token[] =>
  [...line.matchAll(token)].map(({ 0: text, index }) => ({ text, from: index }));

/** Longer lines are not laid beside one another. */
const tokensAtMost = 400;

/** What turning the tokens of one line into those of another costs, from each place on (Wagner and Fischer 1974). */
function costs(mended: readonly Token[], written: readonly Token[]): readonly (readonly number[])[] {
  const table = Array.from({ length: mended.length + 1 }, () => Array<number>(written.length + 1).fill(0));
  for (let one = mended.length; one >= 0; one -= 1)
    for (let other = written.length; other >= 0; other -= 1) {
      const rest = Math.max(mended.length - one, written.length - other);
      if (one === mended.length || other === written.length) table[one]![other] = rest;
      else {
        const [next, below] = [table[one]!, table[one + 1]!];
        const isSame = mended[one]!.text === written[other]!.text;
        table[one]![other] = isSame
          ? below[other + 1]!
          : 1 + Math.min(below[other + 1]!, below[other]!, next[other + 1]!);
      }
    }
  return table;
}

/**
 * Column of a line as it was written for one of it as it is read; both from 0.
 * @example columnAsWritten('a: "x y", b: c', 'a: x y, b: c', 10) // 8
 */
export function columnAsWritten(mended: string, written: string, column: number): number {
  if (mended === written) return column;
  const [ofMended, ofWritten] = [tokensOf(mended), tokensOf(written)];
  if (ofMended.length > tokensAtMost || ofWritten.length > tokensAtMost) return column;
  const table = costs(ofMended, ofWritten);
  let [one, other] = [0, 0];
  while (one < ofMended.length && other < ofWritten.length) {
    const { text, from } = ofMended[one]!;
    const here = ofWritten[other]!;
    const cost = table[one]![other]!;
    const isInserted = text !== here.text && table[one + 1]![other]! === cost - 1;
    if (from >= column || (from + text.length > column && !isInserted)) return here.from + Math.max(0, column - from);
    if (isInserted) one += 1;
    else if (text === here.text || table[one + 1]![other + 1]! === cost - 1) [one, other] = [one + 1, other + 1];
    else other += 1;
  }
  return Math.min(column, written.length);
}

/**
 * What stands in a line as it was written for a text of it as it is read, from a column on; undefined where it is not
 * there.
 * @example textAsWritten('[a 2.5 g]', '[a 2,5 g]', 'a 2.5 g', 1) // 'a 2,5 g'
 */
export function textAsWritten(mended: string, written: string, text: string, column: number): string | undefined {
  const from = mended.indexOf(text, column);
  if (from < 0) return undefined;
  const [begin, end] = [from, from + text.length].map((at) => columnAsWritten(mended, written, at));
  return written.slice(begin, end);
}
