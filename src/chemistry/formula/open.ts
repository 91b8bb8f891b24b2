// What a formula leaves open (letters for counts, shares of a place), and the definite formulae at the ends of it.
import { one, zero, type Decimal } from '../exact.js';
import { composition, substituted, unknownCounts, writtenCounts, type GivenCounts } from './composition.js';
import { single, type Count, type Formula, type FormulaNode, type FormulaPart, type Group } from './model.js';
import { onceFor } from '../../once.js';
import { partText } from './print.js';

const nodesOf = (parts: readonly FormulaPart[]): readonly FormulaNode[] =>
  parts.flatMap(({ nodes }) =>
    nodes.flatMap((node) => (node.kind === 'group' ? [node, ...nodesOf(node.parts)] : node)),
  );

const alternativeGroups = (parts: readonly FormulaPart[]): readonly Group[] =>
  nodesOf(parts).filter((node): node is Group => node.kind === 'group' && node.alternatives === true);

/**
 * Places that several elements share in proportions nobody has given.
 * @example openProportions(parseFormula('(Zn,Mn)O').value.parts) // ['(Zn,Mn)']
 */
export const openProportions = (parts: readonly FormulaPart[]): readonly string[] => [
  ...new Set(alternativeGroups(parts).map(placeName)),
];

/** A shared place without its count: `(Zn,Mn)` of (Zn,Mn)2O3. */
const placeName = (group: Group): string => partText([{ multiplier: single, nodes: [{ ...group, count: single }] }]);

/** Between which values a letter can lie; without `high` nothing in the formula bounds it. */
export interface LetterRange {
  readonly low: Decimal;
  readonly high?: Decimal;
}

const smaller = (a: Decimal | undefined, b: Decimal): Decimal => (a && a.lt(b) ? a : b);

/**
 * The range of each unknown letter: no count is below 0, so that x of CdS1-xSex lies between 0 and 1. A letter that
 * multiplies all there is (`(C6H10O5)n`) is at least 1.
 */
export const letterRanges = onceFor((formula: Formula): ReadonlyMap<string, LetterRange> => {
  const letters = unknownCounts(formula);
  if (letters.length === 0) return new Map();
  const highest = new Map<string, Decimal>();
  for (const { low, unknown } of writtenCounts(formula.parts))
    for (const [letter, factor] of Object.entries(unknown ?? {}))
      if (factor.isNegative()) highest.set(letter, smaller(highest.get(letter), low.div(factor.neg())));
  const withoutAny = withCounts(formula, Object.fromEntries(letters.map((letter) => [letter, zero])));
  const low = withoutAny.parts.length === 0 ? one : zero;
  return new Map(letters.map((letter) => [letter, { low, high: highest.get(letter) }]));
});

/** Letters that the formula keeps within a range, so that masses lie within one too. */
export const boundedLetters = (formula: Formula): readonly string[] =>
  [...letterRanges(formula)].flatMap(([letter, { high }]) => (high === undefined ? [] : [letter]));

/** The formula with values for its letters; what is there 0 times is left out. */
export function withCounts(formula: Formula, given: GivenCounts): Formula {
  const parts = (all: readonly FormulaPart[]): readonly FormulaPart[] =>
    all.flatMap((part): readonly FormulaPart[] => {
      const multiplier = substituted(part.multiplier, given);
      const nodes = part.nodes.flatMap(node);
      return isNothing(multiplier) || nodes.length === 0 ? [] : [{ multiplier, nodes }];
    });
  const node = (one: FormulaNode): readonly FormulaNode[] => {
    const count = substituted(one.count, given);
    if (isNothing(count)) return [];
    if (one.kind === 'atom') return [{ ...one, count }];
    const inside = parts(one.parts);
    return inside.length === 0 ? [] : [{ ...one, parts: inside, count }];
  };
  return { ...formula, parts: parts(formula.parts) };
}
const isNothing = ({ low, high, unknown }: Count): boolean => unknown === undefined && low.isZero() && high.isZero();

