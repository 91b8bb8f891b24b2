// Runs in a worker thread: reckons entries, keeps what it has reckoned, and renders pages of these and of other entries
// into the staging folder.
import { threadId } from 'node:worker_threads';
import { answering } from '../answering.js';
import type { Entry, Shelf } from '../journal/entry.js';
import { KeptForOneRun, keptNowhere, type Kept } from '../kept/kept.js';
import { pack } from '../kept/packed.js';
import type { LotStock, ReckonedEntry } from '../reckoning/contracts.js';
import type { ReckonedThere, ReckonStart } from '../reckoning/in-threads.js';
import { oneByOne } from '../reckoning/reckon.js';
import '../tables/use-prepared.js';
import { splitAddress } from './context.js';
import { entryFiles, spoolIn, type EntryFilesMade, type EntryFilesWanted } from './entry-files.js';
import { findablesIn, LineSpool } from './entry-lines.js';
import { renderEntryPages, type EntryWork, type SharedByEntries } from './entry-pages.js';
import { recordOf, type PageRecord } from './page-record.js';
import { writerInto, type WrittenFile } from './staging.js';

export interface WorkerStart {
  readonly shared: SharedByEntries;
  readonly folder: string;
  readonly shelf: Shelf['reagents'];
}

/** An entry of which pages have to be rendered, and which. */
export interface EntryToRender {
  readonly number: number;
  readonly addresses: readonly string[];
  readonly work: Omit<EntryWork, 'reckoned'>;
  /** What is made of it besides. */
  readonly besides: EntryFilesWanted;
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
const made = { small: [] as [string, string][], large: [] as [string, Uint8Array][] };

/** Packs of what was reckoned here: more than is held otherwise. */
const packs = new KeptForOneRun();
const kept: Kept = {
  ...keptNowhere,
  put: (key, value) => kept.putJson(key, JSON.stringify(value)),
  putJson: (key, json) => made.small.push([key, json]),
  hasLarge: packs.hasLarge,
  getLarge: packs.getLarge,
  putLarge: (key, value) => kept.putPacked(key, pack(value)),
  putPacked: (key, packed) => {
    packs.putPacked(key, packed);
    made.large.push([key, packed]);
  },
};
const reckoned = new Map<number, ReckonedEntry>();
let reckon: ((entry: Entry) => ReckonedEntry) | undefined;
let render: (one: EntryToRender) => EntryDone;

function reckonAll(entries: readonly Entry[]): ReckonedThere {
  for (const entry of entries) if (!reckoned.has(entry.number)) reckoned.set(entry.number, reckon!(entry));
  return { small: made.small.splice(0), large: made.large.splice(0) };
}

/** A reckoning as pages ask for it, without what lists and the proof ask for. */
function forPages({ number, stock, reckoned: given }: EntryToRender): ReckonedEntry {
  const { entry, identity, elements, gist, amounts, dangers, appearance } = given ?? reckoned.get(number)!;
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

function renderingInto({ shared, folder, shelf }: WorkerStart): (one: EntryToRender) => EntryDone {
  const write = writerInto(folder);
  const spool = new LineSpool(spoolIn(folder, threadId));
  const findables = new LineSpool(findablesIn(folder, threadId));
  const site = splitAddress(shared.context.address);
  return (one) => {
    const { number, work, addresses, besides } = one;
    const whole = forPages(one);
    const pages = renderEntryPages(shared, { ...work, reckoned: whole }, addresses).map(({ address, rendered }) => {
      const file = write(address, rendered.html);
      return { address, file, record: recordOf(address, rendered, file, site) };
    });
    // An entry is asked for once.
    reckoned.delete(number);
    return {
      number,
      pages,
      besides: entryFiles({ ...work, reckoned: whole }, besides, { write, spool, findables, shelf }),
    };
  };
}

answering({
  'drawn-upon': ({ photographs, ...journal }: ReckonStart) => {
    reckoned.clear();
    reckon = oneByOne(journal, photographs, kept);
  },
  reckon: reckonAll,
  staging: (start: WorkerStart) => {
    // All is reckoned: what would hold each entry is let go, and so is each entry when its pages are there.
    reckon = undefined;
    render = renderingInto(start);
  },
  render: (some: readonly EntryToRender[]) => some.map((one) => render(one)),
});
