// What can be foreseen in each sample of an entry, gathered over all of them.
import { foreseer } from '../../hazards/foresee/foresee.js';
import { holdsOnlyHot, isOfDust, isOfWater } from '../../hazards/foresee/rules.js';
import { workspaceOf, type Workspace } from '../../hazards/foresee/workspace.js';
import type {
  ContentsTaken,
  Foreseen,
  Foresight,
  MixedReagent,
  Mixture,
  MixtureHeating,
} from '../../hazards/foresee/contracts.js';
import type { Decimal } from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import type { ReckoningContext } from '../contracts.js';
import { judgedCelsius, resolveNamed } from '../../reagents/index.js';
import { once, onceFor } from '../../once.js';
import { balanceOf } from '../balance.js';
import {
  broughtIn,
  broughtInWords,
  stepsNaming,
  leftOutWords,
  spokenOfIn,
  type AllBroughtIn,
  type BroughtIn,
} from '../told/brought-in.js';
import { comesInCold } from '../told/comes-in-cold.js';
import { dustOfSteps } from '../told/dust-of-steps.js';
import { heatsIn } from '../told/heat-in-words.js';
import { ingredientsOf, type Ingredient } from '../ingredients.js';
import { notReadWords } from '../told/left-out.js';
import { scaledReagent } from '../amounts/scaling.js';
import { heatsOfPortions } from './portion-heat.js';
import { aroundTold, aroundWaste, coldFrom, staysInCake, wateredAt, type Around } from '../told/told-around.js';
import { asToldAround, asWorked } from '../told/told-work.js';
import { heatNotJudged, heatsTold, type HeatNotJudged } from '../told/told-heat.js';
import {
  bringsWater,
  byVessel,
  heatingOf,
  heatOfVessel,
  freeAcidIn,
  itemOf,
  severityRank,
  speaksOfVessel,
  type VesselItem,
} from '../vessels.js';

/** One hazard, wherever in the entry it arises. */
export interface ForeseenSomewhere {
  /** The most serious of its kind, with the largest bound. */
  readonly foreseen: Foreseen;
  /** Ids of the samples in which it arises. */
  readonly samples: ReadonlySet<string>;
  /** Where its partners are used. */
  readonly paths: readonly Path[];
}

export interface EntryForesight {
  readonly hazards: readonly ForeseenSomewhere[];
  readonly unknown: readonly { readonly name: string; readonly path: Path }[];
  readonly taken: readonly ContentsTaken[];
  /** Every use in every sample. */
  readonly items: readonly VesselItem[];
  /** What meets them by keys and the words of the work, and is none of them. */
  readonly brought: readonly BroughtIn[];
  /** What of the entry could not be read, in sentences: what this leaves out of the judging. */
  readonly notRead: readonly string[];
  /** What is told with the hazards; the words beside the work are read when it is asked for. */
  readonly besides: () => ToldBesides;
}

/** What is told with the hazards of an entry, and changes none of them. */
export interface ToldBesides {
  readonly cautions: readonly string[];
  /** What meets what the entry lists, or is spoken of with it, and is none of it. */
  readonly brought: readonly BroughtIn[];
  /** What is named and was not judged, though it would be a danger if it were there. */
  readonly spokenOf: readonly SpokenOf[];
  /** What was judged only by words, or not at all, in sentences that stand among the cautions too. */
  readonly byWords: readonly string[];
  /** Heat that is told and was not judged. */
  readonly heatNotJudged?: HeatNotJudged;
}

/** Something that is named, and that would be a danger in the pot; whether it was there is not plain. */
export interface SpokenOf {
  readonly name: string;
  /** `step 3` */
  readonly where: string;
  readonly path: Path;
  readonly titles: readonly string[];
}

/** What if: something added to every sample, other heat, another room. */
export interface WhatIf {
  readonly added: readonly MixedReagent[];
  readonly heating: readonly MixtureHeating[];
  readonly roomCubicMetres?: string;
}
const asItStands: WhatIf = { added: [], heating: [] };

/** Of two findings of one rule, the more serious; of two as serious, the one with more gas. */
function worseOf(before: Foreseen, found: Foreseen): Foreseen {
  const apart = severityRank[found.severity] - severityRank[before.severity];
  const more = Number(found.worstCase?.mol ?? 0) > Number(before.worstCase?.mol ?? 0);
  return apart < 0 || (apart === 0 && more) ? found : before;
}

