// The salts that stay in the liquor where a reaction is written in ions: Cu^2+ + CO3^2- -> CuCO3 says nothing of the
// sodium and the sulfate that came with them, and they are what has to be washed out.
import {
  exact,
  ionsOf,
  minus,
  parseFormula,
  printFormula,
  scaled,
  speciesKey,
  sum,
  times,
  type Decimal,
  type Equation,
  type Formula,
  type Ion,
  type LimitingReagent,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { Ingredient } from '../ingredients.js';
import { inReaction } from './limiting.js';
import { saltOf, type NeutralSalt } from './neutral-salts.js';

/** mol of one ion in the liquor. */
interface IonThere {
  readonly formula: string;
  readonly charge: number;
  readonly moles: UncertainDecimal;
}

/** mol of a reagent that the reaction used up; undefined where it takes no part or cannot be told. */
function usedUp({ taken }: Ingredient, limitation: LimitingReagent): UncertainDecimal | undefined {
  const { supplies, limiting, shareLeft } = inReaction(taken, limitation);
  const { substance } = taken;
  if (supplies.length === 0 || !substance) return undefined;
  return limiting || !shareLeft ? substance : minus(substance, times(substance, shareLeft));
}

/** The ions in a pot, by species, each the sum of what brings and what takes it. */
class IonCount {
  readonly #there = new Map<string, IonThere>();

  add(formula: Formula, charge: number, moles: UncertainDecimal): void {
    const key = speciesKey(formula);
    const before = this.#there.get(key);
    const bare = before?.formula ?? printFormula(formula).replace(/\((?:s|l|g|aq)\)$/, '');
    this.#there.set(key, { formula: bare, charge, moles: before ? sum([before.moles, moles]) : moles });
  }

  /** Those of one sign of which anything is there, in the order of their formulae. */
  left(sign: 1 | -1, least: Decimal): IonThere[] {
    return [...this.#there.values()]
      .filter(({ charge, moles }) => Math.sign(charge) === sign && moles.value.gt(least))
      .sort((a, b) => (a.formula < b.formula ? -1 : 1));
  }
}

function addIonsOf(ion: Ion, reagent: UncertainDecimal, count: IonCount): void {
  const parsed = parseFormula(ion.formula);
  if (parsed.ok) count.add(parsed.value, ion.charge, scaled(reagent, ion.count));
}

/** Pairs what is left of cations and anions; the sum of the masses does not hang on which goes with which. */
function paired(cations: readonly IonThere[], anions: readonly IonThere[], least: Decimal): readonly NeutralSalt[] {
  const [cation, ...moreCations] = cations;
  const [anion, ...moreAnions] = anions;
  if (!cation || !anion) return [];
  const { formula, cations: each, anions: every } = saltOf(cation, anion);
  const [byCation, byAnion] = [scaled(cation.moles, exact(1).div(each)), scaled(anion.moles, exact(1).div(every))];
  const moles = byCation.value.lt(byAnion.value) ? byCation : byAnion;
  const rest = (ion: IonThere, perSalt: number): readonly IonThere[] => {
    const left = minus(ion.moles, scaled(moles, perSalt));
    return left.value.gt(least) ? [{ ...ion, moles: left }] : [];
  };
  const further = paired([...rest(cation, each), ...moreCations], [...rest(anion, every), ...moreAnions], least);
  return [{ formula, moles }, ...further];
}

/** Of so small a share of what reacts nothing is said: it is what rounding leaves. */
const least = exact('1e-9');

/**
 * The salts that a reaction written in ions frees: the counter-ions of what it used up, with the ions it makes.
 * Nothing where no ion stands on its left side, or a reagent's ions cannot be told.
 */
export function spectatorSalts(
  equation: Equation,
  limitation: LimitingReagent,
  ingredients: readonly Ingredient[],
): readonly NeutralSalt[] {
  const { extent } = limitation;
  if (!extent || equation.reactants.every(({ formula }) => formula.charge === 0)) return [];
  const count = new IonCount();
  for (const ingredient of ingredients) {
    const used = usedUp(ingredient, limitation);
    const ions = used && ingredient.taken.formula && ionsOf(ingredient.taken.formula);
    if (!used || !ions?.ok) continue;
    if (ions.value.ions.some(({ atMost }) => atMost)) return [];
    for (const ion of ions.value.ions) addIonsOf(ion, used, count);
  }
  const inEquation = (terms: Equation['reactants'], sign: 1 | -1): void => {
    for (const { formula, coefficient } of terms)
      if (formula.charge !== 0) count.add(formula, formula.charge, scaled(extent, coefficient.times(sign)));
  };
  inEquation(equation.reactants, -1);
  inEquation(equation.products, 1);
  const small = least.times(extent.value.abs());
  return paired(count.left(1, small), count.left(-1, small), small);
}
