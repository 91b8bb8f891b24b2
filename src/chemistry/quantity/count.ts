// How many, as people say it: `half a`, `1 1/2`, `a couple of`, `a few`, `2 or 3`. A count in words has two ends.
import { once } from '../../once.js';
import { numberWordsTable } from '../../tables/compiled/chemistry/quantity/number-words.js';
import { exact, type Decimal } from '../exact.js';

/** A number that was said rather than read off: its usual value, and between which it may lie. */
export interface Count {
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  /** Characters of the text that it takes, the space behind it included. */
  readonly length: number;
}

const signs: Readonly<Record<string, readonly [number, number]>> = {
  '¼': [1, 4],
  '½': [1, 2],
  '¾': [3, 4],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '⅛': [1, 8],
};

/** What the words for a number come to, by each of them. */
const byWords = once(
  () =>
    new Map(
      numberWordsTable().flatMap(({ words, low, usual, high }) =>
        words.map((one) => [one, { low: exact(low), usual: exact(usual), high: exact(high) }] as const),
      ),
    ),
);

/** One of the words for a number, the longest first, as a pattern; what ends in an apostrophe or a hyphen is open. */
export const numberWordPattern = once((): string => {
  const words = [...byWords().keys()].sort((a, b) => b.length - a.length);
  return words.map((one) => one.replace(/ /g, String.raw`\s+`)).join('|');
});

const countInWords = once(() => new RegExp(`^(${numberWordPattern()})(?:\\s+|(?<=['-]))`, 'i'));

const certain = (value: Decimal, length: number): Count => ({ low: value, usual: value, high: value, length });

/** `1 1/2 `, `1/2 `, `1½ `, `½` before a word. */
function fraction(text: string): Count | undefined {
  const mixed = /^(?:(\d{1,3})\s+)?(\d{1,3})\s?[/⁄]\s?(\d{1,3})\s*(?=[A-Za-zµμ%°])/.exec(text);
  if (mixed) {
    const [all, whole = '0', above, below] = mixed as unknown as [string, string | undefined, string, string];
    if (Number(below) === 0) return undefined;
    return certain(exact(whole).plus(exact(above).div(below)), all.length);
  }
  const signed = /^(\d{1,3})?\s?([¼½¾⅓⅔⅛])\s*/.exec(text);
  if (!signed) return undefined;
  const [above, below] = signs[signed[2]!]!;
  return certain(exact(signed[1] ?? 0).plus(exact(above).div(below)), signed[0].length);
}

/**
 * A count in fractions or words at the beginning of a text; undefined where it begins with neither.
 * @example saidCount('half a cup')?.usual.toNumber() // 0.5
 */
export function saidCount(text: string): Count | undefined {
  const told = fraction(text);
  if (told) return told;
  // No word begins with a digit, and most quantities do.
  if (/^\d/.test(text)) return undefined;
  const [found, words = ''] = countInWords().exec(text.replaceAll('’', "'")) ?? [];
  const count = byWords().get(words.toLowerCase().replace(/\s+/g, ' '));
  return found === undefined || !count ? undefined : { ...count, length: found.length };
}

/** Words that say a number is not exact, before it or behind it. */
export const roughlyBefore =
  /^(?:[~≈]\s*|(?:ca|c|approx)\b\.?\s*|(?:about|approximately|around|roughly|circa|some|maybe|perhaps|nearly|almost)\s+)/i;
export const roughlyBehind = /\s*(?:\bor so|\bor thereabouts|-?ish|\broughly|\bapprox\.?|\babout|\bgive or take)$/i;
