// A publication: proof, render every page into staging, add the search index, then swap; all of it or nothing.
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Tinypool } from 'tinypool';
import type { JournalModel } from '../crosslinks/model.js';
import { extendRegister, registerFile, registerRemarks } from '../journal/index.js';
import { decoded } from '../journal/links.js';
import { hasErrors, inOrder, openJournal, type OpenedJournal } from '../open.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import { remark, type Remark } from '../remarks/remark.js';
import { gatherAssets } from './assets.js';
import { splitAddress } from './context.js';
import { writeData } from './data.js';
import type { BatchDone, BatchFault, WorkerStart } from './entry-worker.js';
import type { Rendered } from './entry-pages.js';
import { feeds, sitemap } from './feeds.js';
import { idsIn } from './html.js';
import type { LockOwner } from './lock.js';
import type { PartLink } from './markdown.js';
import { namedFiles } from './named-files.js';
import { partRemarks } from './part-links.js';
import { planSite, type SitePlan } from './plan.js';
import { withRegistered } from './register-file.js';
import { citations } from './citations.js';
import { sharePictureFile, sharePictures } from './share-pictures.js';
import { searchIndex } from './search-index.js';
import { SiteLinks, type DeadLink } from './site-links.js';
import { fileOfAddress, refuseJournal, stage, type Staging, type WrittenFile } from './staging.js';

export interface PublishOptions {
  /** Folder the site will stand in. */
  readonly to: string;
  /** Planned and running entries too. */
  readonly drafts?: boolean;
  /** Default true. */
  readonly search?: boolean;
  /** Sheets of labels of every entry too. Default false. */
  readonly labels?: boolean;
  /** Pictures that are shown with links. Default true. */
  readonly sharePictures?: boolean;
  readonly progress?: (stage: string, done: number, of: number) => void;
  /**
   * Worker threads for the entries' pages; 0 renders them here. Default: by the size of the journal and the machine.
   */
  readonly threads?: number;
  /** Milliseconds to wait for another publication of the same site. Default: a minute. */
  readonly patience?: number;
  /** Called once when another publication has to be waited for. */
  readonly onWait?: (owner: LockOwner | undefined) => void;
}

export interface Publication {
  /** False where errors stopped it; the old site is then as it was. */
  readonly published: boolean;
  readonly remarks: readonly Remark[];
  readonly entries: number;
  readonly pages: number;
  readonly bytes: number;
  /** What lies in the site's folder besides and was left as it is: `CNAME`, `.git/`. */
  readonly kept: readonly string[];
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
            .map((one) => ({ ...one, reckoned: { ...one.reckoned, findings: [] } }));
          const answer = (await pool.run(work)) as BatchDone | BatchFault;
          if ('fault' in answer) throw Object.assign(new Error(answer.fault.message), answer.fault);
          done(answer);
        }
      }),
    );
  } finally {
    await pool.destroy();
  }
}

/** The work of one publication: where it is written, and what has come of it so far. */
interface Work {
  readonly plan: SitePlan;
  readonly staging: Staging;
  readonly options: PublishOptions;
  readonly remarks: Remark[];
  readonly partLinks: PartLink[];
  readonly links: SiteLinks;
  readonly took: Record<string, number>;
  bytes: number;
}

async function timed<T>({ took }: Pick<Work, 'took'>, name: string, work: () => T | Promise<T>): Promise<T> {
  const begin = performance.now();
  const result = await work();
  took[name] = (took[name] ?? 0) + performance.now() - begin;
  return result;
}

const taken = (work: Work, { bytes }: WrittenFile): void => {
  work.bytes += bytes;
};

async function writePages(work: Work): Promise<void> {
  const { plan, staging, options, remarks, partLinks, links } = work;
  const few = plan.works.length < worthThreads;
  const threads = options.threads ?? (few ? 0 : Math.min(8, availableParallelism()));
  let done = 0;
  const counted = (pages: number): void => options.progress?.('pages', (done += pages), plan.pages.size);
  if (threads > 0)
    await renderInThreads(plan, staging.folder, threads, (of) => {
      staging.note(of.files);
      for (const file of of.files) taken(work, file);
      remarks.push(...of.remarks.map(remark));
      partLinks.push(...of.partLinks);
      links.merge(of.links);
      counted(of.files.length);
    });
  const writePage = (address: string, page: Rendered): void => {
    remarks.push(...page.remarks);
    partLinks.push(...page.partLinks);
    links.add(address, page.html);
    taken(work, staging.write(address, page.html));
    counted(1);
  };
  for (const [address, render] of plan.pages) if (threads === 0 || !ofEntry.test(address)) writePage(address, render());
}

/** Text of a page as it is staged. */
const staged = ({ staging }: Work, path: string): string => readFileSync(join(staging.folder, path), 'utf8');

/** Warnings for links of write-ups to parts that are not there, now that every page is. */
function checkPartLinks(work: Work): void {
  const { plan, staging, partLinks, remarks } = work;
  const known = new Map<string, ReadonlySet<string> | undefined>();
  const idsOf = (address: string): ReadonlySet<string> | undefined => {
    const path = fileOfAddress(address.slice(plan.context.base.length));
    if (!known.has(path))
      known.set(path, staging.has(path) && path.endsWith('.html') ? idsIn(staged(work, path)) : undefined);
    return known.get(path);
  };
  remarks.push(...partRemarks(partLinks, idsOf, remarks));
}

/** So many pictures are drawn at a time. */
const picturesAtOnce = 4;

