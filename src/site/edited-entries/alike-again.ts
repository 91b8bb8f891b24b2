// A publication after an edit of front matter that shows other pages nothing else but what was weighed: nothing of all
// other entries is read, joined or laid out. The pages of the edited entries are made, and in files that show something
// of every entry their parts are exchanged. Where anything of that is not sure, the journal is taken up whole
// (`matter-again.ts`).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { listedRows } from '../../crosslinks/crosslink.js';
import { filesNamedIn } from '../../journal/named-files.js';
import { keyUnder } from '../../kept/kept.js';
import { inOrder } from '../../open.js';
import { writePutDown } from '../../kept/put-down.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import type { Remark } from '../../remarks/remark.js';
import { gathered } from '../acceptance.js';
import type { Part } from '../assets.js';
import { comparedText } from '../compared.js';
import { splitAddress } from '../context.js';
import { cratePart, crateFile, entriesOnSite } from '../crate.js';
import { filesOfSamples } from '../data.js';
import { comparedAddress, linesThere, writeLinesAgain } from '../entry-files.js';
import { addressesOfEntry, renderEntryPages, type EntryWork } from '../entry-pages.js';
import { quietly, type Lock } from '../lock.js';
import { recordOf } from '../page-record.js';
import { picturesOf } from '../plan.js';
import type { Publication, PublishOptions } from '../publication.js';
import { partsAgain, writeParts, type PartAgain, type Work } from '../site-making.js';
import { fileOfAddress } from '../file-writing.js';
import type { Around } from './around.js';
import { growthOf, inMaking, wholeIn } from './in-making.js';
import type { JournalAgain } from './journal-again.js';
import { nameBeside, sitesFolder, writeKnown, type Known } from './known.js';
import { forget, linesNow, remarksKept, type MatterAgain } from './matter-again.js';
import { rowsExchanged, seriesExchanged, type EditedRows, type SiteBefore } from './rows-again.js';
import { madeAgain, saidOf } from './said.js';
import type { SearchAgain } from './search-again.js';
import { SiteAgain } from './site-again.js';
import { takeAlone, type Alone, type TakenAlone } from './taken-alone.js';
import { Stages } from './stages.js';
import { readTold, writeTold, type Told } from './told.js';

/** What the pages of an entry are made of; what joins it with others is what it was. */
function workOf({ line, is }: Alone, { journal }: Around): EntryWork {
  const { work, addresses } = line.rest();
  const { pictures: _, ...joined } = work;
  const all = journal.pictures && Object.fromEntries(journal.pictures);
  return { ...joined, ...picturesOf(is, all), reckoned: is, rows: listedRows(is), addresses: new Map(addresses) };
}

/** What files are made of. */
interface Making {
  readonly up: TakenAlone;
  readonly known: Known;
  readonly told: Told;
}

/** Pages by address. */
type Texts = ReadonlyMap<string, string>;

/** The pages of an entry; undefined where one says something else than it said. */
function pagesOfEntry(one: Alone, { up, known, told }: Making): Texts | undefined {
  const said = new Map(one.line.rest().pages);
  const addresses = addressesOfEntry(one.is.entry.number).filter((address) => known.files.has(fileOfAddress(address)));
  const at = splitAddress(up.around.journal.settings.address);
  const pages = new Map<string, string>();
  for (const { address, rendered } of renderEntryPages(told.shared, workOf(one, up.around), addresses)) {
    const now = saidOf(recordOf(address, rendered, { path: '', bytes: 0, hash: '' }, at));
    if (now === undefined || now !== said.get(address)) return undefined;
    pages.set(address, rendered.html);
  }
  return pages;
}

const rowsIn = ({ was, is }: Alone): EditedRows => ({ was: listedRows(was), is: listedRows(is) });

