// A publication after an edit of front matter that shows other pages nothing else but what was weighed, of entries that
// no other draws on and that draw on no other: then nothing of all other entries is read, joined or laid out. The pages
// of the edited entries are made, and in files that show something of every entry their parts are exchanged. Where
// anything of that is not sure, the journal is taken up whole (`matter-again.ts`).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { listedRows } from '../../crosslinks/crosslink.js';
import { openFolder } from '../../journal/folder.js';
import { filesNamedIn } from '../../journal/named-files.js';
import { lotsNamed } from '../../journal/references.js';
import { keyUnder } from '../../kept/kept.js';
import { inOrder } from '../../open.js';
import { PutDown, writePutDown } from '../../kept/put-down.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { findingsOnStocks, identityWithStocks, keptAs, reckonAmong, remarksOf } from '../../reckoning/reckon.js';
import { factsOf, severityOf, type Remark, type RemarkFacts } from '../../remarks/remark.js';
import { remarksOnColour } from '../../untold-colours.js';
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
import { fileOfAddress } from '../staging.js';
import { readAround, type Around } from './around.js';
import type { EntryLine } from './entry-again.js';
import { growthOf, inMaking, wholeIn } from './in-making.js';
import type { EditedFile, JournalAgain } from './journal-again.js';
import { nameBeside, readLine, sitesFolder, writeKnown, type Known } from './known.js';
import { forget, linesNow, remarksKept, type MatterAgain } from './matter-again.js';
import { rowsExchanged, seriesExchanged, type EditedRows, type SiteBefore } from './rows-again.js';
import { madeAgain, remarksKey, saidOf } from './said.js';
import { pagesThatMayDiffer } from './shown-alike.js';
import { isAsItWas, SiteAgain } from './site-again.js';
import { editedEntry, readingsIn } from './taken-up.js';
import { readTold, writeTold, type Told } from './told.js';

/** An edited entry, on its own. */
interface Alone {
  readonly text: string;
  readonly line: EntryLine;
  /** As it was put down: what lists and files with a part for each entry were made of. */
  readonly was: ReckonedEntry;
  readonly is: ReckonedEntry;
}

interface TakenAlone {
  readonly around: Around;
  readonly kept: PutDown;
  readonly edited: readonly Alone[];
  /** Whether a page that is no entry's may show something else. */
  readonly mayDiffer: (address: string) => boolean;
  /** Remarks on the edited entries; missing where they are what they were. */
  readonly remarks?: readonly Remark[];
}

/** As far as lists and files ask for it. */
function putDownOf(file: string, { first, rest }: EntryLine): ReckonedEntry {
  const { checked, reckoned, as, found } = first;
  const { stock = [] } = reckoned;
  const hasStocks = stock.length > 0 || found.length > 0;
  const identity = hasStocks ? identityWithStocks(as.large, { stock, found }) : as.large;
  const entry = { ...checked, file, matter: '', body: '' };
  return { ...reckoned, entry, identity, rows: rest().rows } as ReckonedEntry;
}

/** Whether an entry draws on no other, no other on it, and it takes no more than there is. */
const isAlone = (one: ReckonedEntry, { drawnOn, journal }: Around): boolean =>
  lotsNamed(one.entry, journal.shelf).length === 0 &&
  !drawnOn.includes(one.entry.number) &&
  keptAs(one)?.asked.length === 0 &&
  one.gist.lotsTaken.length === 0 &&
  findingsOnStocks(one).length === 0;

/** Which rules speak where. */
const placesOf = (remarks: readonly RemarkFacts[]): string =>
  remarks
    .map(({ rule, place }) => JSON.stringify([rule, place]))
    .sort()
    .join();

/** Remarks on edited entries, as far as they are others; undefined where it is not sure that these are all. */
function remarksNow(
  facts: readonly RemarkFacts[],
  remarks: readonly Remark[],
  files: ReadonlyMap<string, unknown>,
  kept: PutDown,
): Pick<TakenAlone, 'remarks'> | undefined {
  const [before, now] = [facts.filter(({ place }) => files.has(place.file)), remarks.map(factsOf)];
  // What checks ask of an entry is alike: what they remarked before, and is not remarked here, would be missing now.
  if (placesOf(before) !== placesOf(now) || remarks.some((one) => severityOf(one) === 'error')) return undefined;
  if (JSON.stringify(before) === JSON.stringify(now)) return {};
  kept.put(remarksKey, [...facts.filter(({ place }) => !files.has(place.file)), ...now]);
  return { remarks };
}

