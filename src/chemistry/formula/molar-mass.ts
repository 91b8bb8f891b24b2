// What a formula weighs: molar mass with its uncertainty, its range where something is left open, and shares by mass.
import { onceFor } from '../../once.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { elements, type Element } from '../atomic-weights.js';
import { UncertaintyDecimal, one, zero, type Decimal } from '../exact.js';
import {
  plus,
  rectangular,
  scaled,
  standardUncertainty,
  withoutUncertainty,
  withUncertainty,
  type UncertainDecimal,
} from '../uncertainty.js';
import { composition, type GivenCounts } from './composition.js';
import { isElectron, type Count, type Formula, type FormulaPart } from './model.js';
import { endForms, letterEnds, letterRanges, openProportions, withCounts } from './open.js';
import { printFormula } from './print.js';

/** A molar mass in g/mol: one value with its standard uncertainty, or the ends of a range. */
export interface MolarMass {
  readonly low: Decimal;
  readonly high: Decimal;
  /**
   * Middle of the range, with the contributions of the atomic weights (inputs `Ar:Cu`) and of the range (`range:…`).
   */
  readonly middle: UncertainDecimal;
  /** Standard uncertainty (k = 1). */
  readonly uncertainty: Decimal;
  readonly ranged: boolean;
}

export interface MolarMassChoice {
  readonly given?: GivenCounts;
  /** `abridged` (default) or the full 2021 values, conventional for the elements whose weight is an interval. */
  readonly weights?: Weights;
}
type Weights = 'abridged' | 'standard';

/** Codes of what keeps a molar mass from being told; each is a rule of the proof. */
export type MolarMassFaultCode = 'no-standard-weight' | 'unknown-count' | 'zero-count';
export type MolarMassFault = Fault<MolarMassFaultCode>;

const weighedOnce = onceFor((formula: Formula) => weigh(formula, {}));

/**
 * Molar mass in g/mol with its standard uncertainty: M = Σ n·Ar; n atoms of one element are fully correlated,
 * elements are independent; the stated ± of an abridged weight is read as a rectangle (u = U/√3). A range of counts, an
 * open proportion and a letter that the formula bounds (`CdS1-xSex`) give a range of masses.
 * Errors: `unknown-count` where nothing bounds a letter (see `molarMassBounds`), `no-standard-weight` for technetium
 * and the like, `zero-count` where counts that were given leave nothing.
 * Source: Prohaska et al., Pure Appl. Chem. 94 (2022) 573.
 * @example molarMass(f) // value.low 249.677 for CuSO4·5H2O
 */
export function molarMass(formula: Formula, choice: MolarMassChoice = {}): Outcome<MolarMass, MolarMassFaultCode> {
  return choice.given || choice.weights === 'standard' ? weigh(formula, choice) : weighedOnce(formula);
}

const weightOf = (element: Element, weights: Weights): Decimal | undefined =>
  weights === 'abridged' ? element.weight : element.standardWeight;

function weigh(
  formula: Formula,
  { given, weights = 'abridged' }: MolarMassChoice,
): Outcome<MolarMass, MolarMassFaultCode> {
  if (isElectron(formula)) return good(certainMass(zero));
  const filled = given ? withCounts(formula, given) : formula;
  const fault = unweighable(filled, weights) ?? unboundedLetter(filled, weights);
  if (fault) return bad(fault);
  const { low, high } = massEnds(filled, weights);
  if (low.lte(0)) return bad(weighsNothing(formula));
  const atomic = weightsOfMiddle(filled, weights);
  if (low.eq(high)) return good({ low, high, middle: atomic, uncertainty: standardUncertainty(atomic), ranged: false });
  const spread = withUncertainty(zero, rectangular(high.minus(low).div(2)), `range:${printFormula(filled)}`);
  const { contributions } = plus(atomic, spread);
  const value = low.plus(high).div(2);
  const middle = { value, approximateValue: value.toNumber(), contributions };
  return good({ low, high, middle, uncertainty: standardUncertainty(middle), ranged: true });
}

const certainMass = (value: Decimal): MolarMass => ({
  low: value,
  high: value,
  middle: withoutUncertainty(value),
  uncertainty: new UncertaintyDecimal(0),
  ranged: false,
});

const weighsNothing = (formula: Formula): MolarMassFault => ({
  code: 'zero-count',
  column: 1,
  message: `${formula.written} would weigh nothing.`,
  expected: 'counts above 0',
  cure: 'Give counts that leave something of each element.',
});

