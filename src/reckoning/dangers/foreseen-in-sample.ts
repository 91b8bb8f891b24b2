// What is foreseen for one sample's vessels.
import type { Foreseen, Foresight, Mixture, MixtureHeating } from '../../hazards/foresee/contracts.js';
import { holdsOnlyHot } from '../../hazards/foresee/rules.js';
import type { Workspace } from '../../hazards/foresee/workspace.js';
import type { Entry } from '../../journal/entry.js';
import { comesInCold } from '../told/comes-in-cold.js';
import { coldFrom } from '../told/told-around.js';
import { bringsWater, byVessel, heatOfVessel, heatingOf, type VesselItem } from '../vessels.js';
import { foreseeAround, foreseeDust, foreseeHotWater, foreseeWatered } from './around-the-pot.js';
import type { Gathering } from './gathering.js';
import { heatedSteps, heatsInWords } from './heated-steps.js';
import { heatsOfPortions } from './portion-heat.js';
import { addedLater, partedAt } from './parted.js';
import type { Pots } from './pots.js';
import { ingredientsIn, productOf, type Setting } from './setting.js';

/**
 * What a vessel threatens only because its product is heated, if the salts that it was precipitated with were not
 * washed out: dangers that appear when the whole mixture is as hot as the product. They are told as notes.
 */
function ifNotWashedOut(
  isProductKnown: boolean,
  heats: readonly MixtureHeating[],
  mixture: Mixture,
  foreseeFurther: (hotter: Mixture) => readonly Foreseen[],
): readonly Foreseen[] {
  const hottest = Math.max(0, ...heats.filter(({ of }) => of === 'product').map(({ toCelsius }) => toCelsius));
  if (!isProductKnown || hottest < 100) return [];
  return foreseeFurther({ ...mixture, heating: [{ of: 'mixture', toCelsius: hottest }] })
    .filter(({ severity }) => severity === 'danger')
    .map((one) => ({
      ...one,
      severity: 'note' as const,
      condition: `only if it was not washed out before heating; ${one.condition}`,
    }));
}

const asWhole = (one: MixtureHeating): MixtureHeating => (one.of === 'product' ? { ...one, of: 'mixture' } : one);

/**
 * An ignition of a product of which nothing says what it is: it is taken for one of all that went in. Drying is not
 * done in the pot.
 */
const ignitedWhole = (sample: Entry['samples'][number] | undefined): readonly MixtureHeating[] =>
  sample ? heatsOfPortions({ ...sample, dried: undefined }).map(asWhole) : [];

/** The heat that is left for what comes in after the fire, if any. */
function heatOfLater(later: ReturnType<typeof comesInCold>): readonly MixtureHeating[] {
  const toCelsius = Math.max(-Infinity, ...[...later.values()].map(({ celsius }) => celsius));
  return toCelsius > -Infinity ? [{ of: 'mixture', toCelsius }] : [];
}

/** A sample while its vessels are judged. */
class Judging {
  constructor(
    readonly setting: Setting,
    /** Empty where an entry has no samples. */
    private readonly id: string,
    readonly into: Gathering,
  ) {}

  /** Foresees a vessel that holds these uses, and what else is in it, and gathers that. */
  foreseeIn(vessel: Mixture, among: readonly VesselItem[]): Foresight {
    const foresight = this.setting.pots.foresee({ ...this.setting.room, ...vessel }, among);
    this.into.addAll(foresight, this.id, among);
    return foresight;
  }

  gather(found: readonly Foreseen[], among: readonly VesselItem[]): void {
    for (const one of found) this.into.add(one, this.id, among);
  }
}

/** What goes in when all heat is over meets the rest cold, and what the heat has made of it. */
function foreseeLater(
  judging: Judging,
  mixture: Mixture,
  all: readonly VesselItem[],
  later: ReturnType<typeof comesInCold>,
): void {
  const ingredients = [...ingredientsIn(all), ...productOf(judging.setting.entry)];
  judging.foreseeIn({ ingredients, heating: heatOfLater(later) }, all);
  const hot = judging.setting.pots.foresee({ ...mixture, ingredients }, all).foreseen;
  judging.gather(
    hot.filter(({ rule }) => !holdsOnlyHot(rule)),
    all,
  );
}

