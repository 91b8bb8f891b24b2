// Balancing: coefficients as the exact null space of the matrix of atoms and charge.
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { exact, type Decimal } from '../exact.js';
import { composition } from '../formula/index.js';
import { speciesKey } from '../ions/index.js';
import { imbalances, printEquation, type Equation, type Sides, type Term } from './model.js';
import { greatestCommonDivisor, nullSpace, simplest } from './null-space.js';
import { parseEquation, parseWithGluedCoefficients } from './parse.js';

export interface Balanced {
  readonly equation: Equation;
  /** `2 H2 + O2 -> 2 H2O`, smallest whole coefficients. */
  readonly text: string;
}

const largestDenominator = 1_000_000;

/** A count as a whole number over another. */
const asFraction = (value: Decimal): readonly [bigint, bigint] => {
  const [above, below] = value.isInteger() ? [value, exact(1)] : value.toFraction(largestDenominator);
  return [BigInt(above!.toFixed(0)), BigInt(below!.toFixed(0))];
};

/**
 * Rows: elements and charge; columns: species; products negative. Rows are cleared of fractions, which leaves the null
 * space as it is.
 */
function conservation(species: readonly Term[], reactants: number): bigint[][] {
  const compositions = species.map(({ formula }) => composition(formula));
  const symbols = [...new Set(compositions.flatMap((atoms) => [...atoms.keys()]))];
  const ofElements = symbols.map((symbol) => compositions.map((atoms) => atoms.get(symbol)?.low ?? exact(0)));
  const ofCharge = species.map(({ formula }) => exact(formula.charge));
  return [...ofElements, ofCharge].map((row) => {
    const fractions = row.map(asFraction);
    const common = fractions.reduce((product, [, below]) => {
      return (product / greatestCommonDivisor(product, below)) * below;
    }, 1n);
    return fractions.map(([above, below], index) => (index < reactants ? 1n : -1n) * above * (common / below));
  });
}

const listed = (labels: readonly string[]): string =>
  labels.length < 2 ? labels.join('') : `${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`;

/** Each substance of a side once, where it is first written. */
function distinct(side: readonly Term[]): readonly Term[] {
  const keys = side.map((term) => `${term.label} ${speciesKey(term.formula)}`);
  return side.filter((_, index) => keys.indexOf(keys[index]!) === index);
}

/** What is balanced: every substance once, and the independent solutions. */
interface Problem {
  readonly equation: Equation;
  readonly reactants: readonly Term[];
  readonly products: readonly Term[];
  readonly species: readonly Term[];
  readonly basis: readonly (readonly bigint[])[];
}

function problemOf(equation: Equation): Problem {
  const reactants = distinct(equation.reactants);
  const products = distinct(equation.products);
  const species = [...reactants, ...products];
  return { equation, reactants, products, species, basis: nullSpace(conservation(species, reactants.length)) };
}

/**
 * The sides with these coefficients; what has a negative one moves to the end of the other side, what has none is left
 * out.
 */
function withCoefficients({ reactants, species }: Problem, vector: readonly bigint[]): Sides {
  const side = (isLeft: boolean): readonly Term[] => {
    const there = (term: number, value: bigint): boolean => value > 0n && term < reactants.length === isLeft;
    const moved = (term: number, value: bigint): boolean => value < 0n && term < reactants.length !== isLeft;
    return [there, moved].flatMap((belongs) =>
      species.flatMap((term, index) => {
        const value = vector[index]!;
        if (!belongs(index, value)) return [];
        return [{ ...term, coefficient: exact((value < 0n ? -value : value).toString()), given: true }];
      }),
    );
  };
  return { reactants: side(true), products: side(false) };
}

const noSolution = (message: string, cure: string, more: Partial<Fault> = {}): Outcome<never> =>
  bad({ code: 'no-solution', message, cure, ...more });

/** Nothing balances it; where an element stands on one side only, that is why. */
function refuseUnbalanceable({ reactants, products }: Problem): Outcome<never> {
  const elementsOf = (side: readonly Term[]): ReadonlySet<string> =>
    new Set(side.flatMap(({ formula }) => [...composition(formula).keys()]));
  const [left, right] = [elementsOf(reactants), elementsOf(products)];
  const lost = [...left].filter((symbol) => !right.has(symbol));
  const gained = [...right].filter((symbol) => !left.has(symbol));
  const whyGained = gained.length > 0 ? ` No reactant holds ${listed(gained)}.` : '';
  const why = lost.length > 0 ? ` No product holds ${listed(lost)}.` : whyGained;
  return noSolution(
    `No coefficients balance atoms and charge here.${why}`,
    'Add the substance that is missing, or correct a formula.',
  );
}

const leaveOut = (idle: readonly string[]): string =>
  `Leave ${listed(idle)} out, or add what else ${idle.length > 1 ? 'they become' : 'it becomes or comes from'}.`;

