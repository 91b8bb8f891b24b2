// Balancing: coefficients as the exact null space of the matrix of atoms and charge, in whole numbers throughout.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import {
  imbalances,
  parseEquation,
  parseWithGluedCoefficients,
  printEquation,
  type Equation,
  type Term,
} from './equation.js';
import { exact } from './exact.js';
import { composition } from './formula/index.js';
import { speciesKey } from './ions.js';

export interface Balanced {
  readonly equation: Equation;
  /** `2 H2 + O2 -> 2 H2O`, smallest whole coefficients. */
  readonly text: string;
}

const divisor = (a: bigint, b: bigint): bigint => {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
};
const simplest = (row: readonly bigint[]): bigint[] => {
  const common = row.reduce(divisor, 0n);
  return common > 1n ? row.map((value) => value / common) : [...row];
};

/**
 * Whole-number basis of the null space, by fraction-free elimination; each vector in lowest terms.
 * @example nullSpace([[2n, 0n, -2n], [0n, 2n, -1n]]) // [[2n, 1n, 2n]]
 */
export function nullSpace(matrix: readonly (readonly bigint[])[]): bigint[][] {
  const width = matrix[0]?.length ?? 0;
  let rows = matrix.map(simplest);
  const pivots: number[] = [];
  for (let column = 0; column < width && pivots.length < rows.length; column += 1) {
    const rank = pivots.length;
    const at = rows.findIndex((row, index) => index >= rank && row[column] !== 0n);
    if (at < 0) continue;
    [rows[rank], rows[at]] = [rows[at]!, rows[rank]!];
    const pivot = rows[rank]!;
    rows = rows.map((row, index) =>
      index === rank || row[column] === 0n
        ? row
        : simplest(row.map((value, place) => value * pivot[column]! - pivot[place]! * row[column]!)),
    );
    pivots.push(column);
  }
  const basis: bigint[][] = [];
  for (let free = 0; free < width; free += 1) {
    if (pivots.includes(free)) continue;
    const scale = pivots.reduce((product, column, index) => {
      const lead = rows[index]![column]!;
      return (product / divisor(product, lead)) * (lead < 0n ? -lead : lead);
    }, 1n);
    const vector = new Array<bigint>(width).fill(0n);
    vector[free] = scale;
    pivots.forEach((column, index) => {
      vector[column] = (-rows[index]![free]! * scale) / rows[index]![column]!;
    });
    basis.push(simplest(vector));
  }
  return basis;
}

/** Rows: elements and charge; columns: species; products negative. Rows are cleared of fractions, which leaves the null space as it is. */
function conservation(species: readonly Term[], reactants: number): bigint[][] {
  const compositions = species.map(({ formula }) => composition(formula));
  const symbols = [...new Set(compositions.flatMap((atoms) => [...atoms.keys()]))];
  const rows = symbols.map((symbol) => compositions.map((atoms) => atoms.get(symbol)?.low ?? exact(0)));
  rows.push(species.map(({ formula }) => exact(formula.charge)));
  return rows.map((row) => {
    const parts = row.map((value): [bigint, bigint] =>
      value.isInteger()
        ? [BigInt(value.toFixed(0)), 1n]
        : (value.toFraction(1_000_000).map((part) => BigInt(part.toFixed(0))) as [bigint, bigint]),
    );
    const common = parts.reduce((product, [, below]) => (product / divisor(product, below)) * below, 1n);
    return parts.map(([above, below], index) => (index < reactants ? 1n : -1n) * above * (common / below));
  });
}

const listed = (labels: readonly string[]): string =>
  labels.length < 2 ? labels.join('') : `${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`;

/** Merges a substance that is written twice on one side. */
function merged(side: readonly Term[]): Term[] {
  const seen = new Map<string, Term>();
  for (const term of side) {
    const name = `${term.label} ${speciesKey(term.formula)}`;
    const before = seen.get(name);
    seen.set(name, before ? { ...before, coefficient: before.coefficient.plus(term.coefficient), given: true } : term);
  }
  return [...seen.values()];
}

