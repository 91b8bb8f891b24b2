// A journal of which only entries are others, taken up from what was put down when it was published last: the entries
// that were edited are read, checked and reckoned, all others are as they were put down, and what is large of them is
// read when it is asked for.
import { remarksOnColour } from '../../untold-colours.js';
import { join } from 'node:path';
import { crosslink } from '../../crosslinks/crosslink.js';
import type { JournalModel } from '../../crosslinks/model.js';
import { remarksOnSome, seenInChecks } from '../../journal/cross-checks.js';
import { readEntry } from '../../journal/entry-file.js';
import type { Entry, Journal } from '../../journal/entry.js';
import { openFolder, type Folder } from '../../journal/folder.js';
import { shownAsWords, withBodyLinks } from '../../journal/links.js';
import { readReading } from '../../journal/named-files.js';
import { withPhotographs } from '../../journal/photographs.js';
import { withJars } from '../../journal/references.js';
import { hashOf, identityOf } from '../../kept/inputs.js';
import { PutDown } from '../../kept/put-down.js';
import { lookedUp } from '../../looked-up.js';
import { lastFor } from '../../once.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { writtenOf } from '../../reckoning/entry-part.js';
import { findingsOnStocks } from '../../reckoning/journal-stocks.js';
import { keptAs, takenUp, type KeptAs } from '../../reckoning/kept-reckoning.js';
import { reckonAmong, remarksOf } from '../../reckoning/reckon.js';
import { remark, severityOf, type Remark, type RemarkFacts } from '../../remarks/remark.js';
import { pagesOf, readAround, type Around } from './around.js';
import type { EntryLine } from './entry-again.js';
import type { EditedFile } from './journal-again.js';
import { readLines, sitesFolder, type Known } from './known.js';
import { remarksKey } from './said.js';
import { pagesThatMayDiffer } from './shown-alike.js';

/** What is known of a journal, and what of it was edited. */
export interface KnownEdits {
  readonly folder: string;
  readonly version: string;
  readonly known: Known;
  readonly edited: readonly EditedFile[];
  readonly drafts: boolean;
}

/** The journal as it is now. */
export interface TakenUp {
  readonly model: JournalModel;
  readonly around: Around;
  readonly kept: PutDown;
  /** What was put down of each entry, by its file. */
  readonly lines: ReadonlyMap<string, EntryLine>;
  /** Files of the entries that were edited. */
  readonly edited: ReadonlySet<string>;
  /** Text of the file of an entry. */
  readonly textOf: (file: string) => string;
  /** Every remark that reading, checks and reckoning have now; those of pages are as they were. */
  readonly remarks: readonly Remark[];
  /** Whether a page that is no entry's may show something else of what was edited; missing where any may. */
  readonly mayDiffer?: (address: string) => boolean;
}

interface InText {
  readonly textOf: (file: string) => string;
  readonly line: EntryLine;
  readonly file: string;
}
const withText = lookedUp<InText, Pick<Entry, 'matter' | 'body'>>({
  matter: ({ textOf, file, line }) => textOf(file).slice(line.first.from, line.first.to),
  body: ({ textOf, file, line }) => textOf(file).slice(line.first.bodyFrom),
});

/** Reads texts of entries that are what they were. @throws where one is not */
export function textsIn(
  folder: Folder,
  { known, edited }: Pick<KnownEdits, 'known' | 'edited'>,
): (file: string) => string {
  const anew = new Map(edited.map(({ file, text }) => [file, text]));
  return lastFor((file: string) => {
    const text = anew.get(file);
    if (text !== undefined) return text;
    const read = folder.read(file);
    if (!read.ok || hashOf(read.text) !== known.entries.get(file)?.text) throw new Error(`${file} is not what it was`);
    return read.text;
  });
}

/** What instruments wrote, each read when it is asked for. */
export function readingsIn(folder: Folder, paths: readonly string[]): Journal['readings'] {
  const read = (path: string): string => {
    const text = readReading(folder, path);
    if (!text.ok) throw new Error(`${path} is not what it was`);
    return text.text;
  };
  const there = new Set(paths);
  const all = new Map<string, string>(paths.map((path) => [path, '']));
  all.get = (path) => (there.has(path) ? read(path) : undefined);
  return all;
}

