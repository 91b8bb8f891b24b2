// The flow up to the journal model: files → entries → reckoned entries → crosslinks, with every stage's remarks.
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { PhotographRequest } from './colour/photograph/index.js';
import { joinedAgain, type Joined } from './crosslinks/again.js';
import { crosslink } from './crosslinks/crosslink.js';
import type { JournalModel } from './crosslinks/model.js';
import type { Journal } from './journal/entry.js';
import { mayRun, mayTellMore } from './journal/folder.js';
import { readJournal, type ReadOptions } from './journal/index.js';
import { identityOf } from './kept/inputs.js';
import { keptNowhere, type Kept } from './kept/kept.js';
import { onceFor } from './once.js';
import type { ColourReading } from './journal/schema.js';
import type { PhotographOutcomes } from './pictures/entry-colours.js';
import type { PublishedPictures } from './pictures/published.js';
import { Findings, remarksFrom } from './remarks/findings.js';
import { severityOf, type Remark } from './remarks/remark.js';
import type { ReckonedEntry } from './reckoning/contracts.js';
import { reckonedBeforehand } from './reckoning/in-threads.js';
import { remarksOnColour } from './untold-colours.js';
import { dangersInPart } from './reckoning/in-part.js';
import { reckonJournal, remarksOf } from './reckoning/reckon.js';
import './optimised-later.js';
import './tables/use-prepared.js';
import type { Threads } from './threads.js';

export interface OpenOptions extends ReadOptions {
  /** Threads that read and reckon a share of the entries, where there are many. */
  readonly threads?: Threads;
}

export interface OpenedJournal {
  /** Missing only where the folder holds no usable journal. */
  readonly model?: JournalModel;
  /** In order of file and place. */
  readonly remarks: Remark[];
  /** Milliseconds each stage took. */
  readonly took: { readonly read: number; readonly reckon: number; readonly crosslink: number };
}

/** Remarks in order of file, line and column, errors first at one place. */
export function inOrder(remarks: readonly Remark[]): Remark[] {
  const rank = { error: 0, warning: 1, note: 2 } as const;
  const places = placesOfFiles(new Set(remarks.map(({ file }) => file)));
  const placed = remarks.map((one) => ({ one, place: places.get(one.file)! }));
  return placed
    .sort(
      ({ one: a, place: before }, { one: b, place: after }) =>
        before - after || a.line - b.line || a.column - b.column || rank[severityOf(a)] - rank[severityOf(b)],
    )
    .map(({ one }) => one);
}

const fileNames = new Intl.Collator('en', { numeric: true });

/** The place of each file among the others; those whose names are the same but for their signs have one. */
function placesOfFiles(files: ReadonlySet<string>): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  let last: { readonly file: string; readonly place: number } | undefined;
  for (const file of [...files].sort(fileNames.compare)) {
    const isNext = last !== undefined && fileNames.compare(last.file, file) !== 0;
    last = { file, place: (last?.place ?? 0) + (isNext ? 1 : 0) };
    places.set(file, last.place);
  }
  return places;
}

export const hasErrors = (remarks: readonly Remark[]): boolean => remarks.some((one) => severityOf(one) === 'error');

/** Photographs and drawings as they are published; what makes them is loaded only where there are some. */
async function picturesOf(files: readonly string[], folder: string): Promise<PublishedPictures> {
  if (!files.some((path) => path.startsWith('photos/')))
    return { files: new Map(), sizes: new Map(), faults: new Map(), taken: new Map() };
  const { publishedPictures } = await import('./pictures/published.js');
  return publishedPictures(folder, files);
}

/** Photographs as they are published, and those that cannot be. */
async function publishedFiles(
  { files, readings }: Journal,
  folder: string,
): Promise<Pick<PublishedPictures, 'files' | 'sizes'> & { readonly remarks: readonly Remark[] }> {
  const findings = new Findings();
  for (const file of files.filter((one) => mayRun(one, readings.get(one))))
    findings.add('runs-in-a-browser', { file, line: 1, column: 1 }, { file, actual: file });
  const pictures = await picturesOf(files, folder);
  for (const [file, { message, cure, noPicture }] of pictures.faults)
    findings.addFault(
      { code: 'unreadable-picture', message, ...(cure && { cure }) },
      { file, line: 1, column: 1 },
      noPicture ? { readAllTheSame: true } : {},
    );
  for (const [file, taken] of pictures.taken)
    findings.add('drawing-mended', { file, line: 1, column: 1 }, { file, taken });
  for (const file of files.filter(mayTellMore))
    findings.add('published-as-it-is', { file, line: 1, column: 1 }, { file });
  const { sizes } = pictures;
  return {
    files: pictures.files,
    sizes,
    remarks: remarksFrom(findings.all, () => ({ file: '', line: 1, column: 1 })),
  };
}

