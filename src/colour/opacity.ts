// Contrast ratio of one film over black and over white, and what a maker calls it.
import { bad, good, type Outcome } from './faults.js';
import { opacityWordsTable } from '../tables/compiled/colour/opacity-words.js';

export type OpacityWord = 'opaque' | 'semi-opaque' | 'semi-transparent' | 'transparent';

export interface Contrast {
  /** Y over black ÷ Y over white, percent; a little over 100 is measurement noise. */
  readonly ratio: number;
  readonly word: OpacityWord;
  /** `contrast ratio 75 to 98 %` */
  readonly definition: string;
  /** Where the word's limit comes from. */
  readonly source: string;
  /** What limits the statement. */
  readonly notes: readonly string[];
}

/** Both films under this Y are near the reflection of their own surface, and the ratio says little. */
const dark = 10;

/**
 * Contrast ratio (ISO 6504-3; ASTM D2805) of one film from its Y over black and over white, 0 to 100.
 * @example contrast(77.786, 86.832).value.ratio // 89.58
 */
export function contrast(overBlack: number, overWhite: number): Outcome<Contrast> {
  for (const [where, y] of [
    ['black', overBlack],
    ['white', overWhite],
  ] as const) {
    if (!Number.isFinite(y) || y < 0 || y > 110)
      return bad({
        code: 'not-a-luminance-factor',
        message: `Y over ${where} is ${y}.`,
        expected: 'Y from 0 to 100',
        cure: 'Give the luminance factor Y of the film, 0 for black to 100 for white.',
      });
  }
  if (overWhite <= 0)
    return bad({
      code: 'no-light-over-white',
      message: 'Y over white is 0.',
      expected: 'Y over 0',
      cure: 'Check the reading over white.',
    });
  const ratio = (100 * overBlack) / overWhite;
  if (ratio > 105)
    return bad({
      code: 'lighter-over-black',
      message: `The film reads lighter over black (Y ${overBlack}) than over white (Y ${overWhite}).`,
      expected: 'Y over black not above Y over white',
      cure: 'Check whether the two readings were exchanged, or whether the films differ in thickness.',
    });
  const row = opacityWordsTable().find((line) => line.from_percent === undefined || ratio >= line.from_percent)!;
  const notes: string[] = [];
  if (ratio > 100) notes.push('A little over 100 % is measurement noise.');
  if (overWhite < dark)
    notes.push(
      'The film is so dark that its contrast ratio says little: both readings are near the reflection of the ' +
        'surface itself.',
    );
  return good({ ratio, word: row.word, definition: row.definition, source: row.source, notes });
}
