// A publication after an edit of words of a few entries: only their pages are made, and all the rest is taken as it
// stands, once it is sure that nothing else has changed, in the journal, in the site and in what was published with.
// Wherever that is not sure, it leaves the work to the ordinary publication, to which it must be the same to the byte.
import { rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { addressesOfEntry, renderEntryPages, type EntryWork } from '../entry-pages.js';
import { LockTaken, quietly, takeLock, type Lock } from '../lock.js';
import { recordOf } from '../page-record.js';
import { splitAddress } from '../context.js';
import type { Publication, PublishOptions } from '../publication.js';
import { bytesInStamp } from '../site-folder.js';
import { fileOfAddress, type WrittenFile } from '../file-writing.js';
import { LockLost, realPath, refuseForeign } from '../site-places.js';
import { SiteAsked } from './as-it-was-asked.js';
import { workAgain, type EntryLine } from './entry-again.js';
import { journalAgain, type EditedFile, type JournalAgain } from './journal-again.js';
import {
  isAnyKnown,
  isForWordsAlone,
  optionsIdentity,
  readKnown,
  readLine,
  sitesFolder,
  writeKnown,
  type Known,
} from './known.js';
import { saidOf } from './said.js';
import { SiteAgain } from './site-again.js';
import { Stages } from './stages.js';
import { readTold, type Told } from './told.js';

/** So many edited entries are made in this way; where there are more, the ordinary way is as quick. */
const mostEdited = 40;

/** An edited entry with what is known of it. */
interface EditedEntry {
  readonly line: EntryLine;
  readonly work: EntryWork;
}

interface Again {
  /** The journal's folder. */
  readonly folder: string;
  readonly version: string;
  readonly known: Known;
  readonly asked: SiteAsked;
}

function editedEntry({ folder, version, known }: Again, edited: EditedFile): EditedEntry | undefined {
  const place = edited.known.line;
  const line = place && (readLine(join(sitesFolder(folder), known.lines), place) as EntryLine | undefined);
  const work = line && workAgain(line, edited, { journal: folder, version });
  return line && work && { line, work };
}

/** By how many bytes a site is larger with a file as it is written. */
const growth = ({ files }: Known, { path, bytes }: WrittenFile): number => bytes - bytesInStamp(files.get(path));

/** What was written of the next site: by how many bytes it is larger. */
interface Written {
  readonly bytes: number;
}

/**
 * Writes the pages of edited entries into the next site.
 * @returns undefined where one says something else to other pages than it did
 */
function writePages(
  site: SiteAgain,
  { known }: Again,
  told: Told,
  edited: readonly EditedEntry[],
): Written | undefined {
  const at = splitAddress(told.shared.context.address);
  let bytes = 0;
  for (const { line, work } of edited) {
    const said = new Map(line.rest().pages);
    const addresses = addressesOfEntry(line.first.number).filter((one) => known.files.has(fileOfAddress(one)));
    for (const { address, rendered } of renderEntryPages(told.shared, work, addresses)) {
      const file = site.write(address, rendered.html);
      const now = saidOf(recordOf(address, rendered, file, at));
      if (now === undefined || now !== said.get(address)) return undefined;
      bytes += growth(known, file);
    }
  }
  return { bytes };
}

/** Edited entries, and what the publication before told. */
interface Edited {
  readonly edited: readonly EditedEntry[];
  readonly told: Told;
}

/** What was edited; undefined where it is not sure that it is words alone. */
function wordsEdited(again: Again, { edited: files }: JournalAgain): readonly EditedEntry[] | undefined {
  const edited: EditedEntry[] = [];
  for (const one of files) {
    const entry = editedEntry(again, one);
    if (!entry) return undefined;
    edited.push(entry);
  }
  return edited;
}

/** @returns undefined where the site is not as it was */
async function withTold(
  { folder, version, known, asked }: Again,
  edited: readonly EditedEntry[],
): Promise<Edited | undefined> {
  // Thousands of files are asked for their stamps: last, as there is often another reason before.
  if (!(await asked.isAsItWas(known))) return undefined;
  const told = readTold(join(sitesFolder(folder), known.told), version);
  return told && { edited, told };
}

/** The publication, where only words of entries are others; undefined where that is not sure. */
async function publishedIn(again: Again, options: PublishOptions, lock: Lock): Promise<Publication | undefined> {
  const { known } = again;
  const stages = new Stages();
  const journal = journalAgain(again.folder, known);
  if (!journal || journal.edited.length > mostEdited) return undefined;
  const words = wordsEdited(again, journal);
  if (!words) {
    again.asked.begin(options.threads);
    const { publishedAlike } = await import('./alike-again.js');
    const alike = await publishedAlike(again, journal, options, lock);
    if (alike) return alike;
    const { publishedWithMatter } = await import('./matter-again.js');
    return publishedWithMatter(again, journal, options, lock);
  }
  const found = await withTold(again, words);
  if (!found) return undefined;
  const { entries } = journal;
  const { edited, told } = found;
  stages.end('read');
  const site = new SiteAgain(known, lock);
  try {
    const pages = writePages(site, again, told, edited);
    if (!pages) return undefined;
    stages.end('render');
    let { bytes } = pages;
    let now: Known = { ...known, entries };
    if (options.search ?? true) {
      if (!known.search) return undefined;
      const { searchAgain, writeSearchAgain } = await import('./search-again.js');
      const works = edited.map(({ work }) => work);
      const search = await searchAgain(again.folder, { ...known, search: known.search }, works);
      if (!search) return undefined;
      bytes += writeSearchAgain(site, known, search);
      now = { ...now, search: search.search };
      stages.end('search');
    }
    bytes += known.bytes;
    const after = site.swap();
    stages.end('swap');
    // Where nothing can be put down, the next publication finds that the site is another than is known.
    if (after) quietly(() => putDown(again, { ...now, ...after, bytes }));
    const { shared: _, ...rest } = told;
    return { ...rest, published: true, kept: [], bytes, took: stages.took };
  } finally {
    site.abandon();
  }
}

/** Puts down what is known now; words of things that are others were put down beside those before. */
function putDown({ folder, version, known }: Again, now: Known): void {
  writeKnown(folder, now, version);
  if (known.search && known.search.file !== now.search?.file)
    rmSync(join(sitesFolder(folder), known.search.file), { force: true });
}

/**
 * Publishes a journal of which only words of entries have been edited since.
 * @param folder the journal's
 * @returns undefined where it has to be published in the ordinary way; nothing has been changed then
 */
export async function publishAgain(
  folder: string,
  options: PublishOptions,
  version: string,
): Promise<Publication | undefined> {
  if (!isForWordsAlone(options)) return undefined;
  const site = realPath(options.to);
  if (!isAnyKnown(folder, site)) return undefined;
  let lock: Lock | undefined;
  let asked: SiteAsked | undefined;
  try {
    refuseForeign(site);
    lock = await takeLock(join(dirname(site), `.${basename(site)}.lock`), options);
    asked = new SiteAsked({ journal: folder, site, version });
    const known = readKnown(folder, site, version);
    const isSame = known?.site === site && known.options === optionsIdentity(options);
    return isSame ? await publishedIn({ folder, version, known, asked }, options, lock) : undefined;
  } catch (error) {
    if (error instanceof LockLost || error instanceof LockTaken) throw error;
    // The ordinary way says what is the matter.
    return undefined;
  } finally {
    asked?.end();
    lock?.release();
  }
}