/** An all-positive combination of two basis vectors, with small numbers, where the search finds one. */
function positiveExamples(basis: readonly (readonly bigint[])[]): bigint[][] {
  if (basis.length !== 2) return [];
  const found: bigint[][] = [];
  for (let a = -8n; a <= 8n; a += 1n) {
    for (let b = -8n; b <= 8n; b += 1n) {
      const vector = basis[0]!.map((value, index) => a * value + b * basis[1]![index]!);
      if (vector.every((value) => value > 0n)) found.push(simplest(vector));
    }
  }
  const weight = (vector: readonly bigint[]): number => Number(vector.reduce((sum, value) => sum + value, 0n));
  const distinct = [...new Map(found.map((vector) => [vector.join(' '), vector])).values()];
  return distinct.sort((x, y) => weight(x) - weight(y)).slice(0, 2);
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

function withCoefficients(
  equation: Equation,
  reactants: readonly Term[],
  products: readonly Term[],
  vector: readonly bigint[],
): Equation {
  const put = (side: readonly Term[], from: number): Term[] =>
    side
      .map((term, index) => ({ ...term, coefficient: exact(vector[from + index]!.toString()), given: true }))
      .filter(({ coefficient }) => !coefficient.isZero());
  return { ...equation, reactants: put(reactants, 0), products: put(products, reactants.length) };
}

function solve(equation: Equation): Outcome<Balanced> {
  const reactants = merged(equation.reactants);
  const products = merged(equation.products);
  const species = [...reactants, ...products];
  const basis = nullSpace(conservation(species, reactants.length));
  const none = (message: string, cure: string, extra: Partial<Fault> = {}): Outcome<never> =>
    bad({ code: 'no-solution', message, cure, ...extra });
  if (basis.length === 0) {
    const left = new Set(reactants.flatMap(({ formula }) => [...composition(formula).keys()]));
    const right = new Set(products.flatMap(({ formula }) => [...composition(formula).keys()]));
    const lost = [...left].filter((symbol) => !right.has(symbol));
    const gained = [...right].filter((symbol) => !left.has(symbol));
    const why =
      lost.length > 0
        ? ` No product holds ${listed(lost)}.`
        : gained.length > 0
          ? ` No reactant holds ${listed(gained)}.`
          : '';
    return none(
      `No coefficients balance atoms and charge here.${why}`,
      'Add the substance that is missing, or correct a formula.',
    );
  }
  if (basis.length === 1) {
    let vector = basis[0]!;
    if (vector.filter((value) => value < 0n).length > vector.filter((value) => value > 0n).length)
      vector = vector.map((value) => -value);
    const idle = species.filter((_, index) => vector[index] === 0n).map(({ label }) => label);
    const wrong = species.filter((_, index) => vector[index]! < 0n).map(({ label }) => label);
    if (wrong.length > 0)
      return none(
        `The equation balances only with ${listed(wrong)} on the other side.`,
        `Move ${listed(wrong)} to the other side of the arrow, if that is meant.`,
      );
    if (idle.length > 0) {
      return none(
        `The equation balances only if ${listed(idle)} ${idle.length > 1 ? 'take' : 'takes'} no part: ${printEquation(withCoefficients(equation, reactants, products, vector))}.`,
        `Leave ${listed(idle)} out, or add what else ${idle.length > 1 ? 'they become' : 'it becomes or comes from'}.`,
      );
    }
    const balanced = withCoefficients(equation, reactants, products, vector);
    return good({ equation: balanced, text: printEquation(balanced) });
  }
  const idle = species.filter((_, index) => basis.every((vector) => vector[index] === 0n)).map(({ label }) => label);
  if (idle.length > 0)
    return none(
      `${listed(idle)} cannot take part in any balanced form of this equation.`,
      `Leave ${listed(idle)} out, or add what else ${idle.length > 1 ? 'they become' : 'it becomes or comes from'}.`,
    );
  if (basis.length === 2 && !canBePositive(basis))
    return none(
      'However it is combined, some substance would have to stand on the other side of the arrow.',
      'Correct the sides, or add the substance that is missing.',
    );
  const both = reactants
    .filter(({ formula }) => products.some((product) => speciesKey(product.formula) === speciesKey(formula)))
    .map(({ label }) => label);
  const examples = positiveExamples(basis).map((vector) =>
    printEquation(withCoefficients(equation, reactants, products, vector)),
  );
  return bad({
    code: 'underdetermined',
    message: `There are ${basis.length} independent ways to balance this${both.length > 0 ? ` (${listed(both)} ${both.length > 1 ? 'stand' : 'stands'} on both sides)` : ''}${examples.length > 0 ? `, for example ${examples.join('; ')}` : ''}.`,
    expected: 'an equation with one solution',
    cure: 'Split it into separate reactions, or write the coefficients that are meant.',
  });
}

/**
 * Balances an equation afresh, whatever coefficients it has: smallest whole coefficients.
 * Errors: `no-solution`, `underdetermined` with the number of independent solutions, and those of `parseEquation` (with a column).
 * @example balance('Fe + O2 -> Fe2O3') // text '4 Fe + 3 O2 -> 2 Fe2O3'
 */
export function balance(text: string): Outcome<Balanced> {
  const parsed = parseEquation(text);
  if (!parsed.ok) return parsed;
  const outcome = solve(parsed.value);
  if (outcome.ok) return outcome;
  const glued = parseWithGluedCoefficients(text);
  if (glued.ok) {
    const again = solve(glued.value);
    if (again.ok) return again;
  }
  return outcome;
}

/** The equation as written if it balances with its coefficients; otherwise balanced afresh, with what was off. */
export function balancedOrAfresh(
  equation: Equation,
): Outcome<{ readonly equation: Equation; readonly afresh: boolean }> {
  if (imbalances(equation).length === 0) return good({ equation, afresh: false });
  const outcome = solve(equation);
  return outcome.ok ? good({ equation: outcome.value.equation, afresh: true }) : outcome;
}
