// How a number is shown: rounded to its uncertainty, never further than it is known.
import { UncertaintyDecimal, type Decimal } from './exact.js';
import { expandedUncertainty, type UncertainDecimal } from './uncertainty.js';

/** A value and its expanded uncertainty as they are printed. */
export interface RoundedValue {
  readonly value: string;
  readonly uncertainty?: string;
}

/** Place value (power of ten) of the first significant digit. */
const placeOf = (value: Decimal): number => value.abs().e;

/**
 * Rounds an uncertainty to two digits where it begins with 1 or 2, otherwise to one (or to `figures`), and the value to
 * the same place.
 * Without uncertainty: six significant digits, as many as are there.
 * Source: GUM (JCGM 100:2008) 7.2.6, at most two significant digits of an uncertainty.
 * @example roundToUncertainty(exact('4.42861'), exact('0.0113')) // { value: '4.429', uncertainty: '0.011' }
 */
export function roundToUncertainty(value: Decimal, uncertainty: Decimal, figures?: 1 | 2): RoundedValue {
  if (uncertainty.isZero() || !uncertainty.isFinite()) return { value: plainly(value.toSignificantDigits(6)) };
  const digits = (u: Decimal): number => figures ?? (Number(u.toExponential(1)[0]) <= 2 ? 2 : 1);
  let rounded = new UncertaintyDecimal(uncertainty).toSignificantDigits(digits(uncertainty));
  rounded = rounded.toSignificantDigits(digits(rounded));
  const place = placeOf(rounded) - digits(rounded) + 1;
  if (place >= 0) {
    // Tens or hundreds are uncertain: zeros stand in for what is not known.
    const step = new UncertaintyDecimal(10).pow(place);
    return { value: plainly(value.div(step).toDecimalPlaces(0).times(step)), uncertainty: plainly(rounded) };
  }
  return { value: value.toFixed(-place), uncertainty: rounded.toFixed(-place) };
}

const plainly = (value: Decimal): string => value.toFixed();

/** A measured value for readers: `4.429 ± 0.011 g` (k = 2). */
export function showWithUnit(measured: UncertainDecimal, unit: string): string {
  const { value, uncertainty } = roundToUncertainty(measured.value, expandedUncertainty(measured));
  const space = unit === '' ? '' : ' ';
  return `${value.replace(/^-/, '−')}${uncertainty === undefined ? '' : ` ± ${uncertainty}`}${space}${unit}`;
}
