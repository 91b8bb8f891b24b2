// Names where formulae should stand: what they would be written as. Loaded only when a formula could not be read.
import type { Fault } from '../outcome.js';
import { formulaInAnyCase } from '../reagents/formulae-in-any-case.js';
import { materialNamed, nameOfFormula } from '../reagents/index.js';
import { parseFormula } from '../chemistry/formula/index.js';
import { commasRead, parseQuantity } from '../chemistry/quantity/index.js';

/** `CuSO4 5 aq`, `CuSO4·5aq`: water as old books have it. */
const oldWater = /^(.+?)[\s·.*+]+(\d+(?:\.\d+)?)\s*aq\.?$/i;

/** A formula for a text that is none: of a name, or of letters in one case; undefined where nothing is known. */
function formulaFor(written: string): string | undefined {
  const text = written.trim();
  const [, salt, water] = oldWater.exec(text) ?? [];
  if (salt !== undefined && parseFormula(salt).ok) return `${salt}·${water}H2O`;
  const named = materialNamed(text);
  return (named?.formula ?? formulaInAnyCase(text))?.replace(/\.(?=\d*[A-Z])/g, '·');
}

/** Of `cuso4.5h2o` and `CuSO4·5H2O` the same: it is no name that has the letters of its formula. */
const lettersOf = (text: string): string =>
  text
    .replace(/[^A-Za-z0-9]/g, '')
    .toLowerCase()
    .replaceAll('0', 'o');

const shown = (formula: string): string => {
  const name = nameOfFormula(formula);
  return name === undefined ? formula : `${formula} (${name})`;
};

const amountBehind = /^([^\s,]+)[\s,]+([\d.,'’]+\s*\p{L}{1,4})$/u;
const amounts: ReadonlySet<string> = new Set(['mass', 'volume', 'amount']);

/** A formula with an amount behind it: what the amount is, or both ways to read it, and where amounts are reckoned. */
function faultOfAmount(written: string): Fault | undefined {
  const [, formula, amount] = amountBehind.exec(written.trim()) ?? [];
  if (formula === undefined || amount === undefined || !parseFormula(formula).ok) return undefined;
  const read = parseQuantity(commasRead(amount) ?? amount);
  if (read.ok ? !amounts.has(read.value.dimension) : read.fault.code !== 'comma') return undefined;
  const unclear = read.ok ? '' : ` ${read.fault.message}`;
  return {
    code: 'amount',
    column: written.indexOf(amount) + 1,
    message: `${amount} is an amount, and a formula stands here alone.${unclear}`,
    cure: `Write ${formula}. What an amount of it holds is reckoned by masstone weigh.`,
  };
}

/** The fault of a text that is no formula, with what it is likely written for. */
export function faultOfName(fault: Fault, written: string): Fault {
  const ofAmount = faultOfAmount(written);
  if (ofAmount) return ofAmount;
  const meant = formulaFor(written);
  if (meant === undefined) return fault;
  const { expected: _, ...rest } = fault;
  const isName = materialNamed(written.trim()) !== undefined && lettersOf(written) !== lettersOf(meant);
  return {
    ...rest,
    ...(isName && { message: `${written.trim()} is a name, and no formula.` }),
    cure: `Write ${isName ? shown(meant) : meant}, if that is meant.`,
  };
}

/** The fault of an equation in words, with the equation in formulae where every word is known. */
export function faultOfEquationInWords(fault: Fault, written: string): Fault {
  const arrow = /->|→|=>|=|⇌/.exec(written)?.[0];
  if (arrow === undefined) return fault;
  const sides = written.split(arrow).map((side) => side.split(/\s\+\s/).map((term) => term.trim()));
  const isNamed = sides.flat().some((term) => !parseFormula(term).ok);
  const meant = sides.map((terms) => terms.map((term) => (parseFormula(term).ok ? term : formulaFor(term))));
  if (sides.length !== 2 || !isNamed || meant.flat().includes(undefined)) return fault;
  const { expected: _, ...rest } = fault;
  return {
    ...rest,
    message: 'There are names in the equation, where formulae should stand.',
    cure: `Write ${meant.map((terms) => terms.join(' + ')).join(' -> ')}, if that is meant.`,
  };
}