/** Takes up the edited entries alone; undefined where others may have to be looked at. */
function takeAlone(
  { folder: root, version, known }: MatterAgain,
  files: readonly EditedFile[],
): TakenAlone | undefined {
  const sites = sitesFolder(root);
  const folder = openFolder(root);
  const around = folder && readAround(join(sites, known.around), version);
  const kept = around && PutDown.read(join(sites, known.made), root, version);
  if (!kept) return undefined;
  const lines = new Map<string, EntryLine>();
  const read: (EditedFile & NonNullable<ReturnType<typeof editedEntry>>)[] = [];
  for (const file of files) {
    const place = file.known.line;
    const line = place && (readLine(join(sites, known.lines), place) as EntryLine | undefined);
    // Where what is kept of it is damaged, more may be.
    const isWhole = line?.rest().pages && kept.getLarge(line.first.as.large) !== undefined;
    const isFit = isWhole && line.first.found.length === 0;
    const one = isFit && editedEntry(file, line, around);
    if (!one) return undefined;
    lines.set(file.file, line);
    read.push({ ...file, ...one });
  }
  const journal = { ...around.journal, readings: readingsIn(folder, around.readings) };
  const edited = read.map(({ entry, file, text }): Alone => {
    const [is] = reckonAmong({ ...journal, entries: [entry] }, new Map(), kept);
    return { text, line: lines.get(file)!, was: putDownOf(file, lines.get(file)!), is: is! };
  });
  if (!edited.every(({ is }) => isAlone(is, around))) return undefined;
  const before = kept.get(remarksKey) as readonly RemarkFacts[];
  const all = [...read.flatMap((one) => one.remarks), ...edited.flatMap(({ is }) => remarksOn(is, kept))];
  const remarks = remarksNow(before, all, lines, kept);
  const isAccepted = [journal.settings, ...read.map(({ entry }) => entry)].some(({ accept }) => accept.length > 0);
  if (!remarks || (remarks.remarks && isAccepted)) return undefined;
  const own = edited.map(({ is }) => is);
  const mayDiffer = pagesThatMayDiffer(own, lines);
  return mayDiffer && { around, kept, edited, mayDiffer, ...remarks };
}

const remarksOn = (one: ReckonedEntry, kept: PutDown): readonly Remark[] => [
  ...remarksOf([one], kept),
  ...remarksOnColour(one),
];

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

/**
 * Publishes a journal in which few entries are others, which show other pages what they showed.
 * @returns undefined where it has to be published in another way
 */
export function publishedAlike(
  again: MatterAgain,
  { edited, entries }: JournalAgain,
  options: PublishOptions,
  lock: Lock,
): Publication | undefined {
  // What search finds is told by the words of pages, which are others.
  if (options.search ?? true) return undefined;
  const { known, folder, version } = again;
  const took: Record<string, number> = {};
  let began = performance.now();
  const since = (name: string): void => {
    took[name] = performance.now() - began;
    began = performance.now();
  };
  const up = takeAlone(again, edited);
  if (!up || !isAsItWas(known)) return undefined;
  const told = readTold(join(sitesFolder(folder), known.told), version);
  if (!told) return undefined;
  since('reckon');
  // The site before last is needed for another way where this is none.
  const toWrite = made({ up, known, told });
  if (!toWrite) return undefined;
  since('render');
  const site = new SiteAgain(known, lock);
  try {
    const { staging, written } = inMaking(site, known);
    for (const [address, text] of toWrite.texts) staging.write(address, text);
    toWrite.files({ staging, kept: up.kept });
    since('data');
    const bytes = known.bytes + growthOf(known, written);
    const after = site.swap();
    since('swap');
    // Where nothing can be put down, the next publication finds that the site is another than is known.
    const tell = up.remarks ? toldWith(told, up.remarks, up) : told;
    const texts = up.remarks ? remarksKept(again, told, tell) : known.texts;
    if (after) quietly(() => putDown(again, up, tell, { ...known, ...after, texts, entries, bytes }));
    since('remember');
    const { shared: _, ...rest } = tell;
    return { ...rest, published: true, kept: [], bytes, took };
  } finally {
    site.abandon();
  }
}
