// Whether a rule of mixing holds in a mixture: who takes part, on which side, and how serious it is here.
import { exact, type Decimal } from '../../chemistry/index.js';
import { gramsPerMole } from '../../reagents/index.js';
import { onceFor } from '../../once.js';
import { isMetal } from '../ghs/composition.js';
import { strongEnough, type Condition, type Side } from './conditions.js';
import type { ForeseenSeverity } from './contracts.js';
import type { Concentration } from './groups.js';
import { circumstanceGroups } from './circumstance-groups.js';
import { type Alike } from './groups-of-pot.js';
import { type ResolvedMixture } from './resolve-mixture.js';
import { type RuledIngredient } from './ruled-ingredient.js';
import type { PairRule } from './rules.js';

/** The ingredients on each side of a rule. */
export type Members = Readonly<Record<Side, readonly RuledIngredient[]>>;

export interface RuleMatch {
  readonly members: Members;
  readonly severity: ForeseenSeverity;
}

const sides = ['a', 'b', 'c'] as const;

type Units = ResolvedMixture['units'];

/** Units that one mole of an ingredient brings, of the group of which it brings most. */
function mostUnits(units: Units, ingredient: RuledIngredient, any: readonly string[]): number {
  let most = -Infinity;
  for (const group of any) most = Math.max(most, units(group, ingredient));
  return most;
}

const isWeighed = ({ made }: RuledIngredient): boolean => made === undefined;

/** What air and water bring: nothing follows from how much of it there is. */
const fromAnywhere: ReadonlySet<string> = new Set(['H', 'O']);

/**
 * What the reaction makes of the others on its side, and so adds nothing to them: one of its elements is in nothing
 * else that was weighed in, and it holds no more units for each atom of that than they do.
 */
function isMadeOf(
  product: RuledIngredient,
  members: readonly RuledIngredient[],
  { ingredients, unknown, units }: ResolvedMixture,
  any: readonly string[],
): boolean {
  if (isWeighed(product) || unknown.length > 0) return false;
  const perAtom = (one: RuledIngredient, element: string): number =>
    mostUnits(units, one, any) / Number(one.substance.atoms.get(element) ?? 0);
  return [...product.substance.atoms.keys()].some((element) => {
    if (fromAnywhere.has(element)) return false;
    const holders = ingredients.filter((one) => isWeighed(one) && one.substance.atoms.has(element));
    return (
      holders.length > 0 &&
      holders.every((one) => members.includes(one) && perAtom(product, element) <= perAtom(one, element))
    );
  });
}

/** mol of units of the given groups that ingredients bring; undefined where the amount of one is not known. */
export function unitsOf(
  resolved: ResolvedMixture,
  all: readonly RuledIngredient[],
  any: readonly string[],
): Decimal | undefined {
  const { units } = resolved;
  const members = all.length > 1 ? all.filter((one) => !isMadeOf(one, all, resolved, any)) : all;
  const [only] = members;
  if (only && members.length === 1) return only.mol && exact(only.mol.times(mostUnits(units, only, any)));
  // Of things that a name may mean only one is there: the one that brings most.
  const byPart = new Map<string, Map<string, Decimal>>();
  for (const ingredient of members) {
    if (ingredient.mol === undefined) return undefined;
    const perMole = mostUnits(units, ingredient, any);
    const variants = byPart.get(ingredient.part) ?? new Map<string, Decimal>();
    const before = variants.get(ingredient.variant) ?? exact(0);
    variants.set(ingredient.variant, before.plus(ingredient.mol.times(perMole)));
    byPart.set(ingredient.part, variants);
  }
  return [...byPart.values()].reduce((sum, variants) => sum.plus(mostOf([...variants.values()])), exact(0));
}

const mostOf = (amounts: readonly Decimal[]): Decimal => amounts.reduce((a, b) => (b.gt(a) ? b : a), exact(0));

/** g of the substance in an ingredient; undefined where its amount is not known. */
const gramsOfOne = onceFor(({ mol, formula }: RuledIngredient): number | undefined => {
  const perMole = gramsPerMole(formula);
  return mol === undefined || perMole === undefined ? undefined : mol.times(perMole).toNumber();
});

/** g that ingredients weigh; undefined where the amount of one is not known. */
export function gramsOf(members: readonly RuledIngredient[]): number | undefined {
  let sum = 0;
  for (const one of members) {
    const grams = gramsOfOne(one);
    if (grams === undefined) return undefined;
    sum += grams;
  }
  return sum;
}

/** How much takes part in a rule, and how many times its own mass of water is named beside it. */
export interface WaterBeside {
  readonly grams: number;
  readonly times: number;
}