type Read = [key: string, outcome: NonNullable<ReturnType<PhotographOutcomes['get']>>];

/** What is to be read from the photographs that an entry takes colours from. */
const requestsOf = onceFor(({ samples, reference }: Journal['entries'][number]): readonly PhotographRequest[] =>
  [
    ...samples.flatMap(({ colour, aged }) => [colour, ...(aged?.map((one) => one.colour) ?? [])]),
    reference?.colour,
  ].flatMap((colour) => requestOf(colour) ?? []),
);

/** Colours that samples and references take from photographs. */
async function photographsOf(journal: Journal, folder: string, kept: Kept): Promise<PhotographOutcomes> {
  const requests = journal.entries.flatMap(requestsOf);
  if (requests.length === 0) return new Map();
  const stamps = new Map(requests.map(({ photo }) => [photo, '']));
  for (const photo of stamps.keys()) stamps.set(photo, stampOf(folder, photo));
  const key = `photographs ${identityOf(requests.map((one) => [one, stamps.get(one.photo), chartOf(journal, one)]))}`;
  const before = kept.get(key) as Read[] | undefined;
  if (before) return new Map(before);
  // Loaded only where a journal has photographs to read.
  const { readPhotographs } = await import('./pictures/entry-colours.js');
  const there = new Set(journal.files);
  const outcomes = await readPhotographs(requests, {
    folder,
    has: (photo) => there.has(photo),
    text: (chart) => journal.readings.get(chart),
  });
  kept.put(key, [...outcomes]);
  return outcomes;
}

/** What changes when a photograph is written to. */
function stampOf(folder: string, photo: string): string {
  const stats = statSync(join(folder, photo), { throwIfNoEntry: false });
  return stats ? `${stats.size} ${stats.mtimeMs} ${stats.ctimeMs} ${stats.ino}` : 'none';
}

const chartOf = ({ readings }: Journal, { chart }: PhotographRequest): string => readings.get(chart) ?? '';

function requestOf(colour: ColourReading | undefined): PhotographRequest | undefined {
  const { photo, chart, grid, corners, sample } = colour ?? {};
  if (photo === undefined || chart === undefined || corners === undefined || sample === undefined) return undefined;
  return { photo, chart, grid, corners, sample };
}

/** What came of the last reading with a memory. */
const joinedBefore = new WeakMap<NonNullable<ReadOptions['memory']>, Joined>();

/** Joins a journal, or takes what is still as it was in the last reading with the same memory. */
function joined(
  journal: Journal,
  reckoned: readonly ReckonedEntry[],
  memory: ReadOptions['memory'],
  kept: Kept,
): JournalModel {
  const before = memory && joinedBefore.get(memory);
  const model = (before && joinedAgain(journal, reckoned, before)) ?? crosslink(journal, reckoned, kept);
  if (memory) joinedBefore.set(memory, { journal, reckoned, model });
  return model;
}

/**
 * Reads, reckons and joins a journal.
 * @example const { model, remarks } = await openJournal('content', { drafts: true });
 */
export async function openJournal(folder: string, options: OpenOptions = {}): Promise<OpenedJournal> {
  const { kept = keptNowhere } = options;
  const begin = performance.now();
  const { journal: asWritten, remarks } = await readJournal(folder, options);
  const read = performance.now();
  if (!asWritten) return { remarks: inOrder(remarks), took: { read: read - begin, reckon: 0, crosslink: 0 } };
  const pictures = await publishedFiles(asWritten, folder);
  const journal = { ...asWritten, published: pictures.files, pictures: pictures.sizes };
  const photographs = await photographsOf(journal, folder, kept);
  const { threads } = options;
  const beforehand = threads ? await reckonedBeforehand(journal, photographs, kept, threads) : kept;
  const reckoned = reckonJournal(journal, photographs, beforehand);
  const reckon = performance.now();
  const model = joined(journal, reckoned, options.memory, kept);
  const inReckoning = [
    ...remarksOf(reckoned, beforehand),
    ...reckoned.flatMap(remarksOnColour),
    ...dangersInPart(journal, reckoned),
  ];
  return {
    model,
    remarks: inOrder([...remarks, ...pictures.remarks, ...inReckoning]),
    took: { read: read - begin, reckon: reckon - read, crosslink: performance.now() - reckon },
  };
}