/** Lists with what they show of edited entries now; undefined where that could not be exchanged. */
function listsAgain({ up, known, told }: Making): Texts | undefined {
  const texts = new Map<string, string>();
  const site: SiteBefore = {
    paths: known.files.keys(),
    read: (path) => texts.get(path) ?? readFileSync(join(known.site, path), 'utf8'),
    write: (path, text) => texts.set(path, text),
    context: told.shared.context,
    at: splitAddress(up.around.journal.settings.address),
  };
  const differIn = (below: (one: Alone) => readonly string[]): EditedRows[] =>
    up.edited.filter((one) => below(one).some(up.mayDiffer)).map(rowsIn);
  const inResults = differIn(() => ['/results/']);
  const inSeries = differIn(({ is }) => is.elements.map((element) => `/series/${element}/`));
  if (!rowsExchanged(inResults, site) || !seriesExchanged(inSeries, site)) return undefined;
  return new Map([...texts].map(([path, text]) => [addressOfPage(path), text]));
}

const addressOfPage = (path: string): string => `/${path.slice(0, -'index.html'.length)}`;

type Files = (to: Pick<Work, 'staging' | 'kept'>) => void;

/** Files that have a part for each entry, with those of edited entries as they are now. */
function filesAgain({ up, known }: Making): Files | undefined {
  const { kept, around, edited } = up;
  const before = { kept, whole: wholeIn(known) };
  const ofEntries = new Map(edited.map(({ was, is }) => [was.identity!, is]));
  const withRows = edited.map(rowsIn).filter(({ is }) => is.length > 0);
  const ofSamples = filesOfSamples.map(({ address, part }): readonly [string, readonly PartAgain[]] => [
    address,
    withRows.map(({ was, is }) => [true, false].map((isFirst) => [part(was, isFirst).identity, part(is, isFirst)])),
  ]);
  const scope = entriesOnSite((path) => known.files.has(path));
  const inCrate = edited.map(({ was, is }): PartAgain => {
    // Files that an entry before it names as well are not described with it.
    const files = filesNamedIn(is.entry).filter(scope.has);
    const former = { ...is, identity: was.identity! };
    const own = (one: ReckonedEntry, theirs: readonly string[]): Part =>
      cratePart({ one, files: theirs }, around, scope);
    return [files, []].map((some) => [own(former, some).identity, own(is, some)]);
  });
  const inParts = [...ofSamples, [`/${crateFile}`, inCrate] as const].filter(([, parts]) => parts.length > 0);
  const parts = inParts.map(([address, anew]) => ({ address, parts: partsAgain(before, address, anew) }));
  const lines = linesThere(before, ofEntries);
  if (!lines || parts.some((one) => !one.parts)) return undefined;
  return (to) => {
    for (const one of edited) writeCompared(one, to);
    writeLinesAgain(to, lines, ofEntries);
    for (const one of parts) writeParts(to, one.address, one.parts!);
  };
}

/** What the page that compares samples asks for. */
function writeCompared({ is }: Alone, { staging, kept }: Parameters<Files>[0]): void {
  const rows = listedRows(is);
  if (rows.length === 0) return;
  const address = comparedAddress(is.entry.number);
  const { bytes, hash } = staging.write(address, comparedText(rows, is));
  const key = keyUnder(kept, 'file', () => [address, rows]);
  kept.put(key, { bytes, hash });
}

/** What is to be written; undefined where the edit shows more than was weighed. */
function made(making: Making): { readonly texts: Texts; readonly files: Files } | undefined {
  const texts = new Map<string, string>();
  for (const one of making.up.edited) {
    const pages = pagesOfEntry(one, making);
    if (!pages) return undefined;
    for (const [address, html] of pages) texts.set(address, html);
  }
  const lists = listsAgain(making);
  const files = filesAgain(making);
  return lists && files && { texts: new Map([...texts, ...lists]), files };
}

/** What the publication tells, with other remarks on the edited entries. */
function toldWith(told: Told, own: readonly Remark[], { edited, around }: TakenAlone): Told {
  const files = new Set(edited.map(({ is }) => is.entry.file));
  const remarks = inOrder([...told.remarks.filter(({ file }) => !files.has(file)), ...own]);
  return { ...told, remarks, causes: gathered(remarks, around) };
}