/** Undefined where the mass of what takes part, or of the water, is not known, and where there is no water. */
export function waterBeside(members: Members, { ingredients }: ResolvedMixture): WaterBeside | undefined {
  const water = gramsOfWater(ingredients).grams;
  if (water === undefined) return undefined;
  const grams = gramsOf([...new Set(Object.values(members).flat())].filter((one) => !isWater(one)));
  return grams === undefined || grams === 0 ? undefined : { grams, times: water / grams };
}

const isWater = ({ substance }: RuledIngredient): boolean => substance.dry === 'H2O';

/** g of the water that is named in a mixture; undefined where none is, or its amount is not known. */
const gramsOfWater = onceFor((ingredients: ResolvedMixture['ingredients']) => {
  const waters = ingredients.filter(isWater);
  return { grams: waters.length === 0 ? undefined : gramsOf(waters) };
});

/** So little in so much water that it neither takes fire nor boils: judgement. */
export const isDrowned = (one: WaterBeside | undefined): boolean =>
  one !== undefined && one.grams <= 50 && one.times >= 20;

function groupsOfSide({ groups }: PairRule, side: Side): readonly string[] {
  for (const group of groups) if (group.side === side) return group.any;
  return [];
}

/** A side that is no substance, but a vessel, a place or a deed: what is in it or done with it meets it by itself. */
const isCircumstance = (rule: PairRule, side: Side): boolean =>
  groupsOfSide(rule, side).every((group) => circumstanceGroups.has(group));

/**
 * The first side's and another's that can meet: not in one thing, unless the rule says so or the other side is a
 * circumstance, and then not where one is there instead of the other.
 */
const canMeet = (rule: PairRule, other: Side, first: RuledIngredient, second: RuledIngredient): boolean =>
  first.part !== second.part ||
  ((rule.alone || isCircumstance(rule, other)) && areTogether(first.variant, second.variant));

/** What is named is there whichever kind of a product is. */
const areTogether = (first: string, second: string): boolean =>
  first === second || first === 'named' || second === 'named';

/** There are partners for each other among the members: one thing cannot meet itself, unless the rule says so. */
function distinct(rule: PairRule, members: Members): boolean {
  const three = members.c.length > 0 || groupsOfSide(rule, 'c').length > 0;
  return members.a.some((first) =>
    members.b.some(
      (second) =>
        canMeet(rule, 'b', first, second) && (!three || members.c.some((third) => canMeet(rule, 'c', first, third))),
    ),
  );
}

/** Whether an ingredient belongs to one of some groups. */
export function isOneOf(units: Units, any: readonly string[], ingredient: RuledIngredient): boolean {
  for (const group of any) if (units(group, ingredient) > 0) return true;
  return false;
}

/** By index, those who may stand on each side. */
type Places = Readonly<Record<Side, readonly number[]>>;

const placesOf = ({ a, b, c }: Members): Places => ({ a: a.map(indexOf), b: b.map(indexOf), c: c.map(indexOf) });
const indexOf = ({ index }: RuledIngredient): number => index;

const placesIn = onceFor((_: Alike) => new Map<PairRule, Places | undefined>());

/** Everyone in the mixture who belongs to the groups of each side; undefined where a side has nobody. */
function candidates(rule: PairRule, resolved: ResolvedMixture): Members | undefined {
  const { alike, ingredients } = resolved;
  if (!alike) return candidatesAnew(rule, resolved);
  const known = placesIn(alike);
  if (!known.has(rule)) {
    const found = candidatesAnew(rule, resolved);
    known.set(rule, found && placesOf(found));
    return found;
  }
  const places = known.get(rule);
  if (!places) return undefined;
  const there = (index: number): RuledIngredient => ingredients[index]!;
  return { a: places.a.map(there), b: places.b.map(there), c: places.c.map(there) };
}

function candidatesAnew(rule: PairRule, { ingredients, units, present }: ResolvedMixture): Members | undefined {
  const all: Record<Side, readonly RuledIngredient[]> = { a: [], b: [], c: [] };
  for (const { side, any } of rule.groups) {
    const there = any.length > 1 ? any.filter((group) => present.has(group)) : any;
    const members: RuledIngredient[] = [];
    for (const ingredient of ingredients) if (isOneOf(units, there, ingredient)) members.push(ingredient);
    if (members.length === 0) return undefined;
    all[side] = members;
  }
  return distinct(rule, all) ? all : undefined;
}

/** A side that anything is on: it says nothing of what stands there. */
const isAnything = (rule: PairRule, side: Side): boolean => {
  const any = groupsOfSide(rule, side);
  return any.length > 0 && (any.includes('anything') || isCircumstance(rule, side));
};

