// A publication after an edit of words of a few entries: only their pages are made, and all the rest is taken as it
// stands, once it is sure that nothing else has changed, in the journal, in the site and in what was published with.
// Wherever that is not sure, it leaves the work to the ordinary publication, to which it must be the same to the byte.
import { basename, dirname, join } from 'node:path';
import { identityOf } from '../../kept/inputs.js';
import { addressesOfEntry, renderEntryPages, type EntryWork } from '../entry-pages.js';
import { LockTaken, quietly, takeLock, type Lock } from '../lock.js';
import { recordOf } from '../page-record.js';
import { splitAddress } from '../context.js';
import type { Publication, PublishOptions } from '../publication.js';
import { fileOfAddress, LockLost, realPath, refuseForeign } from '../staging.js';
import { saidOf, workAgain, type EntryLine } from './entry-again.js';
import { journalAgain, type EditedFile } from './journal-again.js';
import { isAnyKnown, readKnown, readLine, sitesFolder, writeKnown, type Known } from './known.js';
import { isAsItWas, SiteAgain } from './site-again.js';
import { readTold, type Told } from './told.js';

/** So many edited entries are made in this way; where there are more, the ordinary way is as quick. */
const mostEdited = 40;

/** Everything that a publication is told and that changes what it makes. */
export const optionsIdentity = ({ drafts, search, labels, sharePictures, spareFrom }: PublishOptions): string =>
  identityOf([drafts ?? false, search ?? true, labels ?? false, sharePictures ?? true, spareFrom ?? null]);

/** Whether an edit of words changes pages of entries alone: sheets of labels and the search index show words too. */
export const isForWordsAlone = ({ labels, search, keep }: PublishOptions): boolean =>
  keep !== false && labels !== true && search === false;

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
}

function editedEntry({ folder, version, known }: Again, edited: EditedFile): EditedEntry | undefined {
  const place = edited.known.line;
  const line = place && (readLine(join(sitesFolder(folder), known.lines), place) as EntryLine | undefined);
  const work = line && workAgain(line, edited, { journal: folder, version });
  return line && work && { line, work };
}

/**
 * Writes the pages of edited entries into the next site.
 * @returns by how much they are larger; undefined where one says something else to other pages than it did
 */
function writePages(
  site: SiteAgain,
  { known }: Again,
  told: Told,
  edited: readonly EditedEntry[],
): { readonly bytes: number } | undefined {
  const at = splitAddress(told.shared.context.address);
  let bytes = 0;
  for (const { line, work } of edited) {
    const said = new Map(line.pages);
    const addresses = addressesOfEntry(line.number).filter((one) => known.files.has(fileOfAddress(one)));
    for (const { address, rendered } of renderEntryPages(told.shared, work, addresses)) {
      const file = site.write(address, rendered.html);
      const now = saidOf(recordOf(address, rendered, file, at));
      if (now === undefined || now !== said.get(address)) return undefined;
      bytes += file.bytes - sizeIn(known.files.get(file.path)!.stamp);
    }
  }
  return { bytes };
}

const sizeIn = (stamp: string): number => Number(stamp.slice(0, stamp.indexOf(' ')));

/** The publication, where only words of entries are others; undefined where that is not sure. */
function publishedIn(again: Again, lock: Lock): Publication | undefined {
  const { folder, version, known } = again;
  const began = performance.now();
  const journal = journalAgain(folder, known);
  if (!journal || journal.edited.length > mostEdited || !isAsItWas(known)) return undefined;
  const edited = journal.edited.map((one) => editedEntry(again, one));
  if (!edited.every((one) => one !== undefined)) return undefined;
  const told = readTold(join(sitesFolder(folder), known.told), version);
  if (!told) return undefined;
  const read = performance.now();
  const site = new SiteAgain(known, lock);
  try {
    const written = writePages(site, again, told, edited);
    if (!written) return undefined;
    const rendered = performance.now();
    const after = site.swap();
    const bytes = known.bytes + written.bytes;
    // Where nothing can be put down, the next publication finds that the site is another than is known.
    if (after) quietly(() => writeKnown(folder, { ...known, ...after, bytes, entries: journal.entries }, version));
    const { shared: _, ...rest } = told;
    return {
      ...rest,
      published: true,
      kept: [],
      bytes,
      took: { read: read - began, render: rendered - read, swap: performance.now() - rendered },
    };
  } finally {
    site.abandon();
  }
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
  try {
    refuseForeign(site);
    lock = await takeLock(join(dirname(site), `.${basename(site)}.lock`), options);
    const known = readKnown(folder, site, version);
    const isSame = known?.site === site && known.options === optionsIdentity(options);
    return isSame ? publishedIn({ folder, version, known }, lock) : undefined;
  } catch (error) {
    if (error instanceof LockLost || error instanceof LockTaken) throw error;
    // The ordinary way says what is the matter.
    return undefined;
  } finally {
    lock?.release();
  }
}