/** An edited entry as it is now, and what its reading remarks. */
export interface EditedEntry {
  /** As it stands in the file, and as the journal has it. */
  readonly asRead: Entry;
  readonly entry: Entry;
  readonly remarks: readonly Remark[];
}

const takesColourFromPhotograph = ({ samples, reference }: Entry): boolean =>
  [...samples.flatMap(({ colour, aged = [] }) => [colour, ...aged.map((one) => one.colour)]), reference?.colour].some(
    (colour) => colour?.photo !== undefined,
  );

/** @returns undefined where others see something else of it, or more of it has to be looked at */
export function editedEntry({ file, text }: EditedFile, line: EntryLine, { journal }: Around): EditedEntry | undefined {
  const { entry: asRead, inPart, remarks } = readEntry(file, text);
  if (!asRead || inPart || remarks.some((one) => severityOf(one) === 'error')) return undefined;
  const entry = withJars(withPhotographs(asRead, new Set()), journal.shelf);
  const isSeen = seenInChecks(entry, journal.shelf) === line.first.seen;
  if (!isSeen || shownAsWords(entry).length > 0 || takesColourFromPhotograph(entry)) return undefined;
  return { asRead, entry, remarks };
}

/** Rules of which a remark on an entry may come from more than the entry itself. */
const ofSeveral: ReadonlySet<string> = new Set(['lot-cycle', 'unknown-reagent', 'dead-link']);

/** The remarks of the last publication but for those on some files; undefined where those may have to be said again. */
function remarksBefore(kept: PutDown, files: ReadonlySet<string>): readonly Remark[] | undefined {
  const facts = kept.get(remarksKey) as readonly RemarkFacts[] | undefined;
  const own = facts?.filter(({ place }) => files.has(place.file));
  if (!own || own.some(({ rule }) => ofSeveral.has(rule))) return undefined;
  return facts!.filter(({ place }) => !files.has(place.file)).map(remark);
}

/** Lots that are others than they were. */
export function otherLots(is: KeptAs, was: KeptAs): string[] {
  const [now, before] = [new Map(is.lots), new Map(was.lots)];
  return [...new Set([...now.keys(), ...before.keys()])].filter((lot) => now.get(lot) !== before.get(lot));
}

/** Where more entries draw on what was edited, the ordinary way is as quick. */
export const mostDrawing = 20;

type Lines = TakenUp['lines'];

/** Lots of edited entries that are others now; undefined where one of these entries is not kept. */
function changedLots(reckoned: readonly ReckonedEntry[], lines: Lines): ReadonlySet<string> | undefined {
  const changed = new Set<string>();
  for (const one of reckoned) {
    const is = keptAs(one);
    if (!is) return undefined;
    for (const lot of otherLots(is, lines.get(one.entry.file)!.first.as)) changed.add(lot);
  }
  return changed;
}

/** Whether a reckoning that was taken up drew on none of some lots, and nothing else is found of it. */
function isAsReckoned(one: ReckonedEntry, { first }: EntryLine, changed: ReadonlySet<string>): boolean {
  const { as, found } = first;
  if (changed.size > 0 && as.asked.some((lot) => changed.has(lot))) return false;
  const now = findingsOnStocks(one);
  return (now.length === 0 && found.length === 0) || JSON.stringify(now) === JSON.stringify(found);
}

/** An entry that nobody has edited, as it was put down. */
export function otherEntry(
  { textOf, file, line }: InText,
  known: Known,
  kept: PutDown,
): Pick<ReckonedEntry, 'entry'> & { readonly reckoned: ReckonedEntry } {
  const { checked, text, links, as, reckoned } = line.first;
  const entry = withText({ ...checked, file }, { textOf, file, line });
  // Its words may have been edited since its line was put down.
  const isSame = text === known.entries.get(file)!.text;
  if (isSame) withBodyLinks(entry, links);
  const written = isSame ? line.first.written : writtenOf(entry);
  const rows = (): ReckonedEntry['rows'] => line.rest().rows;
  return { entry, reckoned: takenUp(entry, { ...reckoned, as, written, rows }, kept) };
}

