// Where many entries are to be reckoned, other threads reckon some of them beforehand, and keep what they have made for
// the pages that they will be asked for. What they hand back is kept, and is believed no more than what was reckoned
// before: it is taken only where all that it drew on is what it was there.
import type { Entry, Journal } from '../journal/entry.js';
import type { Use } from '../journal/schema.js';
import { KeptForOneRun, KeptInMemory, keptNowhere, type Kept } from '../kept/kept.js';
import { onceFor } from '../once.js';
import { allDone, portion, shareOut, type AskedThread, type Threads } from '../threads.js';
import type { PhotographOutcome } from './contracts.js';
import { takePart, wasReckoned, type EntryPart } from './entry-part.js';
import { oneByOne, remarksOf } from './reckon.js';
import type { DrawnUpon } from './sources.js';

/** Entries in one question to a thread. */
const mostAsked = 12;
/** Below this many entries to reckon, starting threads costs more than it saves. */
export const worthThreads = 150;

/** What every entry may draw on; plain data. */
export interface ReckonStart extends DrawnUpon {
  readonly photographs: ReadonlyMap<string, PhotographOutcome>;
  /** What is large of a reckoning is kept longer than for the run, and therefore handed over. */
  readonly isKept: boolean;
  /** Reckonings are so many that what is large of them is not held as it is. */
  readonly isMany: boolean;
}

/** What a thread has reckoned, as it is kept. */
export interface ReckonedThere {
  readonly small: readonly (readonly [key: string, json: string])[];
  /** Without `packed` it stays in the thread. */
  readonly large: readonly (readonly [key: string, packed?: Uint8Array])[];
  /** Of each entry that was asked for. */
  readonly parts: readonly (EntryPart | undefined)[];
}

const usesOf = ({ reagents, samples }: Entry): readonly Use[] => [
  ...reagents,
  ...samples.flatMap(({ add = [], change = [] }) => [...add, ...change]),
];

/** Numbers of the entries of whose lots an entry takes. */
type SourcesOf = (entry: Entry) => readonly number[];

const sourcesIn = ({ shelf }: Pick<Journal, 'shelf'>): SourcesOf =>
  onceFor((entry) =>
    usesOf(entry).flatMap((use) => {
      const jar = typeof use.reagent === 'string' ? shelf.reagents.get(use.reagent) : undefined;
      const lot = use.lot ?? jar?.lot;
      return lot === undefined ? [] : [Number(lot.split('/')[0])];
    }),
  );

/** Entries with all those that their lots go back to, the earlier ones first. */
function withSources(
  some: readonly Entry[],
  sourcesOf: SourcesOf,
  byNumber: ReadonlyMap<number, Entry>,
): readonly Entry[] {
  const all = new Set(some);
  // What is added while the set is gone through is gone through too.
  for (const entry of all)
    for (const number of sourcesOf(entry)) {
      const source = byNumber.get(number);
      if (source) all.add(source);
    }
  return [...all].sort((a, b) => a.number - b.number);
}

/** Entries that lots join are reckoned in one thread, as long as they are no more than so many. */
const mostTogether = 48;

/** Entries in groups that no lot joins to another, as far as the groups are small enough. */
function inGroups(entries: readonly Entry[], sourcesOf: SourcesOf): (readonly Entry[])[] {
  const groupOf = new Map<number, Entry[]>();
  for (const entry of entries) {
    const joined = new Set<readonly Entry[]>();
    for (const number of sourcesOf(entry)) {
      const group = groupOf.get(number);
      if (group) joined.add(group);
    }
    const whole = [...joined].reduce((sum, { length }) => sum + length, 1) <= mostTogether;
    const group = whole ? [...joined].flat() : [];
    group.push(entry);
    for (const { number } of group) groupOf.set(number, group);
  }
  return [...new Set(entries.map(({ number }) => groupOf.get(number)!))];
}

/** Hands out groups of entries: large ones first, so that all threads end together. */
class ToReckon {
  private readonly groups: readonly (readonly Entry[])[];
  private next = 0;
  left: number;

  constructor(groups: readonly (readonly Entry[])[]) {
    this.groups = groups.toSorted((a, b) => b.length - a.length);
    this.left = groups.reduce((sum, { length }) => sum + length, 0);
  }

