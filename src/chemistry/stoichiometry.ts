// What a reaction makes of what was taken: limiting reagent, what is left, yield, atom economy, where the metals go.
import { exact, zero, type Decimal } from './exact.js';
import type { Equation, Term } from './equation.js';
import { composition, molarMass, parseFormula, type Formula } from './formula.js';
import { speciesKey, suppliedBy } from './ions.js';
import { expandedUncertainty, minus, over, plus, scaled, times, without, type Measured } from './measured.js';
import type { Taken } from './taken.js';

/** One reactant of the equation with what supplies it. */
export interface Supply {
  readonly term: Term;
  /** Ids of what supplies it. */
  readonly from: readonly string[];
  /** mol in all; absent where it cannot be told. */
  readonly substance?: Measured;
  /** Supplied as `excess`, or an electron, or assumed to be there (water, oxygen of the air), which nobody weighs out. */
  readonly ample: boolean;
  /** substance / coefficient, mol of reaction. */
  readonly extent?: Measured;
  readonly limiting: boolean;
  /** extent / extent of the limiting reactant: 1 is just enough. */
  readonly equivalents?: Measured;
  /** mol left when the limiting reactant is used up. */
  readonly left?: Measured;
}

export interface Outlook {
  readonly supplies: readonly Supply[];
  /** Reactants that no reagent supplies and that are taken to be ample. */
  readonly assumed: readonly Term[];
  /** Reactants that nothing supplies. */
  readonly unsupplied: readonly Term[];
  /** Reactants whose amount cannot be told. */
  readonly unknown: readonly Term[];
  /** Ids that supply no reactant. */
  readonly idle: readonly string[];
  readonly limiting?: Supply;
  /** Reactants so close to the limiting one that the readings cannot tell which limits (within U, k = 2). */
  readonly tooClose: readonly Supply[];
  /** mol of reaction. */
  readonly extent?: Measured;
}

/** Water is there in every solution, oxygen in the air over every open vessel. */
const isAmbient = ({ formula }: Term): boolean => {
  const atoms = [...composition(formula)]
    .map(([symbol, { low }]) => `${symbol}${low}`)
    .sort()
    .join('');
  return formula.charge === 0 && (atoms === 'H2O1' || atoms === 'O2');
};

/**
 * Finds the limiting reactant: the smallest amount divided by its coefficient.
 * @param equation balanced, with its coefficients
 * @param absent `ambient`: only water and oxygen may be absent from the reagents; `all`: whatever no reagent supplies is taken to be ample
 * @example react(equation, [taken]).limiting?.term.label
 */
export function react(equation: Equation, takens: readonly Taken[], absent: 'ambient' | 'all' = 'ambient'): Outlook {
  const used = new Set<string>();
  const unsupplied: Term[] = [];
  const assumed: Term[] = [];
  const unknown: Term[] = [];
  const supplies = equation.reactants.map((term): Omit<Supply, 'limiting'> => {
    const from: string[] = [];
    let substance: Measured | undefined;
    let ample = false;
    let open = false;
    for (const taken of takens) {
      if (!taken.formula) continue;
      const each = suppliedBy(taken.formula, term.formula);
      if (each.isZero()) continue;
      from.push(taken.id);
      used.add(taken.id);
      if (taken.excess) ample = true;
      else if (!taken.substance) open = true;
      else substance = substance ? plus(substance, scaled(taken.substance, each)) : scaled(taken.substance, each);
    }
    if (term.formula.parts.length === 0) ample = true;
    else if (from.length === 0 && (isAmbient(term) || absent === 'all')) {
      ample = true;
      assumed.push(term);
    }
    if (ample) return { term, from, substance, ample };
    if (from.length === 0) unsupplied.push(term);
    else if (open) unknown.push(term);
    if (open || !substance) return { term, from, ample };
    return { term, from, substance, ample, extent: scaled(substance, exact(1).div(term.coefficient)) };
  });
  const idle = takens.filter(({ id, formula }) => formula && !used.has(id)).map(({ id }) => id);
  const ranked = supplies.filter((supply) => supply.extent).sort((a, b) => a.extent!.value.cmp(b.extent!.value));
  const least = ranked[0];
  if (!least || unsupplied.length > 0 || unknown.length > 0)
    return {
      supplies: supplies.map((supply) => ({ ...supply, limiting: false })),
      assumed,
      unsupplied,
      unknown,
      idle,
      tooClose: [],
    };
  const extent = least.extent!;
  const judged = supplies.map((supply): Supply => {
    const limiting = supply === least;
    if (!supply.extent || extent.value.isZero()) return { ...supply, limiting };
    return {
      ...supply,
      limiting,
      equivalents: limiting ? without(1) : over(supply.extent, extent),
      left: limiting ? without(0) : minus(supply.substance!, scaled(extent, supply.term.coefficient)),
    };
  });
  const tooClose = judged.filter(
    (supply) =>
      !supply.limiting &&
      supply.extent &&
      (() => {
        const apart = minus(supply.extent, extent);
        return apart.value.lte(expandedUncertainty(apart));
      })(),
  );
  return {
    supplies: judged,
    assumed,
    unsupplied,
    unknown,
    idle,
    limiting: judged.find(({ limiting }) => limiting),
    tooClose,
    extent,
  };
}