/** Gathers what is foreseen for the vessels of all samples. */
class Gathering {
  readonly hazards = new Map<string, ForeseenSomewhere>();
  readonly unknown = new Map<string, Path>();
  readonly cautions = new Set<string>();
  /** By name: what it was taken as. */
  readonly taken = new Map<string, ContentsTaken>();
  /** By rule: what would meet in one waste bottle. */
  readonly wasted = new Map<string, string>();

  add(found: Foreseen, sample: string, items: readonly VesselItem[]): void {
    const paths = items.filter(({ reagent }) => found.partners.includes(reagent.name)).map(({ path }) => path);
    const before = this.hazards.get(found.rule);
    const samples = new Set([...(before?.samples ?? []), ...(sample === '' ? [] : [sample])]);
    if (!before) {
      this.hazards.set(found.rule, { foreseen: found, samples, paths });
      return;
    }
    const partners = [...new Set([...before.foreseen.partners, ...found.partners])].sort();
    const foreseen = { ...worseOf(before.foreseen, found), partners };
    this.hazards.set(found.rule, { foreseen, samples, paths: [...before.paths, ...paths] });
  }

  addAll(foresight: Foresight, sample: string, items: readonly VesselItem[]): void {
    for (const found of foresight.foreseen) this.add(found, sample, items);
    for (const name of foresight.unknown) {
      this.unknown.set(name, items.find(({ reagent }) => reagent.name === name)?.path ?? ['reagents']);
    }
    for (const caution of foresight.cautions) this.cautions.add(caution);
    for (const one of foresight.taken) if (!this.taken.has(one.name)) this.taken.set(one.name, one);
  }
}

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

const ingredientsIn = (items: readonly VesselItem[]): readonly MixedReagent[] =>
  items.map(({ reagent }) => ({ reagent }));

/** The product as it stands in a vessel; nothing where its formula is not known. */
export const productOf = onceFor(({ pigment }: Entry): readonly MixedReagent[] => {
  if (pigment?.formula === undefined) return [];
  return [{ reagent: resolveNamed(pigment.name, pigment.formula), made: 'product' }];
});

type Step = NonNullable<Entry['steps']>[number];

/**
 * By id or name, in small letters: the step at which something goes in, 0 the first; steps that are only a sentence
 * name nothing.
 */
export const stepsOfIds = onceFor(({ steps = [] }: Entry): ReadonlyMap<string, number> => {
  const first = new Map<string, number>();
  steps.forEach((step, at) => {
    for (const written of typeof step === 'string' ? [] : (step.with ?? [])) {
      const id = written.toLowerCase();
      if (!first.has(id)) first.set(id, at);
    }
  });
  return first;
});

/** The step in which each that is listed first goes in, by its id in small letters: as its words or its keys tell. */
export const firstSteps = (entry: Entry, items: readonly VesselItem[]): ReadonlyMap<string, number> =>
  new Map([...stepsNaming(entry, items), ...stepsOfIds(entry)]);

/** The step at which something goes in, by its id or its name; nothing where no step names it. */
export const stepOfItem = (
  { id, reagent, step }: Pick<VesselItem, 'id' | 'reagent' | 'step'>,
  first: ReadonlyMap<string, number>,
): number | undefined => step ?? first.get(id.toLowerCase()) ?? first.get(reagent.name.toLowerCase());

type Vessels = Pick<ReturnType<typeof byVessel>, 'main' | 'apart'>;

/**
 * The vessels that a step may heat: the main one, those that it speaks of or puts something into; where that is none,
 * all of them.
 */
function vesselsHeated(
  { do: done, with: ids = [] }: Pick<Exclude<Step, string>, 'do' | 'with'>,
  { main, apart }: Vessels,
): readonly (readonly VesselItem[])[] {
  const here = new Map(ids.map((id) => [id.toLowerCase(), 0]));
  const meant = apart.filter(
    (group) => speaksOfVessel(done, group) || group.some((item) => stepOfItem(item, here) !== undefined),
  );
  const heated = main.length > 0 ? [main, ...meant] : meant;
  return heated.length > 0 ? heated : apart;
}

