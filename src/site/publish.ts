// A publication: proof, render every page into staging, add the search index, then swap; all of it or nothing.
import { readFileSync, writeFileSync, existsSync, realpathSync, statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, sep } from 'node:path';
import { Tinypool } from 'tinypool';
import type { JournalModel } from '../crosslinks/model.js';
import { extendRegister, registerText } from '../journal/index.js';
import { remark, type Remark } from '../journal/remarks.js';
import { hasErrors, inOrder, openJournal } from '../open.js';
import { gatherAssets, type FileContent } from './assets.js';
import { writeData } from './data.js';
import { feeds, sitemap } from './feeds.js';
import type { BatchDone, WorkerStart } from './entry-worker.js';
import { planSite, type SitePlan } from './plan.js';
import { searchIndex } from './search-index.js';
import { stage } from './staging.js';

export interface PublishOptions {
  /** Folder the site will stand in. */
  readonly to: string;
  /** Planned and running entries too. */
  readonly drafts?: boolean;
  /** Default true. */
  readonly search?: boolean;
  readonly progress?: (stage: string, done: number, of: number) => void;
  /** Worker threads for the entries' pages; 0 renders them here. Default: by the size of the journal and the machine. */
  readonly threads?: number;
}

export interface Publication {
  /** False where errors stopped it; the old site is then as it was. */
  readonly published: boolean;
  readonly remarks: readonly Remark[];
  readonly entries: number;
  readonly pages: number;
  readonly bytes: number;
  readonly took: Readonly<Record<string, number>>;
}

/** Addresses of the pages that one entry makes. */
const ofEntry = /^\/\d+\/(bench\/)?$/;

/** Entries rendered by one call of a worker thread. */
const batch = 50;
/** Below this many entries, starting threads costs more than it saves. */
const worthThreads = 300;

/** Renders the entries' pages in worker threads, which write them into staging themselves. */
async function renderInThreads(
  plan: SitePlan,
  folder: string,
  threads: number,
  done: (batch: BatchDone) => void,
): Promise<void> {
  const workerData: WorkerStart = { shared: plan.shared, folder };
  const pool = new Tinypool({
    filename: new URL('./entry-worker.js', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    workerData,
  });
  try {
    let next = 0;
    // Each thread asks for its next batch when it has done the last, so that only a few batches are copied at a time.
    await Promise.all(
      Array.from({ length: threads }, async () => {
        while (next < plan.works.length) {
          const work = plan.works
            .slice(next, (next += batch))
            .map((one) => ({ ...one, reckoned: { ...one.reckoned, remarks: [] } }));
          done((await pool.run(work)) as BatchDone);
        }
      }),
    );
  } finally {
    await pool.destroy();
  }
}

const nothing = { published: false, entries: 0, pages: 0, bytes: 0 };

/**
 * Publishes the journal in `folder`.
 * @example await publish('content', { to: 'site' })
 */
export async function publish(folder: string, options: PublishOptions): Promise<Publication> {
  const { to, drafts = false, search = true, progress = () => undefined } = options;
  const opened = await openJournal(folder, { drafts });
  const took: Record<string, number> = { ...opened.took };
  const { model } = opened;
  if (!model || hasErrors(opened.remarks)) return { ...nothing, remarks: opened.remarks, took };

  const timed = async <T>(name: string, work: () => T | Promise<T>): Promise<T> => {
    const begin = performance.now();
    const result = await work();
    took[name] = (took[name] ?? 0) + performance.now() - begin;
    return result;
  };

  const staging = stage(to);
  try {
    const remarks: Remark[] = [...opened.remarks];
    let bytes = 0;
    const write = (address: string, content: FileContent): void => {
      bytes += staging.write(address, content);
    };
    const plan = planSite(model);
    let done = 0;
    const threads = options.threads ?? (plan.works.length < worthThreads ? 0 : Math.min(8, availableParallelism()));
    await timed('render', async () => {
      const counted = (pages: number): void => {
        done += pages;
        progress('pages', done, plan.pages.size);
      };
      if (threads > 0) {
        await renderInThreads(plan, staging.folder, threads, (of) => {
          bytes += of.bytes;
          remarks.push(...of.remarks.map(remark));
          counted(of.pages);
        });
      }
      for (const [address, render] of plan.pages) {
        if (threads > 0 && ofEntry.test(address)) continue;
        const { html, remarks: ofPage } = render();
        remarks.push(...ofPage);
        write(address, html);
        counted(1);
      }
    });
    if (hasErrors(remarks)) {
      staging.abandon();
      return { ...nothing, remarks: inOrder(remarks), took };
    }
    await timed('data', () => {
      for (const file of [
        ...writeData(model),
        ...feeds(plan.context, model),
        sitemap(plan.context, model, plan.pages.keys()),
        ...gatherAssets().files,
      ])
        write(file.address, file.content);
      for (const [path, content] of namedFiles(model)) write(`/${path}`, content);
    });
    if (search)
      await timed('search', async () => {
        for (const file of await searchIndex(model, (at, of) => progress('search', at, of)))
          write(file.address, file.content);
      });
    await timed('swap', () => {
      const register = extendRegister(model.journal.register, model.journal);
      staging.swap();
      if (register.join('\n') !== model.journal.register.join('\n'))
        writeFileSync(join(folder, 'register.txt'), registerText(register));
    });
    return {
      published: true,
      remarks: inOrder(remarks),
      entries: model.entries.length,
      pages: plan.pages.size,
      bytes,
      took,
    };
  } catch (error) {
    staging.abandon();
    throw error;
  }
}

/** Photos, spectra and other files that entries and pages name, with their bytes; nothing from outside the journal's folder. */
export function namedFiles(model: JournalModel): Map<string, Uint8Array> {
  const root = realpathSync(model.journal.folder) + sep;
  const files = new Map<string, Uint8Array>();
  for (const path of new Set([...model.journal.files, ...model.journal.readings.keys()])) {
    const file = join(model.journal.folder, path);
    if (!/^(photos|spectra)\//.test(path) || !existsSync(file)) continue;
    const real = realpathSync(file);
    if (real.startsWith(root) && statSync(real).isFile()) files.set(path, readFileSync(real));
  }
  return files;
}