/** Molar mass with the contributions of the atomic weights; a programmer's error where the formula has none. */
function massOf(formula: Formula): Measured {
  const mass = molarMass(formula);
  if (!mass.ok) throw new Error(mass.fault.message);
  return mass.value.measured;
}

/** Theoretical yield of a product in g: extent × coefficient × molar mass; in mol beside it. */
export function theoreticalYield(
  extent: Measured,
  product: Term,
): { readonly mass: Measured; readonly substance: Measured } {
  const substance = scaled(extent, product.coefficient);
  return { mass: times(substance, massOf(product.formula)), substance };
}

/**
 * The same product weighed as another hydrate or in another formula unit than the equation has: `Co3(PO4)2·8H2O` for `Co3(PO4)2`.
 * Its amount follows from how many of the equation's units it holds.
 */
export function productAs(product: Term, weighed: Formula, label: string): Term {
  if (speciesKey(weighed) === speciesKey(product.formula)) return product;
  const each = suppliedBy(weighed, product.formula);
  return each.isZero() ? product : { ...product, label, formula: weighed, coefficient: product.coefficient.div(each) };
}

/** Percent yield. @example percentYield(obtained, theoretical).value // 77.3 */
export const percentYield = (obtained: Measured, theoretical: Measured): Measured =>
  scaled(over(obtained, theoretical), 100);

/**
 * Atom economy in percent: mass of the product as the equation has it over the mass of all reactants.
 * Source: B. M. Trost, Science 254 (1991) 1471.
 */
export function atomEconomy(equation: Equation, product: Term): Measured | undefined {
  const total = equation.reactants.reduce(
    (sum, { formula, coefficient }) => plus(sum, scaled(massOf(formula), coefficient)),
    without(0),
  );
  const { formula, coefficient } = equation.products.find(({ column }) => column === product.column) ?? product;
  return total.value.isZero() ? undefined : scaled(over(scaled(massOf(formula), coefficient), total), 100);
}

const atoms = new Map<string, Measured | undefined>();
function atomMass(symbol: string): Measured | undefined {
  if (!atoms.has(symbol)) {
    const atom = parseFormula(symbol);
    const mass = atom.ok ? molarMass(atom.value) : undefined;
    atoms.set(symbol, mass?.ok ? mass.value.measured : undefined);
  }
  return atoms.get(symbol);
}

/** Grams of an element in an amount of substance; undefined where the formula has none of it. */
export function elementMasses(substance: Measured, formula: Formula, symbol: string): Measured | undefined {
  const count: Decimal = composition(formula).get(symbol)?.low ?? zero;
  const atom = atomMass(symbol);
  return count.isZero() || !atom ? undefined : times(scaled(substance, count), atom);
}