/** Puts down what is known now beside what was known before, which then goes. */
function putDown(again: MatterAgain, up: TakenAlone, tell: Told, now: Known): void {
  const { kept, edited, around, remarks } = up;
  const { folder, version, known } = again;
  const token = randomBytes(6).toString('hex');
  const room = sitesFolder(folder);
  const [made, told] = [nameBeside(known.site, 'made', token), nameBeside(known.site, 'told', token)];
  writePutDown(join(room, made), version, madeAgain(kept));
  if (remarks) writeTold(join(room, told), version, tell);
  const lines = edited.map((one) => ({ ...one, work: workOf(one, around), joined: one.line.first.joined }));
  const entries = linesNow(again, lines, around.journal.shelf, now.entries);
  const after = { ...now, made, entries, ...(remarks && { told }) };
  writeKnown(folder, after, version);
  forget(again, after);
}

/** An edited entry as it was, with all that was reckoned. */
const wholeBefore = ({ was, line }: Alone, kept: TakenAlone['kept']): ReckonedEntry => ({
  ...was,
  ...(kept.getLarge(line.first.as.large) as Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'>),
});

/** What search finds of edited entries. */
interface FoundAgain extends Pick<SearchAgain, 'search'> {
  /** Writes it into the next site; by how many bytes that is larger. */
  readonly write: (site: SiteAgain) => number;
}

/** @returns undefined where the index has to be made in another way */
async function foundAgain({ up, known }: Making, folder: string): Promise<FoundAgain | undefined> {
  const { around, edited, kept } = up;
  const { search } = known;
  if (!search) return undefined;
  const { searchAgain, thingsAgain, writeSearchAgain } = await import('./search-again.js');
  const { reagents } = around.journal.shelf;
  const reckonings = edited.map((one) => ({ was: wholeBefore(one, kept), is: one.is }));
  const things = thingsAgain({ ...known, search }, reckonings, reagents);
  const works = edited.map((one) => workOf(one, around));
  const again = things && (await searchAgain(folder, { ...known, search }, works));
  if (!again) return undefined;
  const files = [...things, ...again.files];
  return { search: again.search, write: (site) => writeSearchAgain(site, known, { ...again, files }) };
}

/**
 * Publishes a journal in which few entries are others, which show other pages what they showed.
 * @returns undefined where it has to be published in another way
 */
export async function publishedAlike(
  again: MatterAgain,
  { edited, entries }: JournalAgain,
  options: PublishOptions,
  lock: Lock,
): Promise<Publication | undefined> {
  const { known, folder, version } = again;
  const stages = new Stages();
  const up = takeAlone(again, edited);
  if (!up || !(await again.asked.isAsItWas(known))) return undefined;
  const told = readTold(join(sitesFolder(folder), known.told), version);
  if (!told) return undefined;
  stages.end('reckon');
  // The site before last is needed for another way where this is none.
  const toWrite = made({ up, known, told });
  if (!toWrite) return undefined;
  stages.end('render');
  const isSearched = options.search ?? true;
  const found = isSearched ? await foundAgain({ up, known, told }, folder) : undefined;
  if (isSearched && !found) return undefined;
  stages.end('search');
  const site = new SiteAgain(known, lock);
  try {
    const { staging, written } = inMaking(site, known);
    for (const [address, text] of toWrite.texts) staging.write(address, text);
    toWrite.files({ staging, kept: up.kept });
    stages.end('data');
    const bytes = known.bytes + growthOf(known, written) + (found?.write(site) ?? 0);
    const after = site.swap();
    stages.end('swap');
    // Where nothing can be put down, the next publication finds that the site is another than is known.
    const tell = up.remarks ? toldWith(told, up.remarks, up) : told;
    const texts = up.remarks ? remarksKept(again, told, tell) : known.texts;
    const search = found && { search: found.search };
    if (after) quietly(() => putDown(again, up, tell, { ...known, ...search, ...after, texts, entries, bytes }));
    stages.end('remember');
    const { shared: _, ...rest } = tell;
    return { ...rest, published: true, kept: [], bytes, took: stages.took };
  } finally {
    site.abandon();
  }
}
