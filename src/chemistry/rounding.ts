// How a number is shown: rounded to its uncertainty, never further than it is known.
import { UncertaintyDecimal, wholeDigits, type Decimal } from './exact.js';
import { expandedSize, type UncertainDecimal } from './uncertainty.js';

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
  return inFull(withoutZeros(value === 0 ? nought : firstOfNumber(value, digits)));
}

/**
 * A value as machines are told it: to twelve significant digits, as many as are there.
 * @example forMachines(exact('0.50')) // '0.5'
 */
export const forMachines = (value: Decimal): string => toDigits(value, 12);

/** A value to so many significant digits, at most fourteen, as many as are there. */
function toDigits(value: Decimal, digits: number): string {
  if (!value.isFinite()) return String(value);
  return signed(value, inFull(withoutZeros(firstOfDecimal(value, digits))));
}

const signed = ({ s, d: words }: Decimal, size: string): string => (s < 0 && words[0] !== 0 ? `-${size}` : size);

/** A positive number of a few digits: `{ whole: 12, place: -3 }` is 0.012. */
interface FewDigits {
  /** Of at most fifteen digits, so that it is exact. */
  readonly whole: number;
  /** Place value (power of ten) of the last digit. */
  readonly place: number;
}
const nought: FewDigits = { whole: 0, place: 0 };

/** Powers of ten that an ordinary number holds exactly. */
const tens = Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
const ten = (power: number): number => tens[power] ?? 10 ** power;

/** A decimal is held in words of so many digits, but for the first, which has no zeros before it. */
const digitsOfWord = 7;
/** Digits of a decimal that can be asked for: with one more by a carry they are exact as an ordinary number. */
const mostDigits = 14;

/** The size of a decimal, rounded half up to so many digits; fewer where there are no more. */
function firstOfDecimal({ d: words, e }: Decimal, count: number): FewDigits {
  let whole = 0;
  let have = 0;
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at]!;
    const digits = at === 0 ? wholeDigits(word) : digitsOfWord;
    const taken = Math.min(digits, count - have);
    const unit = tens[digits - taken]!;
    const first = Math.floor(word / unit);
    whole = whole * tens[taken]! + first;
    have += taken;
    if (taken < digits) return { whole: whole + Number((word - first * unit) * 2 >= unit), place: e - count + 1 };
  }
  return { whole, place: e - have + 1 };
}

/** So near to half a step an ordinary number does not tell which way its own digits are rounded. */
const nearHalf = 1e-6;

/** A positive number rounded half up, as it is written in decimals, to so many digits. */
function firstOfNumber(value: number, count: number): FewDigits {
  const place = Math.floor(Math.log10(value)) - count + 1;
  const steps = place < 0 ? value * ten(-place) : value / ten(place);
  const whole = Math.floor(steps);
  const isPlain = Math.abs(place) < tens.length && whole >= ten(count - 1) && Math.abs(steps - whole - 0.5) > nearHalf;
  return isPlain ? { whole: Math.round(steps), place } : firstAsWritten(value, count);
}

/** The same by its digits one by one. */
function firstAsWritten(value: number, count: number): FewDigits {
  const text = value.toExponential();
  const end = text.indexOf('e');
  const digits = `${text.charAt(0)}${text.slice(2, end)}`.padEnd(count + 1, '0');
  const whole = Number(digits.slice(0, count)) + Number(digits.charAt(count) >= '5');
  return { whole, place: Number(text.slice(end + 1)) - count + 1 };
}

/** The same number with zeros down to a place. */
const downTo = (few: FewDigits, last: number): FewDigits =>
  few.place > last ? { whole: few.whole * ten(few.place - last), place: last } : few;

/** The same number without zeros behind the point. */
function withoutZeros(few: FewDigits): FewDigits {
  let { whole, place } = few;
  for (; place < 0 && whole % 10 === 0; place += 1) whole /= 10;
  return { whole, place };
}

function inFull({ whole, place }: FewDigits): string {
  const digits = String(whole);
  if (place >= 0) return place === 0 ? digits : `${digits}${'0'.repeat(place)}`;
  const all = digits.length > -place ? digits : digits.padStart(1 - place, '0');
  return `${all.slice(0, place)}.${all.slice(place)}`;
}

/** So many digits of an uncertainty, zeros among them. */
function firstDigits(uncertainty: Decimal | number, count: number): FewDigits {
  const first =
    typeof uncertainty === 'number' ? firstOfNumber(uncertainty, count) : firstOfDecimal(uncertainty, count);
  if (first.whole === ten(count)) return { whole: first.whole / 10, place: first.place + 1 };
  return first.whole < ten(count - 1) ? downTo(first, first.place + wholeDigits(first.whole) - count) : first;
}

/** An uncertainty with the digits that are shown of it; undefined where there is none. */
function shownUncertainty(uncertainty: Decimal | number, figures?: 1 | 2): FewDigits | undefined {
  const size = Number(uncertainty);
  if (size === 0 || !Number.isFinite(size)) return undefined;
  if (figures) return firstDigits(uncertainty, figures);
  const two = firstDigits(uncertainty, 2);
  if (two.whole < 30) return two;
  const shown = firstDigits(uncertainty, 1);
  // Rounded up to 1, it has two digits again.
  return shown.whole === 1 ? { whole: 10, place: shown.place - 1 } : shown;
}

function toPlace(value: Decimal, place: number): string {
  const count = value.isFinite() ? value.e - place + 1 : 0;
  if (count < 1 || count > mostDigits) return farToPlace(value, place);
  return signed(value, inFull(downTo(firstOfDecimal(value, count), place)));
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
