// Runs in a worker thread: reckons entries, keeps what it has reckoned, and renders pages of these and of other entries
// into the staging folder.
import { threadId } from 'node:worker_threads';
import { answering } from '../answering.js';
import type { Entry, Shelf } from '../journal/entry.js';
import { KeptForOneRun, keptNowhere, type Kept } from '../kept/kept.js';
import { pack } from '../kept/packed.js';
import type { LotStock, ReckonedEntry } from '../reckoning/contracts.js';
import type { ReckonedThere, ReckonStart } from '../reckoning/in-threads.js';
import { oneByOne, takeWhole } from '../reckoning/reckon.js';
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

/** What is large of what was reckoned here: on the disk, as it is more than could be held. */
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
/** The rest of it, by number. */
let inShort = new KeptForOneRun();
let reckon: ((entry: Entry) => ReckonedEntry) | undefined;
let render: (one: EntryToRender) => EntryDone;

/** So much of a reckoning as pages ask for and is not large. */
type InShort = Pick<ReckonedEntry, 'entry' | 'elements' | 'gist'> & { readonly identity: string };

const keyOf = (number: number): string => `entry ${number}`;

function reckonAll(entries: readonly Entry[]): ReckonedThere {
  for (const one of entries)
    if (!inShort.has(keyOf(one.number))) {
      const { entry, identity, elements, gist } = reckon!(one);
      inShort.put(keyOf(one.number), { entry, identity, elements, gist });
    }
  return { small: made.small.splice(0), large: made.large.splice(0) };
}

/** What was reckoned here. @throws where the disk does not give it back */
function reckonedHere(number: number): InShort & Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'> {
  const known = inShort.get(keyOf(number)) as InShort | undefined;
  const whole = known && takeWhole(known.identity, kept);
  if (!whole) throw new Error(`what was reckoned of entry ${number} could not be read again`);
  return { ...known, ...whole };
}

/** A reckoning as pages ask for it, without what lists and the proof ask for. */
function forPages({ number, stock, reckoned }: EntryToRender): ReckonedEntry {
  const { entry, identity, elements, gist, amounts, dangers, appearance } = reckoned ?? reckonedHere(number);
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
    return {
      number,
      pages,
      besides: entryFiles({ ...work, reckoned: whole }, besides, { write, spool, findables, shelf }),
    };
  };
}

answering({
  'drawn-upon': ({ photographs, ...journal }: ReckonStart) => {
    inShort = new KeptForOneRun();
    reckon = oneByOne(journal, photographs, kept);
  },
  reckon: reckonAll,
  staging: (start: WorkerStart) => {
    // All is reckoned: what would hold each entry is let go.
    reckon = undefined;
    render = renderingInto(start);
  },
  render: (some: readonly EntryToRender[]) => some.map((one) => render(one)),
});
