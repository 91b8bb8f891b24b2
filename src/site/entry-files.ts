// What is made of the reckoning of each entry besides its pages: what the page that compares samples asks for, its line
// of data/entries.json, and what it is found by. It is made where an entry is at hand, so that it need not be loaded
// again.
import { join } from 'node:path';
import type { Shelf } from '../journal/entry.js';
import { identityOf } from '../kept/inputs.js';
import { keyUnder, type Kept } from '../kept/kept.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { comparedMade, comparedText } from './compared.js';
import { entriesFile, entryLine } from './data.js';
import type { EntryFindables } from './entry-findables.js';
import { findablesIn, joined, LineReader, LineSpool, removeSpools, type LinePlace } from './entry-lines.js';
import type { SitePlan } from './plan.js';
import { namedEntry, type FoundBy } from './search-things.js';
import { fileOfAddress, type WrittenFile } from './file-writing.js';
import type { SiteInMaking } from './staging.js';

/** What is to be made of an entry besides its pages. */
export interface EntryFilesWanted {
  readonly compared: boolean;
  readonly line: boolean;
  readonly findable: boolean;
}

/** What was made of an entry besides its pages. */
export interface EntryFilesMade {
  readonly compared?: WrittenFile;
  readonly line?: LinePlace;
  /** As JSON. */
  readonly findable?: LinePlace;
}

/** Where a thread writes such files. */
export interface EntryFilesWriter {
  readonly write: (address: string, text: string) => WrittenFile;
  readonly spool: LineSpool;
  readonly findables: LineSpool;
  readonly shelf: Shelf['reagents'];
}

/** Makes what is wanted of an entry. */
export function entryFiles(
  of: FoundBy,
  { compared, line, findable }: EntryFilesWanted,
  { write, spool, findables, shelf }: EntryFilesWriter,
): EntryFilesMade {
  const { reckoned, rows } = of;
  const { number } = reckoned.entry;
  return {
    ...(compared && { compared: write(comparedAddress(number), comparedText(rows, reckoned)) }),
    ...(line && { line: spool.put(entryLine(reckoned)) }),
    ...(findable && { findable: findables.put(JSON.stringify(namedEntry(of, shelf))) }),
  };
}

export const comparedAddress = (number: number): string => `/compare/${number}.json`;

type WrittenWithoutPath = Omit<WrittenFile, 'path'>;

/** A file of lines as it was written last: by entry what the line was made of, and its length. */
interface WrittenLines extends WrittenWithoutPath {
  readonly lines: readonly (readonly [identity: string, bytes: number])[];
}

const linesKey = 'lines of entries';
const [begin, between, end] = ['[\n', ',\n', '\n]\n'];

export interface EntryFilesOf {
  readonly plan: SitePlan;
  readonly staging: SiteInMaking;
  readonly kept: Kept;
  /** Where they are asked for. */
  readonly findables?: EntryFindables;
  /** Called with the size of each file when it is in staging. */
  readonly done: (file: WrittenWithoutPath) => void;
}

/** Such files of all entries: taken over where nothing has changed, else made entry by entry. */
export class EntryFiles {
  /** Keys of what is to be written, by number. */
  private readonly toCompare = new Map<number, string>();
  private readonly places = new Map<number, LinePlace>();
  private readonly toLine = new Set<number>();
  private readonly isNew: boolean;
  private readonly spool: LineSpool;
  private readonly findables: LineSpool;

  constructor(private readonly of: EntryFilesOf) {
    const { plan, staging } = of;
    this.spool = new LineSpool(spoolIn(staging.folder, 0));
    this.findables = new LineSpool(findablesIn(staging.folder, 0));
    for (const { number, address, inputs } of comparedMade(plan.model)) {
      const key = keyUnder(of.kept, 'file', () => [address, inputs]);
      if (!this.takeOver(address, key)) this.toCompare.set(number, key);
    }
    this.isNew = !this.takeOver(entriesFile, this.linesInputs);
    if (this.isNew) this.findLines();
    // Asked for all the same, so that the next publication knows where the lines stand.
    else of.kept.get(linesKey);
  }

  wanted(number: number): EntryFilesWanted {
    const findable = this.of.findables?.isMissing(number) ?? false;
    return { compared: this.toCompare.has(number), line: this.toLine.has(number), findable };
  }

  /** Makes what is wanted of an entry in this thread. */
  here(one: FoundBy): void {
    const { number } = one.reckoned.entry;
    const { staging, plan } = this.of;
    const { reagents: shelf } = plan.model.journal.shelf;
    const { spool, findables } = this;
    this.take(number, entryFiles(one, this.wanted(number), { write: staging.write, spool, findables, shelf }));
  }

  /** Takes note of what was made of an entry, here or in another thread. */
  take(number: number, { compared, line, findable }: EntryFilesMade): void {
    const { kept, staging, done, findables } = this.of;
    if (compared) {
      const { bytes, hash } = compared;
      const file = { bytes, hash };
      staging.note([compared]);
      kept.put(this.toCompare.get(number)!, file);
      this.toCompare.delete(number);
      done(file);
    }
    if (findable) findables?.put(number, findable);
    if (line) {
      this.places.set(number, line);
      this.toLine.delete(number);
    }
  }

