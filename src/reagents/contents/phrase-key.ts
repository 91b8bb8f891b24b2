// A name in words as a key: spelling, hyphens, apostrophes and plurals make no difference.
import { memoise } from '../../memoise.js';

const spellings: readonly (readonly [RegExp, string])[] = [
  [/sulph/g, 'sulf'],
  [/\baluminum\b/g, 'aluminium'],
  [/\bmold/g, 'mould'],
  [/\bgray\b/g, 'grey'],
  [/\bcolor/g, 'colour'],
  [/\bfiber/g, 'fibre'],
  [/\bcesium\b/g, 'caesium'],
  [/ized\b/g, 'ised'],
  [/izer\b/g, 'iser'],
  [/izing\b/g, 'ising'],
];

/** `pads` → `pad`; `glass`, `gas` and `bus` stay. */
const singular = (word: string): string =>
  word.length > 3 && /[^su]s$/.test(word) && !/(?:[aio]s|ies)$/.test(word) ? word.slice(0, -1) : word;

/**
 * Words of a phrase are looked up as names, as words of state and as words of other languages.
 * @example phraseKey("Jeweller's-pickles") === phraseKey('jewellers pickle') // true
 */
export const phraseKey: (text: string) => string = memoise((text) => text, keyOf, 20_000);

function keyOf(text: string): string {
  let plain = text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/['’‘`´]/g, '')
    .replace(/[-–—_]/g, ' ');
  for (const [pattern, spelling] of spellings) plain = plain.replace(pattern, spelling);
  return plain
    .split(/\s+/)
    .filter((word) => word !== '')
    .map(singular)
    .join(' ');
}
