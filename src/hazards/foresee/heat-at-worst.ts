// How hot a mixture and each thing in it get, and at worst where it is not said.
import type { MixtureHeating } from './contracts.js';
import type { Gathered } from './gathered.js';
import { membershipsOf } from './groups.js';
import { isOrganic, isPlainWater, roomCelsius, type RuledIngredient } from './ruled-ingredient.js';

const plainName = (name: string): string => name.trim().toLowerCase();

/** What is heated, by its plain name. */
export const plainHeats = (heats: readonly MixtureHeating[]): readonly MixtureHeating[] =>
  heats.map(({ of, toCelsius }) => ({ of: plainName(of), toCelsius }));

/** @param heats by plain names */
export function heatOfMixture(ingredients: readonly RuledIngredient[], heats: readonly MixtureHeating[]): number {
  let hottest = roomCelsius;
  for (const { of, toCelsius } of heats) if (of === 'mixture') hottest = Math.max(hottest, toCelsius);
  for (const { heat } of ingredients) hottest = Math.max(hottest, heat);
  return hottest;
}

/** @param heats by plain names */
export function heatOfOne(ingredient: RuledIngredient, mixture: number, heats: readonly MixtureHeating[]): number {
  let hottest = Math.max(mixture, ingredient.heat);
  if (heats.length === 0) return hottest;
  const name = plainName(ingredient.name);
  for (const { of, toCelsius } of heats)
    if (of === name || (of === 'product' && ingredient.made === 'product')) hottest = Math.max(hottest, toCelsius);
  return hottest;
}

/**
 * °C where it is said to be heated and not how hot: a dry solid over a flame, what is organic, what boils. Judgement.
 */
const heatAtWorst = { dry: 700, organic: 150, wet: 105 };

/** °C at which what is said to be melted melts: wax and fat in hot water, salts and metals far above. */
const melts = { organic: 90, other: 400 };

export function heatedToMelt(one: RuledIngredient): RuledIngredient {
  if (isPlainWater(one)) return one;
  return { ...one, heat: Math.max(one.heat, isOrganic(one) ? melts.organic : melts.other) };
}

/** A pot of oil or wax without water that is said to boil is as hot as that boils itself: far above 100 °C. */
const boilsAsOil = ({ ingredients, heat: pot }: Gathered, wet: boolean): boolean =>
  !wet &&
  (isBoiling(pot) || ingredients.some(({ heat }) => isBoiling(heat))) &&
  ingredients.some(({ substance, strength }) => (membershipsOf(substance, strength).get('oil_or_wax') ?? 0) > 0);
const boils = { from: 99, to: 101 };
const isBoiling = (heat: number): boolean => heat >= boils.from && heat <= boils.to;

/** The ingredients, as hot as they are at worst where it is not said how hot. */
export function heatedAtWorst(gathered: Gathered, wet: boolean): readonly RuledIngredient[] {
  const { ingredients } = gathered;
  const heated = [...gathered.heated];
  const isAll = boilsAsOil(gathered, wet);
  if (heated.length === 0 && !isAll) return ingredients;
  return ingredients.map((one) => {
    if (!isAll && !heated.some((at) => one.part.startsWith(at))) return one;
    const other = isOrganic(one) ? heatAtWorst.organic : heatAtWorst.dry;
    return { ...one, heat: Math.max(one.heat, wet || one.watery ? heatAtWorst.wet : other) };
  });
}