  /** @param least so many, if there are so many, and the rest of the last group */
  take(least: number): readonly Entry[] {
    const taken: Entry[] = [];
    while (taken.length < least && this.next < this.groups.length) taken.push(...this.groups[this.next++]!);
    this.left -= taken.length;
    return taken;
  }
}

/** Up to so many reckonings are held as they are, about 45 kB each; packing more takes a tenth of their time. */
const mostHeld = 1500;

const isMany = ({ entries }: Pick<Journal, 'entries'>): boolean => entries.length > mostHeld;

/** What is kept for the run where nothing is kept longer, and where entries are not reckoned in this thread alone. */
const forOneRun = (journal: Journal): Kept => (isMany(journal) ? new KeptForOneRun() : new KeptInMemory());

/**
 * The same with what other threads hold. It is there, but cannot be had from here: the few that are asked for are
 * reckoned again.
 */
const withHeld = (kept: Kept, inThreads: ReadonlySet<string>): Kept => ({
  ...kept,
  hasLarge: (key) => inThreads.has(key) || kept.hasLarge(key),
});

/**
 * Entries that are to be reckoned. Threads that have begun already did so because nothing was kept: where the first of
 * the entries was not reckoned since, the words of all others need not be looked through to tell that of them.
 */
function toBeReckoned(journal: Journal, kept: Kept, threads: Threads): readonly Entry[] {
  const { entries } = journal;
  if (kept === keptNowhere) return entries;
  const isNew = threads.all.length > 0 && !entries.slice(0, 1).some((entry) => wasReckoned(entry, journal, kept));
  return isNew ? entries : entries.filter((entry) => !wasReckoned(entry, journal, kept));
}

/**
 * Reckons in threads what was not reckoned before, where that is worth it.
 * @param threads that answer `drawn-upon` and `reckon`
 * @returns what is kept now, for `reckonJournal`
 */
export async function reckonedBeforehand(
  journal: Journal,
  photographs: ReadonlyMap<string, PhotographOutcome>,
  kept: Kept,
  threads: Threads,
): Promise<Kept> {
  const isKept = kept !== keptNowhere;
  const entries = toBeReckoned(journal, kept, threads);
  const workers = threads.for(entries.length, worthThreads);
  if (workers.length === 0) return !isKept && isMany(journal) ? forOneRun(journal) : kept;
  const inThreads = new Set<string>();
  const into = isKept ? kept : withHeld(forOneRun(journal), inThreads);
  const { settings, shelf, readings } = journal;
  const start: ReckonStart = { settings, shelf, readings, photographs, isKept, isMany: isMany(journal) };
  const begun = workers.map((worker) => worker.ask('drawn-upon', start));
  const sourcesOf = sourcesIn(journal);
  const byNumber = new Map(journal.entries.map((entry) => [entry.number, entry]));
  const toReckon = new ToReckon(inGroups(entries, sourcesOf));
  const reckon = oneByOne(journal, photographs, into);
  /** What this thread has taken and not reckoned yet. */
  const here: Entry[] = [];
  const askThread = async (worker: AskedThread, some: readonly Entry[]): Promise<void> => {
    for (const { number } of some) threads.owners.set(number, worker);
    const asked = withSources(some, sourcesOf, byNumber);
    const { small, large, parts } = await worker.ask<ReckonedThere>('reckon', asked);
    for (const [key, packed] of large)
      if (!packed) inThreads.add(key);
      else if (!into.hasLarge(key)) into.putPacked(key, packed);
    for (const [key, json] of small) into.putJson(key, json);
    for (const [at, part] of parts.entries()) if (part) takePart(asked[at]!, part);
  };
  const shared = shareOut(workers, {
    ask: (worker) => {
      const some = toReckon.take(portion(toReckon.left, workers.length, mostAsked));
      return some.length > 0 ? askThread(worker, some) : undefined;
    },
    here: () => {
      if (here.length === 0) here.push(...withSources(toReckon.take(1), sourcesOf, byNumber));
      const entry = here.shift();
      // One at a time, so that answers of threads need not wait for all of a group.
      if (entry) remarksOf([reckon(entry)], into);
      return entry !== undefined;
    },
  });
  await allDone([...begun, shared]);
  return into;
}
