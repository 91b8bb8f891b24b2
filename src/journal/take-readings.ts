// A folder of instrument files, turned into the lines of an entry's samples that name them.
import { stringify } from 'yaml';

/** One instrument file, as it was read. */
export interface ReadingsTaken {
  /** Path below the journal: `spectra/14-A.csv`. */
  readonly path: string;
  /** Names of the samples in it, where it holds several. */
  readonly sets: readonly string[];
}

export interface SampleLines {
  readonly sample: string;
  readonly path: string;
  /** The sample of the file that is meant; `all` where it holds several readings of one. */
  readonly set?: string;
  /** Number of the entry, where the files' names tell several. */
  readonly entry?: string;
}

/** Samples for files of readings, and what their names leave open, as sentences. */
export interface SamplesTaken {
  readonly samples: readonly SampleLines[];
  readonly notes: readonly string[];
}

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** `A` … `Z`, then `A2` … */
const letterAt = (at: number): string =>
  `${letters[at % letters.length]!}${at < letters.length ? '' : Math.floor(at / letters.length) + 1}`;

/** A file's name without folder and ending. */
const baseOf = (path: string): string =>
  path
    .split('/')
    .at(-1)!
    .replace(/\.[^.]+$/, '');

/** The letter that a name ends in: `A` in `14-A` and `malachite_b`; undefined where it does not end in one. */
const letterIn = (name: string): string | undefined => /(?:^|[-_ ])([A-Za-z])$/.exec(name)?.[1]?.toUpperCase();

/** The number that a name begins with: `14` in `014-A`. */
const numberIn = (name: string): string | undefined => /^0*(\d+)[-_ ]/.exec(name)?.[1];

const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '');

/** What the names of several readings begin with, where only a count tells them apart: `1-A` of `1-A #1`, `1-A #2`. */
function stemOf(sets: readonly string[]): string | undefined {
  const stems = sets.map((set) => /^(.*[^\s._(#-])[\s._(#-]+\d+\)?$/.exec(set)?.[1]);
  return stems[0] !== undefined && stems.every((stem) => stem === stems[0]) ? stems[0] : undefined;
}

/** A reading before its sample is named. */
interface Reading {
  readonly path: string;
  readonly set?: string;
  readonly letter: string | undefined;
}

/** What a file holds: one sample, read once or several times, or several samples. */
function readingsIn({ path, sets }: ReadingsTaken, notes: string[]): readonly Reading[] {
  const base = baseOf(path);
  const letter = letterIn(base);
  if (sets.length < 2) return [{ path, letter }];
  const stem = stemOf(sets);
  const ofFile =
    stem !== undefined && (plain(stem) === plain(base) || (letter !== undefined && letterIn(stem) === letter));
  if (ofFile) return [{ path, set: 'all', letter }];
  if (stem !== undefined)
    notes.push(
      `${path} holds ${sets.length} readings whose names differ in their count alone ` +
        `(${sets[0]!} … ${sets.at(-1)!}): they stand as ${sets.length} samples. ` +
        'If they are readings of one, write it once, with set: all.',
    );
  return sets.map((set) => ({ path, set, letter: letterIn(set) }));
}

/** Names by the letters that are given, each once; the rest take those that are left, in order. */
function named(readings: readonly Reading[], notes: string[]): readonly SampleLines[] {
  const taken = new Set<string>();
  const own = readings.map(({ letter }) => {
    if (letter === undefined || taken.has(letter)) return undefined;
    taken.add(letter);
    return letter;
  });
  let at = 0;
  const next = (): string => {
    while (taken.has(letterAt(at))) at += 1;
    at += 1;
    return letterAt(at - 1);
  };
  return readings.map(({ path, set, letter }, index) => {
    const sample = own[index] ?? next();
    const what = set === undefined ? path : `${set} of ${path}`;
    if (own[index] === undefined && letter !== undefined)
      notes.push(
        `${what} gives the letter ${letter}, as another does: it stands as ${sample}. Name it as you mean it.`,
      );
    else if (own[index] === undefined && own.some((one) => one !== undefined))
      notes.push(`${what} gives no letter: it stands as ${sample}. Name it as you mean it.`);
    return { sample, path, ...(set !== undefined && { set }) };
  });
}

/** Numbers of entries, where every file's name has one and they are several. */
function entriesIn(files: readonly ReadingsTaken[], notes: string[]): readonly string[] {
  const names = files.map(({ path }) => baseOf(path));
  const numbers = [...new Set(names.map(numberIn))];
  if (numbers.length < 2 || numbers.includes(undefined)) return [];
  // `1-A` and `2-A` are samples of two entries; `1-malachite-A` and `2-malachite-B` may only be counted.
  const plainly = names.every((name) => letterIn(name) === undefined || /^\d+[-_ ][A-Za-z]$/.test(name));
  if (plainly) return numbers as string[];
  notes.push(
    `The names begin with different numbers (${numbers.join(', ')}), and all stand in one entry here. If these are ` +
      'numbers of entries, take the files of each in by themselves.',
  );
  return [];
}

/**
 * A sample for each reading, by the letter in the file's name, or in that of the reading where a file holds several;
 * the rest in order. Several readings of one sample are one sample; files of several entries are told apart.
 * @example samplesFor([{ path: 'spectra/14-B.csv', sets: [] }]).samples[0].sample // 'B'
 */
export function samplesFor(files: readonly ReadingsTaken[]): SamplesTaken {
  const notes: string[] = [];
  const entries = entriesIn(files, notes);
  const of = (some: readonly ReadingsTaken[]) =>
    named(
      some.flatMap((file) => readingsIn(file, notes)),
      notes,
    );
  if (entries.length === 0) return { samples: of(files), notes };
  const samples = entries.flatMap((entry) =>
    of(files.filter(({ path }) => numberIn(baseOf(path)) === entry)).map((one) => ({ ...one, entry })),
  );
  return { samples, notes };
}

const linesOf = (samples: readonly SampleLines[]): string =>
  stringify(
    {
      samples: samples.map(({ sample, path, set }) => ({
        sample,
        colour: { spectrum: path, ...(set !== undefined && { set }) },
      })),
    },
    { lineWidth: 0 },
  );

/**
 * The lines to paste into an entry, ready with their key; of several entries each below its number.
 * @example linesToPaste(samples) // 'samples:\n  - sample: A …'
 */
export function linesToPaste(samples: readonly SampleLines[]): string {
  const entries = [...new Set(samples.map(({ entry }) => entry))];
  return entries
    .map((entry) => {
      const lines = linesOf(samples.filter((one) => one.entry === entry));
      return entry === undefined ? lines : `# Entry ${entry}\n${lines}`;
    })
    .join('');
}