async function writeSharePictures(work: Work): Promise<void> {
  const { model, context } = work.plan;
  const cache = join(model.journal.folder, '.pictures');
  const pictures = sharePictures(context, model);
  for (let from = 0; from < pictures.length; from += picturesAtOnce) {
    const some = pictures.slice(from, from + picturesAtOnce);
    const files = await Promise.all(some.map((picture) => sharePictureFile(picture, cache)));
    files.forEach((file, at) => taken(work, work.staging.write(some[at]!.address, { file })));
    work.options.progress?.('share', Math.min(from + picturesAtOnce, pictures.length), pictures.length);
  }
}

async function writeOther(work: Work): Promise<void> {
  const { plan, staging } = work;
  const { model, context } = plan;
  await timed(work, 'data', () => {
    for (const file of [
      ...writeData(model),
      ...feeds(context, model),
      ...citations(context, model),
      sitemap(context, model, plan.pages.keys()),
      ...gatherAssets().files,
    ])
      taken(work, staging.write(file.address, file.content));
    for (const [path, file] of namedFiles(model)) taken(work, staging.write(`/${path}`, { file }));
  });
  if (work.options.sharePictures ?? true) await timed(work, 'share', () => writeSharePictures(work));
  if (work.options.search ?? true)
    await timed(work, 'search', async () => {
      const index = await searchIndex(model, (at, of) => work.options.progress?.('search', at, of));
      for (const file of index) taken(work, staging.write(file.address, file.content));
    });
}

/** Links of the published pages that lead nowhere, but for those of write-ups, whose remarks have their place. */
function deadLinks(work: Work): DeadLink[] {
  const ofWriteUps = new Set(work.partLinks.map(({ page, part }) => `${page}#${part}`));
  const dead = work.links.check(work.staging.has, (path) => staged(work, path));
  return dead.filter(({ link }) => !ofWriteUps.has(decoded(link)));
}

/**
 * Pages other than write-ups are ours, and so is a link of theirs that leads nowhere; it is said, and stops nothing.
 */
const deadLinkRemark = ({ page, link }: DeadLink): Remark =>
  remark({
    place: { file: 'journal.yaml', line: 1, column: 1 },
    severity: 'warning',
    rule: 'dead-link',
    found: `On the published page ${page} a link leads to ${link}, where there is nothing.`,
    actual: link,
    cure: 'This is a fault of Masstone, not of the journal; please report it.',
  });

/** Addresses that the site published before has and the register has not: the register is older than the site. */
function behindSite(model: JournalModel, staging: Staging): readonly string[] {
  const { former } = staging;
  if (former?.journal !== model.journal.settings.address) return [];
  const register = new Set(model.journal.register);
  return former.registered.filter((address) => !register.has(address));
}

function registerBehindRemarks(model: JournalModel, behind: readonly string[]): Remark[] {
  if (behind.length === 0) return [];
  const findings = new Findings();
  const place = { file: registerFile, line: 1, column: 1 };
  findings.add('register-behind', place, { some: behind.slice(0, 5), more: behind.length > 5 });
  const lost = registerRemarks({ entries: model.journal.entries, register: behind });
  return [...remarksFrom(findings.all), ...lost];
}

const nothing = { published: false, entries: 0, pages: 0, bytes: 0, kept: [] };

/** Builds the site in staging and swaps it in. */
async function publishInto(staging: Staging, opened: OpenedJournal, options: PublishOptions): Promise<Publication> {
  const { model } = opened;
  const took = { ...opened.took };
  if (!model) return { ...nothing, remarks: opened.remarks, took };
  const behind = behindSite(model, staging);
  const remarks = [...opened.remarks, ...registerBehindRemarks(model, behind)];
  if (hasErrors(remarks)) return { ...nothing, remarks: inOrder(remarks), took };
  const { address } = model.journal.settings;
  const links = new SiteLinks(splitAddress(address));
  const work: Work = {
    plan: planSite(model, { labels: options.labels ?? false }),
    staging,
    options,
    remarks,
    partLinks: [],
    links,
    took,
    bytes: 0,
  };
  await timed(work, 'render', () => writePages(work));
  checkPartLinks(work);
  if (hasErrors(remarks)) return { ...nothing, remarks: inOrder(remarks), took };
  await writeOther(work);
  await timed(work, 'links', () => {
    remarks.push(...deadLinks(work).map(deadLinkRemark));
  });
  const registered = extendRegister([...model.journal.register, ...behind], model.journal);
  const kept = await timed(work, 'swap', () =>
    staging.swap({ journal: address, registered }, (swap) => withRegistered(model.journal.folder, registered, swap)),
  );
  return {
    published: true,
    remarks: inOrder(remarks),
    entries: model.entries.length,
    pages: work.plan.pages.size,
    bytes: work.bytes,
    kept,
    took,
  };
}

/**
 * Publishes the journal in `folder`.
 * @throws NotOurs if the site's folder is somebody else's, LockTaken if another publication of it goes on for too long,
 * and what the file system refuses; the old site is then as it was, and so is the register
 * @example await publish('content', { to: 'site' })
 */
export async function publish(folder: string, options: PublishOptions): Promise<Publication> {
  const { to, drafts = false } = options;
  refuseJournal(to, folder);
  let opened = await openJournal(folder, { drafts });
  if (!opened.model || hasErrors(opened.remarks)) return { ...nothing, remarks: opened.remarks, took: opened.took };
  let waited = false;
  const staging = await stage(to, {
    patience: options.patience,
    onWait: (owner) => {
      waited = true;
      options.onWait?.(owner);
    },
  });
  try {
    // What was read before waiting may be older by now than what the other has published.
    if (waited) opened = await openJournal(folder, { drafts });
    return await publishInto(staging, opened, options);
  } finally {
    staging.abandon();
  }
}
