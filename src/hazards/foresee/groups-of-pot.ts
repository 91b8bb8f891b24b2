// Who belongs to which group in a pot: by what it is, by its words, by what else stands there.
import { memoise } from '../../memoise.js';
import { onceFor } from '../../once.js';
import type { Circumstance, ResolvedReagent } from '../../reagents/index.js';
import { circumstanceOf, groupsOfCircumstance } from './circumstance-groups.js';
import type { MixedReagent } from './contracts.js';
import { everything, type Gathered } from './gathered.js';
import { membershipsOf, type Concentration } from './groups.js';
import { concentrationOf, isPlainWater, type RuledIngredient } from './ruled-ingredient.js';

/** One and the same for all mixtures of the same things in the same order, however much there is of them. */
export interface Alike {
  /** Groups that anything in them belongs to. */
  readonly present: ReadonlySet<string>;
}

const dustsThatBurn = ['powder_metal', 'fuel_solid', 'organic_combustible', 'carbon', 'fine_dust'];

/** Water that is not said to be warm: poured on what is melted, it is not meant to melt with it. */
const isColdWater = (one: RuledIngredient): boolean => isPlainWater(one) && one.heat < warmWater;
const warmWater = 45;

/** What is no longer in a glue or a resin that has set. */
const losesByCuring: ReadonlySet<string> = new Set([
  'cyanoacrylate',
  'isocyanate',
  'epoxide',
  'polymerisable',
  'plaster',
  'eager_monomer',
]);

/** Its own words say that it has set; words for the whole pot do not: they may tell what is to come. */
const isCured = ({ own }: Gathered, { part }: RuledIngredient): boolean =>
  own.some(([at, told]) => at !== everything && told.has('cured') && part.startsWith(at));

/** What groups are told by: what was gathered, and for each ingredient, by its index, the groups of its substance. */
export interface Pot {
  readonly gathered: Gathered;
  readonly ingredients: readonly RuledIngredient[];
  readonly groupsOf: readonly ReadonlyMap<string, number>[];
}

/** Units by what an ingredient is, whatever is around it. */
function ownUnits({ gathered, groupsOf }: Pot, group: string, ingredient: RuledIngredient): number {
  const units = groupsOf[ingredient.index]!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  return units > 0 && losesByCuring.has(group) && isCured(gathered, ingredient) ? 0 : units;
}

/** What its own words say, or words that name nothing. */
const says = ({ gathered }: Pot, { part }: RuledIngredient, circumstance: Circumstance): boolean =>
  gathered.circumstances.has(circumstance) &&
  gathered.own.some(([at, own]) => own.has(circumstance) && part.startsWith(at));

/** A chloride salt beside a strong acid that is stronger than trace. */
function chlorideInAcid(pot: Pot, ingredient: RuledIngredient): number {
  const chloride = ownUnits(pot, 'chloride', ingredient);
  if (chloride === 0 || ownUnits(pot, 'strong_acid', ingredient) > 0) return 0;
  const isBesideAcid = pot.ingredients.some(
    (other) => other.part !== ingredient.part && ownUnits(pot, 'strong_acid', other) > 0,
  );
  return isBesideAcid ? chloride : 0;
}

type PotUnits = (pot: Pot, ingredient: RuledIngredient) => number;

/** Groups that only the whole pot, or the words beside a name, can tell. */
const ofPot: ReadonlyMap<string, PotUnits> = new Map<string, PotUnits>([
  ['anything', () => 1],
  ['besides_water', (_, ingredient) => Number(!isPlainWater(ingredient))],
  ['water_any', (_, { watery }) => Number(watery)],
  [
    'cold_water',
    ({ gathered: { circumstances } }, ingredient) =>
      Number(isColdWater(ingredient) || (circumstances.has('plunged') && isPlainWater(ingredient))),
  ],
  [
    'airborne_fuel',
    (pot, ingredient) =>
      says(pot, ingredient, 'airborne')
        ? Math.max(...dustsThatBurn.map((group) => ownUnits(pot, group, ingredient)))
        : 0,
  ],
  [
    'fine_metal',
    (pot, ingredient) => (says(pot, ingredient, 'finely') ? ownUnits(pot, 'powder_metal', ingredient) : 0),
  ],
  ['chloride_in_acid', chlorideInAcid],
]);

/** Whether only the whole pot can tell who belongs to a group. */
export const isToldByPot = (group: string): boolean => ofPot.has(group);

/** The groups of something, whatever is around it. */
export function groupsByItself(reagent: ResolvedReagent, made: MixedReagent['made']): ReadonlySet<string> {
  const { substance } = reagent;
  if (!substance) return new Set();
  const { constituents, groups } = substance;
  return new Set([...membershipsOf(constituents, concentrationOf(reagent, made)).keys(), ...groups]);
}

/** Groups that are told by more than what an ingredient is. */
const toldByMore: ReadonlySet<string> = new Set([...ofPot.keys(), ...Object.keys(circumstanceOf), ...losesByCuring]);

export function unitsIn(pot: Pot, group: string, ingredient: RuledIngredient): number {
  if (!toldByMore.has(group))
    return pot.groupsOf[ingredient.index]!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  const told = ofPot.get(group);
  if (told) return told(pot, ingredient);
  const circumstance = circumstanceOf[group];
  return circumstance && pot.gathered.circumstances.has(circumstance) ? 1 : ownUnits(pot, group, ingredient);
}

/** Groups that anything in the pot belongs to. */
export function groupsIn(pot: Pot): ReadonlySet<string> {
  const present = new Set<string>();
  for (const groups of pot.groupsOf) for (const group of groups.keys()) present.add(group);
  for (const { extraGroups } of pot.ingredients) for (const group of extraGroups) present.add(group);
  for (const [group, told] of ofPot) if (pot.ingredients.some((one) => told(pot, one) > 0)) present.add(group);
  for (const circumstance of pot.gathered.circumstances)
    for (const group of groupsOfCircumstance.get(circumstance) ?? []) present.add(group);
  return present;
}

let things = 0;
/** A number for each thing that stays what it is. */
const numberOf = onceFor((_: object) => (things += 1));

/** All that tells who belongs to which groups in a pot of which no words tell anything. */
function kindsIn({ gathered, ingredients, groupsOf }: Pot): string {
  const parts: string[] = [];
  let kinds = [...gathered.circumstances].join(' ');
  for (const one of ingredients) {
    if (!parts.includes(one.part)) parts.push(one.part);
    const place = parts.indexOf(one.part);
    kinds += `\n${numberOf(groupsOf[one.index]!)} ${numberOf(one.extraGroups)} ${place} ${one.variant}`;
    kinds += `${one.watery ? ' watery' : ''}${isColdWater(one) ? ' cold' : ''}`;
  }
  return kinds;
}

/** The same substances meet again and again, in this pot and in the next: their groups are found once. */
export const alikeOf = memoise(kindsIn, (pot): Alike => ({ present: groupsIn(pot) }), 300);

/** The strongest of a group in the pot. */
export function strongest(pot: Pot, group: string): Concentration {
  const [first] = pot.ingredients
    .filter((ingredient) => ownUnits(pot, group, ingredient) > 0)
    .map(({ strength }) => strength)
    .sort((a, b) => b.percent - a.percent);
  return first ?? { percent: 0, molar: 0, solution: false };
}
