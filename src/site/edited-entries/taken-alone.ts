// Edited entries taken up from what was put down of them, with those alone that they draw on or that draw on them.
import { join } from 'node:path';
import type { Entry } from '../../journal/entry.js';
import { openFolder, type Folder } from '../../journal/folder.js';
import { lotsNamed } from '../../journal/references.js';
import { PutDown } from '../../kept/put-down.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { findingsOnStocks, identityWithStocks } from '../../reckoning/journal-stocks.js';
import { keptAs } from '../../reckoning/kept-reckoning.js';
import { reckonAmong, remarksOf } from '../../reckoning/reckon.js';
import { factsOf, severityOf, type Remark, type RemarkFacts } from '../../remarks/remark.js';
import { remarksOnColour } from '../../untold-colours.js';
import { readAround, type Around } from './around.js';
import type { EntryLine } from './entry-again.js';
import type { EditedFile } from './journal-again.js';
import { readLine, sitesFolder } from './known.js';
import type { MatterAgain } from './matter-again.js';
import { remarksKey } from './said.js';
import { pagesThatMayDiffer } from './shown-alike.js';
import { editedEntry, mostDrawing, otherEntry, otherLots, readingsIn, textsIn, type EditedEntry } from './taken-up.js';

/** An edited entry, or one that draws on it. */
export interface Alone {
  readonly text: string;
  readonly line: EntryLine;
  /** As it was put down: what lists and files with a part for each entry were made of. */
  readonly was: ReckonedEntry;
  readonly is: ReckonedEntry;
}

