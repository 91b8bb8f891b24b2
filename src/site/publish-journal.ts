// A publication: proof, render every page into staging, add the search index, then swap; all of it or nothing.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import { extendRegister, registerFile, registerRemarks } from '../journal/index.js';
import { decoded } from '../journal/links.js';
import { codeVersion } from '../kept/code-version.js';
import { keptNowhere, type Kept } from '../kept/kept.js';
import { boundPictures } from '../kept/pictures.js';
import { letHeapGrowLittle } from '../heap-growth.js';
import { manyEntries } from '../many-entries.js';
import { KeptOnDisk } from '../kept/store.js';
import { TextsOnDisk } from '../kept/texts-on-disk.js';
import { hasErrors, inOrder, openJournal, type OpenedJournal, type OpenOptions } from '../open.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { ReadingNotes } from '../journal/read.js';
import { remark, type Remark } from '../remarks/remark.js';
import { worthThreads } from '../reckoning/in-threads.js';
import { allDone, Threads } from '../threads.js';
import { accepted, gathered } from './acceptance.js';
import { keepRemarks } from './published-remarks.js';
import { splitAddress } from './context.js';
import { readKnown } from './edited-entries/known.js';
import { publishAgain } from './edited-entries/publish-again.js';
import { remember } from './edited-entries/remember.js';
import { SaidByPages } from './edited-entries/said.js';
import { EntryFiles } from './entry-files.js';
import { EntryFindables } from './entry-findables.js';
import { quietly } from './lock.js';
import { gatheredAddresses, planSite } from './plan.js';
import { withRegistered } from './register-file.js';
import type { Publication, PublishOptions } from './publication.js';
import {
  checkPartLinks,
  idsOf,
  renderPages,
  searchKey,
  taken,
  timed,
  writeSearch,
  writeSharePictures,
  type Work,
} from './site-making.js';
import type { SharePicture } from './share-picture-list.js';
import { SiteLinks, type DeadLink } from './site-links.js';
import { refuseJournal } from './site-places.js';
import { stage, type Stamps, type Staging } from './staging.js';

/** Links of the published pages that lead nowhere, but for those of write-ups, whose remarks have their place. */
function deadLinks(work: Work): DeadLink[] {
  const ofWriteUps = new Set(work.partLinks.map(({ page, part }) => `${page}#${part}`));
  const dead = work.links.check(work.staging.has, idsOf(work));
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
  const lost = registerRemarks({ ...model.journal, register: behind });
  return [...remarksFrom(findings.all), ...lost];
}

const nothing = { published: false, entries: 0, pages: 0, bytes: 0, kept: [] };

interface Opening extends OpenOptions {
  readonly kept: Kept;
  readonly threads: Threads;
  /** Notes of what is read, where something is kept. */
  readonly notes?: ReadingNotes;
  /** When it began, in milliseconds. */
  readonly began?: number;
}

/** Builds the site in staging and swaps it in. */
async function publishInto(
  staging: Staging,
  opened: OpenedJournal,
  opening: Opening,
  options: PublishOptions,
): Promise<Publication> {
  const { model } = opened;
  const took = { ...opened.took };
  if (!model) return { ...nothing, remarks: opened.remarks, took };
  const behind = behindSite(model, staging);
  const remarks = [...opened.remarks, ...registerBehindRemarks(model, behind)];
  if (hasErrors(remarks)) return { ...nothing, remarks: inOrder(remarks), took };
  const { address } = model.journal.settings;
  const links = new SiteLinks(splitAddress(address));
  const said = opening.notes && new SaidByPages();
  const work: Work = {
    plan: planSite(model, { labels: options.labels ?? false, kept: opening.kept }),
    kept: opening.kept,
    threads: opening.threads,
    staging,
    options,
    remarks,
    partLinks: [],
    links,
    ids: new Map(),
    said,
    searched: (options.search ?? true) ? searchKey(opening.kept, model) : '',
    took,
    bytes: 0,
  };
  // Where the index is the same, nothing is asked for.
  const isSearched = (options.search ?? true) && !work.kept.has(work.searched);
  const findables = isSearched ? new EntryFindables(model, work.kept, staging.folder) : undefined;
  const besides = new EntryFiles({ ...work, findables, done: (file) => taken(work, file) });
  // Of a large journal pictures are drawn when threads have given back what they hold.
  let toDraw: readonly SharePicture[] = [];
  const pictures = async (): Promise<void> => {
    if (options.sharePictures !== false) toDraw = await writeSharePictures(work, opening.textsAside !== true);
  };
  await timed(work, 'render', () => allDone([renderPages(work, besides), pictures()]));
  // What threads hold is not asked for any more, and gives room to what search takes.
  await work.threads.end();
  if (toDraw.length > 0) await timed(work, 'share', () => writeSharePictures(work, true, toDraw));
  checkPartLinks(work);
  if (hasErrors(remarks)) return { ...nothing, remarks: inOrder(remarks), took };
  await timed(work, 'data', () => besides.end());
  if (options.search ?? true) await timed(work, 'search', () => writeSearch(work, findables));
  await timed(work, 'links', () => {
    remarks.push(...deadLinks(work).map(deadLinkRemark));
  });
  const shared = options.drafts === true ? [] : gatheredAddresses(model);
  const registered = extendRegister([...model.journal.register, ...behind], model.journal, shared);
  const kept = await timed(work, 'swap', () =>
    staging.swap({ journal: address, registered }, (swap) => withRegistered(model.journal.folder, registered, swap)),
  );
  boundPictures(join(model.journal.folder, '.pictures'), model.journal.published?.values() ?? []);
  const told = accepted(remarks, model);
  const causes = gathered(inOrder(told.remarks), model);
  keepRemarks(model.journal.folder, causes);
  const toTell = {
    remarks: inOrder(told.remarks),
    causes,
    accepted: told.accepted,
    entries: model.entries.length,
    pages: work.plan.pages.size,
    bytes: work.bytes,
  };
  await timed(work, 'remember', () =>
    quietly(() => rememberFor({ work, staging, said, registered }, opening, { ...toTell, kept })),
  );
  return { ...toTell, published: true, kept, took };
}

