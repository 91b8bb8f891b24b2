// What is foreseen for the vessels of all samples, gathered by its rules.
import type { ContentsTaken, Foreseen, Foresight } from '../../hazards/foresee/contracts.js';
import { toldOnce } from '../../hazards/foresee/told-once.js';
import type { Path } from '../../journal/place.js';
import { severityRank, type VesselItem } from '../vessels.js';

/** One hazard, wherever in the entry it arises. */
export interface ForeseenSomewhere {
  /** The most serious of its kind, with the largest bound. */
  readonly foreseen: Foreseen;
  /** Ids of the samples in which it arises. */
  readonly samples: ReadonlySet<string>;
  /** Where its partners are used. */
  readonly paths: readonly Path[];
}

/** Of two findings of one rule, the more serious; of two as serious, the one with more gas. */
function worseOf(before: Foreseen, found: Foreseen): Foreseen {
  const apart = severityRank[found.severity] - severityRank[before.severity];
  const more = Number(found.worstCase?.mol ?? 0) > Number(before.worstCase?.mol ?? 0);
  return apart < 0 || (apart === 0 && more) ? found : before;
}

/** Hazards without those that another tells of the same things in the same samples. */
export const hazardsOnce = (all: readonly ForeseenSomewhere[]): readonly ForeseenSomewhere[] =>
  toldOnce(
    all,
    ({ foreseen }) => foreseen,
    (one, foreseen) => ({ ...one, foreseen }),
    (teller, one) => [...one.samples].every((sample) => teller.samples.has(sample)),
  );

/** Gathers what is foreseen for the vessels of all samples. */
export class Gathering {
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
