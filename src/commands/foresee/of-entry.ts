// What could go wrong in an entry of the journal: as it stands, and what if something were added to it.
import { good, type Outcome } from '../../outcome.js';
import type { AddedToEntry, EntryAnswer, ForeseenIfAdded } from '../../reckoning/dangers/what-if.js';
import { contextOf, entryReader } from '../entry-reader.js';

export type { ForeseenAtStep } from '../../reckoning/dangers/foreseen-by-steps.js';
export type { EntryAnswer, ForeseenIfAdded };

export interface EntryAsked extends AddedToEntry {
  readonly number: number;
}

/**
 * What is foreseen in an entry, and with more added to every sample of it. Errors: there is no such journal or entry.
 */
export async function foreseeInEntry(asked: EntryAsked, journal: string): Promise<Outcome<EntryAnswer>> {
  const reader = await entryReader(journal);
  if (!reader.ok) return reader;
  const found = reader.value.asFarAsRead(asked.number);
  if (!found.ok) return found;
  const { foreseenIfAdded } = await import('../../reckoning/dangers/what-if.js');
  const { entry, wrong } = found.value;
  const answer = foreseenIfAdded(entry, await contextOf(reader.value), asked);
  if (wrong === undefined) return good(answer);
  const notWhole = `This entry could not be read whole, and was judged only as far as it could: ${wrong}`;
  return good({ ...answer, notRead: [notWhole, ...(answer.notRead ?? [])] });
}
