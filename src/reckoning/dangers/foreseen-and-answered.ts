// What can be foreseen of an entry, with the precautions that answer it; without the hazard box, which is not needed to
// weigh.
import type { Decimal } from '../../chemistry/index.js';
import { answeredBy } from '../../hazards/foresee/answers.js';
import { bySeverity } from '../../hazards/foresee/hazard.js';
import { isAnswer } from '../../hazards/foresee/says-what-is-done.js';
import type { Entry } from '../../journal/entry.js';
import type { ForeseenInEntry, ReckoningContext } from '../contracts.js';
import { foreseeEntry, type EntryForesight } from './foreseen-in-entry.js';
import { hazardsOnce, type ForeseenSomewhere } from './gathering.js';
import { stepOfItem, stepsOfIds } from './going-in.js';
import type { VesselItem } from '../vessels.js';

/**
 * The step at which the last of the partners goes in; nothing where a partner stands in no step, unless the last is
 * something that only a step names.
 */
function stepOf(
  { partners }: ForeseenSomewhere['foreseen'],
  items: readonly VesselItem[],
  first: ReadonlyMap<string, number>,
): { readonly step?: number } {
  if (first.size === 0 && !items.some(({ step }) => step !== undefined)) return {};
  const used = items.filter(({ reagent }) => partners.includes(reagent.name));
  const steps = used.flatMap((item) => stepOfItem(item, first) ?? []);
  const isByStep = used.some(({ step }) => step !== undefined);
  if (steps.length === 0 || (steps.length < used.length && !isByStep)) return {};
  return { step: Math.max(...steps) + 1 };
}

/** What can be foreseen of an entry, and what answers it. */
export interface ForeseenAndAnswered {
  readonly foreseen: readonly ForeseenInEntry[];
  /** The same hazards, with the samples in which they are. */
  readonly hazards: readonly ForeseenSomewhere[];
  /** Places of the hazards that each precaution names. */
  readonly named: readonly (readonly number[])[];
  readonly foresight: EntryForesight;
}

/**
 * What can be foreseen of mixing and heating in an entry, the gravest first, each with the precautions that answer it.
 * @param factor so many times as much of everything
 */
export function foreseeWithAnswers(entry: Entry, context: ReckoningContext, factor?: Decimal): ForeseenAndAnswered {
  const foresight = foreseeEntry(entry, context, factor);
  const hazards = [...hazardsOnce(foresight.hazards)].sort((a, b) => bySeverity(a.foreseen, b.foreseen));
  const list = hazards.map(({ foreseen }) => foreseen);
  const answers = entry.precautions.map((precaution) => ({ precaution, names: answeredBy(precaution.against, list) }));
  const ids = stepsOfIds(entry);
  const foreseen = hazards.map(
    ({ foreseen: one, samples }, at): ForeseenInEntry => ({
      ...one,
      samples: [...samples],
      ...stepOf(one, foresight.items, ids),
      answered: answers
        .filter(({ precaution, names }) => names.includes(at) && isAnswer(precaution.do, precaution.against))
        .map(({ precaution }) => ({ against: precaution.against, do: precaution.do })),
    }),
  );
  return { foreseen, hazards, named: answers.map(({ names }) => names), foresight };
}
