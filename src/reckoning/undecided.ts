// The spread of a yield where weighing cannot tell which reagent limits: bounds that hold whichever of them it is.
import {
  exact,
  expandedUncertainty,
  molarMass,
  withMinus,
  withoutUncertainty,
  type Decimal,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { SampleAmounts } from './contracts.js';
import { figure, type Figure } from './figures.js';

/** Between which values something lies, with about 95 %. */
export interface Bounds {
  readonly low: Decimal;
  readonly high: Decimal;
}

const least = (values: readonly Decimal[]): Decimal => values.reduce((a, b) => (b.lt(a) ? b : a));

/** mol of reaction: the smallest of what each of those that may limit allows, at its lower and at its upper end. */
function extentBounds(extents: readonly UncertainDecimal[]): Bounds {
  const ends = (sign: 1 | -1): Decimal[] =>
    extents.map((extent) => extent.value.plus(exact(expandedUncertainty(extent).toFixed()).times(sign)));
  return { low: least(ends(-1)), high: least(ends(1)) };
}

/**
 * g of product that are possible where it is undecided what limits, whichever of them it is.
 * @returns undefined where it is decided, or the product has no molar mass
 */
export function possibleMasses(
  product: Term | undefined,
  { limiting, possiblyLimiting }: Pick<LimitingReagent, 'limiting' | 'possiblyLimiting'>,
): Bounds | undefined {
  const extents = [limiting, ...possiblyLimiting].flatMap((one) => one?.extent ?? []);
  const perMole = product && molarMass(product.formula);
  if (possiblyLimiting.length === 0 || extents.length < 2 || !perMole?.ok) return undefined;
  const each = perMole.value.middle.value.times(product!.coefficient);
  const { low, high } = extentBounds(extents);
  return { low: low.times(each), high: high.times(each) };
}

/** Per cent that a mass is of what is possible; undefined where nothing may be. */
export function percentWithin({ low, high }: Bounds, mass: UncertainDecimal): Bounds | undefined {
  if (!low.gt(0)) return undefined;
  const half = exact(expandedUncertainty(mass).toFixed());
  return { low: mass.value.minus(half).div(high).times(100), high: mass.value.plus(half).div(low).times(100) };
}

/** The unit of the second digit of how far bounds lie apart: they are no better known. */
function stepWithin({ low, high }: Bounds): Decimal {
  const apart = high.minus(low);
  return apart.gt(0) ? exact(10).pow(apart.e - 1) : exact(1);
}

/** Both ends of bounds as readers see them, rounded outwards. */
function endsShown({ low, high }: Bounds): readonly [low: string, high: string] {
  const step = stepWithin({ low, high });
  const places = Math.max(0, -step.e);
  const shown = (steps: Decimal): string => withMinus(steps.times(step).toFixed(places));
  return [shown(low.div(step).floor()), shown(high.div(step).ceil())];
}

/** The same in words. @example boundsText(bounds, '%') // '114 to 150 %' */
export const boundsText = (bounds: Bounds, unit: string): string => `${endsShown(bounds).join(' to ')} ${unit}`;

/**
 * A figure that lies between bounds: readers see these, and its uncertainty reaches to the farther one.
 * @param bounds where there are none, it is an ordinary figure
 */
export function figureWithin(measured: UncertainDecimal, bounds: Bounds | undefined, unit: string): Figure {
  const plain = figure(measured, unit);
  if (!bounds) return plain;
  const [below, above] = [measured.value.minus(bounds.low), bounds.high.minus(measured.value)];
  const farther = below.gt(above) ? below : above;
  return {
    ...plain,
    uncertainty: farther.toSignificantDigits(3).toFixed(),
    text: boundsText(bounds, unit),
    within: { low: bounds.low.toSignificantDigits(6).toFixed(), high: bounds.high.toSignificantDigits(6).toFixed() },
  };
}

/**
 * What is left where weighing cannot tell it from nothing: readers see from 0 to the most that it can be.
 * @param most in the unit; rounded up to two digits
 * @example leftUpTo(withoutUncertainty(0), exact('0.00277'), 'g').text // '0 to 0.0028 g'
 */
export function leftUpTo(measured: UncertainDecimal, most: Decimal, unit: string): Figure {
  const [, shownMost] = endsShown({ low: exact(0), high: most });
  const { value } = figure(measured, unit);
  const further = most.minus(measured.value);
  return {
    value,
    uncertainty: (further.gt(measured.value) ? further : measured.value).toSignificantDigits(3).toFixed(),
    unit,
    text: most.gt(0) ? `0 to ${shownMost} ${unit}` : `0 ${unit}`,
    within: { low: '0', high: most.toSignificantDigits(6).toFixed() },
  };
}

/** Both ends of bounds as figures, with the digits that their distance leaves. */
function shown(bounds: Bounds, unit: string): { readonly low: Figure; readonly high: Figure } {
  const [low, high] = endsShown(bounds);
  const end = (value: Decimal, text: string): Figure => ({
    ...figure(withoutUncertainty(value.toSignificantDigits(4)), unit),
    text: `${text} ${unit}`,
  });
  return { low: end(bounds.low, low), high: end(bounds.high, high) };
}

/**
 * Between which bounds theoretical and percent yield lie, each with about 95 %, where it is undecided what limits.
 * @param possible g of product
 */
export function undecidedYield(
  possible: Bounds | undefined,
  obtained: UncertainDecimal | undefined,
): SampleAmounts['undecided'] {
  if (!possible) return undefined;
  const percent = obtained && percentWithin(possible, obtained);
  const theoreticalYield = shown(possible, 'g');
  const percentYield = percent && shown(percent, '%');
  const between = ({ low, high }: typeof theoreticalYield): string => `${low.text} and ${high.text}`;
  const ofYield = percentYield ? `, and the yield between ${between(percentYield)}` : '';
  return {
    theoreticalYield,
    ...(percentYield && { percentYield }),
    words:
      `Whichever of them it is, the theoretical yield lies between ${between(theoreticalYield)}${ofYield} ` +
      '(bounds, about 95 %).',
  };
}
