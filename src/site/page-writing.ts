// Every page of a site into staging: taken over where it is made of the same as when it was published last, else
// rendered, the entries' pages in worker threads where they are many.
import { inBatches, threadsFor } from '../in-batches.js';
import { identityOf } from '../kept/inputs.js';
import type { Kept } from '../kept/kept.js';
import { splitAddress } from './context.js';
import { addressesOfEntry } from './entry-pages.js';
import type { BatchDone, BatchFault, EntryToRender, WorkerStart } from './entry-worker.js';
import type { EntryWork } from './entry-pages.js';
import type { SitePage } from './page-list.js';
import { recordOf, type PageRecord } from './page-record.js';
import type { SitePlan } from './plan.js';
import { fileOfAddress, type Staging } from './staging.js';

/** Entries rendered by one call of a worker thread. */
const batch = 50;
/** Below this many entries to render, starting threads costs more than it saves. */
const worthThreads = 300;

export interface PageWriting {
  readonly plan: SitePlan;
  readonly staging: Staging;
  /** What was made before. */
  readonly kept: Kept;
  /** Worker threads; 0 renders here. Default: by the number of entries to render and the machine. */
  readonly threads?: number;
  /** Called for each page when it is in staging. */
  readonly done: (page: SitePage, record: PageRecord) => void;
}

/** A page that has to be rendered, and what it will be kept under. */
interface ToRender {
  readonly page: SitePage;
  readonly key: string;
}

const keyOf = ({ address, inputs }: SitePage): string => `page ${identityOf([address, ...inputs])}`;

/** Takes over what is the same as before; the rest has to be rendered. */
function takeOver({ plan, staging, kept, done }: PageWriting): ToRender[] {
  const toRender: ToRender[] = [];
  for (const page of plan.pages.values()) {
    const key = keyOf(page);
    const record = kept.get(key) as PageRecord | undefined;
    if (record && staging.takeOver({ path: fileOfAddress(page.address), hash: record.hash })) done(page, record);
    else toRender.push({ page, key });
  }
  return toRender;
}

/** An entry of which pages have to be rendered, its work not put together yet. */
interface ToPutTogether extends Omit<EntryToRender, 'work'> {
  readonly work: () => EntryWork;
}

/** The entries whose pages are among those to render. */
function entriesAmong(toRender: ReadonlyMap<string, ToRender>, { works }: SitePlan): ToPutTogether[] {
  return works.flatMap(({ number, work }) => {
    const addresses = addressesOfEntry(number).filter((address) => toRender.has(address));
    return addresses.length > 0 ? [{ work, addresses }] : [];
  });
}

/** What a worker needs of an entry: not what lists keep of its reckoning. */
const toRenderOf = ({ work, addresses }: ToPutTogether): EntryToRender => {
  const { reckoned, ...rest } = work();
  return { addresses, work: { ...rest, reckoned: { ...reckoned, findings: [], rows: [] } } };
};

/** Renders pages of entries in worker threads, which write them into staging themselves. */
const renderInThreads = (
  entries: readonly ToPutTogether[],
  start: WorkerStart,
  threads: number,
  done: (batch: BatchDone) => void,
): Promise<void> =>
  inBatches(
    entries,
    { module: new URL('./entry-worker.js', import.meta.url), start, threads, batch },
    (some) => some.map(toRenderOf),
    (answer: BatchDone | BatchFault) => {
      if ('fault' in answer) throw Object.assign(new Error(answer.fault.message), answer.fault);
      done(answer);
    },
  );

/** Puts every page of the plan into staging. */
export async function writePages(writing: PageWriting): Promise<void> {
  const { plan, staging, kept, done } = writing;
  const toRender = new Map(takeOver(writing).map((one) => [one.page.address, one]));
  const entries = entriesAmong(toRender, plan);
  const threads = writing.threads ?? threadsFor(entries.length, worthThreads);
  const rendered = (address: string, record: PageRecord): void => {
    const { page, key } = toRender.get(address)!;
    toRender.delete(address);
    kept.put(key, record);
    done(page, record);
  };
  if (threads > 0 && entries.length > 0)
    await renderInThreads(entries, { shared: plan.shared, folder: staging.folder }, threads, ({ pages }) => {
      for (const { file, address, record } of pages) {
        staging.note([file]);
        rendered(address, record);
      }
    });
  const site = splitAddress(plan.context.address);
  for (const [address, { page }] of [...toRender]) {
    const made = page.render();
    rendered(address, recordOf(address, made, staging.write(address, made.html), site));
  }
}