/**
 * Takes a journal up.
 * @returns undefined where more than some entries may have to be looked at
 */
export function takeUp(of: KnownEdits): TakenUp | undefined {
  const { folder: journalFolder, version, known, edited: files, drafts } = of;
  const sites = sitesFolder(journalFolder);
  const folder = openFolder(journalFolder);
  const around = folder && readAround(join(sites, known.around), version);
  const kept = around && PutDown.read(join(sites, known.made), journalFolder, version);
  if (!kept) return undefined;
  const lines = readLines(join(sites, known.lines), known.entries) as Map<string, EntryLine>;
  const isDraft = new Set(around.drafts.map(({ file }) => file));
  if (![...known.entries.keys()].every((file) => lines.has(file) !== isDraft.has(file))) return undefined;
  const edited = new Set(files.map(({ file }) => file));
  const before = remarksBefore(kept, edited);
  if (!before) return undefined;

  const anew: EditedEntry[] = [];
  for (const file of files) {
    const line = lines.get(file.file);
    // Where what is kept of it is damaged, more may be.
    const isWhole = line?.rest().pages && kept.getLarge(line.first.as.large) !== undefined;
    const one = isWhole && editedEntry(file, line, around);
    if (!one) return undefined;
    anew.push(one);
  }
  const textOf = textsIn(folder, of);
  const others = new Map<Entry, ReckonedEntry>();
  for (const [file, line] of lines) {
    if (edited.has(file)) continue;
    const { entry, reckoned } = otherEntry({ textOf, file, line }, known, kept);
    others.set(entry, reckoned);
  }
  const entries = [...others.keys(), ...anew.map(({ entry }) => entry)].sort((a, b) => a.number - b.number);
  const ofChecks = [
    ...others.keys(),
    ...anew.map(({ asRead }) => asRead),
    ...around.drafts.map((one): Entry => ({ ...one, matter: '', body: '' })),
  ].sort((a, b) => a.number - b.number || (a.file < b.file ? -1 : 1));
  const { shelf } = around.journal;
  const inChecks = remarksOnSome(
    anew.map(({ asRead }) => asRead),
    { entries: ofChecks, unread: [], pages: pagesOf(around.journal), shelf, folder, drafts },
  );
  if (!inChecks) return undefined;

  const journal: Journal = {
    ...around.journal,
    folder: folder.root,
    entries,
    readings: readingsIn(folder, around.readings),
  };
  const reckoned = reckonAmong(journal, others, kept);
  const own = reckoned.filter(({ entry }) => edited.has(entry.file));
  const changed = changedLots(own, lines);
  if (!changed) return undefined;
  const drawing = reckoned
    .map((one) => ({ one, file: one.entry.file }))
    .filter(({ one, file }) => !edited.has(file) && !isAsReckoned(one, lines.get(file)!, changed))
    .map(({ file }): EditedFile => ({ file, text: textOf(file), known: known.entries.get(file)! }));
  // What draws on something that is another now is looked at as if it were edited.
  if (drawing.length > mostDrawing) return undefined;
  if (drawing.length > 0) return takeUp({ ...of, edited: [...files, ...drawing] });
  const inReckoning = [...remarksOf(own, kept), ...own.flatMap(remarksOnColour)];
  const now = [...anew.flatMap(({ remarks }) => remarks), ...inChecks, ...inReckoning];
  if (now.some((one) => severityOf(one) === 'error')) return undefined;
  const model = crosslink(journal, reckoned, kept);
  // Jars that hold a lot show what is known of it.
  const isInJar = [...shelf.reagents.values()].some(({ lot }) => lot !== undefined && changed.has(lot));
  const mayDiffer = isInJar ? undefined : pagesThatMayDiffer(own, lines);
  return {
    ...{ model, around, kept, lines, edited, textOf, remarks: [...before, ...now] },
    ...(mayDiffer && { mayDiffer }),
  };
}

/** Whether the pages of an entry are made of the same as before. */
export function isEntrySame(one: ReckonedEntry, { model, lines, edited }: TakenUp): boolean {
  const { file, number } = one.entry;
  const { identity, joined } = lines.get(file)!.first;
  return !edited.has(file) && identityOf(one) === identity && identityOf(model.links.get(number)) === joined;
}
