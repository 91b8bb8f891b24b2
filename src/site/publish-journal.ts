// A publication: proof, render every page into staging, add the search index, then swap; all of it or nothing.
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import { extendRegister, registerFile, registerRemarks } from '../journal/index.js';
import { decoded } from '../journal/links.js';
import { codeVersion } from '../kept/code-version.js';
import { keptNowhere, keyUnder, type Kept } from '../kept/kept.js';
import { boundPictures } from '../kept/pictures.js';
import { letHeapGrowLittle, manyEntries } from '../heap-growth.js';
import { KeptOnDisk } from '../kept/store.js';
import { TextsOnDisk } from '../kept/texts-on-disk.js';
import { hasErrors, inOrder, openJournal, type OpenedJournal, type OpenOptions } from '../open.js';
import { lastFor } from '../once.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { ReadingNotes } from '../journal/read.js';
import { remark, type Remark } from '../remarks/remark.js';
import { worthThreads } from '../reckoning/in-threads.js';
import { allDone, Threads } from '../threads.js';
import { accepted, gathered } from './acceptance.js';
import { keepRemarks } from './published-remarks.js';
import { gatherAssets, type MadeFile, type SiteFile } from './assets.js';
import { splitAddress } from './context.js';
import { dataMade, entriesFile } from './data.js';
import { readKnown, type KnownSearch } from './edited-words/known.js';
import { publishAgain } from './edited-words/publish-again.js';
import { remember, SaidByEntries } from './edited-words/remember.js';
import { EntryFiles } from './entry-files.js';
import { EntryFindables } from './entry-findables.js';
import { feeds, sitemap } from './feeds.js';
import { handedOver } from './handed-over.js';
import { quietly } from './lock.js';
import type { PartLink } from './markdown.js';
import { namedFiles } from './named-files.js';
import { remarksIn } from './page-record.js';
import { writePages } from './page-writing.js';
import { partRemarks } from './part-links.js';
import { gatheredAddresses, planSite, whatIsSearched, type SitePlan } from './plan.js';
import { withRegistered } from './register-file.js';
import { citations } from './citations.js';
import type { Publication, PublishOptions } from './publication.js';
import { sharePictures } from './share-picture-list.js';
import { SiteLinks, type DeadLink } from './site-links.js';
import { fileOfAddress, refuseJournal, stage, type Stamps, type Staging, type WrittenFile } from './staging.js';

/** The work of one publication: where it is written, and what has come of it so far. */
interface Work {
  readonly plan: SitePlan;
  readonly staging: Staging;
  readonly options: PublishOptions;
  readonly remarks: Remark[];
  readonly partLinks: PartLink[];
  readonly links: SiteLinks;
  /** Ids of each page by its path, in one text: they take the least room so. */
  readonly ids: Map<string, string>;
  readonly kept: Kept;
  /** Where the next publication is told. */
  readonly said?: SaidByEntries | undefined;
  /** What the search index is kept under; asked for once, as what was told from others by then counts. */
  readonly searched: string;
  readonly threads: Threads;
  readonly took: Record<string, number>;
  bytes: number;
  /** What is to be known of the search index, where it was made now. */
  search?: KnownSearch | undefined;
}

async function timed<T>({ took }: Pick<Work, 'took'>, name: string, work: () => T | Promise<T>): Promise<T> {
  const begin = performance.now();
  const result = await work();
  took[name] = (took[name] ?? 0) + performance.now() - begin;
  return result;
}

const taken = (work: Work, { bytes }: Pick<WrittenFile, 'bytes'>): void => {
  work.bytes += bytes;
};

async function renderPages(work: Work, besides: EntryFiles): Promise<void> {
  const { plan, staging, options, kept, remarks, partLinks, links, ids } = work;
  let done = 0;
  await writePages({
    plan,
    staging,
    kept,
    threads: work.threads,
    besides,
    others: othersOf(work),
    done: ({ address }, record) => {
      taken(work, record);
      remarks.push(...remarksIn(record));
      partLinks.push(...record.partLinks);
      links.take(address, record);
      ids.set(fileOfAddress(address), record.ids.join(betweenIds));
      work.said?.take(address, record);
      options.progress?.('pages', (done += 1), plan.pages.size);
    },
  });
}

/** No id holds it. */
const betweenIds = '\n';

/** Ids of a page by its path; undefined where there is no such page. */
function idsOf({ ids }: Work): (path: string) => ReadonlySet<string> | undefined {
  return lastFor((path) => {
    const own = ids.get(path);
    return own === undefined ? undefined : new Set(own === '' ? [] : own.split(betweenIds));
  });
}

/** Warnings for links of write-ups to parts that are not there, now that every page is. */
function checkPartLinks(work: Work): void {
  const { plan, partLinks, remarks } = work;
  const idsAt = idsOf(work);
  const ofPage = (address: string): ReadonlySet<string> | undefined =>
    idsAt(fileOfAddress(address.slice(plan.context.base.length)));
  remarks.push(...partRemarks(partLinks, ofPage, remarks));
}

/** What a file made of some inputs is kept under. */
const keyOfFile = ({ kept }: Pick<Work, 'kept'>, address: string, inputs: unknown): string =>
  keyUnder(kept, 'file', () => [address, inputs]);

/** Takes a file over if it was made of the same; nothing where it has to be made. */
function takeMade({ staging, kept }: Work, address: string, key: string): Omit<WrittenFile, 'path'> | undefined {
  const before = kept.get(key) as Omit<WrittenFile, 'path'> | undefined;
  return before && staging.takeOver({ path: fileOfAddress(address), hash: before.hash }) ? before : undefined;
}

