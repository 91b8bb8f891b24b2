// What could go wrong in an entry of the journal: as it stands, and what if something were added to it.
import type { Foreseen, MixedReagent, MixtureHeating } from '../../hazards/foresee/contracts.js';
import { bySeverity } from '../../hazards/foresee/hazard.js';
import { good, type Outcome } from '../../outcome.js';
import { cupboardOf, readReagentText, resolveReagent, unreadReagent } from '../../reagents/index.js';
import type { ReckoningContext } from '../../reckoning/contracts.js';
import type { EntryForesight } from '../../reckoning/foreseen-in-entry.js';
import { contextOf, entryReader } from '../entry-reader.js';

export interface EntryAsked {
  readonly number: number;
  /** What would be added, as it was written. */
  readonly added: readonly string[];
  readonly heating: readonly MixtureHeating[];
  readonly roomCubicMetres?: string;
}

/** One hazard, with the samples in which it arises. */
export type ForeseenInEntry = Foreseen & {
  readonly samples: readonly string[];
  /** It arises, or is as serious, only with what is added. */
  readonly added?: true;
};

export interface EntryAnswer {
  readonly entry: number;
  readonly title: string;
  readonly foreseen: readonly ForeseenInEntry[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
}

const addedReagent = (text: string, context: ReckoningContext): MixedReagent => {
  const read = readReagentText(text);
  const cupboard = cupboardOf(context.shelf, context.lot);
  return { reagent: read.ok ? resolveReagent(read.value, cupboard) : unreadReagent(text) };
};

const keyOf = ({ rule, severity }: Foreseen): string => `${rule} ${severity}`;

const hazardsOf = ({ hazards }: EntryForesight, before: ReadonlySet<string> | undefined): readonly ForeseenInEntry[] =>
  hazards
    .map(({ foreseen, samples }) => ({
      ...foreseen,
      samples: [...samples],
      ...(before && !before.has(keyOf(foreseen)) && { added: true as const }),
    }))
    .sort(bySeverity);

/**
 * What is foreseen in an entry, and with more added to every sample of it. Errors: there is no such journal or entry.
 */
export async function foreseeInEntry(asked: EntryAsked, journal: string): Promise<Outcome<EntryAnswer>> {
  const reader = await entryReader(journal);
  if (!reader.ok) return reader;
  const entry = reader.value.entry(asked.number);
  if (!entry.ok) return entry;
  const { foreseeEntry } = await import('../../reckoning/foreseen-in-entry.js');
  const context = await contextOf(reader.value);
  const { roomCubicMetres } = asked;
  const room = roomCubicMetres === undefined ? {} : { roomCubicMetres };
  const asItStands = foreseeEntry(entry.value, context, undefined, { heating: [], added: [], ...room });
  const added = asked.added.map((text) => addedReagent(text, context));
  const isWhatIf = added.length > 0 || asked.heating.length > 0;
  const found = isWhatIf
    ? foreseeEntry(entry.value, context, undefined, { added, heating: asked.heating, ...room })
    : asItStands;
  const before = new Set(asItStands.hazards.map(({ foreseen }) => keyOf(foreseen)));
  return good({
    entry: asked.number,
    title: entry.value.title,
    foreseen: hazardsOf(found, isWhatIf ? before : undefined),
    unknown: [...new Set(found.unknown.map(({ name }) => name))].sort(),
    cautions: found.cautions,
  });
}
