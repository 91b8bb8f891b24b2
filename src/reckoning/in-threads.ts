// Where many entries are to be reckoned, worker threads do it beforehand. What they make is kept like what was reckoned
// before, and is believed no more than that: it is taken only where all that it drew on is what it was there.
import { inBatches, threadsFor } from '../in-batches.js';
import type { Entry, Journal } from '../journal/entry.js';
import { KeptInMemory, keptNowhere, type Kept } from '../kept/kept.js';
import type { Use } from '../journal/schema.js';
import type { PhotographOutcome } from './contracts.js';
import { wasReckoned } from './reckon.js';
import type { BatchKept, ReckonStart } from './reckon-worker.js';

/** Entries reckoned by one call of a worker thread. */
const batch = 100;
/** Below this many entries to reckon, starting threads costs more than it saves. */
const worthThreads = 500;

const usesOf = ({ reagents, samples }: Entry): readonly Use[] => [
  ...reagents,
  ...samples.flatMap(({ add = [], change = [] }) => [...add, ...change]),
];

/** Numbers of the entries of whose lots an entry takes. */
function sourcesOf(entry: Entry, { shelf }: Pick<Journal, 'shelf'>): readonly number[] {
  return usesOf(entry).flatMap((use) => {
    const jar = typeof use.reagent === 'string' ? shelf.reagents.get(use.reagent) : undefined;
    const lot = use.lot ?? jar?.lot;
    return lot === undefined ? [] : [Number(lot.split('/')[0])];
  });
}

/** Entries with all those that their lots go back to, in the order of the journal. */
function withSources(some: readonly Entry[], journal: Journal, byNumber: ReadonlyMap<number, Entry>): readonly Entry[] {
  const all = new Set(some);
  // What is added while the set is gone through is gone through too.
  for (const entry of all)
    for (const number of sourcesOf(entry, journal)) {
      const source = byNumber.get(number);
      if (source) all.add(source);
    }
  return journal.entries.filter((entry) => all.has(entry));
}

/**
 * Reckons in threads what was not reckoned before, where that is worth it.
 * @param wanted threads; 0 for none; default: by the number of entries and the machine
 * @returns what is kept now, for `reckonJournal`
 */
export async function reckonedBeforehand(
  journal: Journal,
  photographs: ReadonlyMap<string, PhotographOutcome>,
  kept: Kept,
  wanted?: number,
): Promise<Kept> {
  const entries = journal.entries.filter((entry) => !wasReckoned(entry, journal, kept));
  const threads = wanted ?? threadsFor(entries.length, worthThreads);
  if (threads === 0 || entries.length === 0) return kept;
  const into = kept === keptNowhere ? new KeptInMemory() : kept;
  const { settings, shelf, readings } = journal;
  const start: ReckonStart = { settings, shelf, readings, photographs };
  const byNumber = new Map(journal.entries.map((entry) => [entry.number, entry]));
  await inBatches(
    entries,
    { module: new URL('./reckon-worker.js', import.meta.url), start, threads, batch },
    (some) => withSources(some, journal, byNumber),
    ({ small, large }: BatchKept) => {
      for (const [key, value] of large) if (!into.hasLarge(key)) into.putLarge(key, value);
      for (const [key, value] of small) into.put(key, value);
    },
  );
  return into;
}