/** Takes a file over, or makes and writes it. */
function writeMade(work: Work, { address, inputs, make }: MadeFile): void {
  const key = keyOfFile(work, address, inputs);
  const before = takeMade(work, address, key);
  if (before) return taken(work, before);
  const { bytes, hash } = work.staging.write(address, make());
  taken(work, { bytes });
  work.kept.put(key, { bytes, hash });
}

/** A file of the journal's as it is published: the same as long as nobody writes to it. */
function namedFile([path, file]: readonly [string, string]): MadeFile {
  const { size, mtimeMs, ctimeMs, ino } = statSync(file);
  return { address: `/${path}`, inputs: [file, size, mtimeMs, ctimeMs, ino], make: () => ({ file }) };
}

/** So many pictures are drawn at a time. */
const picturesAtOnce = 4;

async function writeSharePictures(work: Work): Promise<void> {
  const { model, context } = work.plan;
  const cache = join(model.journal.folder, '.pictures');
  const pictures = sharePictures(context, model).filter((picture) => {
    const before = takeMade(work, picture.address, keyOfFile(work, picture.address, picture));
    if (before) taken(work, before);
    return !before;
  });
  if (pictures.length === 0) return;
  // What draws is loaded only where there is something to draw.
  const { sharePictureFile } = await import('./share-pictures.js');
  for (let from = 0; from < pictures.length; from += picturesAtOnce) {
    const some = pictures.slice(from, from + picturesAtOnce);
    const files = await Promise.all(some.map((picture) => sharePictureFile(picture, cache)));
    for (const [at, file] of files.entries())
      writeMade(work, { address: some[at]!.address, inputs: some[at]!, make: () => ({ file }) });
    work.options.progress?.('share', Math.min(from + picturesAtOnce, pictures.length), pictures.length);
  }
}

/** Files that need no page to be there: feeds, citations, what is served as it is, data. Each step writes one. */
function* othersOf(work: Work): Generator<void, void, undefined> {
  const { model, context, pages } = work.plan;
  const small = [
    ...feeds(context, model),
    ...citations(context, model),
    sitemap(context, model, pages.keys()),
    ...gatherAssets().files,
  ];
  for (const { address, content } of small) yield taken(work, work.staging.write(address, content));
  const named = namedFiles(model);
  for (const one of named) yield writeMade(work, namedFile(one));
  for (const file of [...dataMade(model), ...handedOver(model, named.keys())])
    if (file.address !== entriesFile) yield writeMade(work, file);
}

const searchKey = (kept: Kept, model: JournalModel): string => keyUnder(kept, 'search', () => whatIsSearched(model));

/** The search index, made anew only where something that can be found has changed. */
async function writeSearch(work: Work, findables: EntryFindables | undefined): Promise<void> {
  const { plan, staging, kept, options, searched: key } = work;
  const before = kept.get(key) as readonly WrittenFile[] | undefined;
  if (before?.every(staging.takeOver)) {
    for (const file of before) taken(work, file);
    findables?.close();
    return;
  }
  const [{ searchIndex }, { SearchNotes }] = await Promise.all([
    import('./search-index.js'),
    import('./edited-words/search-again.js'),
  ]);
  const { model } = plan;
  const notes = options.keep === false ? undefined : new SearchNotes(model.journal.folder, staging.site);
  const written: WrittenFile[] = [];
  const write = ({ address, content }: SiteFile): void => {
    const { path, bytes, hash } = staging.write(address, content);
    taken(work, { bytes });
    written.push({ path, bytes, hash });
  };
  const indexed = searchIndex(model, write, {
    entries: findables?.end(),
    kept,
    progress: (at, of) => options.progress?.('search', at, of),
    notes,
  });
  await indexed.finally(() => findables?.close());
  kept.put(key, written);
  work.search = notes?.known(model.entries.map(({ entry }) => entry.number).sort((a, b) => a - b));
}

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
    said: opening.notes && new SaidByEntries(),
    searched: (options.search ?? true) ? searchKey(opening.kept, model) : '',
    took,
    bytes: 0,
  };
  // Where the index is the same, nothing is asked for.
  const isSearched = (options.search ?? true) && !work.kept.has(work.searched);
  const findables = isSearched ? new EntryFindables(model, work.kept, staging.folder) : undefined;
  const besides = new EntryFiles({ ...work, findables, done: (file) => taken(work, file) });
  const pictures = options.sharePictures === false ? [] : [() => writeSharePictures(work)];
  // Of a large journal pictures are drawn when threads have given back what they hold.
  const [beside, afterwards] = opening.textsAside === true ? [[], pictures] : [pictures, []];
  await timed(work, 'render', () => allDone([renderPages(work, besides), ...beside.map((draw) => draw())]));
  // What threads hold is not asked for any more, and gives room to what search takes.
  await work.threads.end();
  for (const draw of afterwards) await timed(work, 'share', draw);
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
  await timed(work, 'remember', () => quietly(() => rememberFor(work, opening, { ...toTell, kept })));
  return { ...toTell, published: true, kept, took };
}

/** Puts down what the next publication of the site has to know, where anything is kept. */
function rememberFor(
  { plan, said, remarks, options, staging, search }: Work,
  { notes, began }: Opening,
  { kept, ...told }: Omit<Required<Publication>, 'published' | 'took'>,
): void {
  const swapped = staging.swapped();
  if (!notes || began === undefined || !swapped || !said) return;
  const { folder } = plan.model.journal;
  const [version, isAlone, { site }] = [codeVersion(), kept.length === 0, staging];
  remember({ folder, version, options, notes, began, plan, said, remarks, told, site, search, swapped, isAlone });
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
    // Where everything is to be made, threads begin while the journal is read.
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
