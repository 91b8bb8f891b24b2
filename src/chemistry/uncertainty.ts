// Measured values: a value with the contributions that independent inputs make to its uncertainty, after the GUM
// (JCGM 100:2008, 5.1 and 5.2): first-order propagation; an input that enters twice is counted once, so that
// the atomic weight of lead in a reagent and in its product largely cancels.
// Values are exact decimals. Uncertainties are estimates of which two or three digits mean anything; they are carried
// as ordinary numbers and never enter a value.
import { exact, nearestNumber, UncertaintyDecimal, type Decimal } from './exact.js';

/**
 * A value and, for each independent input by its name, that input's signed contribution to the standard uncertainty.
 */
export interface UncertainDecimal {
  readonly value: Decimal;
  /** The value as an ordinary number, for the slopes of the propagation only. */
  readonly approximateValue: number;
  readonly contributions: ReadonlyMap<string, number>;
}

const nothing: ReadonlyMap<string, number> = new Map();

/** A value without uncertainty. @example withoutUncertainty('2') */
export function withoutUncertainty(value: Decimal | string | number): UncertainDecimal {
  const exactly = exact(value);
  return { value: exactly, approximateValue: nearestNumber(exactly), contributions: nothing };
}

/** A value with a standard uncertainty in its own unit, which comes from the named input. */
export function withUncertainty(
  value: Decimal | string,
  standard: Decimal | string | number,
  input: string,
): UncertainDecimal {
  const exactly = exact(value);
  const u = Number(standard);
  return {
    value: exactly,
    approximateValue: nearestNumber(exactly),
    contributions: u === 0 ? nothing : new Map([[input, u]]),
  };
}

/** Standard uncertainty of a rectangular distribution of this half-width: a/√3 (GUM 4.3.7). */
export const rectangular = (halfWidth: Decimal | string | number): number => Number(halfWidth) / Math.sqrt(3);

/** Standard uncertainty of a triangular distribution of this half-width: a/√6 (GUM 4.3.9). */
export const triangular = (halfWidth: Decimal | string | number): number => Number(halfWidth) / Math.sqrt(6);

function combine(a: UncertainDecimal, ofA: number, b: UncertainDecimal, ofB: number): ReadonlyMap<string, number> {
  if (b.contributions.size === 0) return multiplied(a.contributions, ofA);
  if (a.contributions.size === 0) return multiplied(b.contributions, ofB);
  const contributions = new Map<string, number>();
  a.contributions.forEach((part, input) => contributions.set(input, part * ofA));
  b.contributions.forEach((part, input) => contributions.set(input, (contributions.get(input) ?? 0) + part * ofB));
  return contributions;
}

/** Nothing changes contributions, so that one times 1 is itself. */
function multiplied(all: ReadonlyMap<string, number>, factor: number): ReadonlyMap<string, number> {
  if (all.size === 0 || factor === 1) return all;
  const contributions = new Map<string, number>();
  all.forEach((part, input) => contributions.set(input, part * factor));
  return contributions;
}

export const plus = (a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal => ({
  value: a.value.plus(b.value),
  approximateValue: a.approximateValue + b.approximateValue,
  contributions: combine(a, 1, b, 1),
});
export function minus(a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal {
  const value = a.value.minus(b.value);
  return { value, approximateValue: nearestNumber(value), contributions: combine(a, 1, b, -1) };
}
export const times = (a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal => ({
  value: a.value.times(b.value),
  approximateValue: a.approximateValue * b.approximateValue,
  contributions: combine(a, b.approximateValue, b, a.approximateValue),
});
/** Quotient; undefined where the divisor is 0. @example dividedBy(mass, density)?.value // a volume */
export function dividedBy(a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal | undefined {
  if (b.value.isZero()) return undefined;
  const value = a.value.div(b.value);
  // Step by step, so that no square of a small divisor comes to nothing.
  const perDivisor = a.approximateValue / b.approximateValue;
  return {
    value,
    approximateValue: perDivisor,
    contributions: combine(a, 1 / b.approximateValue, b, -perDivisor / b.approximateValue),
  };
}
/** Times an exact factor. */
export function scaled(a: UncertainDecimal, by: Decimal | string | number): UncertainDecimal {
  const factor = exact(by);
  const size = nearestNumber(factor);
  return {
    value: a.value.times(factor),
    approximateValue: a.approximateValue * size,
    contributions: multiplied(a.contributions, size),
  };
}
/** Ten to the power of a measured value: a concentration from a pH is `tenToThe(scaled(pH, -1))`. */
export function tenToThe(a: UncertainDecimal): UncertainDecimal {
  const value = exact(10).pow(a.value);
  const approximateValue = value.toNumber();
  return {
    value,
    approximateValue,
    contributions: multiplied(multiplied(a.contributions, approximateValue), Math.LN10),
  };
}
export const sum = (all: readonly UncertainDecimal[]): UncertainDecimal => all.reduce(plus, withoutUncertainty(0));

const root = (a: UncertainDecimal): number => {
  let squares = 0;
  a.contributions.forEach((part) => (squares += part * part));
  return Math.sqrt(squares);
};

/** Combined standard uncertainty u: root of the sum of squares of the independent inputs' contributions (GUM 5.1.2). */
export const standardUncertainty = (a: UncertainDecimal): Decimal => new UncertaintyDecimal(root(a));

/** Expanded uncertainty U = 2u, about 95 % (GUM 6.2). */
export const expandedUncertainty = (a: UncertainDecimal): Decimal => new UncertaintyDecimal(expandedSize(a));

/** The same as an ordinary number, to print or to compare. */
export const expandedSize = (a: UncertainDecimal): number => 2 * root(a);

/** The same value with only those inputs' contributions that are chosen, e.g. weighing alone. */
export const contributionsFrom = (a: UncertainDecimal, chosen: (input: string) => boolean): UncertainDecimal => ({
  ...a,
  contributions: new Map([...a.contributions].filter(([input]) => chosen(input))),
});
