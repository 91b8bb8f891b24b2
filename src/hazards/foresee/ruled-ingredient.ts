// One ingredient of a mixture, as the rules look at it: what it is, how strong and how much at most.
import type { Decimal } from '../../chemistry/index.js';
import { onceFor } from '../../once.js';
import {
  gramsPerMole,
  isWater,
  type Constituents,
  type ResolvedReagent,
  type ResolvedSubstance,
} from '../../reagents/index.js';
import type { MixedReagent } from './contracts.js';
import { undiluted, type Concentration } from './groups.js';

/** An ingredient of which it is known what it is. */
export interface RuledIngredient {
  readonly index: number;
  /** What stands in one thing, or may stand in it, does not meet itself. */
  readonly part: string;
  /** Which of the things that a name may mean. */
  readonly variant: string;
  readonly name: string;
  /** What the name was taken as, where that is not the name itself. */
  readonly takenAs?: string;
  readonly formula: string;
  readonly substance: Constituents;
  readonly strength: Concentration;
  readonly extraGroups: ReadonlySet<string>;
  /** mol of the formula, at most; absent where it cannot be told. */
  readonly mol?: Decimal;
  /** g of the stuff with all that is in it; absent where it cannot be told. */
  readonly grams?: number;
  readonly watery: boolean;
  /** It surely wets the pot: not only because a product of its name is mostly sold as a solution. */
  readonly wets: boolean;
  readonly made?: MixedReagent['made'];
  /** °C that a word of state tells: `hot`, `boiling`; 20 where none does. */
  readonly heat: number;
}

/** Up to here a solution is still a solution: what only breaks down dry does not do so yet. */
export const boilsDryFrom = 105;

/** °C of what is neither heated nor said to be hot. */
export const roomCelsius = 20;
const hundred = 100;
/** What a reaction makes beside its product, or leaves in it, is dilute. */
const dilute: Concentration = { percent: 5, molar: 1, solution: false };
/** From this percent on it counts as the substance itself. */
const nearlyPure = 95;

/** The strength that conditions of rules are held against: the strongest that it can be. */
export const concentrationOf = ({ strength }: ResolvedReagent, made: MixedReagent['made']): Concentration =>
  made === 'by-product' || made === 'carried' ? dilute : strongestOf(strength);

/** Portions of one stuff that are measured alike share their strength. */
const strongestOf = onceFor(({ basis, atMost }: ResolvedReagent['strength']): Concentration => {
  if (basis === 'undiluted' || basis === 'not-given') return undiluted;
  const { massFraction, molarConcentration } = atMost;
  const percent = massFraction ? massFraction.times(hundred).toNumber() : Infinity;
  const molar = molarConcentration ? molarConcentration.times(1000).toNumber() : Infinity;
  return { percent, molar, solution: percent < nearlyPure };
});

/** Where an ingredient stands among the others. */
export interface Place {
  readonly index: number;
  readonly part: string;
  readonly variant: string;
  readonly takenAs?: string;
  /** °C that words beside the name tell. */
  readonly celsius?: number;
}

/**
 * g/mL: no liquid sold for the workshop but bromine and mercury is denser; tetrachloroethylene is 1.62. From memory.
 */
const densest = 1.65;

/** mol at most in a volume of which no density is known. */
function molOfDense({ taken, portion }: ResolvedReagent, formula: string): Decimal | undefined {
  const { amount } = portion;
  const perMole = gramsPerMole(formula);
  if (amount?.dimension !== 'volume' || !perMole || perMole.isZero()) return undefined;
  const share = taken.strength.atMost.massFraction ?? 1;
  return (amount.high ?? amount.base).times(densest).times(share).div(perMole);
}

const setOf = onceFor((groups: readonly string[]): ReadonlySet<string> => new Set(groups));

const gramsIn = (mol: Decimal | undefined, formula: string): number | undefined =>
  mol?.times(gramsPerMole(formula) ?? 0).toNumber();

export function ruled(
  { reagent, made }: MixedReagent,
  { formula, parsed, constituents, groups }: ResolvedSubstance,
  { index, part, variant, takenAs, celsius = roomCelsius }: Place,
): RuledIngredient {
  const strength = concentrationOf(reagent, made);
  const { mass, volume } = reagent.taken;
  const molAtMost = reagent.taken.molAtMost ?? molOfDense(reagent, formula);
  const watery = isWater(parsed) ? made === undefined : strength.solution;
  // What was poured without a density weighs about as much as water.
  const grams = made === 'on-the-way' ? gramsIn(molAtMost, formula) : (mass ?? volume)?.value.toNumber();
  return {
    index,
    part,
    variant,
    takenAs,
    name: reagent.name,
    formula,
    substance: constituents,
    strength,
    extraGroups: setOf(groups),
    watery,
    wets: watery && (takenAs === undefined || isWater(parsed)),
    mol: molAtMost,
    grams,
    made,
    heat: Math.max(roomCelsius, reagent.celsius ?? roomCelsius, celsius),
  };
}

export const isOrganic = ({ substance: { kind, atoms } }: RuledIngredient): boolean =>
  kind === 'molecule' && atoms.has('C') && atoms.has('H');

export const isPlainWater = ({ substance }: RuledIngredient): boolean => substance.dry === 'H2O';