/** An element without standard weight, or one of which there is less than nothing. */
function unweighable(formula: Formula, weights: Weights): MolarMassFault | undefined {
  for (const [symbol, count] of composition(formula)) {
    const element = elements().get(symbol)!;
    if (!weightOf(element, weights))
      return {
        code: 'no-standard-weight',
        column: formula.written.indexOf(symbol) + 1,
        message: `${element.name[0]!.toUpperCase()}${element.name.slice(1)} (${symbol}) has no standard atomic weight.`,
        expected: 'elements with a standard atomic weight',
        cure: symbol === 'Ac' ? 'Write CH3COO, if acetate is meant.' : 'Leave the element out.',
      };
    if (count.low.isNegative() && !count.low.isZero())
      return {
        code: 'zero-count',
        column: Math.max(0, formula.written.indexOf(symbol)) + 1,
        message: `The counts given leave ${count.low} of ${element.name}.`,
        expected: 'counts above 0',
        cure: 'Give counts that leave something of each element.',
      };
  }
  return undefined;
}

/** Asks for the letters that nothing bounds; says the mass in their terms. */
function unboundedLetter(formula: Formula, weights: Weights): MolarMassFault | undefined {
  const letters = [...letterRanges(formula)].filter(([, { high }]) => high === undefined).map(([letter]) => letter);
  if (letters.length === 0) return undefined;
  let fixed = zero;
  const perUnknown: Record<string, Decimal> = {};
  for (const [symbol, { low, unknown }] of composition(formula)) {
    const weight = weightOf(elements().get(symbol)!, weights)!;
    fixed = fixed.plus(weight.times(low));
    for (const [name, factor] of Object.entries(unknown ?? {}))
      perUnknown[name] = (perUnknown[name] ?? zero).plus(factor.times(weight));
  }
  const linear = [fixed.isZero() ? '' : fixed.toString(), ...Object.entries(perUnknown).map(([x, f]) => `${f} ${x}`)]
    .filter((text) => text !== '')
    .join(' + ')
    .replaceAll('+ -', '- ');
  const open = letters.join(' and ');
  return {
    code: 'unknown-count',
    column: Math.max(0, formula.written.indexOf(letters[0]!)) + 1,
    message: `The molar mass of ${formula.written} depends on ${open}: ${linear} g/mol.`,
    expected: `a value for ${open}`,
    cure: `Write a number in the place of ${open}.`,
  };
}

interface Ends {
  readonly low: Decimal;
  readonly high: Decimal;
}
const lower = (a: Decimal, b: Decimal): Decimal => (b.lt(a) ? b : a);
const higher = (a: Decimal, b: Decimal): Decimal => (b.gt(a) ? b : a);
const hull = (all: readonly Ends[]): Ends =>
  all.reduce((a, b) => ({ low: lower(a.low, b.low), high: higher(a.high, b.high) }));

/** Lightest and heaviest, in each shared place as in every count and letter. */
function massEnds(formula: Formula, weights: Weights): Ends {
  const closed = letterRanges(formula).size === 0;
  return closed
    ? partsEnds(formula.parts, weights)
    : hull(letterEnds(formula).map((given) => partsEnds(withCounts(formula, given).parts, weights)));
}

const nothing: Ends = { low: zero, high: zero };
const sumOf = (all: readonly Ends[]): Ends =>
  all.reduce((a, b) => ({ low: a.low.plus(b.low), high: a.high.plus(b.high) }), nothing);
const timesOver = (ends: Ends, count: Count): Ends => ({
  low: ends.low.times(count.low),
  high: ends.high.times(count.high),
});

const partsEnds = (parts: readonly FormulaPart[], weights: Weights): Ends =>
  sumOf(parts.map((part) => partEnds(part, weights)));

const partEnds = ({ multiplier, nodes }: FormulaPart, weights: Weights): Ends =>
  timesOver(
    sumOf(
      nodes.map((node) => {
        if (node.kind === 'group')
          return timesOver(
            node.alternatives
              ? hull(node.parts.map((part) => partEnds(part, weights)))
              : partsEnds(node.parts, weights),
            node.count,
          );
        const weight = weightOf(elements().get(node.symbol)!, weights)!;
        return timesOver({ low: weight, high: weight }, node.count);
      }),
    ),
    multiplier,
  );

/** Σ n·Ar at the middle of every range, with what the atomic weights contribute to its uncertainty. */
function weightsOfMiddle(formula: Formula, weights: Weights): UncertainDecimal {
  let total = withoutUncertainty(0);
  for (const [symbol, { low, high }] of middleComposition(formula)) {
    const element = elements().get(symbol)!;
    const uncertainty = weights === 'abridged' ? rectangular(element.halfWidth!) : element.standardWeightUncertainty!;
    const weight = withUncertainty(weightOf(element, weights)!, uncertainty, `Ar:${symbol}`);
    total = plus(total, scaled(weight, low.plus(high).div(2)));
  }
  return total;
}