/** Who is named as taking part: not what is only beside it, unless nothing else is. */
export function namedIn(rule: PairRule, members: Members): readonly RuledIngredient[] {
  const named = sides.filter((side) => !isAnything(rule, side)).flatMap((side) => members[side]);
  return named.length > 0 ? named : everyoneIn(members);
}

const strengthsOf = (
  rule: PairRule,
  side: Side,
  ingredient: RuledIngredient,
  resolved: ResolvedMixture,
): readonly Concentration[] =>
  groupsOfSide(rule, side)
    .filter((group) => resolved.units(group, ingredient) > 0)
    .map((group) => resolved.strengthIn(group, ingredient));

/** A condition on the mixture as a whole. */
function mixtureHolds(
  rule: PairRule,
  condition: Exclude<Condition, { kind: 'strength' | 'other-metal' }>,
  members: Members,
  resolved: ResolvedMixture,
): boolean {
  switch (condition.kind) {
    case 'hot':
      return resolved.heat >= condition.celsius;
    case 'dry':
      return !resolved.wet;
    case 'acid':
      return ['strong_acid', 'weak_acid'].some((group) =>
        resolved.ingredients.some((ingredient) => resolved.units(group, ingredient) > 0),
      );
    case 'damp':
    case 'flame':
      return resolved.circumstances.has(condition.kind);
    case 'unspread':
      return !resolved.circumstances.has('spread') || resolved.circumstances.has('heap');
    case 'loose':
      return !resolved.ingredients.some(({ watery, wets }) => wets || (watery && !resolved.circumstances.has('drily')));
    case 'undrowned':
      return !isDrowned(waterBeside(members, resolved));
    case 'may-be-fine':
      return members[condition.side].some((ingredient) => resolved.units('metal_ware', ingredient) === 0);
    case 'weighs':
      return (gramsOf(members[condition.side]) ?? 0) >= condition.grams;
    case 'may-weigh':
      return (gramsOf(members[condition.side]) ?? Infinity) >= condition.grams;
    case 'exceeds': {
      const more = unitsOf(resolved, members[condition.more], groupsOfSide(rule, condition.more));
      const less = unitsOf(resolved, members[condition.less], groupsOfSide(rule, condition.less));
      return more === undefined || less === undefined || more.gt(less);
    }
  }
}

const metalsIn = ({ substance }: RuledIngredient): readonly string[] => [...substance.atoms.keys()].filter(isMetal);
const sharesMetal = (one: RuledIngredient, other: RuledIngredient): boolean =>
  metalsIn(one).some((metal) => metalsIn(other).includes(metal));

/** The members for whom all conditions of one alternative hold; undefined where they do not. */
function holdingMembers(
  rule: PairRule,
  alternative: readonly Condition[],
  all: Members,
  resolved: ResolvedMixture,
): Members | undefined {
  const members = { ...all };
  for (const condition of alternative) {
    if (condition.kind === 'other-metal') {
      members[condition.side] = members[condition.side].filter((one) =>
        members[condition.than].some((other) => !sharesMetal(one, other)),
      );
      continue;
    }
    if (condition.kind !== 'strength') {
      if (!mixtureHolds(rule, condition, members, resolved)) return undefined;
      continue;
    }
    const { side } = condition;
    members[side] = members[side].filter((ingredient) =>
      strengthsOf(rule, side, ingredient, resolved).some((strength) => strongEnough(strength, condition)),
    );
  }
  const complete = rule.groups.every(({ side }) => members[side].length > 0);
  return complete && distinct(rule, members) ? members : undefined;
}

const alwaysHolds = ({ when }: PairRule): boolean => when.length === 1 && when[0]!.length === 0;

const together = (several: readonly Members[]): Members => {
  if (several.length === 1) return several[0]!;
  const union = (side: Side): readonly RuledIngredient[] => [...new Set(several.flatMap((members) => members[side]))];
  return { a: union('a'), b: union('b'), c: union('c') };
};

/** Everyone who takes part, each once. */
export const everyoneIn = ({ a, b, c }: Members): readonly RuledIngredient[] => [...a, ...b, ...c];

/** Who takes part in a rule, and how serious it is here; undefined where it does not hold. */
export function matchRule(rule: PairRule, resolved: ResolvedMixture): RuleMatch | undefined {
  const all = candidates(rule, resolved);
  if (!all) return undefined;
  if (alwaysHolds(rule)) return { members: all, severity: rule.severity };
  const holding = rule.when.flatMap((alternative) => holdingMembers(rule, alternative, all, resolved) ?? []);
  if (holding.length > 0) return { members: together(holding), severity: rule.severity };
  return rule.otherwise ? { members: all, severity: rule.otherwise } : undefined;
}
