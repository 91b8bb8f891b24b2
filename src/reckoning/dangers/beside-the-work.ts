// What the waste gets, what words put together beside the work, and what is only spoken of.
import type { Foreseen } from '../../hazards/foresee/contracts.js';
import type { Path } from '../../journal/place.js';
import { isPlural } from '../../reagents/index.js';
import { broughtInWords, spokenOfIn, type AllBroughtIn, type BroughtIn } from '../told/brought-in.js';
import { heatsIn } from '../told/heat-in-words.js';
import { aroundWaste } from '../told/told-around.js';
import type { HeatNotJudged } from '../told/told-heat.js';
import { severityRank, type VesselItem } from '../vessels.js';
import type { Gathering } from './gathering.js';
import { ingredientsIn, productOf, type Setting } from './setting.js';

/** What is told with the hazards of an entry, and changes none of them. */
export interface ToldBesides {
  readonly cautions: readonly string[];
  /** What meets what the entry lists, or is spoken of with it, and is none of it. */
  readonly brought: readonly BroughtIn[];
  /** What is named and was not judged, though it would be a danger if it were there. */
  readonly spokenOf: readonly SpokenOf[];
  /** What was judged only by words, or not at all, in sentences that stand among the cautions too. */
  readonly byWords: readonly string[];
  /** Those of them of what was not judged, and would be a danger if it were there. */
  readonly notJudged: readonly string[];
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

/** `Step 2 speaks of bleach, and was not judged with it: …` */
function spokenOfWords({ name, where, titles }: SpokenOf): string {
  const [is, was, itIs, ifSo] = isPlural(name)
    ? ['are', 'were', 'they are', 'If they are']
    : ['is', 'was', 'it is', 'If it is'];
  return (
    `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${name} ${is} spoken of, and ${was} NOT judged, as nothing ` +
    `says plainly that ${itIs} there. ${ifSo}: ${titles.join('; ')}.`
  );
}

const heatNotJudgedWords = ({ words, celsius, titles }: HeatNotJudged): string =>
  `‘${words}’ is told, and no heating: says how hot: that heat was NOT judged. At up to ${celsius} °C: ` +
  `${titles.join('; ')}.`;

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

/** What words beside the work put to what is left of it, each by itself: only dangers in which it has a part. */
function foreseeResidues(
  { entry, room, pots }: Setting,
  all: readonly VesselItem[],
  atWork: readonly BroughtIn[],
  into: Gathering,
): void {
  const there = [...new Map(all.map((item) => [item.id, item])).values()];
  for (const { item, sample } of atWork.filter(({ how, group }) => how === 'aside' && group === undefined)) {
    const items = [...there, item];
    const ingredients = [...ingredientsIn(items), ...productOf(entry)];
    const isAsked = (rule: string): boolean => into.hazards.get(rule)?.foreseen.severity !== 'danger';
    for (const one of pots.foreseeOnly({ ...room, ingredients }, items, isAsked))
      if (one.severity === 'danger' && one.partners.length > 1 && one.partners.includes(item.reagent.name))
        into.add({ ...one, condition: `as told beside the work; ${one.condition}` }, sample ?? '', [item]);
  }
}

/** What words beside the work put together, or to what is left of it: only what is a danger without anything else. */
export function foreseeAside(
  setting: Setting,
  all: readonly VesselItem[],
  atWork: readonly BroughtIn[],
  into: Gathering,
): void {
  const { room, pots } = setting;
  foreseeResidues(setting, all, atWork, into);
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
export function foreseeBesides(
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

export function toldBesides(
  { hazards, cautions, wasted }: Gathering,
  { atWork, beside }: AllBroughtIn,
  spokenOf: readonly SpokenOf[],
  heat: HeatNotJudged | undefined,
): ToldBesides {
  const notJudged = [...spokenOf.map(spokenOfWords), ...(heat ? [heatNotJudgedWords(heat)] : [])];
  const byWords = [...atWork.flatMap((one) => broughtInWords(one) ?? []), ...notJudged];
  const ofWaste = [...wasted].flatMap(([rule, words]) => (hazards.has(rule) ? [] : [words]));
  return {
    cautions: [...new Set([...cautions, ...byWords, ...ofWaste])].sort(),
    brought: [...atWork, ...beside()],
    spokenOf,
    byWords,
    notJudged,
    ...(heat && { heatNotJudged: heat }),
  };
}