/** Words of heat are of the pot as it is then where steps say what goes in when; else of all of it. */
const heatsByStep = (first: ReadonlyMap<string, number>, { apart }: Vessels): boolean =>
  first.size > 0 || apart.length > 0;

/** Steps that are heated, with what is in the vessel by then; what no step names is there from the first. */
function heatedSteps(
  entry: Entry,
  sample: string | undefined,
  vessels: Vessels,
): readonly { readonly among: readonly VesselItem[]; readonly toCelsius: number }[] {
  const first = stepsOfIds(entry);
  const told = heatsByStep(first, vessels) ? heatsTold(entry).filter(({ of }) => of === 'mixture') : [];
  return (entry.steps ?? []).flatMap((written, at) => {
    const step = typeof written === 'string' ? { do: written } : written;
    if (step.sample !== undefined && step.sample !== sample) return [];
    const inWords = told.filter((one) => one.step === at).map(({ celsius }) => celsius);
    const heats = [...inWords, ...(step.heat === undefined ? [] : [judgedCelsius(step.heat)])];
    if (heats.length === 0) return [];
    const toCelsius = Math.max(...heats);
    const isThere = (item: VesselItem): boolean => (stepOfItem(item, first) ?? 0) <= at;
    return vesselsHeated(step, vessels).map((items) => ({ among: items.filter(isThere), toCelsius }));
  });
}

/** Heats that words tell of all that a sample holds, or of its product. */
function heatsInWords(entry: Entry, sample: string | undefined, vessels: Vessels): readonly MixtureHeating[] {
  const byStep = heatsByStep(stepsOfIds(entry), vessels);
  return heatsTold(entry)
    .filter((one) => one.sample === undefined || one.sample === sample)
    .filter(({ of, step }) => !byStep || of === 'product' || step === undefined)
    .map(({ of, celsius }) => ({ of, toCelsius: celsius }));
}

/**
 * The pots of an entry: where several hold the same uses and are as hot, one is foreseen for all; where they get other
 * heat, what does not depend on it is.
 */
class Pots {
  /** A number for each use and what else goes into them, and for each that is made in them. */
  private readonly numbers = new Map<object, number>();
  private readonly numbersOfMade = new Map<object, number>();
  /** By those numbers, the first that was put into a pot. */
  private readonly first: MixedReagent[] = [];
  private readonly lists = new Map<string, readonly MixedReagent[]>();
  private readonly foreseen = new Map<string, Foresight>();
  private readonly furtherTo = onceFor((_: Foresight) => new Map<string, readonly Foreseen[]>());
  private readonly foreseer = foreseer();

  /** @param items those of its ingredients that are uses, in the same order; others follow them */
  foresee(mixture: Mixture, items: readonly VesselItem[]): Foresight {
    const pot = this.potOf(mixture, items);
    let foresight = this.foreseen.get(pot.key);
    if (!foresight) this.foreseen.set(pot.key, (foresight = this.foreseer.foresee(pot.mixture())));
    return foresight;
  }

  /** What is foreseen by rules that are asked for. */
  foreseeOnly(mixture: Mixture, items: readonly VesselItem[], isAsked: (rule: string) => boolean): readonly Foreseen[] {
    const pot = this.potOf(mixture, items);
    const foresight = this.foreseen.get(pot.key);
    if (foresight) return foresight.foreseen.filter(({ rule }) => isAsked(rule));
    return this.foreseer.foreseeOnly(pot.mixture(), isAsked);
  }

  /** What is foreseen by rules of which a foresight tells nothing. */
  foreseeFurther(before: Foresight, mixture: Mixture, items: readonly VesselItem[]): readonly Foreseen[] {
    const known = this.furtherTo(before);
    const { key } = this.potOf(mixture, items);
    let further = known.get(key);
    if (!further) {
      const told = new Set(before.foreseen.map(({ rule }) => rule));
      known.set(key, (further = this.foreseeOnly(mixture, items, (rule) => !told.has(rule))));
    }
    return further;
  }

