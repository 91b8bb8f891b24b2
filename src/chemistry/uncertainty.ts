// Measured values: a value with the contributions that independent inputs make to its uncertainty, after the GUM
// (JCGM 100:2008, 5.1 and 5.2): first-order propagation; an input that enters twice is counted once, so that
// the atomic weight of lead in a reagent and in its product largely cancels.
// Values are exact decimals. Uncertainties are estimates of which two or three digits mean anything; they are carried
// as ordinary numbers and never enter a value.
import { exact, isOne, nearestNumber, UncertaintyDecimal, type Decimal } from './exact.js';

/**
 * Independent inputs by name, and at the same place the signed contribution of each to a standard uncertainty. Two
 * lists, since inputs are few, and most results have those of what they were made of.
 */
export interface Contributions {
  readonly inputs: readonly string[];
  readonly parts: readonly number[];
}

/** A value and what each independent input contributes to its standard uncertainty. */
export interface UncertainDecimal {
  readonly value: Decimal;
  /** The value as an ordinary number, for the slopes of the propagation only. */
  readonly approximateValue: number;
  readonly contributions: Contributions;
}

const nothing: Contributions = { inputs: [], parts: [] };

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
  const u = sizeOf(standard);
  return {
    value: exactly,
    approximateValue: nearestNumber(exactly),
    contributions: u === 0 ? nothing : { inputs: [input], parts: [u] },
  };
}

const sizeOf = (value: Decimal | string | number): number =>
  typeof value === 'object' ? nearestNumber(value) : Number(value);

/** Standard uncertainty of a rectangular distribution of this half-width: a/√3 (GUM 4.3.7). */
export const rectangular = (halfWidth: Decimal | string | number): number => sizeOf(halfWidth) / Math.sqrt(3);

/** Standard uncertainty of a triangular distribution of this half-width: a/√6 (GUM 4.3.9). */
export const triangular = (halfWidth: Decimal | string | number): number => sizeOf(halfWidth) / Math.sqrt(6);

function combine(a: UncertainDecimal, ofA: number, b: UncertainDecimal, ofB: number): Contributions {
  if (b.contributions.inputs.length === 0) return multiplied(a.contributions, ofA);
  if (a.contributions.inputs.length === 0) return multiplied(b.contributions, ofB);
  return together(multiplied(a.contributions, ofA), b.contributions, ofB);
}

/** Contributions with those of another value, so many times as large; an input of both is counted once. */
function together(first: Contributions, second: Contributions, factor: number): Contributions {
  const parts = [...first.parts];
  let { inputs } = first;
  let longer: string[] | undefined;
  for (let at = 0; at < second.inputs.length; at += 1) {
    const input = second.inputs[at]!;
    const part = second.parts[at]! * factor;
    const place = inputs[at] === input ? at : inputs.indexOf(input);
    if (place >= 0) parts[place]! += part;
    else {
      inputs = longer ??= [...inputs];
      longer.push(input);
      parts.push(part);
    }
  }
  return { inputs, parts };
}

/** Nothing changes contributions, so that one times 1 is itself. */
function multiplied(all: Contributions, factor: number): Contributions {
  if (factor === 1 || all.inputs.length === 0) return all;
  const parts = [...all.parts];
  for (let at = 0; at < parts.length; at += 1) parts[at]! *= factor;
  return { inputs: all.inputs, parts };
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
export function times(a: UncertainDecimal, b: UncertainDecimal): UncertainDecimal {
  // What is pure is so often wholly what it is: a mass times 1.
  if (b.contributions === nothing && isOne(b.value)) return a;
  return {
    value: a.value.times(b.value),
    approximateValue: a.approximateValue * b.approximateValue,
    contributions: combine(a, b.approximateValue, b, a.approximateValue),
  };
}
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
  if (isOne(factor)) return a;
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
const none = withoutUncertainty(0);
export const sum = (all: readonly UncertainDecimal[]): UncertainDecimal => (all.length > 0 ? all.reduce(plus) : none);

const root = (a: UncertainDecimal): number => {
  const { parts } = a.contributions;
  let squares = 0;
  for (let at = 0; at < parts.length; at += 1) squares += parts[at]! ** 2;
  return Math.sqrt(squares);
};

/** Combined standard uncertainty u: root of the sum of squares of the independent inputs' contributions (GUM 5.1.2). */
export const standardUncertainty = (a: UncertainDecimal): Decimal => new UncertaintyDecimal(root(a));

/** Expanded uncertainty U = 2u, about 95 % (GUM 6.2). */
export const expandedUncertainty = (a: UncertainDecimal): Decimal => new UncertaintyDecimal(expandedSize(a));

/** The same as an ordinary number, to print or to compare. */
export const expandedSize = (a: UncertainDecimal): number => 2 * root(a);

/** Whether a value is further from 0 than its expanded uncertainty. */
export const isBeyondItsUncertainty = (a: UncertainDecimal): boolean => Math.abs(a.approximateValue) > expandedSize(a);

/** The same value with only those inputs' contributions that are chosen, e.g. weighing alone. */
export function contributionsFrom(a: UncertainDecimal, chosen: (input: string) => boolean): UncertainDecimal {
  const { inputs, parts } = a.contributions;
  const kept = inputs.map(chosen);
  const isKept = (_: unknown, at: number): boolean => kept[at]!;
  return { ...a, contributions: { inputs: inputs.filter(isKept), parts: parts.filter(isKept) } };
}

/**
 * The same value with its inputs under other names, so that what only goes by one name is told apart.
 * @param named gives every input a name of its own
 */
export function withInputsNamed(a: UncertainDecimal, named: (input: string) => string): UncertainDecimal {
  const { inputs, parts } = a.contributions;
  return { ...a, contributions: { inputs: inputs.map(named), parts } };
}
