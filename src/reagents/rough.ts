// Amounts as they are said at a kitchen table: `2 tsp`, `half a cup`, `a pinch`, `some`, `to pH 8`, `1 part`. One
// reader for entries and commands: what has a published size gets its ends, all else is an unknown amount and no fault.
import { exact, numberWordPattern, parseQuantity, plainSigns, saidCount, type Decimal } from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import { once } from '../once.js';
import { kitchenMeasuresTable } from '../tables/compiled/reagents/kitchen-measures.js';
import { unmeasuredWordsTable } from '../tables/compiled/reagents/unmeasured-words.js';
import type { AmountWritten } from './contracts.js';

interface Measure {
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  readonly unit: 'g' | 'mL';
  readonly source: string;
}

let measures: ReadonlyMap<string, Measure> | undefined;
/** Every spelling with its row. */
function knownMeasures(): ReadonlyMap<string, Measure> {
  measures ??= new Map(
    kitchenMeasuresTable().flatMap(({ name, also, low, usual, high, unit, source_title, basis }) => {
      const source = basis === 'memory' ? `from memory: ${source_title}` : source_title;
      const measure: Measure = { low: exact(low), usual: exact(usual), high: exact(high), unit, source };
      return [name, ...also].map((spelling): [string, Measure] => [spelling, measure]);
    }),
  );
  return measures;
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** One of these, the longest first, as a pattern. */
const oneOf = (spellings: Iterable<string>): string =>
  [...spellings]
    .sort((a, b) => b.length - a.length)
    .map((spelling) => escaped(spelling).replace(/ /g, String.raw`\s+`))
    .join('|');

const decimal = String.raw`\d+(?:\.\d+)?`;
const until = '(?:-|–|to|or|bis|oder|à)';
const number = String.raw`(?:\d+\s+\d+/\d+|\d+/\d+|\d*[¼½¾⅓⅔⅛]|${decimal}(?:\s*${until}\s*${decimal})?)`;
const nearly = String.raw`(?:[~≈]|(?:ca|c|approx)\.?\s|(?:about|roughly|around|nearly|almost|maybe|over|under|just)\s)`;
const howMany = once(() => String.raw`(?:${nearly}\s*)*(?:${number}\s*|(?:${numberWordPattern()})(?:\s+|(?<=['-])))`);
/** Words before a measure that do not change it by more than it is uncertain. */
const manner = String.raw`(?:(?:level|good|full|big|small|generous|scant|large|little|large-ish|small-ish)\s+)*`;

/** `cuillère à soupe rase`: behind a measure, in other languages. */
const levelBehind = '(?:rases?|ras[ao]s?|rasi|pleines?|bien pleines?|gestrichen)';

/** What finds measures by some of their spellings. */
interface MeasurePatterns {
  readonly whole: RegExp;
  readonly before: RegExp;
  readonly behind: RegExp;
}

const patternsOf = memoise(
  (spellings: readonly string[]) => spellings.join('|'),
  (spellings): MeasurePatterns => {
    const measure = `(${oneOf(spellings)})`;
    const full = String.raw`(?:[\s-]*full)?(?:\s+${levelBehind})?`;
    return {
      whole: new RegExp(String.raw`^(${howMany()})?${manner}${measure}${full}(?:\s+or so)?(?=$|[\s,(])(.*)$`, 'i'),
      before: new RegExp(
        String.raw`^(?:(${howMany()})${manner}${measure}${full}(?:\s+of)?|${measure}\s+of)\s+(\S.*)$`,
        'i',
      ),
      behind: new RegExp(String.raw`^(.*?\S)[\s,]\s*(${howMany()})${manner}${measure}${full}$`, 'i'),
    };
  },
  200,
);

interface Patterns {
  readonly unmeasuredBefore: RegExp;
  readonly unmeasuredBehind: RegExp;
  readonly unmeasured: RegExp;
  /** It was added until there was enough of it. */
  readonly ample: RegExp;
}

let compiled: Patterns | undefined;
function patterns(): Patterns {
  if (compiled) return compiled;
  const words = unmeasuredWordsTable();
  const placed = (place: string): string => oneOf(words.filter((row) => row.place === place).map((row) => row.words));
  const parts = String.raw`(?:${howMany()}parts?|\d+(?:\s*:\s*\d+)+)(?:\s+by\s+(?:weight|volume|mass|eye))?`;
  compiled = {
    unmeasuredBefore: new RegExp(String.raw`^(${placed('before')}|${parts})(?:\s+of)?\s+(\S.*)$`, 'i'),
    unmeasuredBehind: new RegExp(
      String.raw`^(.*?\S)[\s,]+((?:${placed('behind')}|${placed('before')})(?:\b.*)?|${parts})$`,
      'i',
    ),
    ample: new RegExp(
      String.raw`^(?:${oneOf(words.filter(({ ample }) => ample).map((row) => row.words))})(?:$|\b)`,
      'i',
    ),
    unmeasured: new RegExp(
      String.raw`^(?:(?:${placed('before')}|${placed('behind')})(?:$|\b.*)|${parts}(?:[\s,(].*)?)$`,
      'i',
    ),
  };
  return compiled;
}

const plainly = (line: string): string => line.toLowerCase().replace(/\s+/g, ' ');

const unmeasuredSpellings = once(() => unmeasuredWordsTable().map(({ words }) => words.toLowerCase()));
const measureSpellings = once(() =>
  Array.from(knownMeasures().keys(), (spelling) => ({ spelling, plain: spelling.toLowerCase() })),
);

/** Whether a measure stands in words, and not within one of them; `2tsp`, `cupfull` and `hand-full` are two of them. */
function standsIn(words: string, measure: string): boolean {
  for (let at = words.indexOf(measure); at >= 0; at = words.indexOf(measure, at + 1))
    if (!/[a-z]/.test(words.charAt(at - 1)) && !/[a-eg-z]/.test(words.charAt(at + measure.length))) return true;
  return false;
}

/**
 * Patterns of the measures that may stand in a line; undefined where none does. With all spellings in it each pattern
 * takes 20 ms to compile, and few of them ever stand in a line.
 */
function measuresIn(line: string): MeasurePatterns | undefined {
  const words = plainly(line);
  const held = measureSpellings().filter(({ plain }) => standsIn(words, plain));
  return held.length === 0 ? undefined : patternsOf(held.map(({ spelling }) => spelling));
}

/** Whether words for an amount that nobody measured, or parts, may stand in a line. */
function mayHoldUnmeasured(line: string): boolean {
  const plain = plainly(line);
  return /part|\d\s*:/.test(plain) || unmeasuredSpellings().some((words) => plain.includes(words));
}

/** `2-3`, `half a`, `about 2`: between which numbers it lies. */
function countOf(text: string): { readonly low: Decimal; readonly usual: Decimal; readonly high: Decimal } {
  const plain = text.replace(new RegExp(String.raw`^(?:${nearly}\s*)+`, 'i'), '').trim();
  const one = exact(1);
  if (plain === '') return { low: one, usual: one, high: one };
  const range = new RegExp(String.raw`^(${decimal})\s*${until}\s*(${decimal})$`, 'i').exec(plain);
  if (range) {
    const [low, high] = [exact(range[1]!), exact(range[2]!)];
    return { low, usual: low.plus(high).div(2), high };
  }
  if (/^\d+(?:\.\d+)?$/.test(plain)) return { low: exact(plain), usual: exact(plain), high: exact(plain) };
  return saidCount(`${plain} x`) ?? { low: one, usual: one, high: one };
}

/** How far off a count of measures of exactly known size may be, as a share: `8 oz`. Common practice, no source. */
const tenth = exact('0.1');

/** `3.52 oz` was read off something: it is as good as its digits. */
function ofDigits(words: string, value: Decimal, size: Decimal): Decimal {
  const decimals = /\d\.(\d+)/.exec(words)?.[1];
  return decimals === undefined ? value.times(tenth) : size.times(exact(10).pow(-decimals.length)).div(2);
}

function rough(words: string, count: string | undefined, spelling: string): AmountWritten {
  const { low, usual, high, unit, source } = knownMeasures().get(spelling.toLowerCase().replace(/\s+/g, ' '))!;
  const many = countOf(count ?? '');
  const value = usual.times(many.usual);
  const width = low.eq(high) ? ofDigits(words, value, usual) : exact(0);
  return {
    kind: 'rough',
    words,
    unit,
    low: low.times(many.low).minus(width),
    usual: value,
    high: high.times(many.high).plus(width),
    source,
  };
}

/** Words behind a measure that may stand there: `2 tsp, level`, `1 cup of it`. */
const mayFollow = /^\s*(?:$|[,(]|(?:of|or|and|in|from|each|more|at|per)\b)/i;

const unknown = (words: string): AmountWritten => ({
  kind: 'unknown',
  words,
  understood: true,
  ample: patterns().ample.test(words),
});

const longest = 200;

/** `2 lb 4 oz`: pounds and ounces of one weighing. */
const poundsAndOunces = /^(.*?\d.*?\s*(?:lbs?\.?|pounds?))[\s,]+(?:and\s+)?(\d.*?\s*(?:oz\.?|ounces?))$/i;

function together(words: string, [first, second]: readonly (AmountWritten | undefined)[]): AmountWritten | undefined {
  if (first?.kind !== 'rough' || second?.kind !== 'rough' || first.unit !== second.unit) return undefined;
  const { low, usual, high } = second;
  return { ...first, words, low: first.low.plus(low), usual: first.usual.plus(usual), high: first.high.plus(high) };
}

/** An amount in words that are known here; undefined where they are not. */
function knownWords(written: string): AmountWritten | undefined {
  const parts = poundsAndOunces.exec(written.trim().slice(0, longest));
  return (parts && together(written.trim(), [knownPart(parts[1]!), knownPart(parts[2]!)])) ?? knownPart(written);
}

function knownPart(written: string): AmountWritten | undefined {
  const words = written.trim();
  if (words === '' || words.length > longest) return undefined;
  const measured = measuresIn(words)?.whole.exec(words);
  if (measured && mayFollow.test(measured[3] ?? '')) return rough(words, measured[1], measured[2]!);
  return mayHoldUnmeasured(words) && patterns().unmeasured.test(words) ? unknown(words) : undefined;
}

/**
 * An amount as it stands behind a key, whatever it says: a quantity, a kitchen measure with its ends, or words of which
 * no amount is known. A text in figures that is no quantity is unknown, and not understood.
 * @example readAmountWords('2 tsp') // rough, 5 to 14.6 mL, usually 10 mL
 */
export const readAmountWords: (written: string) => AmountWritten = memoise((written) => written, readAnew, 4000);

function readAnew(asWritten: string): AmountWritten {
  const written = plainSigns(asWritten);
  const quantity = parseQuantity(written);
  if (quantity.ok)
    return quantity.value.dimension === 'excess'
      ? { kind: 'excess', quantity: quantity.value }
      : { kind: 'measured', quantity: quantity.value };
  return knownWords(written) ?? { kind: 'unknown', words: written.trim(), understood: false, ample: false };
}

/** Whether an amount says something known here, if only that nobody measured it. */
export const isAmount = (written: string): boolean => {
  const read = readAmountWords(written);
  return read.kind !== 'unknown' || read.understood;
};

/** A line without the words of its amount. */
export interface WithoutAmount {
  readonly line: string;
  readonly amount?: AmountWritten;
}

/** `water half a litre`, `a few drops of ammonia`: a count in words and a unit, behind the name or before it. */
const countedQuantity = once(() => {
  const counted = String.raw`((?:${nearly}\s*)*(?:${numberWordPattern()})\s+\S+)`;
  return {
    behind: new RegExp(String.raw`^(.*?\S)[\s,]\s*${counted}$`, 'i'),
    before: new RegExp(String.raw`^${counted}\s+(?:of\s+)?(\S.*)$`, 'i'),
  };
});

const countInWords =
  /\b(?:half|quarters?|couple|few|several|another|an?|one|two|three|four|five|six|seven|eight|nine|ten|dozen)\b/i;

/** `litre of water`: one of them. */
const unitOf =
  /^(litre|liter|gallon|pint|quart|kilo|kilogram|gram|cup|mug|glass|bucket|jar|teaspoon|tablespoon) of (\S.*)$/i;

/** What is counted in words and has a unit. */
function takeCounted(line: string): WithoutAmount | undefined {
  const [, unit, of] = unitOf.exec(line) ?? [];
  const one = unit === undefined ? undefined : readAmountWords(`1 ${unit}`);
  if (of !== undefined && one !== undefined && one.kind !== 'unknown') return { line: of, amount: one };
  if (!countInWords.test(line)) return undefined;
  const { behind, before: ahead } = countedQuantity();
  const before = ahead.exec(line);
  const isBefore = before !== null && parseQuantity(before[1]!).ok;
  const [, rest, words] = isBefore ? ['', before[2], before[1]] : (behind.exec(line) ?? []);
  if (words === undefined || rest === undefined || !parseQuantity(words).ok) return undefined;
  return { line: rest.replace(/,$/, ''), amount: readAmountWords(words) };
}

/** Measures that need no number and no article beside them: `handful`; a `jar` alone is only where it stands. */
const measureAlone = /^[a-z][a-z ]*(?:ful|fuls|pinch|pinches|dash|spoon|spoons)$/i;

/** `sea salt, a handful, thrown in`, `water 1 tsp, in a cap`: a measure between commas, behind the name or after it. */
function takeBetweenCommas(line: string, { behind }: MeasurePatterns): WithoutAmount | undefined {
  const [name = '', ...pieces] = line.split(',');
  const first = pieces.length > 0 ? behind.exec(name.trim()) : null;
  if (first) {
    const [, bare = '', count, spelling = ''] = first;
    const words = name.trim().slice(bare.length).trim();
    return { line: [bare.replace(/,$/, ''), ...pieces].join(','), amount: rough(words, count, spelling) };
  }
  for (const [at, piece] of pieces.entries()) {
    const words = piece.trim();
    const amount = knownPart(measureAlone.test(words) ? `a ${words}` : words);
    if (amount?.kind !== 'rough') continue;
    const others = pieces.filter((_, place) => place !== at);
    return { line: [name, ...others].join(','), amount: { ...amount, words } };
  }
  return undefined;
}

/** `enough ammonia to reach pH 9`: the name stands within the words. */
const around = /^(?:just\s+)?enough\s+(?:of\s+)?(.+?)\s+((?:to|for)\s+.+)$/i;

/**
 * Takes an amount in kitchen words off a line at the bench, before its name or behind it; a line that has none stays
 * as it is.
 * @example takeAmountWords('a pinch of alum').line // 'alum'
 */
export function takeAmountWords(written: string): WithoutAmount {
  const line = written.trim();
  if (line.length > longest) return { line: written };
  const enough = around.exec(line);
  if (enough) return { line: enough[1]!, amount: unknown(`enough ${enough[2]!}`) };
  const measures = measuresIn(line);
  const ahead = measures?.before.exec(line);
  if (ahead) {
    const words = line
      .slice(0, line.length - ahead[4]!.length)
      .trim()
      .replace(/\s+of$/i, '');
    return { line: ahead[4]!, amount: rough(words, ahead[1], (ahead[2] ?? ahead[3])!) };
  }
  const after = measures?.behind.exec(line);
  if (after)
    return {
      line: after[1]!.replace(/,$/, ''),
      amount: rough(line.slice(after[1]!.length).replace(/^[\s,;:]+/, ''), after[2], after[3]!),
    };
  const between = measures && takeBetweenCommas(line, measures);
  if (between) return between;
  const counted = takeCounted(line);
  if (counted) return counted;
  if (!mayHoldUnmeasured(line)) return { line: written };
  const { unmeasuredBefore, unmeasuredBehind } = patterns();
  const unsaid = unmeasuredBefore.exec(line);
  if (unsaid) return { line: unsaid[2]!, amount: unknown(unsaid[1]!) };
  const ends = unmeasuredBehind.exec(line);
  return ends ? { line: ends[1]!.replace(/,$/, ''), amount: unknown(ends[2]!) } : { line: written };
}
