// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating,
// with the entry's answers; an unanswered danger is an error.
import { answeredBy } from '../hazards/foresee/answers.js';
import { bySeverity } from '../hazards/foresee/hazard.js';
import { isAnswer } from '../hazards/index.js';
import { assumedRoom } from '../hazards/foresee/worst-case-gas.js';
import type { Decimal } from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import { Findings, type Finding } from '../remarks/findings.js';
import type { DangersReckoning, ForeseenInEntry, ReckoningContext } from './contracts.js';
import { findDangers } from './dangers-findings.js';
import { foreseeEntry, stepOfItem, stepsOfIds, type ForeseenSomewhere } from './foreseen-in-entry.js';
import { findToldHeat } from './told-heat.js';
import { reckonHazardBox } from './hazard-box.js';
import { inBaseUnit, type VesselItem } from './vessels.js';

/** The step at which the last of the partners goes in; nothing where a partner stands in no step. */
function stepOf(
  { partners }: ForeseenSomewhere['foreseen'],
  items: readonly VesselItem[],
  first: ReadonlyMap<string, number>,
): { readonly step?: number } {
  if (first.size === 0) return {};
  const used = items.filter(({ reagent }) => partners.includes(reagent.name));
  const steps = used.flatMap((item) => stepOfItem(item, first) ?? []);
  if (steps.length === 0 || steps.length < used.length) return {};
  return { step: Math.max(...steps) + 1 };
}

function reckonedRoom({ settings: { workspace } }: ReckoningContext): NonNullable<DangersReckoning['room']> {
  const volume = inBaseUnit(workspace?.volume);
  const stated = volume?.dimension === 'volume';
  return {
    cubicMetres: stated ? String(Number(volume.value) / 1e6) : assumedRoom,
    stated,
    extraction: workspace?.extraction === true,
  };
}

/**
 * What of an entry is dangerous: the box of its substances and what can be foreseen of mixing and heating, each with
 * the precautions that answer it. Findings: an unanswered danger, names not recognised, answers that name nothing, a
 * first run that could be smaller, a tenfold step between samples, missing `if-it-goes-wrong` and `waste`.
 * @param factor so many times as much of everything
 */
export function reckonDangers(
  entry: Entry,
  context: ReckoningContext,
  factor?: Decimal,
): { readonly dangers: DangersReckoning; readonly findings: readonly Finding[] } {
  const findings = new Findings();
  const box = reckonHazardBox(entry, context, findings);
  const foresight = foreseeEntry(entry, context, factor);
  const hazards = [...foresight.hazards].sort((a, b) => bySeverity(a.foreseen, b.foreseen));
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
  const named = answers.map(({ names }) => names);
  const { unknown, items, cautions } = foresight;
  findToldHeat(entry, foresight.items, findings);
  findDangers({ entry, context, hazards, foreseen, named, unknown, items }, findings);
  return {
    dangers: {
      box,
      foreseen,
      notJudged: unknown.map(({ name }) => name),
      cautions,
      room: reckonedRoom(context),
    },
    findings: findings.all,
  };
}