  private potOf(
    mixture: Mixture,
    items: readonly VesselItem[],
  ): { readonly key: string; readonly mixture: () => Mixture } {
    const { ingredients, ...around } = mixture;
    const held = ingredients.map((one, at) => this.numberOf(items[at]?.use ?? one.reagent, one));
    const list = held.join(' ');
    // All that is around them counts, whatever a mixture comes to be told of besides.
    return {
      key: `${list} ${JSON.stringify(around)}`,
      mixture: () => ({ ...mixture, ingredients: this.listOf(list, held) }),
    };
  }

  private numberOf(held: object, one: MixedReagent): number {
    const numbers = one.made === undefined ? this.numbers : this.numbersOfMade;
    const before = numbers.get(held);
    if (before !== undefined) return before;
    numbers.set(held, this.first.length);
    return this.first.push(one) - 1;
  }

  private listOf(list: string, held: readonly number[]): readonly MixedReagent[] {
    let ingredients = this.lists.get(list);
    if (!ingredients) this.lists.set(list, (ingredients = held.map((number) => this.first[number]!)));
    return ingredients;
  }
}

/** What the samples of an entry have in common when they are foreseen. */
interface Setting {
  readonly entry: Entry;
  readonly room: Workspace;
  readonly whatIf: WhatIf;
  readonly pots: Pots;
}

const asWhole = (one: MixtureHeating): MixtureHeating => (one.of === 'product' ? { ...one, of: 'mixture' } : one);

/**
 * An ignition of a product of which nothing says what it is: it is taken for one of all that went in. Drying is not
 * done in the pot.
 */
const ignitedWhole = (sample: Entry['samples'][number] | undefined): readonly MixtureHeating[] =>
  sample ? heatsOfPortions({ ...sample, dried: undefined }).map(asWhole) : [];

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
function foreseeAround(
  { entry: written, room, pots }: Setting,
  sample: string | undefined,
  groups: readonly (readonly VesselItem[])[],
  into: Gathering,
): void {
  const entry = asToldAround(written);
  for (const around of aroundTold(written)) {
    if (around.sample !== undefined && around.sample !== sample) continue;
    for (const group of around.byItself ? [[]] : groups) {
      const among = [...withAround(group, around, firstSteps(entry, group)), ...waterBy(entry, around, group)];
      const found = pots.foresee({ ...room, ...potAround(among, around) }, among);
      // What flies about is judged with what of the pot is dry.
      for (const one of found.foreseen) if (!isOfDust(one.rule)) into.add(one, sample ?? '', among);
    }
  }
}

/** What is foreseen where water stands only in the words of steps: carbide that drops into a bucket of it. */
function foreseeWatered(
  { entry, room, pots }: Setting,
  sample: string | undefined,
  groups: readonly (readonly VesselItem[])[],
  into: Gathering,
): void {
  const watered = wateredAt(entry);
  if (!watered) return;
  for (const group of groups) {
    if (group.some(bringsWater)) continue;
    const among = withAround(group, watered, firstSteps(entry, group));
    for (const one of pots.foreseeOnly({ ...room, ...potAround(among, watered) }, among, isOfWater))
      into.add(one, sample ?? '', among);
  }
}

