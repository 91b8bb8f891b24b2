// What stands in a mixture, as the rules look at it: each resolved reagent with its groups, its strength and its
// amount.
import { exact, type Decimal } from '../../chemistry/index.js';
import {
  assumptionsOf,
  dryComposition,
  isWater,
  type Constituents,
  type ResolvedReagent,
  type ResolvedSubstance,
} from '../../reagents/index.js';
import type { Mixture, MixtureHeating, MixedReagent } from './contracts.js';
import { membershipsOf, undiluted, type Concentration } from './groups.js';

/** An ingredient of which it is known what it is. */
export interface RuledIngredient {
  readonly index: number;
  readonly name: string;
  readonly formula: string;
  readonly substance: Constituents;
  readonly strength: Concentration;
  readonly extraGroups: ReadonlySet<string>;
  /** mol of the formula, at most; absent where it cannot be told. */
  readonly mol?: Decimal;
  readonly watery: boolean;
  readonly made?: MixedReagent['made'];
  /** °C that a word of state tells: `hot`, `boiling`; 20 where none does. */
  readonly heat: number;
}

export interface ResolvedMixture {
  readonly ingredients: readonly RuledIngredient[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  /** °C of the mixture. */
  readonly heat: number;
  /** °C of one ingredient. */
  readonly heatOf: (ingredient: RuledIngredient) => number;
  readonly wet: boolean;
  /** Groups that anything in the mixture belongs to. */
  readonly present: ReadonlySet<string>;
  /** Units of a group in one formula unit of an ingredient of this mixture. */
  readonly units: (group: string, ingredient: RuledIngredient) => number;
  readonly strengthIn: (group: string, ingredient: RuledIngredient) => Concentration;
}

/** °C of what is neither heated nor said to be hot. */
export const roomCelsius = 20;
const hundred = 100;
/** What a reaction makes beside its product, or leaves in it, is dilute. */
const dilute: Concentration = { percent: 5, molar: 1, solution: false };
/** From this percent on it counts as the substance itself. */
const nearlyPure = 95;

/** The strength that conditions of rules are held against: the strongest that it can be. */
function concentrationOf({ strength }: ResolvedReagent, made: MixedReagent['made']): Concentration {
  if (made === 'by-product' || made === 'carried') return dilute;
  if (strength.basis === 'undiluted' || strength.basis === 'not-given') return undiluted;
  const { massFraction, molarConcentration } = strength.atMost;
  const percent = massFraction ? massFraction.times(hundred).toNumber() : Infinity;
  const molar = molarConcentration ? molarConcentration.times(1000).toNumber() : Infinity;
  return { percent, molar, solution: percent < nearlyPure };
}

const oilyRags = (name: string): string =>
  `Rags and paper soaked with ${name} can heat themselves and catch fire: spread them flat outdoors ` +
  'or keep them under water. (common practice, no source)';

function ruled(
  { reagent, made }: MixedReagent,
  { formula, parsed, constituents, groups }: ResolvedSubstance,
  index: number,
): RuledIngredient {
  const strength = concentrationOf(reagent, made);
  const { molAtMost } = reagent.taken;
  return {
    index,
    name: reagent.name,
    formula,
    substance: constituents,
    strength,
    extraGroups: new Set(groups),
    watery: isWater(parsed) ? made === undefined : strength.solution,
    ...(molAtMost && { mol: molAtMost }),
    ...(made && { made }),
    heat: Math.max(roomCelsius, reagent.celsius ?? roomCelsius),
  };
}

const same = (of: string, name: string): boolean => of.trim().toLowerCase() === name.trim().toLowerCase();

function heatOfMixture(ingredients: readonly RuledIngredient[], heats: readonly MixtureHeating[]): number {
  return Math.max(
    roomCelsius,
    ...heats.filter(({ of }) => same(of, 'mixture')).map(({ toCelsius }) => toCelsius),
    ...ingredients.map(({ heat }) => heat),
  );
}

const heatOfOne = (ingredient: RuledIngredient, mixture: number, heats: readonly MixtureHeating[]): number =>
  Math.max(
    mixture,
    ingredient.heat,
    ...heats
      .filter(({ of }) => same(of, ingredient.name) || (ingredient.made === 'product' && same(of, 'product')))
      .map(({ toCelsius }) => toCelsius),
  );

/** mol of water that sets a dry mixture off rather than damping it: less than a millilitre. Common practice, no source. */
const aMillilitre = exact('0.0555');
const isOnlyDrops = ({ formula, mol }: RuledIngredient): boolean =>
  mol !== undefined && mol.lt(aMillilitre) && dryComposition(formula) === dryComposition('H2O');

/** Resolves a mixture for the rules. What could not be told what it is stands in `unknown`. */
export function resolveMixture(mixture: Mixture): ResolvedMixture {
  const ingredients: RuledIngredient[] = [];
  const unknown: string[] = [];
  const cautions: string[] = [];
  mixture.ingredients.forEach((ingredient, index) => {
    const { substance, name } = ingredient.reagent;
    if (!substance) {
      unknown.push(name);
      return;
    }
    ingredients.push(ruled(ingredient, substance, index));
    if (ingredient.made === undefined) cautions.push(...assumptionsOf(ingredient.reagent));
    if (substance.groups.includes('drying_oil')) cautions.push(oilyRags(name));
  });
  const heats = mixture.heating ?? [];
  const heat = heatOfMixture(ingredients, heats);
  const belongs = new Map(
    ingredients.map(({ index, substance, strength }) => [index, membershipsOf(substance, strength)] as const),
  );
  const ownUnits = (group: string, ingredient: RuledIngredient): number =>
    belongs.get(ingredient.index)!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  const strongest = (group: string): Concentration =>
    ingredients
      .filter((ingredient) => ownUnits(group, ingredient) > 0)
      .map(({ strength }) => strength)
      .sort((a, b) => b.percent - a.percent)[0] ?? { percent: 0, molar: 0, solution: false };
  /** A chloride salt beside a strong acid that is stronger than trace. */
  const chlorideInAcid = (ingredient: RuledIngredient): number => {
    const besideAcid = ingredients.some(
      (other) => other.index !== ingredient.index && ownUnits('strong_acid', other) > 0,
    );
    return besideAcid && ownUnits('strong_acid', ingredient) === 0 ? ownUnits('chloride', ingredient) : 0;
  };
  const units = (group: string, ingredient: RuledIngredient): number => {
    if (group === 'anything') return 1;
    if (group === 'water_any') return ingredient.watery ? 1 : 0;
    return group === 'chloride_in_acid' ? chlorideInAcid(ingredient) : ownUnits(group, ingredient);
  };
  const present = new Set([
    'anything',
    'water_any',
    'chloride_in_acid',
    ...[...belongs.values()].flatMap((groups) => [...groups.keys()]),
    ...ingredients.flatMap(({ extraGroups }) => [...extraGroups]),
  ]);
  return {
    ingredients,
    unknown,
    cautions,
    present,
    heat,
    heatOf: (ingredient) => heatOfOne(ingredient, heat, heats),
    wet: ingredients.some((ingredient) => ingredient.watery && !isOnlyDrops(ingredient)),
    units,
    strengthIn: (group, ingredient) => (group === 'chloride_in_acid' ? strongest('strong_acid') : ingredient.strength),
  };
}
