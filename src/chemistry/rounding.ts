// How a number is shown: rounded to its uncertainty, never further than it is known.
import { UncertaintyDecimal, type Decimal } from './exact.js';
import { expandedSize, type UncertainDecimal } from './uncertainty.js';
import { lastFor } from '../once.js';

/** A value and its expanded uncertainty as they are printed. */
export interface RoundedValue {
  readonly value: string;
  readonly uncertainty?: string;
}

/**
 * Rounds an uncertainty to two digits where it begins with 1 or 2, otherwise to one (or to `figures`), and the value to
 * the same place.
 * Without uncertainty: six significant digits, as many as are there.
 * Source: GUM (JCGM 100:2008) 7.2.6, at most two significant digits of an uncertainty.
 * @example roundToUncertainty(exact('4.42861'), exact('0.0113')) // { value: '4.429', uncertainty: '0.011' }
 */
export function roundToUncertainty(value: Decimal, uncertainty: Decimal | number, figures?: 1 | 2): RoundedValue {
  const shown = shownUncertainty(uncertainty, figures);
  if (!shown) return { value: toDigits(value, 6) };
  return { value: toPlace(value, shown.place), uncertainty: inFull(shown) };
}

/** A value as `roundToUncertainty` prints it, alone. */
export function roundedValue(value: Decimal, uncertainty: Decimal | number): string {
  const shown = shownUncertainty(uncertainty);
  return shown ? toPlace(value, shown.place) : toDigits(value, 6);
}

/**
 * A positive number to so many significant digits, as many as are there, without an exponent.
 * @example toSignificantDigits(0.01204, 3) // '0.012'
 */
export function toSignificantDigits(value: number, digits: number): string {
  if (!Number.isFinite(value)) return String(value);
  return withoutZeros(inFull(rounded(written(value), digits)));
}

/**
 * A value as machines are told it: to twelve significant digits, as many as are there.
 * @example forMachines(exact('0.50')) // '0.5'
 */
export const forMachines = (value: Decimal): string => toDigits(value, 12);

/** A value to so many significant digits, at most fourteen, as many as are there. */
function toDigits(value: Decimal, digits: number): string {
  if (!value.isFinite()) return String(value);
  return signed(value, withoutZeros(inFull(rounded(written(value), digits))));
}

const signed = ({ s, d: words }: Decimal, size: string): string => (s < 0 && words[0] !== 0 ? `-${size}` : size);

/** The digits of a number, and the power of ten of the first: `{ digits: '123', power: -2 }` is 0.0123. */
interface Written {
  readonly digits: string;
  readonly power: number;
}

/** A decimal is held in words of seven digits, the first of at least one: fifteen digits and more are at hand. */
const wordsAtHand = 3;
const digitsOfWord = 7;
/** One less, since the next is asked which way to round. Whole numbers of so many are exact as ordinary numbers. */
const mostDigits = 14;

/** The first digits of the size of a value; one value is asked for several times in a row. */
const written = lastFor((value: Decimal | number): Written => {
  if (typeof value !== 'number') return { digits: digitsOfWords(value.d), power: value.e };
  const text = value.toExponential();
  const end = text.indexOf('e');
  return { digits: `${text.charAt(0)}${text.slice(2, end)}`, power: Number(text.slice(end + 1)) };
});

function digitsOfWords(words: readonly number[]): string {
  let text = String(words[0]);
  for (let at = 1; at < words.length && at < wordsAtHand; at += 1)
    text += String(words[at]).padStart(digitsOfWord, '0');
  return text;
}

/** A number of a few digits: `{ digits: '12', place: -3 }` is 0.012. */
interface FewDigits {
  readonly digits: string;
  /** Place value (power of ten) of the last digit. */
  readonly place: number;
}

/** A number as it is written in decimals, rounded half up to so many digits, at most fourteen; one more by a carry. */
function rounded({ digits, power }: Written, most: number): FewDigits {
  if (digits.length <= most) return { digits, place: power - digits.length + 1 };
  const first = digits.slice(0, most);
  const isUp = digits.charAt(most) >= '5';
  return { digits: isUp ? String(Number(first) + 1) : first, place: power - most + 1 };
}

/** The same number with zeros down to a place. */
const downTo = ({ digits, place }: FewDigits, last: number): FewDigits =>
  place > last ? { digits: `${digits}${'0'.repeat(place - last)}`, place: last } : { digits, place };

function inFull({ digits, place }: FewDigits): string {
  if (place >= 0) return `${digits}${'0'.repeat(place)}`;
  const all = digits.length > -place ? digits : digits.padStart(1 - place, '0');
  return `${all.slice(0, place)}.${all.slice(place)}`;
}

const withoutZeros = (text: string): string =>
  text.endsWith('0') && text.includes('.') ? text.replace(/\.?0+$/, '') : text;

/** So many digits of an uncertainty, zeros among them. */
function firstDigits(uncertainty: Decimal | number, count: number): FewDigits {
  const { digits, place } = rounded(written(uncertainty), count);
  return digits.length > count
    ? { digits: digits.slice(0, count), place: place + 1 }
    : downTo({ digits, place }, place + digits.length - count);
}

/** An uncertainty with the digits that are shown of it; undefined where there is none. */
function shownUncertainty(uncertainty: Decimal | number, figures?: 1 | 2): FewDigits | undefined {
  const size = Number(uncertainty);
  if (size === 0 || !Number.isFinite(size)) return undefined;
  if (figures) return firstDigits(uncertainty, figures);
  const two = firstDigits(uncertainty, 2);
  if (two.digits < '30') return two;
  const shown = firstDigits(uncertainty, 1);
  // Rounded up to 1, it has two digits again.
  return shown.digits === '1' ? { digits: '10', place: shown.place - 1 } : shown;
}

function toPlace(value: Decimal, place: number): string {
  const count = value.isFinite() ? value.e - place + 1 : 0;
  if (count < 1 || count > mostDigits) return farToPlace(value, place);
  return signed(value, inFull(downTo(rounded(written(value), count), place)));
}

/** A value to so many decimal places, one or more, zeros among them. @example inPlaces(exact('2.5'), 2) // '2.50' */
export const inPlaces = (value: Decimal, places: number): string => toPlace(value, -places);

/** The same where it has no digit so high, or more digits than are at hand. */
function farToPlace(value: Decimal, place: number): string {
  if (place < 0) return value.toFixed(-place);
  if (place === 0) return plainly(value.toDecimalPlaces(0));
  // Tens or hundreds are uncertain: zeros stand in for what is not known.
  const step = new UncertaintyDecimal(10).pow(place);
  return plainly(value.div(step).toDecimalPlaces(0).times(step));
}

const plainly = (value: Decimal): string => value.toFixed();

/** A measured value for readers: `4.429 ± 0.011 g` (k = 2). @param expanded its expanded uncertainty, where known */
export function showWithUnit(
  measured: UncertainDecimal,
  unit: string,
  expanded: Decimal | number = expandedSize(measured),
): string {
  const { value, uncertainty } = roundToUncertainty(measured.value, expanded);
  const space = unit === '' ? '' : ' ';
  return `${withMinus(value)}${uncertainty === undefined ? '' : ` ± ${uncertainty}`}${space}${unit}`;
}

/** A number as readers see it, with a minus instead of a hyphen. @example withMinus('-2.5') // '−2.5' */
export const withMinus = (number: string): string => (number.startsWith('-') ? `−${number.slice(1)}` : number);