/**
 * Every choice of one value for each letter at an end of its range; a letter without upper end stays at its lower one.
 */
export function letterEnds(formula: Formula): readonly GivenCounts[] {
  let ends: GivenCounts[] = [{}];
  for (const [letter, { low, high }] of letterRanges(formula)) {
    const values = high === undefined || high.eq(low) ? [low] : [low, high];
    ends = ends.flatMap((end) => values.map((value) => ({ ...end, [letter]: value })));
  }
  const possible = ends.filter((end) =>
    [...composition(formula, end).values()].every(({ low, high }) => low.gte(0) && high.gte(0)),
  );
  return possible.length > 0 ? possible : ends.slice(0, 1);
}

/** The formula without what nothing bounds: the dry salt of a hydrate of unknown water, the unit of a polymer. */
export const withoutUnbounded = (formula: Formula): Formula =>
  withCounts(
    formula,
    Object.fromEntries(
      [...letterRanges(formula)].flatMap(([letter, { low, high }]) => (high === undefined ? [[letter, low]] : [])),
    ),
  );

/** The formula with one alternative chosen in each shared place, by the place's name. */
function withChoices(formula: Formula, choices: ReadonlyMap<string, number>): Formula {
  const parts = (all: readonly FormulaPart[]): readonly FormulaPart[] =>
    all.map((part) => ({ ...part, nodes: part.nodes.map(node) }));
  const node = (one: FormulaNode): FormulaNode => {
    if (one.kind === 'atom') return one;
    if (!one.alternatives) return { ...one, parts: parts(one.parts) };
    const { alternatives: _, ...group } = one;
    const chosen = parts([one.parts[choices.get(placeName(one)) ?? 0]!]);
    const [alone, more] = chosen[0]!.nodes;
    return alone && !more && alone.count === single && chosen[0]!.multiplier === single
      ? { ...alone, count: one.count }
      : { ...group, parts: chosen };
  };
  return { ...formula, parts: parts(formula.parts) };
}

const mostForms = 64;

type Choice = ReadonlyMap<string, number>;

/** Every combination of one alternative in each place. */
function everyChoice(places: ReadonlyMap<string, number>): readonly Choice[] {
  let choices: Choice[] = [new Map()];
  for (const [name, size] of places)
    choices = choices.flatMap((choice) =>
      Array.from({ length: size }, (_, index) => new Map([...choice, [name, index]])),
    );
  return choices;
}

/** The first alternative of every place, then the second of every one, and so on: each alternative occurs. */
function eachAlternativeOnce(places: ReadonlyMap<string, number>): readonly Choice[] {
  const most = Math.max(...places.values());
  return Array.from(
    { length: most },
    (_, index) => new Map([...places].map(([name, size]) => [name, Math.min(index, size - 1)])),
  );
}

/**
 * The definite formulae at the ends of what a formula leaves open: ZnO and MnO of (Zn,Mn)O, CdS and CdSe of CdS1-xSex,
 * the dry salt of a hydrate of unknown water. A formula that leaves nothing open is its own only end. Where places and
 * letters are many, not all combinations are given, but every alternative and every end of a letter occurs.
 */
export const endForms: (formula: Formula) => readonly Formula[] = onceFor((formula: Formula) => {
  const places = new Map(alternativeGroups(formula.parts).map((group) => [placeName(group), group.parts.length]));
  const letters = unknownCounts(formula).length > 0 ? letterEnds(formula) : undefined;
  if (places.size === 0) return letters?.map((given) => withCounts(formula, given)) ?? [formula];
  const filled = letters?.map((given) => withCounts(formula, given)) ?? [formula];
  const combinations = [...places.values()].reduce((product, size) => product * size, filled.length);
  if (combinations <= mostForms)
    return filled.flatMap((form) => everyChoice(places).map((choice) => withChoices(form, choice)));
  const [first, ...others] = filled;
  return [
    ...eachAlternativeOnce(places).map((choice) => withChoices(first!, choice)),
    ...others.map((form) => withChoices(form, new Map())),
  ];
});
