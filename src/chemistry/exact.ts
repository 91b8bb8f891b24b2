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

/** Whole numbers up to a hundred, which are asked for all over. */
const wholes = Array.from({ length: 101 }, (_, whole): Base => new Decimal(whole));

/** The value, exactly; one that is such a decimal already is itself, since nothing changes a decimal. */
export function exact(value: Base.Value): Base {
  if (typeof value === 'number' && !Object.is(value, -0)) return wholes[value] ?? new Decimal(value);
  return value instanceof Base && value.constructor === Decimal ? value : new Decimal(value);
}

/** Whether a value is above 0. */
export const isPositive = ({ d: words, s }: Base): boolean => s === 1 && words?.[0] !== 0;

/** Whether a value is 1, by which nothing needs to be multiplied. */
export const isOne = ({ d: words, e, s }: Base): boolean => s === 1 && e === 0 && words.length === 1 && words[0] === 1;

/** The highest power of ten that a double holds exactly. */
const exactPower = 22;
const digitsOfWord = 7;

/**
 * The nearest ordinary number, as `toNumber` has it: of up to fourteen digits it is one whole number times or by a
 * power of ten, both held exactly, which needs no text between.
 */
export function nearestNumber(value: Base): number {
  const { d: words, e, s } = value;
  if (!words || words.length > 2) return value.toNumber();
  const [first = 0, second] = words;
  const whole = second === undefined ? first : first * 10 ** digitsOfWord + second;
  const power = e - (wholeDigits(first) - 1) - (second === undefined ? 0 : digitsOfWord);
  if (power > exactPower || power < -exactPower) return value.toNumber();
  return s * (power < 0 ? whole / 10 ** -power : whole * 10 ** power);
}

/** How many digits a whole number has. */
export function wholeDigits(whole: number): number {
  let digits = 1;
  for (let least = 10; whole >= least; least *= 10) digits += 1;
  return digits;
}

export const zero: Base = exact(0);
export const one: Base = exact(1);
