// What is foreseen of what steps tell around the pot: closed, quenched, gone mouldy, put into water, ground to dust.
import type { Mixture } from '../../hazards/foresee/contracts.js';
import { isOfDust, isOfHotWater, isOfWater } from '../../hazards/foresee/rules.js';
import type { Entry } from '../../journal/entry.js';
import { isNameOf } from '../told/brought-in.js';
import { dustOfSteps } from '../told/dust-of-steps.js';
import { hotWaterIn } from '../told/hot-water.js';
import { aroundTold, staysInCake, wateredAt, wateredBeside, type Around } from '../told/told-around.js';
import { asToldAround } from '../told/told-work.js';
import { bringsWater, type VesselItem } from '../vessels.js';
import type { Gathering } from './gathering.js';
import { firstSteps, stepOfItem } from './going-in.js';
import { ingredientsIn, productOf, type Setting } from './setting.js';

/** The pots of a sample, all or apart, and where what is foreseen for them is gathered. */
interface PotsOfSample {
  readonly setting: Setting;
  readonly sample: string | undefined;
  readonly groups: readonly (readonly VesselItem[])[];
  readonly into: Gathering;
}

/** What is in a pot when its step tells what is around it, with what stands for that. */
export const withAround = (
  items: readonly VesselItem[],
  { items: around, step = Infinity, isCake, partedAt = Infinity, byItself }: Around,
  first: ReadonlyMap<string, number>,
): readonly VesselItem[] => [
  ...(byItself ? [] : items).filter((one) => {
    const goesIn = stepOfItem(one, first) ?? 0;
    return goesIn <= step && (!isCake || goesIn > partedAt || staysInCake(one));
  }),
  ...around,
];

export const potAround = (
  among: readonly VesselItem[],
  { celsius }: Around,
): Pick<Mixture, 'ingredients' | 'heating'> => ({
  ingredients: ingredientsIn(among),
  ...(celsius !== undefined && { heating: [{ of: 'mixture', toCelsius: celsius }] }),
});

/** Water that only words have brought when a step shuts it in with quicklime or carbide. */
function waterBy(
  entry: Entry,
  { items, step = Infinity }: Around,
  group: readonly VesselItem[],
): readonly VesselItem[] {
  if (!items.some(({ id }) => id === 'closed vessel') || group.some(bringsWater)) return [];
  const watered = wateredAt(entry);
  return watered && (watered.step ?? 0) <= step ? watered.items : [];
}

/** What is foreseen at steps that tell what is around the pot: closed, quenched, gone mouldy. */
export function foreseeAround({ setting: { entry: written, room, pots }, sample, groups, into }: PotsOfSample): void {
  const entry = asToldAround(written);
  for (const around of aroundTold(written)) {
    if (around.sample !== undefined && around.sample !== sample) continue;
    // Where nothing is listed, what is made is there by itself, or what is hot.
    const isAlone = around.byItself === true || groups.length === 0;
    for (const group of isAlone ? [[]] : groups) {
      const among = [...withAround(group, around, firstSteps(entry, group)), ...waterBy(entry, around, group)];
      const pot = potAround(among, around);
      const ingredients = around.withProduct ? [...pot.ingredients, ...productOf(entry)] : pot.ingredients;
      const found = pots.foresee({ ...room, ...pot, ingredients }, among);
      // What flies about is judged with what of the pot is dry.
      for (const one of found.foreseen) if (!isOfDust(one.rule)) into.add(one, sample ?? '', among);
    }
  }
}

/** What is foreseen where water stands only in the words of steps: carbide that drops into a bucket of it. */
export function foreseeWatered({ setting: { entry, room, pots }, sample, groups, into }: PotsOfSample): void {
  const watered = wateredAt(entry) ?? wateredBeside(entry);
  if (!watered) return;
  for (const group of groups) {
    if (group.some(bringsWater)) continue;
    const among = withAround(group, watered, firstSteps(entry, group));
    for (const one of pots.foreseeOnly({ ...room, ...potAround(among, watered) }, among, isOfWater))
      into.add(one, sample ?? '', among);
  }
}

/** Baryta with its water of crystals is put into hot water as a matter of course: it cools what it dissolves in. */
const holdsItsWater = ({ reagent }: VesselItem): boolean => /[·*•]\s*\d*\s*H2O/.test(reagent.substance?.formula ?? '');

/** What is foreseen where the words of a step put hot water to something that they name. */
export function foreseeHotWater({ setting: { entry: written, room, pots }, sample, groups, into }: PotsOfSample): void {
  const entry = asToldAround(written);
  for (const { step, sample: only, items, names } of hotWaterIn(entry)) {
    if (only !== undefined && only !== sample) continue;
    for (const group of groups) {
      const named = group.filter((item) => !holdsItsWater(item) && names.some((one) => isNameOf(one, item)));
      if (named.length === 0) continue;
      const among = withAround(named, { items, step, isCake: false }, firstSteps(entry, group));
      for (const one of pots.foreseeOnly({ ...room, ingredients: ingredientsIn(among) }, among, isOfHotWater))
        into.add(one, sample ?? '', among);
    }
  }
}

/** What is foreseen where steps grind, sieve, sand or sweep something dry. */
export function foreseeDust({ setting: { entry: written, room, pots }, sample, groups, into }: PotsOfSample): void {
  const entry = asToldAround(written);
  // Where nothing is listed, what is made is there by itself.
  const vessels = groups.length > 0 ? groups : [[]];
  for (const { step, sample: only, of } of dustOfSteps(entry)) {
    if (only !== undefined && only !== sample) continue;
    for (const group of vessels) {
      const first = firstSteps(entry, group);
      const dust = of(group.filter((one) => (stepOfItem(one, first) ?? 0) <= step));
      if (!dust) continue;
      const ingredients = [...ingredientsIn(dust.items), ...(dust.withProduct ? productOf(entry) : [])];
      for (const one of pots.foreseeOnly({ ...room, ingredients }, dust.items, isOfDust))
        into.add(one, sample ?? '', dust.items);
    }
  }
}
