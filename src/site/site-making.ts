// What a publication makes, page by page and file by file, each taken over where it was made of the same before. It is
// the same for a publication of everything and for one of a few edited entries.
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import { keptNowhere, keyUnder, type Kept } from '../kept/kept.js';
import { lastFor } from '../once.js';
import type { Remark } from '../remarks/remark.js';
import { others, type Threads } from '../threads.js';
import { gatherAssets, type MadeFile, type Part, type SiteFile } from './assets.js';
import { citations } from './citations.js';
import { dataMade, entriesFile } from './data.js';
import type { Known, KnownSearch } from './edited-entries/known.js';
import type { EntryFiles } from './entry-files.js';
import type { EntryFindables } from './entry-findables.js';
import { feeds, sitemap } from './feeds.js';
import { toWrite, type WrittenParts } from './file-parts.js';
import { handedOver } from './handed-over.js';
import type { PartLink } from './markdown.js';
import { namedFiles } from './named-files.js';
import type { SitePage } from './page-list.js';
import { remarksIn, type PageRecord } from './page-record.js';
import { writePages } from './page-writing.js';
import { partRemarks } from './part-links.js';
import { whatIsSearched, type SitePlan } from './plan.js';
import type { PublishOptions } from './publication.js';
import { sharePictureDrawn, sharePictureFile } from './share-picture-file.js';
import { sharePictures, type SharePicture } from './share-picture-list.js';
import type { SiteLinks } from './site-links.js';
import { bytesInStamp } from './site-folder.js';
import { fileOfAddress, type WrittenFile } from './file-writing.js';
import type { SiteInMaking } from './staging.js';

/** Is told of each page that is in its place, and what it is kept under. */
export interface TakesPages {
  readonly take: (page: SitePage, record: PageRecord, key: string) => void;
}

/** The work of one publication: where it is written, and what has come of it so far. */
export interface Work {
  readonly plan: SitePlan;
  readonly staging: SiteInMaking;
  readonly options: PublishOptions;
  readonly remarks: Remark[];
  readonly partLinks: PartLink[];
  readonly links: SiteLinks;
  /** Ids of each page by its path, in one text: they take the least room so. */
  readonly ids: Map<string, string>;
  readonly kept: Kept;
  /** Where the next publication is told. */
  readonly said?: TakesPages | undefined;
  /** What the search index is kept under; asked for once, as what was told from others by then counts. */
  readonly searched: string;
  readonly threads: Threads;
  readonly took: Record<string, number>;
  bytes: number;
  /** Where few entries are others, and the site has all the rest: those, and which pages are surely the same. */
  readonly few?: {
    readonly numbers: ReadonlySet<number>;
    readonly isSame: (address: string) => boolean;
    /** The text of a page that need not be rendered; it says what it said. */
    readonly again: (page: SitePage) => string | undefined;
    /** Of files that are no page only those with a part for each entry are others. */
    readonly areListsAlike: boolean;
    /** What is known of the site as it is. */
    readonly known: Pick<Known, 'search' | 'files'>;
  };
  /** What is to be known of the search index, where it was made now. */
  search?: KnownSearch | undefined;
}

export async function timed<T>({ took }: Pick<Work, 'took'>, name: string, work: () => T | Promise<T>): Promise<T> {
  const begin = performance.now();
  const result = await work();
  took[name] = (took[name] ?? 0) + performance.now() - begin;
  return result;
}

export const taken = (work: Work, { bytes }: Pick<WrittenFile, 'bytes'>): void => {
  work.bytes += bytes;
};

export async function renderPages(work: Work, besides: EntryFiles): Promise<void> {
  const { plan, staging, options, kept, remarks, partLinks, links, ids } = work;
  let done = 0;
  await writePages({
    plan,
    staging,
    kept,
    threads: work.threads,
    besides,
    others: othersOf(work),
    isSame: work.few?.isSame,
    again: work.few?.again,
    done: (page, record, key) => {
      const { address } = page;
      taken(work, record);
      remarks.push(...remarksIn(record));
      partLinks.push(...record.partLinks);
      links.take(address, record);
      ids.set(fileOfAddress(address), record.ids.join(betweenIds));
      work.said?.take(page, record, key);
      options.progress?.('pages', (done += 1), plan.pages.size);
    },
  });
}

