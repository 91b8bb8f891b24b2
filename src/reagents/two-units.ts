// An amount that is told twice, in two units: `0.5 oz (14.2 g)`, `1 cup / 237 mL`, `1 EL (ca. 12 g)`. Where both say
// the same, the one that was read off a scale stands for both; where they do not, nobody knows which it was.
import { exact, type Decimal } from '../chemistry/index.js';
import { commasRead } from '../chemistry/quantity/index.js';
import type { AmountWritten } from './contracts.js';
import { readAmountWords } from './rough.js';

/** Two amounts of one thing in a text. */
export interface ToldTwice {
  readonly first: string;
  readonly second: string;
  /** The text with the one that is kept in the place of both. */
  readonly line: string;
  /** The same without the text around. */
  readonly kept: string;
  /** That they are not the same, as a clause: `5 oz is about 142 g`. */
  readonly differs?: string;
}

interface Size {
  readonly written: string;
  /** The same with full stops for commas. */
  readonly words: string;
  readonly unit: 'g' | 'mL';
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  readonly isMeasured: boolean;
}

/** So far apart two readings of one amount may be, as a share: people round. Common practice, no source. */
const apart = exact('0.05');
/** What a millilitre of a liquid or a powder may weigh, in g: between fluffy silica and red lead. Common practice. */
const [lightest, heaviest] = [exact('0.1'), exact(6)];

const units: Readonly<Record<string, 'g' | 'mL'>> = { mass: 'g', volume: 'mL' };

function sizeOf(written: string): Size | undefined {
  const words = commasRead(written) ?? written;
  const amount: AmountWritten = readAmountWords(words);
  if (amount.kind === 'rough') {
    const { unit, low, usual, high } = amount;
    return { written, words, unit, low, usual, high, isMeasured: false };
  }
  if (amount.kind !== 'measured') return undefined;
  const { dimension, base, low, high } = amount.quantity;
  const unit = units[dimension];
  if (unit === undefined) return undefined;
  const width = base.times(apart);
  return {
    written,
    words,
    unit,
    low: low ?? base.minus(width),
    usual: base,
    high: high ?? base.plus(width),
    isMeasured: true,
  };
}

const wordsAtMost = 5;

/** The longest of the last words that is an amount. */
function sizeAtEnd(text: string): Size | undefined {
  const words = text.split(' ');
  for (let many = Math.min(wordsAtMost, words.length); many > 0; many -= 1) {
    const read = sizeOf(words.slice(-many).join(' '));
    if (read) return read;
  }
  return undefined;
}

/** The longest of the first words that is an amount, and what stands behind it. */
function sizeAtStart(text: string): { readonly size: Size; readonly rest: string } | undefined {
  const words = text.split(' ');
  for (let many = Math.min(wordsAtMost, words.length); many > 0; many -= 1) {
    const written = words.slice(0, many).join(' ').replace(/,$/, '');
    const size = sizeOf(written);
    if (size) return { size, rest: text.slice(written.length) };
  }
  return undefined;
}

/** Whether both can be the same amount. */
function canBeOne(one: Size, other: Size): boolean {
  if (one.unit === other.unit)
    return one.low.times(exact(1).minus(apart)).lte(other.high) && other.low.times(exact(1).minus(apart)).lte(one.high);
  const [mass, volume] = one.unit === 'g' ? [one, other] : [other, one];
  return mass.high.gte(volume.low.times(lightest)) && mass.low.lte(volume.high.times(heaviest));
}

/** What the one comes to that was not read off in g or mL. */
function differently(first: Size, second: Size): string {
  const told = first.isMeasured && !second.isMeasured ? second : first;
  return `${told.written} is about ${Number(told.usual.toNumber().toPrecision(3))} ${told.unit}`;
}

const opening = /^(?:=|≈|i\.\s?e\.|d\.\s?h\.|so|or)\s*/i;

/** What stands on both sides of a sign between them; a bracket has an end. */
function sidesAt(text: string, at: number): readonly [before: string, second: Size, rest: string] | undefined {
  const before = text.slice(0, at).trimEnd();
  if (text[at] === '(') {
    const end = text.indexOf(')', at);
    const second =
      end < 0
        ? undefined
        : sizeOf(
            text
              .slice(at + 1, end)
              .trim()
              .replace(opening, ''),
          );
    return second && [before, second, text.slice(end + 1)];
  }
  const second = sizeAtStart(text.slice(at + 1).trimStart());
  return second && [before, second.size, second.rest];
}

/** A sign between two amounts, with what may stand between it and the figure of the second. */
const between = /[(=≈/](?=[^\d(=≈/½¼¾]{0,8}[\d½¼¾])/g;
const longest = 200;
/** So many signs are tried, since each costs time; nobody writes as many. */
const signsAtMost = 4;

/**
 * An amount that a text tells in two units; undefined where it does not.
 * @example toldTwice('alum 0.5 oz (14.2 g)')?.line // 'alum 14.2 g'
 */
export function toldTwice(text: string): ToldTwice | undefined {
  if (!/[(=≈/]/.test(text) || text.length > longest) return undefined;
  for (const { index } of [...text.matchAll(between)].slice(0, signsAtMost)) {
    const [before, second, rest] = sidesAt(text, index) ?? [];
    const first = before === undefined ? undefined : sizeAtEnd(before);
    if (!first || !second) continue;
    // `5 g / 100 mL` is a strength, and `5 g (20 mL)` a bulk.
    if (first.isMeasured && second.isMeasured && first.unit !== second.unit) continue;
    const kept = !first.isMeasured && second.isMeasured ? second : first;
    return {
      first: first.written,
      second: second.written,
      line: `${before!.slice(0, before!.length - first.written.length)}${kept.words}${rest}`,
      kept: kept.words,
      ...(!canBeOne(first, second) && { differs: differently(first, second) }),
    };
  }
  return undefined;
}
