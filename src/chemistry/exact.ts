// Exact decimals: one setting of decimal.js for the whole room, so that an amount never passes through a binary float.
import { Decimal as Base } from 'decimal.js';

/** decimal.js at 34 significant digits (the width of IEEE decimal128), never printed in exponent form. */
export const Decimal = Base.clone({ precision: 34, rounding: Base.ROUND_HALF_UP, toExpNeg: -400, toExpPos: 400 });
export type Decimal = Base;

/** For uncertainties, of which two or three digits mean anything: ten digits are carried. */
export const UncertaintyDecimal = Base.clone({
  precision: 10,
  rounding: Base.ROUND_HALF_UP,
  toExpNeg: -400,
  toExpPos: 400,
});

/** The value, exactly; one that is such a decimal already is itself, since nothing changes a decimal. */
export const exact = (value: Base.Value): Base =>
  value instanceof Base && value.constructor === Decimal ? value : new Decimal(value);
export const zero: Base = new Decimal(0);
export const one: Base = new Decimal(1);
