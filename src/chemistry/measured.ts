// Measured values: a value with the contributions that independent inputs make to its uncertainty, after the GUM
// (JCGM 100:2008, 5.1 and 5.2): first-order propagation; an input that enters twice is counted once, so that
// the atomic weight of lead in a reagent and in its product largely cancels.
import { exact, Rough, type Decimal } from './exact.js';

/** A value and, for each independent input by its name, that input's signed contribution to the standard uncertainty. */
export interface Measured {
  readonly value: Decimal;
  readonly from: ReadonlyMap<string, Decimal>;
}

const nothing: ReadonlyMap<string, Decimal> = new Map();
const rootThree = new Rough(3).sqrt();
const rootSix = new Rough(6).sqrt();

/** A value without uncertainty. @example without('2') */
export const without = (value: Decimal | string | number): Measured => ({ value: exact(value), from: nothing });

/** A value with a standard uncertainty in its own unit, which comes from the named input. */
export const withUncertainty = (value: Decimal | string, standard: Decimal | string, input: string): Measured =>
  ({ value: exact(value), from: new Rough(standard).isZero() ? nothing : new Map([[input, new Rough(standard)]]) });

/** Standard uncertainty of a rectangular distribution of this half-width: a/√3 (GUM 4.3.7). */
export const rectangular = (halfWidth: Decimal | string): Decimal => new Rough(halfWidth).div(rootThree);

/** Standard uncertainty of a triangular distribution of this half-width: a/√6 (GUM 4.3.9). */
export const triangular = (halfWidth: Decimal | string): Decimal => new Rough(halfWidth).div(rootSix);

function combine(a: Measured, ofA: Decimal, b: Measured, ofB: Decimal): ReadonlyMap<string, Decimal> {
  if (a.from.size === 0 && b.from.size === 0) return nothing;
  const from = new Map<string, Decimal>();
  for (const [input, part] of a.from) from.set(input, part.times(ofA));
  for (const [input, part] of b.from) {
    const before = from.get(input);
    const added = part.times(ofB);
    from.set(input, before ? before.plus(added) : added);
  }
  return from;
}

const plusOne = new Rough(1);
const minusOne = new Rough(-1);

export const plus = (a: Measured, b: Measured): Measured => ({ value: a.value.plus(b.value), from: combine(a, plusOne, b, plusOne) });
export const minus = (a: Measured, b: Measured): Measured => ({ value: a.value.minus(b.value), from: combine(a, plusOne, b, minusOne) });
export const times = (a: Measured, b: Measured): Measured =>
  ({ value: a.value.times(b.value), from: combine(a, new Rough(b.value), b, new Rough(a.value)) });
/** Quotient; the divisor must not be zero (a programmer's error). */
export function over(a: Measured, b: Measured): Measured {
  const value = a.value.div(b.value);
  if (!value.isFinite()) throw new RangeError('division of a measured value by zero');
  const inverse = new Rough(1).div(b.value);
  return { value, from: combine(a, inverse, b, new Rough(value).times(inverse).neg()) };
}
export function scaled(a: Measured, by: Decimal | string | number): Measured {
  const factor = exact(by);
  const rough = new Rough(factor);
  return { value: a.value.times(factor), from: a.from.size === 0 ? nothing : new Map([...a.from].map(([input, part]) => [input, part.times(rough)])) };
}
/** Ten to the power of a measured value: a concentration from a pH is `tenToThe(scaled(pH, -1))`. */
export function tenToThe(a: Measured): Measured {
  const value = exact(10).pow(a.value);
  const slope = new Rough(value).times(new Rough(10).ln());
  return { value, from: new Map([...a.from].map(([input, part]) => [input, part.times(slope)])) };
}
export const sum = (all: readonly Measured[]): Measured => all.reduce(plus, without(0));

/** Combined standard uncertainty u: root of the sum of squares of the independent inputs' contributions (GUM 5.1.2). */
export function standardUncertainty(a: Measured): Decimal {
  let squares = new Rough(0);
  for (const part of a.from.values()) squares = squares.plus(part.times(part)) as typeof squares;
  return squares.sqrt();
}

/** Expanded uncertainty U = 2u, about 95 % (GUM 6.2). */
export const expandedUncertainty = (a: Measured): Decimal => standardUncertainty(a).times(2);

/** The same value with only those inputs' contributions that are chosen, e.g. weighing alone. */
export const onlyFrom = (a: Measured, chosen: (input: string) => boolean): Measured =>
  ({ value: a.value, from: new Map([...a.from].filter(([input]) => chosen(input))) });
