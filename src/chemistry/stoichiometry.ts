// What a reaction makes of what was taken: limiting reagent, what is left, yield, atom economy, where the metals go.
import { exact, zero, type Decimal } from './exact.js';
import type { Equation, Term } from './equation.js';
import { composition, molarMass, parseFormula, type Formula } from './formula/index.js';
import { speciesKey, suppliedBy } from './ions.js';
import {
  expandedUncertainty,
  minus,
  dividedBy,
  plus,
  scaled,
  times,
  withoutUncertainty,
  type UncertainDecimal,
} from './uncertainty.js';
import type { Taken } from './taken.js';

/** One reactant of the equation with what supplies it. */
export interface ReactantSupply {
  readonly term: Term;
  /** Ids of what supplies it. */
  readonly suppliedBy: readonly string[];
  /** mol in all; absent where it cannot be told. */
  readonly amountOfSubstance?: UncertainDecimal;
  /** Supplied as `excess`, or an electron, or assumed to be there (water, oxygen of the air), which nobody weighs out. */
  readonly inExcess: boolean;
  /** amount of substance / coefficient, mol of reaction. */
  readonly extent?: UncertainDecimal;
  readonly limiting: boolean;
  /** extent / extent of the limiting reactant: 1 is just enough. */
  readonly equivalents?: UncertainDecimal;
  /** mol left when the limiting reactant is used up. */
  readonly left?: UncertainDecimal;
}

