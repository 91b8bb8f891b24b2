// How much room words take, so that a label is never printed with its warnings cut off. Widths are taken generously:
// a line that is thought full has room to spare.

/** Widths of letters in shares of the type size, of the label's typeface (Commissioner), rounded up. */
const widthClasses: readonly (readonly [RegExp, number])[] = [
  [/[iljI.,:;'’|!()[\]·]/, 0.3],
  [/[ frt/-]/, 0.4],
  [/[mwMW@%–—]/, 0.95],
  [/[A-Z_+=~≥≤]/, 0.7],
  [/[0-9]/, 0.6],
];
const otherWidth = 0.6;

const widthOf = (letter: string): number => widthClasses.find(([letters]) => letters.test(letter))?.[1] ?? otherWidth;

/** Width of words, mm. */
export const textWidth = (words: string, typeSize: number): number =>
  [...words].reduce((sum, letter) => sum + widthOf(letter), 0) * typeSize;

/** Lines that words take in a column: whole words, a longer one broken. */
export function linesOf(words: string, typeSize: number, column: number): number {
  let [lines, rest] = [1, column];
  for (const word of words.split(/\s+/).filter((one) => one !== '')) {
    const width = textWidth(`${word} `, typeSize);
    if (width <= rest) rest -= width;
    else {
      lines += Math.max(1, Math.ceil(width / column));
      rest = column - (width % column);
    }
  }
  return lines;
}
