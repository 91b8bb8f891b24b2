// Slips in what was weighed: letters where digits should stand, `gr` for grams.
import { commasRead, parseQuantity } from '../../chemistry/quantity/index.js';

const mixed =
  /(?<![A-Za-zµÀ-ɏ\d.,])(?=[\doOlIS.,]*\d)(?=[\d.,]*[oOlIS])([\doOlIS][\doOlIS.,]*)\s?(mg|kg|g|m[lL]|[lL]|[cd][lL]|m?mol|%|°C)(?![A-Za-zµÀ-ɏ\d])/gu;
const digitOf: Readonly<Record<string, string>> = { o: '0', O: '0', l: '1', I: '1', S: '5' };

/**
 * Letters that look like digits and stand among them before a unit, and what they are likely meant for; undefined where
 * there are none.
 * @example digitsMeant('potash 12.oo g').cure // 'Write 12.00 g, if that is meant.'
 */
export function digitsMeant(text: string): { readonly why: string; readonly cure: string } | undefined {
  for (const [, number = '', unit = ''] of text.matchAll(mixed)) {
    const inDigits = `${number.replace(/[oOlIS]/g, (letter) => digitOf[letter]!)} ${unit}`;
    const meant = commasRead(inDigits) ?? inDigits;
    const letters = number.match(/[oOlIS]/g) ?? [];
    // `0.25l`: the letter is the unit.
    if (letters.length === 0) continue;
    const told =
      letters.length === 1
        ? `the letter ${letters[0]!} stands where a digit should`
        : 'letters stand where digits should';
    if (parseQuantity(meant).ok) return { why: told, cure: `Write ${meant}, if that is meant.` };
  }
  return undefined;
}

/** Markdown or HTML around words: what is struck out was taken back, what is bold or slanted stands. */
const struck = /~~[^~]+~~|<(s|del|strike)>.*?<\/\1>/gi;
const stressed =
  /(\*\*|__)(?=\S)(.*?\S)\1|(?<![\w*])([*_])(?=[\w.])([^*_]*[\w.])\3(?![\w*])|<(b|i|em|strong|u)>(.*?)<\/\5>/gi;

/**
 * A text without what is struck out in it, and without signs that make words bold or slanted.
 * @example withoutMarks('alum ~~5 g~~ **6 g**') // 'alum 6 g'
 */
export const withoutMarks = (text: string): string =>
  /~~|<[a-z]|[*_]/i.test(text)
    ? text
        .replace(struck, ' ')
        .replace(
          stressed,
          (_all, _b, bold?: string, _s?: string, slanted?: string, _t?: string, tagged?: string) =>
            [bold, slanted, tagged].find((words) => words !== undefined)!,
        )
        .replace(/\s+/g, ' ')
        .trim() || text
    : text;
