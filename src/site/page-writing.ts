// Every page of a site into staging: taken over where it is made of the same as when it was published last, else
// rendered; where entries are many, other threads render the pages of those that they have reckoned.
import { keyUnder, type Kept } from '../kept/kept.js';
import { allDone, portion, shareOut, type AskedThread, type Threads } from '../threads.js';
import { splitAddress } from './context.js';
import { addressesOfEntry } from './entry-pages.js';
import { comparedAddress, type EntryFiles } from './entry-files.js';
import type { EntryDone, EntryToRender, WorkerStart } from './entry-worker.js';
import type { EntryWork } from './entry-pages.js';
import type { SitePage } from './page-list.js';
import { recordOf, type PageRecord } from './page-record.js';
import type { SitePlan } from './plan.js';
import { fileOfAddress } from './file-writing.js';
import type { SiteInMaking } from './staging.js';

/**
 * Entries in one question to a thread: so many that it has enough to do while this thread makes the longest of its
 * pages.
 */
const mostAsked = 16;
/** Below this many entries to render, starting threads costs more than it saves. */
const worthThreads = 150;

export interface PageWriting {
  readonly plan: SitePlan;
  readonly staging: SiteInMaking;
  /** What was made before. */
  readonly kept: Kept;
  /** Threads that answer `staging` and `render`. */
  readonly threads: Threads;
  /** What else is made of entries. */
  readonly besides: EntryFiles;
  /** Files that need no page: each step writes one in this thread, before it takes entries. */
  readonly others: Iterator<unknown>;
  /** Called for each page when it is in staging. */
  readonly done: (page: SitePage, record: PageRecord, key: string) => void;
  /** Whether a page is surely made of the same as before, so that its inputs need not be looked at. */
  readonly isSame?: ((address: string) => boolean) | undefined;
  /** The text of a page that need not be rendered, and that says to others what it said. */
  readonly again?: ((page: SitePage) => string | undefined) | undefined;
}

/** A page that has to be rendered, and what it will be kept under. */
interface ToRender {
  readonly page: SitePage;
  readonly key: string;
}

/** Takes over what is the same as before; the rest has to be rendered. */
function takeOver({ plan, staging, kept, done, isSame, again }: PageWriting): ToRender[] {
  const toRender: ToRender[] = [];
  for (const page of plan.pages.values()) {
    if (isSame?.(page.address)) continue;
    const key = keyUnder(kept, 'page', () => [page.address, ...page.inputs]);
    const record = kept.get(key) as PageRecord | undefined;
    const text = record ? undefined : again?.(page);
    if (record && staging.takeOver({ path: fileOfAddress(page.address), hash: record.hash })) done(page, record, key);
    else if (text === undefined) toRender.push({ page, key });
    else done(page, recordAgain(staging.write(page.address, text)), key);
  }
  return toRender;
}

/** Of a page that says what it said. */
const recordAgain = ({ bytes, hash }: Pick<PageRecord, 'bytes' | 'hash'>): PageRecord => ({
  ...{ bytes, hash },
  ...{ remarks: [], partLinks: [], ids: [], to: [], dead: [] },
});

/** An entry of which pages have to be rendered, its work not put together yet. */
interface ToPutTogether extends Pick<EntryToRender, 'number' | 'addresses'> {
  readonly work: () => EntryWork;
}

/** The entries whose pages are among those to render: the last reckoned first, as what is large of them is at hand. */
function entriesAmong(toRender: ReadonlyMap<string, ToRender>, { works }: SitePlan): ToPutTogether[] {
  return works.toReversed().flatMap(({ number, work }) => {
    const addresses = addressesOfEntry(number).filter((address) => toRender.has(address));
    return addresses.length > 0 ? [{ number, work, addresses }] : [];
  });
}

