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
  readonly set?: string;
}

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** `A` … `Z`, then `A2` … */
const letterAt = (at: number): string =>
  `${letters[at % letters.length]!}${at < letters.length ? '' : Math.floor(at / letters.length) + 1}`;

/** The letter that a file's name gives its sample: `A` in `14-A.csv` and `malachite_b.txt`. */
const letterIn = (path: string): string | undefined => /[-_ ]([A-Za-z])\.[^./]+$/.exec(path)?.[1]?.toUpperCase();

/**
 * A sample for each reading: by the letter in the file's name where every file has its own, else in order.
 * @example samplesFor([{ path: 'spectra/14-B.csv', sets: [] }])[0].sample // 'B'
 */
export function samplesFor(files: readonly ReadingsTaken[]): readonly SampleLines[] {
  const readings = files.flatMap(({ path, sets }): Omit<SampleLines, 'sample'>[] =>
    sets.length > 1 ? sets.map((set) => ({ path, set })) : [{ path }],
  );
  const named = readings.map(({ path, set }) => (set === undefined ? letterIn(path) : undefined));
  const own = named.every((letter) => letter !== undefined) && new Set(named).size === named.length;
  return readings.map((reading, at) => ({ sample: own ? named[at]! : letterAt(at), ...reading }));
}

/**
 * The lines to paste into an entry, ready with their key.
 * @example linesToPaste(samples) // 'samples:\n  - sample: A …'
 */
export const linesToPaste = (samples: readonly SampleLines[]): string =>
  stringify(
    {
      samples: samples.map(({ sample, path, set }) => ({
        sample,
        colour: { spectrum: path, ...(set !== undefined && { set }) },
      })),
    },
    { lineWidth: 0 },
  );
