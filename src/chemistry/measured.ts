// Measured values: a value with the contributions that independent inputs make to its uncertainty, after the GUM
// (JCGM 100:2008, 5.1 and 5.2): first-order propagation; an input that enters twice is counted once, so that
// the atomic weight of lead in a reagent and in its product largely cancels.
// Values are exact decimals. Uncertainties are estimates of which two or three digits mean anything; they are carried
// as ordinary numbers and never enter a value.
import { exact, Rough, type Decimal } from './exact.js';

/** A value and, for each independent input by its name, that input's signed contribution to the standard uncertainty. */
export interface Measured {
  readonly value: Decimal;
  /** The value as an ordinary number, for the slopes of the propagation only. */
  readonly slope: number;
  readonly from: ReadonlyMap<string, number>;
}

const nothing: ReadonlyMap<string, number> = new Map();

/** A value without uncertainty. @example without('2') */
export function without(value: Decimal | string | number): Measured {
  const exactly = exact(value);
  return { value: exactly, slope: exactly.toNumber(), from: nothing };
}

/** A value with a standard uncertainty in its own unit, which comes from the named input. */
export function withUncertainty(value: Decimal | string, standard: Decimal | string | number, input: string): Measured {
  const exactly = exact(value);
  const u = Number(standard);
  return { value: exactly, slope: exactly.toNumber(), from: u === 0 ? nothing : new Map([[input, u]]) };
}

/** Standard uncertainty of a rectangular distribution of this half-width: a/√3 (GUM 4.3.7). */
export const rectangular = (halfWidth: Decimal | string | number): number => Number(halfWidth) / Math.sqrt(3);

/** Standard uncertainty of a triangular distribution of this half-width: a/√6 (GUM 4.3.9). */
export const triangular = (halfWidth: Decimal | string | number): number => Number(halfWidth) / Math.sqrt(6);

function combine(a: Measured, ofA: number, b: Measured, ofB: number): ReadonlyMap<string, number> {
  if (a.from.size === 0 && b.from.size === 0) return nothing;
  const from = new Map<string, number>();
  for (const [input, part] of a.from) from.set(input, part * ofA);
  for (const [input, part] of b.from) from.set(input, (from.get(input) ?? 0) + part * ofB);
  return from;
}

export const plus = (a: Measured, b: Measured): Measured => ({
  value: a.value.plus(b.value),
  slope: a.slope + b.slope,
  from: combine(a, 1, b, 1),
});
export function minus(a: Measured, b: Measured): Measured {
  const value = a.value.minus(b.value);
  return { value, slope: value.toNumber(), from: combine(a, 1, b, -1) };
}
export const times = (a: Measured, b: Measured): Measured => ({
  value: a.value.times(b.value),
  slope: a.slope * b.slope,
  from: combine(a, b.slope, b, a.slope),
});
/** Quotient; the divisor must not be zero (a programmer's error). */
export function over(a: Measured, b: Measured): Measured {
  const value = a.value.div(b.value);
  if (!value.isFinite()) throw new RangeError('division of a measured value by zero');
  return { value, slope: a.slope / b.slope, from: combine(a, 1 / b.slope, b, -a.slope / (b.slope * b.slope)) };
}
export function scaled(a: Measured, by: Decimal | string | number): Measured {
  const factor = exact(by);
  const slope = factor.toNumber();
  return {
    value: a.value.times(factor),
    slope: a.slope * slope,
    from: a.from.size === 0 ? nothing : new Map([...a.from].map(([input, part]) => [input, part * slope])),
  };
}
/** Ten to the power of a measured value: a concentration from a pH is `tenToThe(scaled(pH, -1))`. */
export function tenToThe(a: Measured): Measured {
  const value = exact(10).pow(a.value);
  const slope = value.toNumber();
  return { value, slope, from: new Map([...a.from].map(([input, part]) => [input, part * slope * Math.LN10])) };
}
export const sum = (all: readonly Measured[]): Measured => all.reduce(plus, without(0));

const root = (a: Measured): number => {
  let squares = 0;
  for (const part of a.from.values()) squares += part * part;
  return Math.sqrt(squares);
};

/** Combined standard uncertainty u: root of the sum of squares of the independent inputs' contributions (GUM 5.1.2). */
export const standardUncertainty = (a: Measured): Decimal => new Rough(root(a));

/** Expanded uncertainty U = 2u, about 95 % (GUM 6.2). */
export const expandedUncertainty = (a: Measured): Decimal => new Rough(2 * root(a));

/** The same value with only those inputs' contributions that are chosen, e.g. weighing alone. */
export const onlyFrom = (a: Measured, chosen: (input: string) => boolean): Measured => ({
  ...a,
  from: new Map([...a.from].filter(([input]) => chosen(input))),
});