export interface LimitingReagent {
  readonly reactants: readonly ReactantSupply[];
  /** Reactants that no reagent supplies and that are taken to be ample. */
  readonly assumedPresent: readonly Term[];
  /** Reactants that nothing supplies. */
  readonly unsupplied: readonly Term[];
  /** Reactants whose amount cannot be told. */
  readonly amountUnknown: readonly Term[];
  /** Ids that supply no reactant. */
  readonly takingNoPart: readonly string[];
  readonly limiting?: ReactantSupply;
  /** Reactants so close to the limiting one that the readings cannot tell which limits (within U, k = 2). */
  readonly possiblyLimiting: readonly ReactantSupply[];
  /** mol of reaction. */
  readonly extent?: UncertainDecimal;
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
 * @example findLimitingReagent(equation, [taken]).limiting?.term.label
 */
export function findLimitingReagent(
  equation: Equation,
  takens: readonly Taken[],
  absent: 'ambient' | 'all' = 'ambient',
): LimitingReagent {
  const used = new Set<string>();
  const unsupplied: Term[] = [];
  const assumedPresent: Term[] = [];
  const amountUnknown: Term[] = [];
  const reactants = equation.reactants.map((term): Omit<ReactantSupply, 'limiting'> => {
    const suppliers: string[] = [];
    let amountOfSubstance: UncertainDecimal | undefined;
    let inExcess = false;
    let open = false;
    for (const taken of takens) {
      if (!taken.formula) continue;
      const each = suppliedBy(taken.formula, term.formula);
      if (each.isZero()) continue;
      suppliers.push(taken.id);
      used.add(taken.id);
      if (taken.excess) inExcess = true;
      else if (!taken.substance) open = true;
      else
        amountOfSubstance = amountOfSubstance
          ? plus(amountOfSubstance, scaled(taken.substance, each))
          : scaled(taken.substance, each);
    }
    if (term.formula.parts.length === 0) inExcess = true;
    else if (suppliers.length === 0 && (isAmbient(term) || absent === 'all')) {
      inExcess = true;
      assumedPresent.push(term);
    }
    if (inExcess) return { term, suppliedBy: suppliers, amountOfSubstance, inExcess };
    if (suppliers.length === 0) unsupplied.push(term);
    else if (open) amountUnknown.push(term);
    if (open || !amountOfSubstance) return { term, suppliedBy: suppliers, inExcess };
    return {
      term,
      suppliedBy: suppliers,
      amountOfSubstance,
      inExcess,
      extent: scaled(amountOfSubstance, exact(1).div(term.coefficient)),
    };
  });
  const takingNoPart = takens.filter(({ id, formula }) => formula && !used.has(id)).map(({ id }) => id);
  const ranked = reactants.filter((supply) => supply.extent).sort((a, b) => a.extent!.value.cmp(b.extent!.value));
  const least = ranked[0];
  if (!least || unsupplied.length > 0 || amountUnknown.length > 0)
    return {
      reactants: reactants.map((supply) => ({ ...supply, limiting: false })),
      assumedPresent,
      unsupplied,
      amountUnknown,
      takingNoPart,
      possiblyLimiting: [],
    };
  const extent = least.extent!;
  const judged = reactants.map((supply): ReactantSupply => {
    const limiting = supply === least;
    if (!supply.extent || extent.value.isZero()) return { ...supply, limiting };
    return {
      ...supply,
      limiting,
      equivalents: limiting ? withoutUncertainty(1) : dividedBy(supply.extent, extent),
      left: limiting
        ? withoutUncertainty(0)
        : minus(supply.amountOfSubstance!, scaled(extent, supply.term.coefficient)),
    };
  });
  const possiblyLimiting = judged.filter(
    (supply) =>
      !supply.limiting &&
      supply.extent &&
      (() => {
        const apart = minus(supply.extent, extent);
        return apart.value.lte(expandedUncertainty(apart));
      })(),
  );
  return {
    reactants: judged,
    assumedPresent,
    unsupplied,
    amountUnknown,
    takingNoPart,
    limiting: judged.find(({ limiting }) => limiting),
    possiblyLimiting,
    extent,
  };
}

/** Molar mass with the contributions of the atomic weights; a programmer's error where the formula has none. */
function massOf(formula: Formula): UncertainDecimal {
  const mass = molarMass(formula);
  if (!mass.ok) throw new Error(mass.fault.message);
  return mass.value.middle;
}

/** Theoretical yield of a product in g: extent × coefficient × molar mass; in mol beside it. */
export function theoreticalYield(
  extent: UncertainDecimal,
  product: Term,
): { readonly mass: UncertainDecimal; readonly substance: UncertainDecimal } {
  const substance = scaled(extent, product.coefficient);
  return { mass: times(substance, massOf(product.formula)), substance };
}

/**
 * The same product weighed as another hydrate or in another formula unit than the equation has: `Co3(PO4)2·8H2O` for `Co3(PO4)2`.
 * Its amount follows from how many of the equation's units it holds.
 */
export function productAsWeighed(product: Term, weighed: Formula, label: string): Term {
  if (speciesKey(weighed) === speciesKey(product.formula)) return product;
  const each = suppliedBy(weighed, product.formula);
  return each.isZero() ? product : { ...product, label, formula: weighed, coefficient: product.coefficient.div(each) };
}

/** Percent yield. @example percentYield(obtained, theoretical).value // 77.3 */
export const percentYield = (obtained: UncertainDecimal, theoretical: UncertainDecimal): UncertainDecimal =>
  scaled(dividedBy(obtained, theoretical), 100);

/**
 * Atom economy in percent: mass of the product as the equation has it over the mass of all reactants.
 * Source: B. M. Trost, Science 254 (1991) 1471.
 */
export function atomEconomy(equation: Equation, product: Term): UncertainDecimal | undefined {
  const total = equation.reactants.reduce(
    (sum, { formula, coefficient }) => plus(sum, scaled(massOf(formula), coefficient)),
    withoutUncertainty(0),
  );
  const { formula, coefficient } = equation.products.find(({ column }) => column === product.column) ?? product;
  return total.value.isZero() ? undefined : scaled(dividedBy(scaled(massOf(formula), coefficient), total), 100);
}

const atoms = new Map<string, UncertainDecimal | undefined>();
function atomMass(symbol: string): UncertainDecimal | undefined {
  if (!atoms.has(symbol)) {
    const atom = parseFormula(symbol);
    const mass = atom.ok ? molarMass(atom.value) : undefined;
    atoms.set(symbol, mass?.ok ? mass.value.middle : undefined);
  }
  return atoms.get(symbol);
}

/** Grams of an element in an amount of substance; undefined where the formula has none of it. */
export function elementMasses(
  substance: UncertainDecimal,
  formula: Formula,
  symbol: string,
): UncertainDecimal | undefined {
  const count: Decimal = composition(formula).get(symbol)?.low ?? zero;
  const atom = atomMass(symbol);
  return count.isZero() || !atom ? undefined : times(scaled(substance, count), atom);
}
