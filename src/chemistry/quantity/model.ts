// Quantities as data: an exact value with its unit, what was written of it, and how uncertain it says it is.
import type { Decimal } from '../exact.js';

export type Dimension =
  | 'mass'
  | 'volume'
  | 'amount'
  | 'concentration'
  | 'mass-percent'
  | 'mass-volume-percent'
  | 'volume-percent'
  | 'oxygen-volumes'
  | 'degrees-baume'
  | 'degrees-twaddell'
  | 'density'
  | 'temperature'
  | 'time'
  | 'length'
  | 'drops'
  | 'ratio'
  | 'excess'
  | 'money-per-amount';

/**
 * A quantity as it was written, its value also in the base unit of its dimension (g, mL, mol, mol/L, %, g/mL, °C, s, m,
 * drops).
 */
export interface Quantity {
  readonly written: string;
  readonly dimension: Dimension;
  /** In the unit as written; the middle of a range. */
  readonly value: Decimal;
  /** As written: `mg`. Empty for `excess`. */
  readonly unit: string;
  /** Value in the base unit. */
  readonly base: Decimal;
  readonly baseUnit: string;
  /** Place value of the last digit written, in the unit as written: 0.01 for 5.00. */
  readonly resolution: Decimal;
  /** Half-width given as `± …`, or of a range, in the base unit. */
  readonly tolerance?: Decimal;
  /** Standard uncertainty given as `u = …` or `5.00(2)`, in the base unit. */
  readonly standardUncertainty?: Decimal;
  /** Ends of a range, in the base unit. */
  readonly low?: Decimal;
  readonly high?: Decimal;
  /** It was said to be only roughly so, or in words: `about 9 mL`, `half a litre`. */
  readonly rough?: true;
  /** For a price: the currency, and what the money buys. */
  readonly currency?: string;
  readonly per?: Quantity;
}
