// Letters of another script that look like Latin ones, where only those can be meant: in keys, formulae and ids.
import { once } from '../once.js';
import { lookAlikesTable } from '../tables/compiled/journal/look-alikes.js';

const latin = once(() => new Map(lookAlikesTable().map((row) => [row.letter, row.looks_like])));
const otherScript = /[\u0370-\u04ff]/;

/**
 * A text with Latin letters for those that look like them; undefined where it has none of them, or others besides.
 * @example inLatin('\u0421uCO3') // 'CuCO3'
 */
export function inLatin(text: string): string | undefined {
  if (!otherScript.test(text)) return undefined;
  const plain = [...text].map((letter) => latin().get(letter) ?? letter).join('');
  return otherScript.test(plain) ? undefined : plain;
}

/** Why it is read so. */
export const whyLatin = 'a letter of another script stands for the Latin one that it looks like';