/** The one solution, if every substance takes part where it stands. */
function onlySolution(problem: Problem): Outcome<Balanced> {
  const { equation, species } = problem;
  const [found] = problem.basis;
  const negative = found!.filter((value) => value < 0n).length;
  const positive = found!.filter((value) => value > 0n).length;
  // As few as can be change sides; where it is as many either way, what was written first stays.
  const turned = negative > positive || (negative === positive && found![0]! < 0n);
  const vector = turned ? found!.map((value) => -value) : found!;
  const labels = (wanted: (value: bigint) => boolean): readonly string[] =>
    species.filter((_, index) => wanted(vector[index]!)).map(({ label }) => label);
  const idle = labels((value) => value === 0n);
  const wrong = labels((value) => value < 0n);
  const sides = withCoefficients(problem, vector);
  const text = printEquation(sides);
  if (wrong.length > 0)
    return noSolution(
      `The equation balances only with ${listed(wrong)} on the other side: ${text}.`,
      `Write ${text}, if that is meant.`,
      { correction: text },
    );
  if (idle.length > 0)
    return noSolution(
      `The equation balances only if ${listed(idle)} ${idle.length > 1 ? 'take' : 'takes'} no part: ${text}.`,
      leaveOut(idle),
    );
  return good({ equation: { ...equation, ...sides }, text });
}

/** An all-positive combination of two basis vectors, with small numbers, where the search finds one. */
function positiveExamples(basis: readonly (readonly bigint[])[]): readonly (readonly bigint[])[] {
  if (basis.length !== 2) return [];
  const found: bigint[][] = [];
  for (let a = -8n; a <= 8n; a += 1n) {
    for (let b = -8n; b <= 8n; b += 1n) {
      const vector = basis[0]!.map((value, index) => a * value + b * basis[1]![index]!);
      if (vector.every((value) => value > 0n)) found.push(simplest(vector));
    }
  }
  const weight = (vector: readonly bigint[]): number => Number(vector.reduce((sum, value) => sum + value, 0n));
  const different = [...new Map(found.map((vector) => [vector.join(' '), vector])).values()];
  return different.sort((x, y) => weight(x) - weight(y)).slice(0, 2);
}

/**
 * Of two basis vectors: whether some combination has every coefficient above 0. Each species bounds the plane of
 * combinations by a line; the open cone between them, if there is one, holds the sum of its two edges.
 */
function canBePositive([first, second]: readonly (readonly bigint[])[]): boolean {
  const bounds = first!.map((a, index): readonly [bigint, bigint] => [a, second![index]!]);
  const inside = ([x, y]: readonly [bigint, bigint]): boolean => bounds.every(([a, b]) => a * x + b * y > 0n);
  const edges = bounds.flatMap(([a, b]): (readonly [bigint, bigint])[] => [
    [-b, a],
    [b, -a],
  ]);
  return (
    bounds.some(inside) ||
    edges.some(([x, y], index) => edges.slice(index + 1).some(([u, v]) => inside([x + u, y + v])))
  );
}

/** Several independent solutions: which substance can take no part in any, or that the choice is the maker's. */
function severalSolutions(problem: Problem): Outcome<never> {
  const { basis, species, reactants, products } = problem;
  const idle = species.filter((_, index) => basis.every((vector) => vector[index] === 0n)).map(({ label }) => label);
  if (idle.length > 0)
    return noSolution(`${listed(idle)} cannot take part in any balanced form of this equation.`, leaveOut(idle));
  if (basis.length === 2 && !canBePositive(basis))
    return noSolution(
      'However it is combined, some substance would have to stand on the other side of the arrow.',
      'Correct the sides, or add the substance that is missing.',
    );
  const both = reactants
    .filter(({ formula }) => products.some((product) => speciesKey(product.formula) === speciesKey(formula)))
    .map(({ label }) => label);
  const examples = positiveExamples(basis).map((vector) => printEquation(withCoefficients(problem, vector)));
  const onBoth = both.length > 0 ? ` (${listed(both)} ${both.length > 1 ? 'stand' : 'stands'} on both sides)` : '';
  const forExample = examples.length > 0 ? `, for example ${examples.join('; ')}` : '';
  return bad({
    code: 'underdetermined',
    message: `There are ${basis.length} independent ways to balance this${onBoth}${forExample}.`,
    expected: 'an equation with one solution',
    cure: 'Split it into separate reactions, or write the coefficients that are meant.',
  });
}

function solve(equation: Equation): Outcome<Balanced> {
  const problem = problemOf(equation);
  if (problem.basis.length === 0) return refuseUnbalanceable(problem);
  return problem.basis.length === 1 ? onlySolution(problem) : severalSolutions(problem);
}

/**
 * Balances an equation afresh, whatever coefficients it has: smallest whole coefficients.
 * Errors: `no-solution` (with the corrected equation where a substance stands on the wrong side), `underdetermined`
 * with the number of independent solutions, and those of `parseEquation` (with a column).
 * @example balance('Fe + O2 -> Fe2O3') // text '4 Fe + 3 O2 -> 2 Fe2O3'
 */
export function balance(text: string): Outcome<Balanced> {
  const parsed = parseEquation(text);
  if (!parsed.ok) return parsed;
  const outcome = solve(parsed.value);
  if (outcome.ok) return outcome;
  const glued = parseWithGluedCoefficients(text);
  const again = glued.ok ? solve(glued.value) : undefined;
  return again?.ok ? again : outcome;
}

/** The equation as written if it balances with its coefficients; otherwise balanced afresh, with what was off. */
export function balancedOrAfresh(
  equation: Equation,
): Outcome<{ readonly equation: Equation; readonly afresh: boolean }> {
  if (imbalances(equation).length === 0) return good({ equation, afresh: false });
  const outcome = solve(equation);
  return outcome.ok ? good({ equation: outcome.value.equation, afresh: true }) : outcome;
}