/** No id holds it. */
const betweenIds = '\n';

/** Ids of a page by its path; undefined where there is no such page. */
export function idsOf({ ids }: Work): (path: string) => ReadonlySet<string> | undefined {
  return lastFor((path) => {
    const own = ids.get(path);
    return own === undefined ? undefined : new Set(own === '' ? [] : own.split(betweenIds));
  });
}

/** Warnings for links of write-ups to parts that are not there, now that every page is. */
export function checkPartLinks(work: Work): void {
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
function writeMade(work: Work, { address, inputs, make, parts }: MadeFile): void {
  const key = keyOfFile(work, address, inputs);
  const before = takeMade(work, address, key);
  // What is known of its parts is asked for all the same, so that the next publication has it at hand.
  if (before && parts) work.kept.get(partsKeyOf(address));
  if (before) return taken(work, before);
  const isInParts = parts && work.kept !== keptNowhere;
  const { bytes, hash } = isInParts ? writeParts(work, address, parts()) : work.staging.write(address, make());
  taken(work, { bytes });
  work.kept.put(key, { bytes, hash });
}

const partsKeyOf = (address: string): string => `parts ${address}`;

type WrittenTo = Pick<Work, 'kept' | 'staging'>;

/** Writes a file part by part. */
export function writeParts({ kept, staging }: WrittenTo, address: string, parts: readonly Part[]): WrittenFile {
  const partsKey = partsKeyOf(address);
  const was = kept.get(partsKey) as WrittenParts | undefined;
  const file = was && staging.whole({ path: fileOfAddress(address), hash: was.hash });
  const pieces = toWrite(parts, file === undefined ? undefined : { file, was: was! });
  const written = staging.write(address, pieces);
  kept.put(partsKey, { hash: written.hash, parts: pieces.written() } satisfies WrittenParts);
  return written;
}

/** A part that is another, by each identity that it may have had: one of them it had. */
export type PartAgain = readonly (readonly [was: string, is: Part])[];

/**
 * The parts of a file as they stand, but for some of them.
 * @returns undefined where the file, or one of these, is not there
 */
export function partsAgain(
  { kept, whole }: Pick<WrittenTo, 'kept'> & Pick<SiteInMaking, 'whole'>,
  address: string,
  anew: readonly PartAgain[],
): readonly Part[] | undefined {
  const was = kept.get(partsKeyOf(address)) as WrittenParts | undefined;
  if (!was || whole({ path: fileOfAddress(address), hash: was.hash }) === undefined) return undefined;
  const there = new Set(was.parts.map(([identity]) => identity));
  const found = anew.map((one) => new Map(one.filter(([identity]) => there.has(identity))));
  if (there.size !== was.parts.length || found.some(({ size }) => size !== 1)) return undefined;
  const parts = new Map(found.flatMap((one) => [...one]));
  const make = (): never => {
    throw new Error(`a part of ${address} is not there`);
  };
  return was.parts.map(([identity]) => parts.get(identity) ?? { identity, make });
}

/** A file of the journal's as it is published: the same as long as nobody writes to it. */
function namedFile([path, file]: readonly [string, string]): MadeFile {
  const { size, mtimeMs, ctimeMs, ino } = statSync(file);
  return { address: `/${path}`, inputs: [file, size, mtimeMs, ctimeMs, ino], make: () => ({ file }) };
}

/** So many pictures are drawn at a time. */
const picturesAtOnce = 4;

/** Pictures that are not those of last time. */
function sharePicturesToMake(work: Work): SharePicture[] {
  const { model, context } = work.plan;
  return sharePictures(context, model).filter((picture) => {
    const before = takeMade(work, picture.address, keyOfFile(work, picture.address, picture));
    if (before) taken(work, before);
    return !before;
  });
}

/**
 * Puts pictures into staging.
 * @param isDrawn those that have not been drawn before are drawn now
 * @returns those that are still to be drawn
 */
export async function writeSharePictures(
  work: Work,
  isDrawn = true,
  pictures: readonly SharePicture[] = sharePicturesToMake(work),
): Promise<SharePicture[]> {
  const cache = join(work.plan.model.journal.folder, '.pictures');
  const left: SharePicture[] = [];
  for (let from = 0; from < pictures.length; from += picturesAtOnce) {
    const some = pictures.slice(from, from + picturesAtOnce);
    const fileOf = isDrawn ? sharePictureFile : sharePictureDrawn;
    const files = await Promise.all(some.map((picture) => fileOf(picture, cache)));
    for (const [at, file] of files.entries())
      if (file === undefined) left.push(some[at]!);
      else writeMade(work, { address: some[at]!.address, inputs: some[at]!, make: () => ({ file }) });
    work.options.progress?.('share', Math.min(from + picturesAtOnce, pictures.length) - left.length, pictures.length);
    await others();
  }
  return left;
}

/** Files that need no page to be there: feeds, citations, what is served as it is, data. Each step writes one. */
function* othersOf(work: Work): Generator<void, void, undefined> {
  const { few } = work;
  const { model, context, pages } = work.plan;
  if (few?.areListsAlike) {
    const inParts = [...dataMade(model), ...handedOver(model, namedFiles(model).keys())].filter(({ parts }) => parts);
    for (const file of inParts) yield writeMade(work, file);
    return;
  }
  const cited = few ? model.entries.filter(({ entry }) => few.numbers.has(entry.number)) : model.entries;
  const small = [
    ...feeds(context, model),
    ...citations(context, { entries: cited }),
    sitemap(context, model, pages.keys()),
    ...(few ? [] : gatherAssets().files),
  ];
  for (const { address, content } of small) yield taken(work, work.staging.write(address, content));
  const named = namedFiles(model);
  for (const one of named) yield writeMade(work, namedFile(one));
  for (const file of [...dataMade(model), ...handedOver(model, named.keys())])
    if (file.address !== entriesFile) yield writeMade(work, file);
}

export const searchKey = (kept: Kept, model: JournalModel): string =>
  keyUnder(kept, 'search', () => whatIsSearched(model));

/** The search index, made anew only where something that can be found has changed. */
export async function writeSearch(work: Work, findables: EntryFindables | undefined): Promise<void> {
  const { plan, staging, kept, options, searched: key } = work;
  const before = kept.get(key) as readonly WrittenFile[] | undefined;
  if (before?.every(staging.takeOver)) {
    for (const file of before) taken(work, file);
    findables?.close();
    return;
  }
  const [{ searchIndex, isOfLibrary }, { SearchNotes, notedWords, piecesOf }] = await Promise.all([
    import('./search-index.js'),
    import('./edited-entries/search-again.js'),
  ]);
  const { model } = plan;
  const notes = options.keep === false ? undefined : new SearchNotes(model.journal.folder, staging.site);
  const written: WrittenFile[] = [];
  const known = work.few?.known;
  const noted = known?.search && notedWords(model.journal.folder, known.search);
  const takeOver = (stays: (path: string) => boolean): void => {
    for (const [path, file] of known!.files) {
      if (!isOfLibrary(path) || !stays(path)) continue;
      if (!staging.takeOver({ path, hash: file.hash })) throw new Error(`${path} is not what it was`);
      written.push({ path, hash: file.hash, bytes: bytesInStamp(file) });
    }
  };
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
    before: noted && { words: noted.words, pieces: piecesOf(staging.site), takeOver },
  });
  await indexed.finally(() => findables?.close());
  kept.put(key, written);
  work.search = notes?.known(model.entries.map(({ entry }) => entry.number).sort((a, b) => a - b));
}
