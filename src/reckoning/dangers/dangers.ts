// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating,
// with the entry's answers; an unanswered danger is an error.
import { assumedRoom } from '../../hazards/foresee/worst-case-gas.js';
import { workspaceOf } from '../../hazards/foresee/workspace.js';
import type { Decimal } from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import { Findings, type Finding } from '../../remarks/findings.js';
import type { DangersReckoning, ReckoningContext } from '../contracts.js';
import { findDangers } from './dangers-findings.js';
import { foreseeWithAnswers } from './foreseen-and-answered.js';
import { findToldHeat } from '../told/told-heat.js';
import { reckonHazardBox } from './hazard-box.js';

function reckonedRoom({ settings }: ReckoningContext): NonNullable<DangersReckoning['room']> {
  const { roomCubicMetres, extraction = false } = workspaceOf(settings.workspace);
  return { cubicMetres: roomCubicMetres ?? assumedRoom, stated: roomCubicMetres !== undefined, extraction };
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
  const { foreseen, hazards, named, foresight } = foreseeWithAnswers(entry, context, factor);
  const { unknown, items, taken, notRead } = foresight;
  const { cautions, brought, spokenOf, byWords, heatNotJudged } = foresight.besides();
  findToldHeat(entry, heatNotJudged, findings);
  findDangers({ entry, context, hazards, foreseen, named, unknown, items, brought, spokenOf }, findings);
  return {
    dangers: {
      box,
      foreseen,
      notJudged: unknown.map(({ name }) => name),
      cautions: notRead.length > 0 ? [...notRead, ...cautions] : cautions,
      ...(notRead.length + byWords.length > 0 && { byWords: [...notRead, ...byWords] }),
      taken,
      room: reckonedRoom(context),
    },
    findings: findings.all,
  };
}
