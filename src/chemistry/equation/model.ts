// Chemical equations as data: substances with coefficients on two sides; what is not the same on both; back to text.
import { onceFor } from '../../once.js';
import type { Fault } from '../../outcome.js';
import { elementName } from '../atomic-weights.js';
import { zero, type Decimal } from '../exact.js';
import { composition, type Formula, type FormulaDoubt } from '../formula/index.js';

export interface Term {
  /** The formula as written, without coefficient and state. */
  readonly label: string;
  readonly formula: Formula;
  /** 1 where none is written. */
  readonly coefficient: Decimal;
  /** A coefficient was written. */
  readonly given: boolean;
  /** 1-based column of the formula in the equation. */
  readonly column: number;
}

/** What can be doubted in an equation: its formulae, and a number written close to one. */
export type EquationDoubt = FormulaDoubt | Fault<'glued-coefficient'>;

export interface Equation {
  readonly written: string;
  readonly reactants: readonly Term[];
  readonly products: readonly Term[];
  readonly doubts: readonly EquationDoubt[];
}

/** The two sides of an equation. */
export type Sides = Pick<Equation, 'reactants' | 'products'>;

/** One element (or the charge) that is not the same on both sides. */
export interface Imbalance {
  readonly what: string;
  readonly left: Decimal;
  readonly right: Decimal;
}

const negligible = '1e-20';

/** Atoms of each element, and the charge, of one side. */
function totals(side: readonly Term[]): ReadonlyMap<string, Decimal> {
  const total = new Map<string, Decimal>([['charge', zero]]);
  const add = (what: string, count: Decimal): void => {
    total.set(what, (total.get(what) ?? zero).plus(count));
  };
  for (const { formula, coefficient } of side) {
    add('charge', coefficient.times(formula.charge));
    for (const [symbol, { low }] of composition(formula)) add(symbol, low.times(coefficient));
  }
  return total;
}

/** Elements and charge that differ between the sides, with the coefficients as they stand. */
export const imbalances: (sides: Sides) => readonly Imbalance[] = onceFor(({ reactants, products }: Sides) => {
  const [left, right] = [totals(reactants), totals(products)];
  return [...new Set([...left.keys(), ...right.keys()])]
    .map((what) => ({ what, left: left.get(what) ?? zero, right: right.get(what) ?? zero }))
    .filter((off) => off.left.minus(off.right).abs().gte(negligible));
});

function offBy({ what, left, right }: Imbalance): string {
  const signed = (value: Decimal): string =>
    what === 'charge' && value.gt(0) ? `+${value}` : value.toString().replace('-', '−');
  const element = elementName(what);
  const name = what === 'charge' ? 'The charge' : `${element[0]!.toUpperCase()}${element.slice(1)} (${what})`;
  return `${name} is off by ${left.minus(right).abs()}: ${signed(left)} on the left, ${signed(right)} on the right.`;
}

/**
 * The imbalance in words: which element is off by how much.
 * @example imbalanceSentence(imbalances(parseEquation('H2 + O2 -> H2O').value))
 *   // 'Oxygen (O) is off by 1: 2 on the left, 1 on the right.'
 */
export const imbalanceSentence = (off: readonly Imbalance[]): string => off.map(offBy).join(' ');

const printSide = (side: readonly Term[]): string =>
  side.map(({ coefficient, label }) => (coefficient.eq(1) ? label : `${coefficient} ${label}`)).join(' + ');

/** An equation as text. @example printEquation(parseEquation('2H2+O2->2H2O').value) // '2 H2 + O2 -> 2 H2O' */
export const printEquation = ({ reactants, products }: Sides): string =>
  `${printSide(reactants)} -> ${printSide(products)}`;
