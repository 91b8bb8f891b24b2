// What a formula is made of: how many atoms of each element, with what is left open kept as unknowns and ranges.
import { onceFor } from '../../once.js';
import { isOne, one, zero, type Decimal } from '../exact.js';
import { single, type Composition, type Count, type Formula, type FormulaPart } from './model.js';

/** Values for unknown counts, each by its letter. */
export type GivenCounts = Readonly<Record<string, Decimal>>;

type Unknowns = Record<string, Decimal>;

const put = (unknowns: Unknowns, name: string, factor: Decimal): void => {
  unknowns[name] = (unknowns[name] ?? zero).plus(factor);
};
const withUnknowns = (low: Decimal, high: Decimal, unknowns: Unknowns): Count => ({
  low,
  high,
  ...(Object.keys(unknowns).length > 0 && { unknown: unknowns }),
});

/** Where a factor meets a range, the end that reaches further out is kept. */
const atEnd = (factor: Decimal, { low, high }: Count): Decimal => factor.times(factor.isNegative() ? low : high);

const isSingle = ({ low, high, unknown }: Count): boolean => !unknown && isOne(low) && isOne(high);

function product(a: Count, b: Count): Count {
  if (isSingle(a) && b.fraction === undefined) return b;
  if (!a.unknown && !b.unknown) return { low: a.low.times(b.low), high: a.high.times(b.high) };
  const unknowns: Unknowns = {};
  const ofA = Object.entries(a.unknown ?? {});
  const ofB = Object.entries(b.unknown ?? {});
  const keep = (letter: string, factor: Decimal): void => (factor.isZero() ? undefined : put(unknowns, letter, factor));
  for (const [letter, factor] of ofA) keep(letter, atEnd(factor, b));
  for (const [letter, factor] of ofB) keep(letter, atEnd(factor, a));
  for (const [letter, factor] of ofA)
    for (const [other, by] of ofB) put(unknowns, [letter, other].sort().join('·'), factor.times(by));
  return withUnknowns(a.low.times(b.low), a.high.times(b.high), unknowns);
}

function total(a: Count, b: Count): Count {
  const unknowns: Unknowns = { ...a.unknown };
  for (const [letter, factor] of Object.entries(b.unknown ?? {})) put(unknowns, letter, factor);
  return withUnknowns(a.low.plus(b.low), a.high.plus(b.high), unknowns);
}

/** Puts values in the place of unknown counts. */
export function substituted(count: Count, given: GivenCounts): Count {
  if (!count.unknown) return count;
  let { low, high } = count;
  const open: Unknowns = {};
  for (const [letter, factor] of Object.entries(count.unknown)) {
    const value = given[letter];
    if (value === undefined) open[letter] = factor;
    else {
      low = low.plus(factor.times(value));
      high = high.plus(factor.times(value));
    }
  }
  return withUnknowns(low, high, open);
}

/** Of one of several alternatives there may be none, or nothing else. */
const anyShare: Count = { low: zero, high: one };

function gather(parts: readonly FormulaPart[], factor: Count, into: Map<string, Count>, given: GivenCounts): void {
  for (const part of parts) {
    const times = product(factor, substituted(part.multiplier, given));
    for (const node of part.nodes) {
      const here = product(times, substituted(node.count, given));
      if (node.kind === 'group') gather(node.parts, node.alternatives ? product(here, anyShare) : here, into, given);
      else into.set(node.symbol, into.has(node.symbol) ? total(into.get(node.symbol)!, here) : here);
    }
  }
}

function countAtoms(formula: Formula, given: GivenCounts): Composition {
  const into = new Map<string, Count>();
  gather(formula.parts, single, into, given);
  return into;
}

const countedOnce = onceFor((formula: Formula) => countAtoms(formula, {}));

/**
 * How many atoms of each element. An element that shares a place in an open proportion has a range that begins at 0.
 * @param given values for unknown counts, `{ x: exact(5) }`
 * @example composition(parseFormula('CuSO4·5H2O').value).get('O')?.low.toString() // '9'
 */
export function composition(formula: Formula, given?: GivenCounts): Composition {
  return given ? countAtoms(formula, given) : countedOnce(formula);
}

/** Every count that is written in a stretch of a formula. */
export const writtenCounts = (parts: readonly FormulaPart[]): readonly Count[] =>
  parts.flatMap(({ multiplier, nodes }) => [
    multiplier,
    ...nodes.flatMap((node) => (node.kind === 'group' ? [node.count, ...writtenCounts(node.parts)] : [node.count])),
  ]);

/** Letters that stand for counts nobody has given. @example unknownCounts(f) // ['x'] for KFe[Fe(CN)6]·xH2O */
export const unknownCounts = (formula: Formula, given: GivenCounts = {}): readonly string[] => [
  ...new Set(
    writtenCounts(formula.parts)
      .flatMap(({ unknown }) => Object.keys(unknown ?? {}))
      .filter((letter) => given[letter] === undefined),
  ),
];
