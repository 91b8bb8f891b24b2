// How a number is shown: rounded to its uncertainty, never further than it is known.
import { UncertaintyDecimal, type Decimal } from './exact.js';
import { expandedUncertainty, type UncertainDecimal } from './uncertainty.js';

/** A value and its expanded uncertainty as they are printed. */
export interface RoundedValue {
  readonly value: string;
  readonly uncertainty?: string;
}

/** Place value (power of ten) of the first significant digit. */
const placeOf = (value: Decimal): number => value.e;

/**
 * Rounds an uncertainty to two digits where it begins with 1 or 2, otherwise to one (or to `figures`), and the value to
 * the same place.
 * Without uncertainty: six significant digits, as many as are there.
 * Source: GUM (JCGM 100:2008) 7.2.6, at most two significant digits of an uncertainty.
 * @example roundToUncertainty(exact('4.42861'), exact('0.0113')) // { value: '4.429', uncertainty: '0.011' }
 */
export function roundToUncertainty(value: Decimal, uncertainty: Decimal, figures?: 1 | 2): RoundedValue {
  const shown = shownUncertainty(uncertainty, figures);
  if (!shown) return { value: plainly(value.toSignificantDigits(6)) };
  const { rounded, place } = shown;
  return { value: toPlace(value, place), uncertainty: place >= 0 ? plainly(rounded) : rounded.toFixed(-place) };
}

/** A value as `roundToUncertainty` prints it, alone. */
export function roundedValue(value: Decimal, uncertainty: Decimal): string {
  const shown = shownUncertainty(uncertainty);
  return shown ? toPlace(value, shown.place) : plainly(value.toSignificantDigits(6));
}

/** The first digit, once all is rounded to two. */
function leadingDigit({ d: [first = 0, second = 0] }: Decimal): number {
  // A word of a decimal has seven digits, and the first no zeros before it.
  const written = `${first}${first < 100 ? String(second).padStart(7, '0') : ''}`;
  const two = Number(written.slice(0, 2)) + Number(written.charAt(2) >= '5');
  return two === 100 ? 1 : Math.floor(two / 10);
}

/** An uncertainty with the digits that are shown of it, and the place of the last; undefined where there is none. */
function shownUncertainty(
  uncertainty: Decimal,
  figures?: 1 | 2,
): { readonly rounded: Decimal; readonly place: number } | undefined {
  if (uncertainty.isZero() || !uncertainty.isFinite()) return undefined;
  const digits = (u: Decimal): number => figures ?? (leadingDigit(u) <= 2 ? 2 : 1);
  const own = uncertainty.constructor === UncertaintyDecimal ? uncertainty : new UncertaintyDecimal(uncertainty);
  let rounded = own.toSignificantDigits(digits(uncertainty));
  rounded = rounded.toSignificantDigits(digits(rounded));
  return { rounded, place: placeOf(rounded) - digits(rounded) + 1 };
}

function toPlace(value: Decimal, place: number): string {
  if (place < 0) return value.toFixed(-place);
  // Tens or hundreds are uncertain: zeros stand in for what is not known.
  const step = new UncertaintyDecimal(10).pow(place);
  return plainly(value.div(step).toDecimalPlaces(0).times(step));
}

const plainly = (value: Decimal): string => value.toFixed();

/** A measured value for readers: `4.429 ± 0.011 g` (k = 2). @param expanded its expanded uncertainty, where known */
export function showWithUnit(
  measured: UncertainDecimal,
  unit: string,
  expanded: Decimal = expandedUncertainty(measured),
): string {
  const { value, uncertainty } = roundToUncertainty(measured.value, expanded);
  const space = unit === '' ? '' : ' ';
  return `${value.replace(/^-/, '−')}${uncertainty === undefined ? '' : ` ± ${uncertainty}`}${space}${unit}`;
}
