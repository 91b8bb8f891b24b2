// What could go wrong in an entry as it stands, and what if something were added to each of its samples.
import { actionOn } from '../../hazards/foresee/action.js';
import type { Foreseen, MixedReagent, MixtureHeating } from '../../hazards/foresee/contracts.js';
import { bySeverity } from '../../hazards/foresee/hazard.js';
import { statusReason, type Entry } from '../../journal/entry.js';
import { cupboardOf, readReagentText, resolveReagent, unreadReagent } from '../../reagents/index.js';
import type { ReckoningContext } from '../contracts.js';
import { foreseenBySteps, type ForeseenAtStep } from './foreseen-by-steps.js';
import { foreseeEntry, type EntryForesight } from './foreseen-in-entry.js';
import { hazardsOnce } from './gathering.js';

export interface AddedToEntry {
  /** What would be added, as it was written. */
  readonly added: readonly string[];
  readonly heating: readonly MixtureHeating[];
  readonly roomCubicMetres?: string;
}

/** One hazard, with the samples in which it arises. */
export type ForeseenIfAdded = Foreseen & {
  readonly samples: readonly string[];
  /** It arises, or is as serious, only with what is added. */
  readonly added?: true;
  /** The step at which it begins, the first is 1; absent where the steps do not tell. */
  readonly step?: number;
};

export interface EntryAnswer {
  readonly entry: number;
  readonly title: string;
  readonly foreseen: readonly ForeseenIfAdded[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  /** What words name or tell that was not judged and would be a danger, in sentences; absent where there is none. */
  readonly toldNotJudged?: readonly string[];
  /** What of the entry could not be read, and so was not judged, in sentences; absent where all of it was read. */
  readonly notRead?: readonly string[];
  /** Why it was withdrawn, failed or was given up; what is judged is what was left standing of it. */
  readonly notToRepeat?: { readonly status: Entry['status']; readonly reason?: string };
  /** The maker's own precautions, where nothing or little is foreseen. */
  readonly precautions?: Entry['precautions'];
  /** By its steps, where it has any. */
  readonly steps?: readonly ForeseenAtStep[];
}

const addedReagent = (text: string, context: ReckoningContext): MixedReagent => {
  const read = readReagentText(text);
  const cupboard = cupboardOf(context.shelf, context.lot);
  return { reagent: read.ok ? resolveReagent(read.value, cupboard) : unreadReagent(text) };
};

const keyOf = ({ rule, severity }: Foreseen): string => `${rule} ${severity}`;

/** The first step at which a danger begins, by its rule. */
function stepsOfRules(steps: readonly ForeseenAtStep[]): ReadonlyMap<string, number> {
  const first = new Map<string, number>();
  for (const { step, begins } of steps) for (const { rule } of begins) if (!first.has(rule)) first.set(rule, step);
  return first;
}

const hazardsOf = (
  { hazards }: EntryForesight,
  before: ReadonlySet<string> | undefined,
  steps: ReadonlyMap<string, number>,
): readonly ForeseenIfAdded[] =>
  hazardsOnce(hazards)
    .map(({ foreseen, samples }) => ({
      ...foreseen,
      samples: [...samples],
      ...(steps.has(foreseen.rule) && { step: steps.get(foreseen.rule)! }),
      ...(before && !before.has(keyOf(foreseen)) && { added: true as const }),
    }))
    .sort(bySeverity);

/** An entry that ended badly is no recipe, whatever is foreseen in what is left of it. */
function notToRepeat(entry: Entry): Pick<EntryAnswer, 'notToRepeat'> {
  const { status } = entry;
  if (status !== 'withdrawn' && status !== 'abandoned' && status !== 'failed') return {};
  const reason = statusReason(entry);
  return { notToRepeat: { status, ...(reason !== undefined && { reason }) } };
}

/** What is foreseen in an entry, and with more added to every sample of it. What cannot be read of it is unknown. */
export function foreseenIfAdded(entry: Entry, context: ReckoningContext, asked: AddedToEntry): EntryAnswer {
  const { heating, roomCubicMetres } = asked;
  const room = roomCubicMetres === undefined ? {} : { roomCubicMetres };
  const asItStands = foreseeEntry(entry, context, undefined, { heating: [], added: [], ...room });
  const added = asked.added.map((text) => addedReagent(text, context));
  const isWhatIf = added.length > 0 || heating.length > 0;
  const found = isWhatIf ? foreseeEntry(entry, context, undefined, { added, heating, ...room }) : asItStands;
  const steps = foreseenBySteps(entry, context, found.brought, added);
  const { cautions, notJudged } = found.besides();
  const before = new Set(asItStands.hazards.map(({ foreseen }) => keyOf(foreseen)));
  return {
    entry: entry.number,
    title: entry.title,
    foreseen: hazardsOf(found, isWhatIf ? before : undefined, stepsOfRules(steps)),
    unknown: [...new Set(found.unknown.map(({ name }) => name))].sort(),
    cautions,
    ...(notJudged.length > 0 && { toldNotJudged: notJudged }),
    ...(found.notRead.length > 0 && { notRead: found.notRead }),
    ...notToRepeat(entry),
    ...(entry.precautions.length > 0 && { precautions: entry.precautions }),
    ...(steps.length > 0 && { steps }),
  };
}

/** What to do now about one of them, in a sentence; none where its precaution begins with it. */
export const actionIfAdded = (one: ForeseenIfAdded): string | undefined => actionOn(one);
