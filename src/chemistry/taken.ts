// How much of a substance was taken, as a reaction asks for it; and what a reading of a balance or a vessel is worth.
import { onceFor } from '../once.js';
import type { Fault } from '../outcome.js';
import { exact, UncertaintyDecimal, type Decimal } from './exact.js';
import type { Formula, MolarMassFault } from './formula/index.js';
import { rectangular, withUncertainty, withoutUncertainty, type UncertainDecimal } from './uncertainty.js';
import type { Quantity } from './quantity/index.js';

/** What keeps an amount from being reckoned, or from being reckoned well; each code is a rule of the proof. */
export type MissingFault =
  | MolarMassFault
  | Fault<'density-missing' | 'drop-volume-missing' | 'formula-missing' | 'strength-missing'>;

/** What a portion of a reagent comes to; what cannot be told is absent, and `missing` says what would be needed. */
export interface Taken {
  readonly id: string;
  readonly name: string;
  readonly formula?: Formula;
  /** Given as `excess`. */
  readonly excess: boolean;
  /** Amount of the pure substance, mol. */
  readonly substance?: UncertainDecimal;
  /** Mass of the pure substance, g. */
  readonly pure?: UncertainDecimal;
  /** Mass of the stuff as taken, g. */
  readonly mass?: UncertainDecimal;
  /** Volume of the stuff as taken, mL. */
  readonly volume?: UncertainDecimal;
  readonly molarMass?: UncertainDecimal;
  readonly missing: readonly MissingFault[];
}

/**
 * The input of an uncertainty that is a reading of a balance or a measuring vessel.
 * @example weighingInput('A/0/soda') // 'reading:A/0/soda'
 */
export const weighingInput = (id: string): string => `reading:${id}`;

/**
 * A quantity in its base unit with the uncertainty of its reading: given as such, `± …`, a range, or half of the last
 * digit that is written, unless the balance is coarser than that.
 */
export function reading(quantity: Quantity, input: string, balance?: Decimal): UncertainDecimal {
  if (quantity.standardUncertainty) return withUncertainty(quantity.base, quantity.standardUncertainty, input);
  if (quantity.tolerance) return withUncertainty(quantity.base, rectangular(quantity.tolerance), input);
  if (quantity.dimension === 'drops' || quantity.dimension === 'excess') return withoutUncertainty(quantity.base);
  const digits = halfDigit(quantity);
  const isCoarser = balance && quantity.dimension === 'mass' && balance.gt(digits);
  return withUncertainty(quantity.base, rectangular(isCoarser ? balance : digits), input);
}

/** Half of the last digit that is written, in the base unit. */
const halfDigit = onceFor(({ value, base, resolution }: Quantity): Decimal => {
  const factor = value.isZero() ? exact(1) : base.div(value);
  return new UncertaintyDecimal(resolution.times(factor)).div(2);
});
