// How a number is shown: rounded to its uncertainty, never further than it is known.
import { UncertaintyDecimal, type Decimal } from './exact.js';
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
  if (!shown) return { value: plainly(value.toSignificantDigits(6)) };
  return { value: toPlace(value, shown.place), uncertainty: digitsInFull(shown) };
}

/** A value as `roundToUncertainty` prints it, alone. */
export function roundedValue(value: Decimal, uncertainty: Decimal | number): string {
  const shown = shownUncertainty(uncertainty);
  return shown ? toPlace(value, shown.place) : plainly(value.toSignificantDigits(6));
}

/**
 * A positive number to so many significant digits, as many as are there, without an exponent.
 * @example toSignificantDigits(0.01204, 3) // '0.012'
 */
export function toSignificantDigits(value: number, digits: number): string {
  if (!Number.isFinite(value)) return String(value);
  const text = digitsInFull(firstDigits(value, digits));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** A positive number rounded to a few digits: `{ whole: 12, place: -3 }` is 0.012. */
interface FewDigits {
  readonly whole: number;
  /** Place value (power of ten) of the last digit. */
  readonly place: number;
}

/** The first digits of a positive number as it is written in decimals, rounded half up. */
function firstDigits(value: Decimal | number, digits: number): FewDigits {
  const text = value.toExponential();
  const end = text.indexOf('e');
  const written = `${text.charAt(0)}${text.slice(2, end)}`.padEnd(digits + 1, '0');
  const whole = Number(written.slice(0, digits)) + Number(written.charAt(digits) >= '5');
  const place = Number(text.slice(end + 1)) - digits + 1;
  return whole === 10 ** digits ? { whole: whole / 10, place: place + 1 } : { whole, place };
}

function digitsInFull({ whole, place }: FewDigits): string {
  if (place >= 0) return `${whole}${'0'.repeat(place)}`;
  const written = String(whole).padStart(1 - place, '0');
  return `${written.slice(0, place)}.${written.slice(place)}`;
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
  return `${value.replace(/^-/, '−')}${uncertainty === undefined ? '' : ` ± ${uncertainty}`}${space}${unit}`;
}