/** What is foreseen where steps grind, sieve, sand or sweep something dry. */
function foreseeDust(
  { entry: written, room, pots }: Setting,
  sample: string | undefined,
  groups: readonly (readonly VesselItem[])[],
  into: Gathering,
): void {
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

/** The heat that is left for what comes in after the fire, if any. */
function heatOfLater(later: ReturnType<typeof comesInCold>): readonly MixtureHeating[] {
  const toCelsius = Math.max(-Infinity, ...[...later.values()].map(({ celsius }) => celsius));
  return toCelsius > -Infinity ? [{ of: 'mixture', toCelsius }] : [];
}

/** What is foreseen for one sample's vessels. */
function foreseeSample(
  { entry, room, whatIf, pots }: Setting,
  index: number | undefined,
  items: readonly VesselItem[],
  into: Gathering,
): void {
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const id = sample?.sample ?? '';
  const heating = [...entry.heating, ...(sample?.heating ?? [])];
  const { main: all, apart, washes } = byVessel(items);
  const cold = coldFrom(entry) ?? Infinity;
  const later = comesInCold(entry, all);
  const main = all.filter((item) => (item.step ?? -1) < cold && !later.has(item));
  const ofWords = heatsInWords(entry, sample?.sample, { main, apart });
  const heats = [...heatingOf(heating, items), ...ofWords, ...whatIf.heating];
  const product = productOf(entry);
  const precipitated = main.some(bringsWater) && product.length > 0 && entry.reaction !== undefined;
  const portions = sample ? heatsOfPortions(sample) : [];
  const foreseeIn = (vessel: Mixture, among: readonly VesselItem[]): Foresight => {
    const foresight = pots.foresee({ ...room, ...vessel }, among);
    into.addAll(foresight, id, among);
    return foresight;
  };
  const mixture: Mixture = {
    ...room,
    ingredients: [...ingredientsIn(main), ...product, ...whatIf.added],
    // Fired dry, or of something unknown: the heat of the product is the heat of everything in the vessel.
    heating: precipitated ? heats : [...heats.map(asWhole), ...(product.length > 0 ? [] : ignitedWhole(sample))],
    ...(entry.reaction !== undefined && { reaction: entry.reaction }),
  };
  const foresight = foreseeIn(mixture, main);
  const foreseeFurther = (hotter: Mixture): readonly Foreseen[] => pots.foreseeFurther(foresight, hotter, main);
  if (product.length > 0 && portions.length > 0) foreseeIn({ ingredients: product, heating: portions }, []);
  const ofProduct = precipitated ? [...heats, ...portions] : portions;
  for (const found of ifNotWashedOut(product.length > 0, ofProduct, mixture, foreseeFurther)) into.add(found, id, main);
  for (const { among, toCelsius } of heatedSteps(entry, sample?.sample, { main, apart }))
    foreseeIn({ ingredients: ingredientsIn(among), heating: [{ of: 'mixture', toCelsius }] }, among);
  for (const group of apart) {
    const own = heatOfVessel(group, heating, heats, main.length === 0);
    foreseeIn({ ingredients: ingredientsIn(group), heating: own }, group);
  }
  if (main.length < all.length) {
    // What goes in when all heat is over meets the rest cold, and what the heat has made of it.
    const ingredients = [...ingredientsIn(all), ...product];
    foreseeIn({ ingredients, heating: heatOfLater(later) }, all);
    const hot = pots.foresee({ ...mixture, ingredients }, all).foreseen;
    for (const found of hot.filter(({ rule }) => !holdsOnlyHot(rule))) into.add(found, id, all);
  }
  const groups = all.length > 0 ? [all] : apart;
  foreseeAround({ entry, room, whatIf, pots }, sample?.sample, groups, into);
  foreseeWatered({ entry, room, whatIf, pots }, sample?.sample, groups, into);
  foreseeDust({ entry, room, whatIf, pots }, sample?.sample, groups, into);
  if (washes.length > 0) {
    // Of a product that nothing names the cake holds what went into it.
    const cake = product.length > 0 ? washes : [...washes, ...main];
    foreseeIn({ ingredients: [...ingredientsIn(cake), ...product] }, cake);
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

/** `Step 2 speaks of bleach, and was not judged with it: …` */
const spokenOfWords = ({ name, where, titles }: SpokenOf): string =>
  `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${name} is spoken of, and was NOT judged, as nothing says ` +
  `plainly that it is there. If it is: ${titles.join('; ')}.`;

const heatNotJudgedWords = ({ words, celsius, titles }: HeatNotJudged): string =>
  `‘${words}’ is told, and no heating: says how hot: that heat was NOT judged. At up to ${celsius} °C: ` +
  `${titles.join('; ')}.`;

/** Whether something that is brought in stands in the vessels of a sample. */
export const isInPot = ({ how, sample }: BroughtIn, id: string | undefined): boolean =>
  how !== 'waste' && how !== 'spoken-of' && how !== 'aside' && (sample === undefined || sample === id);

type Group = readonly BroughtIn[];

/** Things that meet all the rest: each by itself, and those of one place that are there outright with each other. */
function meetingBesides(brought: Group): { readonly alone: readonly Group[]; readonly together: readonly Group[] } {
  const besides = brought.filter(({ how }) => how === 'waste' || how === 'spoken-of');
  const byPlace = new Map<string, BroughtIn[]>();
  for (const one of besides.filter(({ outright }) => outright)) {
    const place = `${one.how} ${one.item.path.join('.')}`;
    byPlace.set(place, [...(byPlace.get(place) ?? []), one]);
  }
  return {
    alone: besides.map((one) => [one]),
    together: [...byPlace.values()].filter((group) => group.length > 1),
  };
}

/** A danger by its title, with its gas; a fire or an explosion is told as that, whatever gas comes with it. */
function titleWithWhatComes({ title, consequence, gas }: Foreseen): string {
  const told = /fire|explosion/.test(consequence) ? `${title}: ${consequence}` : title;
  return gas === undefined ? told : `${told} (${gas})`;
}

/** What the waste gets, what is done with it, and what is only spoken of: dangers that there are with nothing else. */
class Besides {
  private readonly told = new Set<string>();
  private readonly there: readonly VesselItem[];

  constructor(
    private readonly setting: Setting,
    all: readonly VesselItem[],
    private readonly into: Gathering,
  ) {
    this.there = [...new Map(all.map((item) => [item.id, item])).values()];
  }

  /** Hazards as grave as that, and graver than what is known of them. */
  private newHazards(
    group: readonly VesselItem[],
    heats: readonly number[],
    least: 'danger' | 'warning',
    knownHazards: Gathering['hazards'],
  ): readonly Foreseen[] {
    const { entry, room, pots } = this.setting;
    const items = [...this.there, ...group];
    const ingredients = [...ingredientsIn(items), ...productOf(entry)];
    const heating = heats.map((toCelsius) => ({ of: 'mixture', toCelsius }));
    const rankOf = (rule: string): number => {
      const known = knownHazards.get(rule)?.foreseen.severity;
      return known === undefined ? Infinity : severityRank[known];
    };
    const isAsked = (rule: string): boolean => rankOf(rule) > severityRank.danger;
    return pots
      .foreseeOnly({ ...room, ingredients, ...(heating.length > 0 && { heating }) }, items, isAsked)
      .filter(
        ({ rule, severity }) => severityRank[severity] <= severityRank[least] && severityRank[severity] < rankOf(rule),
      );
  }

  inWaste(group: readonly VesselItem[], heats: readonly number[]): void {
    for (const hazard of this.newHazards(group, heats, 'warning', this.into.hazards))
      this.into.add({ ...hazard, condition: `in the waste; ${hazard.condition}` }, '', group);
  }

  /** Together they are told only for what none of them does alone. @param known the hazards of all the rest */
  spokenOf(group: Group, known: Gathering['hazards']): SpokenOf | undefined {
    const [first] = group;
    if (!first) return undefined;
    const where = spokenOfIn(first);
    const items = group.map(({ item }) => item);
    const found = this.newHazards(items, [], 'danger', known).filter(
      ({ rule }) => group.length === 1 || !this.told.has(`${where} ${rule}`),
    );
    for (const { rule } of found) this.told.add(`${where} ${rule}`);
    const titles = [...new Set(found.map(titleWithWhatComes))];
    const name = items.map(({ id }) => id).join(' with ');
    return titles.length > 0 ? { name, where, path: first.item.path, titles } : undefined;
  }
}

/** What words beside the work put together: only what is a danger without anything else. */
function foreseeAside({ room, pots }: Setting, atWork: readonly BroughtIn[], into: Gathering): void {
  const groups = new Map<number, VesselItem[]>();
  for (const { item, group } of atWork)
    if (group !== undefined) groups.set(group, [...(groups.get(group) ?? []), item]);
  for (const items of groups.values())
    for (const one of pots.foresee({ ...room, ingredients: ingredientsIn(items) }, items).foreseen)
      if (one.severity === 'danger' && one.partners.length > 1)
        into.add({ ...one, condition: `as told beside the work; ${one.condition}` }, '', items);
}

/**
 * Foresees what the waste gets.
 * @returns what gives what is only spoken of, each held against the hazards that were known when its turn came
 */
function foreseeBesides(
  setting: Setting,
  all: readonly VesselItem[],
  { atWork, beside }: AllBroughtIn,
  into: Gathering,
): () => readonly SpokenOf[] {
  const meeting = meetingBesides(atWork);
  const heats = heatsIn(setting.entry.waste ?? '').map(({ celsius }) => celsius);
  const around = aroundWaste(setting.entry).flatMap(({ items }) => items);
  const besides = new Besides(setting, all, into);
  if (around.length > 0) besides.inWaste(around, heats);
  if (heats.length > 0) besides.inWaste([], heats);
  type Turn = readonly [group: Group, known: Gathering['hazards']];
  const inTurn = (groups: readonly Group[]): readonly Turn[] =>
    groups.flatMap((group): Turn[] => {
      if (group[0]?.how !== 'waste') return [[group, new Map(into.hazards)]];
      besides.inWaste(
        group.map(({ item }) => item),
        heats,
      );
      return [];
    });
  const alone = inTurn(meeting.alone);
  const knownAlone = new Map(into.hazards);
  const together = inTurn(meeting.together);
  return () => {
    const further = meetingBesides(beside());
    const turns: readonly Turn[] = [
      ...alone,
      ...further.alone.map((group): Turn => [group, knownAlone]),
      ...together,
      ...further.together.map((group): Turn => [group, into.hazards]),
    ];
    return turns.flatMap(([group, known]) => besides.spokenOf(group, known) ?? []);
  };
}

/**
 * Foresees every sample of an entry; its reagents alone where it has no samples.
 * @param factor so many times as much of everything
 */
export function foreseeEntry(
  written: Entry,
  context: ReckoningContext,
  factor?: Decimal,
  whatIf: WhatIf = asItStands,
): EntryForesight {
  const entry = asWorked(written);
  const gathering = new Gathering();
  const all: VesselItem[] = [];
  const { roomCubicMetres } = whatIf;
  const room = {
    ...workspaceOf(context.settings.workspace),
    ...(roomCubicMetres !== undefined && { roomCubicMetres }),
  };
  const setting: Setting = { entry, room, whatIf, pots: new Pots() };
  const balance = balanceOf(context.settings)?.halfWidth;
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  // What several samples take alike is one ingredient, and one thing in their vessels.
  const itemsFor = onceFor((one: Ingredient): readonly VesselItem[] => {
    const acid = freeAcidIn(one);
    const item = itemOf(factor ? { ...one, reagent: scaledReagent(one.reagent, factor) } : one);
    return acid ? [item, acid] : [item];
  });
  const used = indices.map((index) => ingredientsOf(entry, index, context, balance).flatMap(itemsFor));
  const brought = broughtIn(entry, [...new Set(used.flat())], context);
  for (const [at, index] of indices.entries()) {
    const id = index === undefined ? undefined : entry.samples[index]!.sample;
    const here = brought.atWork.filter((one) => isInPot(one, id)).map(({ item }) => item);
    const items = here.length > 0 ? [...used[at]!, ...here] : used[at]!;
    all.push(...items);
    foreseeSample(setting, index, items, gathering);
  }
  foreseeAside(setting, brought.atWork, gathering);
  const spokenOf = foreseeBesides(setting, all, brought, gathering);
  const { hazards, unknown, taken } = gathering;
  return {
    hazards: [...hazards.values()],
    unknown: [...unknown].map(([name, path]) => ({ name, path })),
    taken: [...taken.values()],
    items: all,
    brought: brought.atWork,
    notRead: [...brought.atWork.flatMap(leftOutWords), ...(entry.leftOut ?? []).flatMap(notReadWords)],
    besides: once(() => toldBesides(gathering, brought, spokenOf(), heatNotJudged(entry, all))),
  };
}

function toldBesides(
  { hazards, cautions, wasted }: Gathering,
  { atWork, beside }: AllBroughtIn,
  spokenOf: readonly SpokenOf[],
  notJudged: HeatNotJudged | undefined,
): ToldBesides {
  const byWords = [
    ...atWork.flatMap((one) => broughtInWords(one) ?? []),
    ...spokenOf.map(spokenOfWords),
    ...(notJudged ? [heatNotJudgedWords(notJudged)] : []),
  ];
  const ofWaste = [...wasted].flatMap(([rule, words]) => (hazards.has(rule) ? [] : [words]));
  return {
    cautions: [...new Set([...cautions, ...byWords, ...ofWaste])].sort(),
    brought: [...atWork, ...beside()],
    spokenOf,
    byWords,
    ...(notJudged && { heatNotJudged: notJudged }),
  };
}
