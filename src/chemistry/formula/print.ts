// From a formula back to text: its one plain spelling, and the Hill formula.
import type { Decimal } from '../exact.js';
import { composition } from './composition.js';
import { closingBracket, isElectron, type Count, type Formula, type FormulaNode, type FormulaPart } from './model.js';

const factorText = (factor: Decimal): string => {
  if (factor.eq(1)) return '';
  return factor.eq(-1) ? '-' : factor.toString();
};

/**
 * A count as it is printed: nothing for 1, `8-10`, `1-x`.
 * @example countText({ low: exact(8), high: exact(10) }) // '8-10'
 */
export function countText(count: Count): string {
  if (count.fraction) return count.fraction;
  const unknown = Object.entries(count.unknown ?? {});
  const fixed =
    count.low === count.high || count.low.eq(count.high) ? count.low.toString() : `${count.low}-${count.high}`;
  if (unknown.length === 0) return fixed === '1' ? '' : fixed;
  const terms = unknown.map(([letter, factor]) => `${factorText(factor)}${letter}`);
  const all = fixed === '0' ? terms : [fixed, ...terms];
  return all.map((term, index) => (index === 0 || term.startsWith('-') ? term : `+${term}`)).join('');
}

function nodeText(node: FormulaNode): string {
  const count = countText(node.count);
  if (node.kind === 'atom') return `${node.symbol}${count}`;
  const inside = partsText(node.parts, node.alternatives ? ',' : '·');
  return `${node.bracket}${inside}${closingBracket[node.bracket]}${count}`;
}

const partsText = (parts: readonly FormulaPart[], between: '·' | ','): string =>
  parts.map(({ multiplier, nodes }) => `${countText(multiplier)}${nodesText(nodes)}`).join(between);

/** Parts of an adduct in their plain spelling. */
export const partText = (parts: readonly FormulaPart[]): string => partsText(parts, '·');

/** A stretch of a formula in its plain spelling. */
export const nodesText = (nodes: readonly FormulaNode[]): string => nodes.map(nodeText).join('');

/** Charge as text: 2−3 is never written, `^2-`, `^+`. @example chargeText(-2) // '^2-' */
export function chargeText(charge: number): string {
  if (charge === 0) return '';
  const size = Math.abs(charge);
  return `^${size === 1 ? '' : size}${charge < 0 ? '-' : '+'}`;
}

/**
 * The formula in its one plain spelling: `·` for adducts, `^2-` for charges.
 * @example printFormula(parseFormula('CuSO4.5H2O').value) // 'CuSO4·5H2O'
 */
export const printFormula = (formula: Formula): string =>
  isElectron(formula) ? 'e^-' : `${partsText(formula.parts, '·')}${chargeText(formula.charge)}`;

/**
 * Hill order: carbon, hydrogen, then the alphabet; without carbon the alphabet alone.
 * @example hillFormula(parseFormula('CuSO4·5H2O').value) // 'CuH10O9S'
 */
export function hillFormula(formula: Formula, given: Readonly<Record<string, Decimal>> = {}): string {
  const atoms = composition(formula, given);
  const first = atoms.has('C') ? ['C', 'H'] : [];
  const rank = (symbol: string): string => (first.includes(symbol) ? `0${first.indexOf(symbol)}` : `1${symbol}`);
  return [...atoms]
    .sort(([a], [b]) => (rank(a) < rank(b) ? -1 : 1))
    .map(([symbol, count]) => `${symbol}${countText(count)}`)
    .join('');
}