/** What a thread needs of an entry; of one that it has reckoned itself not the reckoning. */
function toRenderOf(
  { number, work, addresses }: ToPutTogether,
  isItsOwn: boolean,
): Omit<EntryToRender, 'besides' | 'hashes'> {
  const { reckoned, ...rest } = work();
  if (isItsOwn) return { number, addresses, work: rest, stock: reckoned.stock };
  return { number, addresses, work: rest, reckoned: { ...reckoned, findings: [], rows: [] } };
}

/** Entries to render: those that other threads have reckoned, and the rest. */
class ToHandOut {
  private readonly ofThreads = new Map<AskedThread, ToPutTogether[]>();
  private readonly rest: ToPutTogether[] = [];

  constructor(
    entries: readonly ToPutTogether[],
    private readonly threads: Threads,
    private readonly besides: EntryFiles,
    private readonly staging: SiteInMaking,
  ) {
    for (const thread of threads.all) this.ofThreads.set(thread, []);
    for (const one of entries) (this.ofThreads.get(threads.owners.get(one.number)!) ?? this.rest).push(one);
  }

  /** The next for a thread: first of its own. */
  next(thread: AskedThread): EntryToRender[] {
    const own = this.ofThreads.get(thread)!;
    const isItsOwn = own.length > 0;
    const from = isItsOwn ? own : this.rest;
    const count = portion(from.length, this.threads.all.length, mostAsked);
    return from.splice(0, count).map((one) => {
      const besides = this.besides.wanted(one.number);
      const compared = besides.compared ? [comparedAddress(one.number)] : [];
      const hashes = this.staging.makeRoom([...one.addresses, ...compared]);
      return { ...toRenderOf(one, isItsOwn), besides, hashes };
    });
  }

  /** The next that no thread has asked for. */
  nextHere(): ToPutTogether | undefined {
    return this.rest.shift();
  }
}

/** Puts every page of the plan into staging. */
export async function writePages(writing: PageWriting): Promise<void> {
  const { plan, staging, kept, done, threads, besides, others } = writing;
  const toRender = new Map(takeOver(writing).map((one) => [one.page.address, one]));
  const entries = entriesAmong(toRender, plan);
  const workers = threads.for(entries.length, worthThreads);
  const rendered = (address: string, record: PageRecord): void => {
    const { page, key } = toRender.get(address)!;
    kept.put(key, record);
    done(page, record, key);
  };
  const site = splitAddress(plan.context.address);
  const renderHere = ({ page }: ToRender): void => {
    const made = page.render();
    rendered(page.address, recordOf(page.address, made, staging.write(page.address, made.html), site));
  };
  const { reagents: shelf } = plan.model.journal.shelf;
  const start: WorkerStart = { shared: plan.shared, folder: staging.folder, before: staging.before, shelf };
  const begun = workers.map((worker) => worker.ask('staging', start));
  const ofEntries = new Set(entries.flatMap(({ addresses }) => addresses));
  const ownPages = [...toRender.values()].filter(({ page }) => !ofEntries.has(page.address));
  const toHandOut = new ToHandOut(entries, threads, besides, staging);
  const askThread = async (worker: AskedThread, some: readonly EntryToRender[]): Promise<void> => {
    for (const one of await worker.ask<readonly EntryDone[]>('render', some)) {
      staging.note(one.pages.map(({ file }) => file));
      for (const { address, record } of one.pages) rendered(address, record);
      besides.take(one.number, one.besides);
    }
  };
  const shared = shareOut(workers, {
    ask: (worker) => {
      const some = toHandOut.next(worker);
      return some.length > 0 ? askThread(worker, some) : undefined;
    },
    here: () => {
      const own = ownPages.shift();
      if (own) {
        renderHere(own);
        return true;
      }
      if (!others.next().done) return true;
      const entry = toHandOut.nextHere();
      if (!entry) return false;
      for (const address of entry.addresses) renderHere(toRender.get(address)!);
      besides.here(entry.work());
      return true;
    },
  });
  await allDone([...begun, shared]);
}
