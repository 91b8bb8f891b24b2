// Words of a table as a pattern that tells whether one of them stands in a text.
//
// A letter is `[a-zß-ɏ]` here and in the other patterns of this room, those of the languages of the tables: V8 takes
// 60 µs to read `\p{L}` and 170 more to compile it in a pattern in `u`, each time that it stands in one, and a command
// that is over at once spent a tenth of its time on that. For the same reason they are asked about small letters.
import { inSmallLetters } from '../../small-letters.js';

/** `brushed … off`: up to six words between. */
const between = String.raw`(?:\s+[^\s,.;:]+){0,6}?\s+`;

/**
 * One of some words, to be asked only whether it stands there; `bleach*` stands for `bleaching` too. Whatever letters
 * follow a beginning need no pattern: with one for each V8 took six times as long to compile it.
 * @param words none of them empty; a star only at the end; of none nothing stands anywhere
 * @returns for a pattern that is asked about small letters, behind what may stand before a word
 */
export function anyOfWords(words: readonly string[]): string {
  const small = words.map((one) => inSmallLetters(one).replace(' … ', between));
  const beginnings = small.filter((one) => one.endsWith('*')).map((one) => one.slice(0, -1));
  const whole = small.filter((one) => !one.endsWith('*')).join('|');
  const all = whole === '' ? beginnings : [...beginnings, String.raw`(?:${whole})(?![a-zß-ɏ])`];
  return all.length === 0 ? '(?!)' : `(?:${all.join('|')})`;
}

/** A pattern in small letters, asked about text in any. */
export class SmallLetterPattern {
  private readonly pattern: RegExp;

  /** @param source without capital letters but in `\S` and the like */
  constructor(source: string) {
    this.pattern = new RegExp(source, 'g');
  }

  test(text: string): boolean {
    this.pattern.lastIndex = 0;
    return this.pattern.test(inSmallLetters(text));
  }

  /** Where it first stands in a text, from a place on; undefined where it does not. */
  placeIn(text: string, from = 0): { readonly from: number; readonly to: number } | undefined {
    this.pattern.lastIndex = from;
    const found = this.pattern.exec(inSmallLetters(text));
    return found ? { from: found.index, to: this.pattern.lastIndex } : undefined;
  }

  /** A text with other words wherever it stands. */
  replacedIn(text: string, by: string): string {
    let replaced = '';
    let to = 0;
    for (let place = this.placeIn(text); place; place = this.placeIn(text, Math.max(to, place.from + 1))) {
      replaced += text.slice(to, place.from) + by;
      to = place.to;
    }
    return replaced + text.slice(to);
  }
}

/** One of some words from its beginning, for a pattern. @param words as `anyOfWords` takes them */
export const fromItsBeginning = (words: readonly string[]): string => `(?<![a-zß-ɏ])${anyOfWords(words)}`;

/** Whether one of the words of a table stands in a text, from its beginning. @param words as `anyOfWords` takes them */
export const patternOfWords = (words: readonly string[]): SmallLetterPattern =>
  new SmallLetterPattern(fromItsBeginning(words));