function middleComposition(formula: Formula): ReadonlyMap<string, Count> {
  const ranges = letterRanges(formula);
  if (ranges.size === 0) return composition(formula);
  const middles = [...ranges].map(([letter, { low, high }]) => [letter, low.plus(high ?? low).div(2)] as const);
  return composition(formula, Object.fromEntries(middles));
}

/** What is known of a molar mass, in g/mol. */
export interface MolarMassBounds {
  /** The least it can be: of a hydrate of unknown water, the dry salt. */
  readonly low: Decimal;
  /** Absent where nothing bounds it. */
  readonly high?: Decimal;
  /** Asks for what is left open, with its column; absent where nothing is. */
  readonly asks?: Fault;
}

/**
 * Between which molar masses a substance lies, whatever its formula leaves open.
 * Errors: `no-standard-weight`, `zero-count`.
 * @example molarMassBounds(parse('CuSO4·xH2O')) // { low: 159.602, asks: … }
 */
export const molarMassBounds = (formula: Formula, given?: GivenCounts): Outcome<MolarMassBounds> =>
  boundsOf(given ? withCounts(formula, given) : formula);

const boundsOf = onceFor((filled: Formula): Outcome<MolarMassBounds> => {
  const mass = molarMass(filled);
  const asks = openQuestion(filled);
  if (mass.ok) return good({ low: mass.value.low, high: mass.value.high, ...(asks && { asks }) });
  if (mass.fault.code !== 'unknown-count') return mass;
  return good({ low: massEnds(filled, 'abridged').low, asks: mass.fault });
});

/** Asks for the first thing that makes a range of a mass: a letter or a proportion that is still open. */
function openQuestion(formula: Formula): Fault | undefined {
  const stillOpen = new Set([
    ...(letterRanges(formula).size > 0 ? ['unknown-count'] : []),
    ...(openProportions(formula.parts).length > 0 ? ['open-proportion'] : []),
  ]);
  return formula.doubts.find(({ code }) => stillOpen.has(code));
}

const sharesOf = (formula: Formula): ReadonlyMap<string, Decimal> => {
  const atoms = [...composition(formula)].map(
    ([symbol, { low, high }]) => [symbol, elements().get(symbol)!.weight!.times(low.plus(high)).div(2)] as const,
  );
  const mass = atoms.reduce((sum, [, part]) => sum.plus(part), zero);
  return new Map(atoms.map(([symbol, part]) => [symbol, part.div(mass)]));
};

/**
 * Share of each element by mass, 0 to 1, at the middle of a range.
 * Errors: those of `molarMass`, and `unknown-count`, `open-proportion` where something is left open (see
 * `massFractionRanges`).
 */
export function massFractions(formula: Formula, choice: MolarMassChoice = {}): Outcome<ReadonlyMap<string, Decimal>> {
  const filled = choice.given ? withCounts(formula, choice.given) : formula;
  const mass = molarMass(filled);
  if (!mass.ok) return mass;
  const asks = openQuestion(filled);
  return asks ? bad(asks) : good(sharesOf(filled));
}

/** A part of a whole; all of it where there is nothing else. */
const partOf = (part: Decimal, others: Decimal): Decimal => (others.isZero() ? one : part.div(part.plus(others)));

/** The least and the most of each share where counts have ranges: one element at one end, all others at the other. */
function shareEndsOf(formula: Formula): ReadonlyMap<string, Ends> {
  const atoms = [...composition(formula)].map(([symbol, { low, high }]) => {
    const weight = elements().get(symbol)!.weight!;
    return { symbol, low: weight.times(low), high: weight.times(high) };
  });
  const [least, most] = [
    atoms.reduce((sum, { low }) => sum.plus(low), zero),
    atoms.reduce((sum, { high }) => sum.plus(high), zero),
  ];
  return new Map(
    atoms.map(({ symbol, low, high }) => [
      symbol,
      { low: partOf(low, most.minus(high)), high: partOf(high, least.minus(low)) },
    ]),
  );
}

/**
 * Lowest and highest share of each element by mass, at the ends of ranges and of what a formula leaves open; an
 * unknown that nothing bounds (the water of a hydrate) is left out: the shares are then those of the rest.
 * Errors: `no-standard-weight`.
 * @example massFractionRanges(parse('(Zn,Mn)O')) // Zn 0 to 0.8034, Mn 0 to 0.7745, O 0.1966 to 0.2255
 */
export function massFractionRanges(formula: Formula): Outcome<ReadonlyMap<string, Ends>> {
  const fault = unweighable(formula, 'abridged');
  if (fault) return bad(fault);
  const forms = endForms(formula).map(shareEndsOf);
  const symbols = [...new Set(forms.flatMap((form) => [...form.keys()]))];
  return good(
    new Map(
      symbols.map((symbol) => {
        const nothing = { low: zero, high: zero };
        return [symbol, hull(forms.map((form) => form.get(symbol) ?? nothing))];
      }),
    ),
  );
}