interface ToRemember {
  readonly work: Work;
  readonly staging: Staging;
  readonly said: SaidByPages | undefined;
  readonly registered: readonly string[];
}

/** Puts down what the next publication of the site has to know, where anything is kept. */
function rememberFor(
  { work, staging, said, registered }: ToRemember,
  { notes, began }: Opening,
  { kept, ...told }: Omit<Required<Publication>, 'published' | 'took'>,
): void {
  const swapped = staging.swapped();
  if (!notes || began === undefined || !swapped || !said) return;
  const { plan, remarks, options, search, kept: before } = work;
  const { folder } = plan.model.journal;
  const [version, isAlone, { site }] = [codeVersion(), kept.length === 0, staging];
  remember({
    ...{ folder, version, options, notes, began, plan, said, remarks, told, site, search, swapped, isAlone },
    ...{ registered, kept: before },
  });
}

/**
 * Publishes the journal in `folder`.
 * @throws NotOurs if the site's folder is somebody else's, LockTaken if another publication of it goes on for too long,
 * and what the file system refuses; the old site is then as it was, and so is the register
 * @example await publishJournal('content', { to: 'site' })
 */
export async function publishJournal(folder: string, options: PublishOptions): Promise<Publication> {
  const { to, drafts = false } = options;
  refuseJournal(to, folder);
  const began = Date.now();
  const again = options.keep === false ? undefined : await publishAgain(folder, options, codeVersion());
  if (again) return again;
  const kept = options.keep === false ? undefined : new KeptOnDisk(folder, codeVersion());
  const files = entryFilesIn(folder);
  const littleMemory = options.littleMemory ?? files > manyEntries;
  const worker = new URL('./entry-worker.js', import.meta.url);
  const threads = new Threads(worker, options.threads, littleMemory ? 'little' : 'ample');
  if (littleMemory) letHeapGrowLittle();
  try {
    // Where everything is to be made, threads begin before the journal is read, and read some of it.
    if (!kept || kept.isEmpty) threads.for(files, worthThreads);
    const opening = { drafts, textsAside: littleMemory, kept: kept ?? keptNowhere, threads, ...(kept && { began }) };
    return await publishWith(opening, folder, options, () => kept?.end());
  } finally {
    await threads.end();
  }
}

/** Roughly how many entries a journal has; what cannot be read is said when it is. */
function entryFilesIn(folder: string): number {
  try {
    return readdirSync(join(folder, 'entries')).length;
  } catch {
    return 0;
  }
}

/** The same with notes of what is read, where anything is kept. */
const withNotes = (opening: Opening): Opening =>
  opening.began === undefined ? opening : { ...opening, notes: { texts: new TextsOnDisk() } };

/** Stamps of the files of a site, as they were when it was published. */
function stampsOf(folder: string, site: string): Stamps | undefined {
  const known = readKnown(folder, site, codeVersion());
  if (!known) return undefined;
  return { manifest: known.manifest, files: new Map([...known.files].map(([path, { stamp }]) => [path, stamp])) };
}

async function publishWith(
  opening: Opening,
  folder: string,
  options: PublishOptions,
  keep: () => void,
): Promise<Publication> {
  let noted = withNotes(opening);
  let opened = await openJournal(folder, noted);
  if (!opened.model || hasErrors(opened.remarks)) return { ...nothing, remarks: opened.remarks, took: opened.took };
  let waited = false;
  const staging = await stage(options.to, {
    stampsOf: (site) => (opening.began === undefined ? undefined : stampsOf(folder, site)),
    spareFrom: options.keep === false ? Number.POSITIVE_INFINITY : (options.spareFrom ?? 1000),
    isForgotten: opening.began === undefined,
    patience: options.patience,
    onWait: (owner) => {
      waited = true;
      options.onWait?.(owner);
    },
  });
  try {
    // What was read before waiting may be older by now than what the other has published.
    if (waited) {
      noted = withNotes(opening.began === undefined ? opening : { ...opening, began: Date.now() });
      opened = await openJournal(folder, noted);
    }
    const publication = await publishInto(staging, opened, noted, options);
    if (publication.published) keep();
    return publication;
  } finally {
    staging.abandon();
  }
}