export interface TakenAlone {
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

const remarksOn = (one: ReckonedEntry, kept: PutDown): readonly Remark[] => [
  ...remarksOf([one], kept),
  ...remarksOnColour(one),
];

/** What is read of a journal first of all. */
interface Room {
  readonly again: MatterAgain;
  readonly folder: Folder;
  readonly around: Around;
  readonly kept: PutDown;
}

function roomOf(again: MatterAgain): Room | undefined {
  const { folder: root, version, known } = again;
  const sites = sitesFolder(root);
  const folder = openFolder(root);
  const around = folder && readAround(join(sites, known.around), version);
  const kept = around && PutDown.read(join(sites, known.made), root, version);
  return kept && { again, folder, around, kept };
}

function lineIn({ again: { folder, known } }: Room, file: string): EntryLine | undefined {
  const place = known.entries.get(file)?.line;
  return place && (readLine(join(sitesFolder(folder), known.lines), place) as EntryLine | undefined);
}

/** An entry as it is read now, and what was put down of it. */
interface Read extends EditedFile, EditedEntry {
  readonly line: EntryLine;
}

/** Reads edited entries; undefined where others see something else of one. */
function readAgain(room: Room, files: readonly EditedFile[]): readonly Read[] | undefined {
  const { kept, around } = room;
  const read: Read[] = [];
  for (const file of files) {
    const line = lineIn(room, file.file);
    // Where what is kept of it is damaged, more may be. What was found of its stocks is of all entries that take them.
    const isWhole = line?.rest().pages && kept.getLarge(line.first.as.large) !== undefined;
    const one = isWhole && line.first.found.length === 0 && editedEntry(file, line, around);
    if (!one) return undefined;
    read.push({ ...file, ...one, line });
  }
  return read;
}

const numberOfLot = (lot: string): number => Number(lot.split('/')[0]);

/** Files of the entries that some draw on, and of those that draw on them; undefined where a jar holds a lot of one. */
function filesBeside(entries: readonly Entry[], { journal, drawnOn }: Around): ReadonlySet<string> | undefined {
  const { shelf } = journal;
  const onShelf = new Set(
    [...shelf.reagents.values()].flatMap(({ lot }) => (lot === undefined ? [] : numberOfLot(lot))),
  );
  if (entries.some(({ number }) => onShelf.has(number))) return undefined;
  const named = new Set(entries.flatMap((entry) => lotsNamed(entry, shelf).map(numberOfLot)));
  const own = new Set(entries.map(({ number }) => number));
  const beside = drawnOn.flatMap(({ number, file, takers }) => [
    ...(named.has(number) ? [file] : []),
    ...(own.has(number) ? takers : []),
  ]);
  const files = new Set(beside);
  for (const { file } of entries) files.delete(file);
  return files;
}

/** Edited entries as they are reckoned, those beside them being what they were. */
interface ReckonedBeside {
  readonly own: readonly ReckonedEntry[];
  /** By file. */
  readonly beside: ReadonlyMap<string, EntryLine>;
}

function reckonedBeside(room: Room, read: readonly Read[]): ReckonedBeside | undefined {
  const { again, folder, around, kept } = room;
  const files = filesBeside(
    read.map(({ entry }) => entry),
    around,
  );
  if (!files) return undefined;
  const textOf = textsIn(folder, { known: again.known, edited: read });
  const beside = new Map<string, EntryLine>();
  const others = new Map<Entry, ReckonedEntry>();
  for (const file of files) {
    const line = lineIn(room, file);
    if (!line) return undefined;
    const { entry, reckoned } = otherEntry({ textOf, file, line }, again.known, kept);
    beside.set(file, line);
    others.set(entry, reckoned);
  }
  const entries = [...others.keys(), ...read.map(({ entry }) => entry)].sort((a, b) => a.number - b.number);
  const journal = { ...around.journal, entries, readings: readingsIn(folder, around.readings) };
  const numbers = new Set(entries.map(({ number }) => number));
  const own = reckonAmong(journal, others, kept).filter(({ entry }) => !beside.has(entry.file));
  const areAllThere = own.every((one) => keptAs(one)?.asked.every((lot) => numbers.has(numberOfLot(lot))));
  return areAllThere ? { own, beside } : undefined;
}

/** Whether what is left of the lots of an entry is reckoned of the same takings as before, and they suffice. */
function isStockAlike(one: ReckonedEntry, { first }: EntryLine): boolean {
  const takings = (of: NonNullable<ReckonedEntry['stock']>): string =>
    JSON.stringify(of.map(({ lot, taken, sent }) => [lot, taken, sent]));
  const { stock = [] } = one;
  return takings(stock) === takings(first.reckoned.stock ?? []) && findingsOnStocks(one).length === 0;
}

/**
 * Takes up edited entries, and those that draw on what is another now.
 * @returns undefined where more may have to be looked at
 */
export function takeAlone(again: MatterAgain, files: readonly EditedFile[]): TakenAlone | undefined {
  const room = roomOf(again);
  let edited = files;
  while (room && edited.length <= files.length + mostDrawing) {
    const read = readAgain(room, edited);
    const reckoned = read && reckonedBeside(room, read);
    if (!reckoned) return undefined;
    const drawing = drawingOn(room, read, reckoned);
    if (drawing.length === 0) return takenAlone(room, read, reckoned.own);
    edited = [...edited, ...drawing];
  }
  return undefined;
}

/** Files of entries beside edited ones that asked for a lot which is another now. */
function drawingOn({ again, folder }: Room, read: readonly Read[], { own, beside }: ReckonedBeside): EditedFile[] {
  const lines = new Map(read.map(({ file, line }) => [file, line]));
  const changed = new Set(own.flatMap((one) => otherLots(keptAs(one)!, lines.get(one.entry.file)!.first.as)));
  const textOf = textsIn(folder, { known: again.known, edited: read });
  return [...beside]
    .filter(([, { first }]) => first.as.asked.some((lot) => changed.has(lot)))
    .map(([file]) => ({ file, text: textOf(file), known: again.known.entries.get(file)! }));
}

/** @returns undefined where others show something else of the entries, or are remarked on in another way */
function takenAlone(
  { around, kept }: Room,
  read: readonly Read[],
  own: readonly ReckonedEntry[],
): TakenAlone | undefined {
  const lines = new Map(read.map(({ file, line }) => [file, line]));
  if (!own.every((one) => isStockAlike(one, lines.get(one.entry.file)!))) return undefined;
  const before = kept.get(remarksKey) as readonly RemarkFacts[];
  const all = [...read.flatMap(({ remarks }) => remarks), ...own.flatMap((one) => remarksOn(one, kept))];
  const remarks = remarksNow(before, all, lines, kept);
  const accepting = [around.journal.settings, ...read.map(({ entry }) => entry)];
  const isAccepted = accepting.some(({ accept }) => accept.length > 0);
  if (!remarks || (remarks.remarks && isAccepted)) return undefined;
  const texts = new Map(read.map(({ file, text }) => [file, text]));
  const edited = own.map((is): Alone => {
    const { file } = is.entry;
    const line = lines.get(file)!;
    return { text: texts.get(file)!, line, was: putDownOf(file, line), is };
  });
  const mayDiffer = pagesThatMayDiffer(own, lines);
  return mayDiffer && { around, kept, edited, mayDiffer, ...remarks };
}
