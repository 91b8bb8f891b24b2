// How many, as people say it: `half a`, `1 1/2`, `a couple of`, `a few`, `2 or 3`. A count in words has two ends.
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

/** Words for a number in four languages; the longer first. Few and several: common practice, no source. */
const numberWords: readonly (readonly [RegExp, number, number, number])[] = [
  [/^(?:a |one )?half(?: (?:a|an|of an?|of a))?\s/i, 0.5, 0.5, 0.5],
  [/^(?:a |one )?quarter(?:(?: of)? an?)?\s/i, 0.25, 0.25, 0.25],
  [/^three[- ]quarters(?: of)?(?: an?)?\s/i, 0.75, 0.75, 0.75],
  [/^a couple(?: of)?\s/i, 2, 2, 3],
  [/^(?:a )?few\s/i, 2, 3, 5],
  [/^several\s/i, 3, 5, 8],
  [/^(?:a )?dozen\s/i, 12, 12, 12],
  [/^(?:ein(?:en?|em|er)? halb(?:en?|er|es)?|halb(?:en?|er|es)?|(?:un[ea]? )?demi-?e?|medi[oa])\s/i, 0.5, 0.5, 0.5],
  [/^(?:ein paar|quelques|unos|unas)\s/i, 2, 3, 5],
  [/^(?:a|an|one|another|ein(?:en?|em|er)?|un[ae]?)\s/i, 1, 1, 1],
  [/^(?:two|zwei|deux|dos)\s/i, 2, 2, 2],
  [/^(?:three|drei|trois|tres)\s/i, 3, 3, 3],
  [/^(?:four|vier|quatre|cuatro)\s/i, 4, 4, 4],
  [/^(?:five|fünf|cinq|cinco)\s/i, 5, 5, 5],
  [/^(?:six|sechs|seis)\s/i, 6, 6, 6],
  [/^seven\s/i, 7, 7, 7],
  [/^eight\s/i, 8, 8, 8],
  [/^nine\s/i, 9, 9, 9],
  [/^(?:ten|zehn|dix|diez)\s/i, 10, 10, 10],
];

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
  for (const [shape, low, usual, high] of numberWords) {
    const found = shape.exec(text);
    if (found) return { low: exact(low), usual: exact(usual), high: exact(high), length: found[0].length };
  }
  return undefined;
}

/** Words that say a number is not exact, before it or behind it. */
export const roughlyBefore =
  /^(?:[~≈]\s*|(?:ca|c|approx)\b\.?\s*|(?:about|approximately|around|roughly|circa|some|maybe|perhaps|nearly|almost)\s+)/i;
export const roughlyBehind = /\s*(?:\bor so|\bor thereabouts|-?ish|\broughly|\bapprox\.?|\babout|\bgive or take)$/i;