/** What the product is threatened with when it is fired, of itself or by what was not washed out of it. */
function foreseeFired(
  judging: Judging,
  { mixture, foresight, main }: { mixture: Mixture; foresight: Foresight; main: readonly VesselItem[] },
  portions: readonly MixtureHeating[],
  ofProduct: readonly MixtureHeating[],
): void {
  const { entry, pots } = judging.setting;
  const product = productOf(entry);
  if (product.length > 0 && portions.length > 0) judging.foreseeIn({ ingredients: product, heating: portions }, []);
  const further = (hotter: Mixture): readonly Foreseen[] => pots.foreseeFurther(foresight, hotter, main);
  judging.gather(ifNotWashedOut(product.length > 0, ofProduct, mixture, further), main);
}

/** What goes in when the product is filtered off already gets all of its heat with it. */
function foreseeAddedLater(judging: Judging, added: readonly VesselItem[], heats: readonly MixtureHeating[]): void {
  if (added.length === 0) return;
  const ingredients = [...ingredientsIn(added), ...productOf(judging.setting.entry)];
  judging.foreseeIn({ ingredients, heating: heats.map(asWhole) }, added);
}

/** What is foreseen for one sample's vessels. */
export function foreseeSample(
  setting: Setting,
  index: number | undefined,
  items: readonly VesselItem[],
  into: Gathering,
): void {
  const { entry, room, whatIf, pots } = setting;
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const judging = new Judging(setting, sample?.sample ?? '', into);
  const heating = [...entry.heating, ...(sample?.heating ?? [])];
  const { main: all, apart, washes } = byVessel(items);
  const cold = coldFrom(entry) ?? Infinity;
  const later = comesInCold(entry, all);
  const main = all.filter((item) => (item.step ?? -1) < cold && !later.has(item));
  const ofWords = heatsInWords(entry, sample?.sample, { main, apart });
  const heats = [...heatingOf(heating, items), ...ofWords, ...whatIf.heating];
  const product = productOf(entry);
  const isWet = main.some(bringsWater) || partedAt(entry) !== undefined;
  const precipitated = isWet && product.length > 0 && entry.reaction !== undefined;
  const portions = sample ? heatsOfPortions(sample) : [];
  const mixture: Mixture = {
    ...room,
    ingredients: [...ingredientsIn(main), ...product, ...whatIf.added],
    // Fired dry, or of something unknown: the heat of the product is the heat of everything in the vessel.
    heating: precipitated ? heats : [...heats.map(asWhole), ...(product.length > 0 ? [] : ignitedWhole(sample))],
    ...(entry.reaction !== undefined && { reaction: entry.reaction }),
  };
  const foresight = judging.foreseeIn(mixture, main);
  if (precipitated) foreseeAddedLater(judging, addedLater(entry, main), heats);
  foreseeFired(judging, { mixture, foresight, main }, portions, precipitated ? [...heats, ...portions] : portions);
  for (const { among, toCelsius } of heatedSteps(entry, sample?.sample, { main, apart }))
    judging.foreseeIn({ ingredients: ingredientsIn(among), heating: [{ of: 'mixture', toCelsius }] }, among);
  for (const group of apart) {
    const own = heatOfVessel(group, heating, heats, main.length === 0);
    judging.foreseeIn({ ingredients: ingredientsIn(group), heating: own }, group);
  }
  if (main.length < all.length) foreseeLater(judging, mixture, all, later);
  const potsOfSample = { setting, sample: sample?.sample, groups: all.length > 0 ? [all] : apart, into };
  foreseeAround(potsOfSample);
  foreseeWatered(potsOfSample);
  foreseeHotWater(potsOfSample);
  foreseeDust(potsOfSample);
  if (washes.length > 0) {
    // Of a product that nothing names the cake holds what went into it.
    const cake = product.length > 0 ? washes : [...washes, ...main];
    judging.foreseeIn({ ingredients: [...ingredientsIn(cake), ...product] }, cake);
  }
  if (washes.length > 0 || apart.length > 0) foreseeWaste(items, room, into, pots);
}

/** What was kept apart meets all the same where the waste of all of it goes into one bottle. */
function foreseeWaste(items: readonly VesselItem[], room: Workspace, into: Gathering, pots: Pots): void {
  const isAsked = (rule: string): boolean => !into.hazards.has(rule);
  const foreseen = pots.foreseeOnly({ ...room, ingredients: ingredientsIn(items) }, items, isAsked);
  for (const { rule, severity, title, partners } of foreseen) {
    if (severity === 'danger')
      into.wasted.set(rule, `In one waste bottle ${partners.join(', ')} would meet: ${title}. Keep their waste apart.`);
  }
}