  /** Makes what no page was rendered for, and puts the lines into their file. */
  end(): void {
    for (const { number, work } of this.of.plan.works)
      if (this.toCompare.has(number) || this.toLine.has(number)) this.here(work());
    if (this.isNew) this.writeLines();
  }

  private get linesInputs(): string {
    return keyOfLines(this.of.kept, this.identities);
  }

  private get identities(): readonly string[] {
    return this.of.plan.model.entries.map(identityOfLine);
  }

  private takeOver(address: string, key: string): boolean {
    const { kept, staging, done } = this.of;
    const before = kept.get(key) as WrittenWithoutPath | undefined;
    const isTaken = before !== undefined && staging.takeOver({ path: fileOfAddress(address), hash: before.hash });
    if (isTaken) done(before);
    return isTaken;
  }

  /** Finds the lines that can be taken as they stand; the others are to be made. */
  private findLines(): void {
    const { plan, staging, kept } = this.of;
    const before = kept.get(linesKey) as WrittenLines | undefined;
    const file = before && staging.whole({ path: fileOfAddress(entriesFile), hash: before.hash });
    const former = file === undefined ? undefined : placesIn(file, before!);
    for (const one of plan.model.entries) {
      const place = former?.get(identityOfLine(one));
      if (place) this.places.set(one.entry.number, place);
      else this.toLine.add(one.entry.number);
    }
  }

  private writeLines(): void {
    const { plan, done } = this.of;
    const places = plan.model.entries.map(({ entry }) => this.places.get(entry.number)!);
    done(writeLineFile(this.of, this.identities, places));
  }
}

type WrittenTo = Pick<EntryFilesOf, 'staging' | 'kept'>;

/** Writes the file of lines. @param identities of what each line was made of */
function writeLineFile(
  { staging, kept }: WrittenTo,
  identities: readonly string[],
  places: readonly LinePlace[],
): WrittenWithoutPath {
  const reader = new LineReader();
  const pieces = function* (): Iterable<string | Uint8Array> {
    yield begin;
    let isFirst = true;
    for (const place of joined(places, between.length)) {
      if (!isFirst) yield between;
      isFirst = false;
      yield* reader.readInTurn(place);
    }
    yield end;
  };
  try {
    const { bytes, hash } = staging.write(entriesFile, { pieces });
    const lines = places.map((place, at) => [identities[at]!, place.bytes] as const);
    kept.put(keyOfLines(kept, identities), { bytes, hash });
    kept.put(linesKey, { bytes, hash, lines } satisfies WrittenLines);
    return { bytes, hash };
  } finally {
    reader.close();
    removeSpools(new Set(places.flatMap(({ file }) => (file.startsWith(spoolIn(staging.folder)) ? [file] : []))));
  }
}

const keyOfLines = (kept: Kept, identities: readonly string[]): string =>
  keyUnder(kept, 'file', () => [entriesFile, identities]);

/** Where the line of each entry stands, by what it was made of. */
type LinesThere = ReadonlyMap<string, LinePlace>;

/**
 * The file of lines as it stands.
 * @param edited by what their lines were made of: entries of which the lines are to be others
 * @returns undefined where the file, or one of these lines, is not there
 */
export function linesThere(
  { kept, whole }: Pick<WrittenTo, 'kept'> & Pick<SiteInMaking, 'whole'>,
  edited: ReadonlyMap<string, ReckonedEntry>,
): LinesThere | undefined {
  const before = kept.get(linesKey) as WrittenLines | undefined;
  const file = before && whole({ path: fileOfAddress(entriesFile), hash: before.hash });
  const there = file === undefined ? undefined : placesIn(file, before!);
  const isWhole = there?.size === before?.lines.length && [...edited.keys()].every((one) => there?.has(one));
  return isWhole ? there : undefined;
}

/** Writes the file of lines as it stands, but for the lines of edited entries. */
export function writeLinesAgain(to: WrittenTo, there: LinesThere, edited: ReadonlyMap<string, ReckonedEntry>): void {
  const spool = new LineSpool(spoolIn(to.staging.folder, 0));
  const lines = [...there].map(([identity, place]): readonly [string, LinePlace] => {
    const one = edited.get(identity);
    return one ? [identityOfLine(one), spool.put(entryLine(one))] : [identity, place];
  });
  writeLineFile(
    to,
    lines.map(([identity]) => identity),
    lines.map(([, place]) => place),
  );
}

/** Where lines stand in the file that they were written to, by what they were made of. */
function placesIn(file: string, { lines }: WrittenLines): ReadonlyMap<string, LinePlace> {
  const places = new Map<string, LinePlace>();
  let at = begin.length;
  for (const [identity, bytes] of lines) {
    places.set(identity, { file, at, bytes });
    at += bytes + between.length;
  }
  return places;
}

/** What the line of an entry is made of. */
const identityOfLine = (one: ReckonedEntry): string => one.identity ?? identityOf(one);

/** Where lines are put down while a site is built. */
export const spoolIn = (folder: string, thread?: number): string => join(folder, `.lines-${thread ?? ''}`);
