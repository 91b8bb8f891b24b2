// What a reaction makes of what was taken: limiting reagent, what is left, yield, atom economy, where the metals go.
import { onceFor } from '../once.js';
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import type { Equation, Term } from './equation/index.js';
import { exact, isOne, one, zero, type Decimal } from './exact.js';
import {
  composition,
  endForms,
  isElectron,
  molarMass,
  molarMassBounds,
  parseFormula,
  type Formula,
} from './formula/index.js';
import { speciesKey, suppliedBy } from './ions/index.js';
import {
  dividedBy,
  isBeyondItsUncertainty,
  minus,
  plus,
  rectangular,
  scaled,
  standardUncertainty,
  sum,
  times,
  withoutUncertainty,
  withUncertainty,
  type UncertainDecimal,
} from './uncertainty.js';

/** A reagent that was taken, as far as the reaction asks. */
export interface ReagentTaken {
  readonly id: string;
  readonly formula?: Formula;
  /** Given as `excess`. */
  readonly excess: boolean;
  /** Amount of the pure substance, mol; absent where it cannot be told. */
  readonly substance?: UncertainDecimal;
}

/** One reactant of the equation with what supplies it. */
export interface ReactantSupply {
  readonly term: Term;
  /** Ids of what supplies it. */
  readonly suppliedBy: readonly string[];
  /** mol in all; absent where it cannot be told. */
  readonly amountOfSubstance?: UncertainDecimal;
  /**
   * Supplied as `excess`, or an electron, or assumed to be there (water, oxygen of the air), which nobody weighs out.
   */
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

/** Whether it is water, which is there in every solution, or oxygen, which is in the air over every open vessel. */
export const isAmbient = ({ formula }: Term): boolean => isWaterOrOxygen(formula);

const isWaterOrOxygen = onceFor((formula: Formula): boolean => {
  const atoms = [...composition(formula)]
    .map(([symbol, { low }]) => `${symbol}${low}`)
    .sort()
    .join('');
  return formula.charge === 0 && (atoms === 'H2O1' || atoms === 'O2');
});

type Presence = 'amount known' | 'amount unknown' | 'in excess' | 'assumed' | 'unsupplied';

/** One reactant before it is compared with the others. */
interface Supplied {
  readonly term: Term;
  readonly presence: Presence;
  readonly suppliers: readonly ReagentTaken[];
  readonly amountOfSubstance?: UncertainDecimal;
  readonly extent?: UncertainDecimal;
}

function presenceOf(term: Term, suppliers: readonly ReagentTaken[], absent: 'ambient' | 'all'): Presence {
  if (isElectron(term.formula) || suppliers.some(({ excess }) => excess)) return 'in excess';
  if (suppliers.length === 0) return isAmbient(term) || absent === 'all' ? 'assumed' : 'unsupplied';
  return suppliers.some(({ substance }) => !substance) ? 'amount unknown' : 'amount known';
}

/** mol of reaction for a mol of a term. */
const perMoleOf = onceFor(({ coefficient }: Term): Decimal => one.div(coefficient));

function supplyOf(term: Term, reagents: readonly ReagentTaken[], absent: 'ambient' | 'all'): Supplied {
  const suppliers: ReagentTaken[] = [];
  const amounts: UncertainDecimal[] = [];
  for (const reagent of reagents) {
    const perUnit = reagent.formula ? suppliedBy(reagent.formula, term.formula) : zero;
    if (perUnit.isZero()) continue;
    suppliers.push(reagent);
    if (reagent.substance && !reagent.excess) amounts.push(scaled(reagent.substance, perUnit));
  }
  const presence = presenceOf(term, suppliers, absent);
  if (presence === 'amount unknown' || amounts.length === 0) return { term, presence, suppliers };
  const amountOfSubstance = amounts.reduce(plus);
  if (presence !== 'amount known') return { term, presence, suppliers, amountOfSubstance };
  const extent = isOne(term.coefficient) ? amountOfSubstance : scaled(amountOfSubstance, perMoleOf(term));
  return { term, presence, suppliers, amountOfSubstance, extent };
}

const asReactant = ({ term, presence, suppliers, amountOfSubstance, extent }: Supplied): ReactantSupply => ({
  term,
  suppliedBy: suppliers.map(({ id }) => id),
  inExcess: presence === 'in excess' || presence === 'assumed',
  limiting: false,
  amountOfSubstance,
  extent,
});

/** A reactant beside the one that limits: how much more there is, and what is left of it. */
function besideLimiting(supply: ReactantSupply, extent: UncertainDecimal): ReactantSupply {
  if (!supply.extent || !supply.amountOfSubstance || extent.value.isZero()) return supply;
  return {
    ...supply,
    equivalents: dividedBy(supply.extent, extent),
    left: minus(supply.amountOfSubstance, scaled(extent, supply.term.coefficient)),
  };
}

const justEnough = { equivalents: withoutUncertainty(1), left: withoutUncertainty(0) };

const asLimiting = (supply: ReactantSupply): ReactantSupply => ({
  ...supply,
  limiting: true,
  ...(!supply.extent!.value.isZero() && justEnough),
});

/**
 * From a quarter more than is needed on, a reactant is ample where it is more by at least one standard uncertainty: by
 * spoons it need not be. Common practice, no source.
 */
const plainlyAmple = exact('1.25');

/**
 * The readings cannot tell whether this reactant or the limiting one is used up first.
 * @param ample mol of reaction from which on there is enough, unless it was measured very roughly
 */
function isTooClose(supply: ReactantSupply, extent: UncertainDecimal, ample: Decimal): boolean {
  if (supply.limiting || !supply.extent) return false;
  const apart = minus(supply.extent, extent);
  if (supply.extent.value.gte(ample)) return apart.value.lt(standardUncertainty(apart).toFixed());
  return !apart.value.isPositive() || !isBeyondItsUncertainty(apart);
}

/**
 * Finds the limiting reactant: the smallest amount divided by its coefficient; of equal ones the first in the equation.
 * @param equation balanced, with its coefficients
 * @param absent `ambient`: only water and oxygen may be absent from the reagents; `all`: whatever no reagent supplies
 *   is taken to be ample
 * @example findLimitingReagent(equation, [taken]).limiting?.term.label
 */
export function findLimitingReagent(
  equation: Equation,
  reagents: readonly ReagentTaken[],
  absent: 'ambient' | 'all' = 'ambient',
): LimitingReagent {
  const supplied = equation.reactants.map((term) => supplyOf(term, reagents, absent));
  const terms = (wanted: Presence): readonly Term[] =>
    supplied.filter(({ presence }) => presence === wanted).map(({ term }) => term);
  const used = new Set(supplied.flatMap(({ suppliers }) => suppliers.map(({ id }) => id)));
  const reactants = supplied.map(asReactant);
  const found = {
    reactants,
    assumedPresent: terms('assumed'),
    unsupplied: terms('unsupplied'),
    amountUnknown: terms('amount unknown'),
    takingNoPart: reagents.filter(({ id, formula }) => formula && !used.has(id)).map(({ id }) => id),
    possiblyLimiting: [],
  };
  const [least] = reactants.filter(({ extent }) => extent).sort((a, b) => a.extent!.value.cmp(b.extent!.value));
  if (!least || found.unsupplied.length > 0 || found.amountUnknown.length > 0) return found;
  const extent = least.extent!;
  const ample = extent.value.times(plainlyAmple);
  const compared = reactants.map((supply) => (supply === least ? asLimiting(supply) : besideLimiting(supply, extent)));
  return {
    ...found,
    reactants: compared,
    limiting: compared.find(({ limiting }) => limiting),
    possiblyLimiting: compared.filter((supply) => isTooClose(supply, extent, ample)),
    extent,
  };
}

/** The most of a product that can be made. */
export interface TheoreticalYield {
  /** mol */
  readonly substance: UncertainDecimal;
  /** g; absent where the molar mass of the product cannot be told. */
  readonly mass?: UncertainDecimal;
  /** g: the least that this amount of substance can weigh, where only that can be told (a hydrate of unknown water). */
  readonly massAtLeast?: UncertainDecimal;
  /** Says what would be needed for the mass, or for a mass that is no range. */
  readonly missing?: Fault;
}

/**
 * Theoretical yield of a product: extent × coefficient, and × molar mass as far as that is known.
 * @example theoreticalYield(extent, product).mass?.value // g
 */
export function theoreticalYield(extent: UncertainDecimal, product: Term): TheoreticalYield {
  const substance = scaled(extent, product.coefficient);
  const mass = molarMass(product.formula);
  const bounds = molarMassBounds(product.formula);
  if (!bounds.ok) return { substance, missing: bounds.fault };
  const { asks } = bounds.value;
  return {
    substance,
    ...(mass.ok ? { mass: times(substance, mass.value.middle) } : { massAtLeast: scaled(substance, bounds.value.low) }),
    ...(asks && { missing: asks }),
  };
}

/**
 * The same product weighed as another hydrate or in another formula unit than the equation has: `Co3(PO4)2·8H2O` for
 * `Co3(PO4)2`. Its amount follows from how many of the equation's units it holds.
 */
export function productAsWeighed(product: Term, weighed: Formula, label: string): Term {
  if (speciesKey(weighed) === speciesKey(product.formula)) return product;
  const each = suppliedBy(weighed, product.formula);
  return each.isZero() ? product : { ...product, label, formula: weighed, coefficient: product.coefficient.div(each) };
}

/**
 * Percent yield. Errors: `nothing-made` where the theoretical yield is 0.
 * @example percentYield(obtained, theoretical) // value 77.3
 */
export function percentYield(obtained: UncertainDecimal, theoretical: UncertainDecimal): Outcome<UncertainDecimal> {
  const share = dividedBy(obtained, theoretical);
  return share
    ? good(scaled(share, 100))
    : bad({
        code: 'nothing-made',
        message: 'What limits comes to nothing, so that there is no yield of it.',
        expected: 'an amount above 0',
        cure: 'Correct the amount, strength or purity of what limits.',
      });
}

/**
 * Atom economy in percent: mass of the product as the equation has it over the mass of all reactants.
 * Errors: those of `molarMass` for any substance of it; `nothing-reacts` where the reactants weigh nothing.
 * Source: B. M. Trost, Science 254 (1991) 1471.
 */
export function atomEconomy(equation: Equation, product: Term): Outcome<UncertainDecimal> {
  const made = equation.products.find(({ column }) => column === product.column) ?? product;
  const ofProduct = massInEquation(made);
  if (!ofProduct.ok) return ofProduct;
  const masses: UncertainDecimal[] = [];
  for (const reactant of equation.reactants) {
    const mass = massInEquation(reactant);
    if (!mass.ok) return mass;
    masses.push(mass.value);
  }
  const share = dividedBy(ofProduct.value, sum(masses));
  return share
    ? good(scaled(share, 100))
    : bad({
        code: 'nothing-reacts',
        message: 'The reactants weigh nothing.',
        expected: 'a reactant with a mass',
        cure: 'Write the reactants on the left of the arrow.',
      });
}

/** Molar mass times coefficient, g for one mol of reaction. */
function massInEquation({ formula, coefficient }: Term): Outcome<UncertainDecimal> {
  const mass = molarMass(formula);
  return mass.ok ? good(scaled(mass.value.middle, coefficient)) : mass;
}

const atomMasses = new Map<string, UncertainDecimal | undefined>();
function atomMass(symbol: string): UncertainDecimal | undefined {
  if (!atomMasses.has(symbol)) {
    const atom = parseFormula(symbol);
    const mass = atom.ok ? molarMass(atom.value) : undefined;
    atomMasses.set(symbol, mass?.ok ? mass.value.middle : undefined);
  }
  return atomMasses.get(symbol);
}

const atomsCounted = onceFor((_: Formula) => new Map<string, UncertainDecimal | undefined>());

/** Atoms of an element in one formula unit; a range or an open proportion carries its half-width as uncertainty. */
function atomsPerUnit(formula: Formula, symbol: string): UncertainDecimal | undefined {
  const known = atomsCounted(formula);
  if (!known.has(symbol)) known.set(symbol, countAtoms(formula, symbol));
  return known.get(symbol);
}

function countAtoms(formula: Formula, symbol: string): UncertainDecimal | undefined {
  const counts = endForms(formula).flatMap((form) => composition(form).get(symbol) ?? { low: zero, high: zero });
  const least = counts.map(({ low }) => low).reduce((a, b) => (b.lt(a) ? b : a));
  const most = counts.map(({ high }) => high).reduce((a, b) => (b.gt(a) ? b : a));
  if (most.isZero()) return undefined;
  return withUncertainty(
    least.plus(most).div(2),
    rectangular(most.minus(least).div(2)),
    `range:${symbol} in ${formula.written}`,
  );
}

/**
 * Grams of an element in an amount of substance; undefined where the formula has none of it or the element no weight.
 * @example elementMasses(withoutUncertainty('0.1'), parseFormula('CuSO4').value, 'Cu')?.value // 6.3546
 */
export function elementMasses(
  substance: UncertainDecimal,
  formula: Formula,
  symbol: string,
): UncertainDecimal | undefined {
  const count = atomsPerUnit(formula, symbol);
  const atom = atomMass(symbol);
  return count && atom && times(times(substance, count), atom);
}
