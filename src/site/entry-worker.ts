// Runs in a worker thread: reckons entries, keeps what it has reckoned, and renders pages of these and of other entries
// into the staging folder.
import { threadId } from 'node:worker_threads';
import { answering } from '../answering.js';
import type { Entry, Shelf } from '../journal/entry.js';
import { readThere } from '../journal/in-threads.js';
import { KeptForOneRun, keptNowhere, type Kept } from '../kept/kept.js';
import { pack } from '../kept/packed.js';
import type { LotStock, ReckonedEntry } from '../reckoning/contracts.js';
import type { ReckonedThere, ReckonStart } from '../reckoning/in-threads.js';
import { partWorkedOut } from '../reckoning/entry-part.js';
import { takeWhole } from '../reckoning/kept-reckoning.js';
import { oneByOne, remarksOf } from '../reckoning/reckon.js';
import '../tables/use-prepared.js';
import { splitAddress } from './context.js';
import { entryFiles, spoolIn, type EntryFilesMade, type EntryFilesWanted } from './entry-files.js';
import { findablesIn, LineSpool } from './entry-lines.js';
import { renderEntryPages, type EntryWork, type SharedByEntries } from './entry-pages.js';
import { recordOf, type PageRecord } from './page-record.js';
import { writerInto, type SiteBefore, type WrittenFile } from './file-writing.js';

export interface WorkerStart {
  readonly shared: SharedByEntries;
  readonly folder: string;
  /** What may have the same files. */
  readonly before?: SiteBefore | undefined;
  readonly shelf: Shelf['reagents'];
}

/** An entry of which pages have to be rendered, and which. */
export interface EntryToRender {
  readonly number: number;
  readonly addresses: readonly string[];
  readonly work: Omit<EntryWork, 'reckoned'>;
  /** What is made of it besides. */
  readonly besides: EntryFilesWanted;
  /** The hash that the site before says of files of the entry, by address. */
  readonly hashes: Readonly<Record<string, string>>;
  readonly stock?: readonly LotStock[];
  /** Where it was not reckoned in this thread. */
  readonly reckoned?: ReckonedEntry;
}

/** What was written of an entry. */
export interface EntryDone {
  readonly number: number;
  readonly pages: readonly { readonly address: string; readonly file: WrittenFile; readonly record: PageRecord }[];
  readonly besides: EntryFilesMade;
}

/** What was reckoned since it was last handed over. */
const made = { small: [] as [string, string][], large: [] as [string, Uint8Array?][] };

/** Takes note of what is reckoned here. What is large is packed only for those who keep it, or where it is too much. */
function keptHere({ isKept, isMany }: ReckonStart): Kept {
  const packs = new KeptForOneRun();
  return {
    ...keptNowhere,
    put: (key, value) => made.small.push([key, JSON.stringify(value)]),
    hasLarge: packs.hasLarge,
    getLarge: packs.getLarge,
    putLarge: (key, value) => {
      const packed = isKept || isMany ? pack(value) : undefined;
      if (packed && isMany) packs.putPacked(key, packed);
      made.large.push(packed && isKept ? [key, packed] : [key]);
    },
  };
}

/** So much of a reckoning as pages ask for. */
type ForPages = Omit<ReckonedEntry, 'rows' | 'findings' | 'stock'>;

/** What was reckoned here, until its pages are asked for. */
interface Waiting {
  readonly has: (number: number) => boolean;
  readonly put: (one: ReckonedEntry) => void;
  /** An entry is asked for once. @throws where the disk does not give it back */
  readonly take: (number: number) => ForPages;
}

/** They wait as they are. */
function held(): Waiting {
  const all = new Map<number, ReckonedEntry>();
  return {
    has: (number) => all.has(number),
    put: (one) => all.set(one.entry.number, one),
    take: (number) => {
      const one = all.get(number)!;
      all.delete(number);
      return one;
    },
  };
}

/** They wait on the disk, as they are more than could be held. @param kept has what is large of them */
function onDisk(kept: Kept): Waiting {
  type InShort = Pick<ReckonedEntry, 'entry' | 'elements' | 'gist'> & { readonly identity: string };
  const inShort = new KeptForOneRun();
  const keyOf = (number: number): string => `entry ${number}`;
  return {
    has: (number) => inShort.has(keyOf(number)),
    put: ({ entry, identity, elements, gist }) => inShort.put(keyOf(entry.number), { entry, identity, elements, gist }),
    take: (number) => {
      const known = inShort.get(keyOf(number)) as InShort | undefined;
      const whole = known && takeWhole(known.identity, kept);
      if (!whole) throw new Error(`what was reckoned of entry ${number} could not be read again`);
      return { ...known, ...whole };
    },
  };
}

let waiting: Waiting;
let reckon: (some: readonly Entry[]) => void;
let render: (one: EntryToRender) => EntryDone;

/** Reckons entries, and words what is to be remarked of them. */
function reckoning(start: ReckonStart): (some: readonly Entry[]) => void {
  const kept = keptHere(start);
  const one = oneByOne(start, start.photographs, kept);
  waiting = start.isMany ? onDisk(kept) : held();
  return (some) => {
    const anew = some.filter(({ number }) => !waiting.has(number)).map(one);
    for (const whole of anew) waiting.put(whole);
    remarksOf(anew, kept);
  };
}

function reckonAll(entries: readonly Entry[]): ReckonedThere {
  reckon(entries);
  return { small: made.small.splice(0), large: made.large.splice(0), parts: entries.map(partWorkedOut) };
}

/** A reckoning as pages ask for it, without what lists and the proof ask for. */
function forPages({ number, stock, reckoned }: EntryToRender): ReckonedEntry {
  const { entry, identity, elements, gist, amounts, dangers, appearance } = reckoned ?? waiting.take(number);
  return {
    entry,
    identity,
    elements,
    gist,
    amounts: stock ? { ...amounts, stock } : amounts,
    dangers,
    appearance,
    rows: [],
    findings: [],
  };
}

function renderingInto({ shared, folder, before, shelf }: WorkerStart): (one: EntryToRender) => EntryDone {
  const writeInto = writerInto(folder, new Set(), before);
  const spool = new LineSpool(spoolIn(folder, threadId));
  const findables = new LineSpool(findablesIn(folder, threadId));
  const site = splitAddress(shared.context.address);
  return (one) => {
    const { number, work, addresses, besides, hashes } = one;
    const write = (address: string, text: string): WrittenFile => writeInto(address, text, hashes[address]);
    const whole = forPages(one);
    const pages = renderEntryPages(shared, { ...work, reckoned: whole }, addresses).map(({ address, rendered }) => {
      const file = write(address, rendered.html);
      return { address, file, record: recordOf(address, rendered, file, site) };
    });
    return {
      number,
      pages,
      besides: entryFiles({ ...work, reckoned: whole }, besides, { write, spool, findables, shelf }),
    };
  };
}

answering({
  read: readThere,
  'drawn-upon': (start: ReckonStart) => {
    reckon = reckoning(start);
  },
  reckon: reckonAll,
  staging: (start: WorkerStart) => {
    // All is reckoned: what would hold each entry is let go, and so is each entry when its pages are there.
    reckon = () => undefined;
    render = renderingInto(start);
  },
  render: (some: readonly EntryToRender[]) => some.map((one) => render(one)),
});
