// The photographs that an entry shows: those of its samples, then its own, each once.
import type { Path } from '../remarks/findings.js';
import type { Entry } from './entry.js';

/** A photograph and what is said of it. */
export interface Photograph {
  /** Path below the journal: `photos/14-A.jpg`. */
  readonly file: string;
  /** What is seen, for those who cannot see it. */
  readonly shows?: string;
  readonly caption?: string;
  /** The sample that it shows. */
  readonly sample?: string;
  /** The light it was taken in. */
  readonly light?: string;
  /** When it is seen in the video, `3:40`. */
  readonly moment?: string;
  /** Where it is named in the front matter. */
  readonly path: Path;
}

type Named = Entry['photos'][number];
type Pictured = Pick<Entry, 'samples' | 'photos'>;

const photographOf = (named: Named, path: Path): Photograph =>
  typeof named === 'string' ? { file: named, path } : { ...named, path };

/** Every photograph as it is named, in the order of the front matter: those of the samples first. */
export function namedPhotographs({ samples, photos }: Pictured): readonly Photograph[] {
  const ofSamples = samples.flatMap((sample, at): Photograph[] => {
    if (sample.photo === undefined) return [];
    const { shows = sample['photo-shows'], ...said } = photographOf(sample.photo, ['samples', at, 'photo']);
    return [{ ...said, ...(shows !== undefined && { shows }), sample: sample.sample }];
  });
  return [...ofSamples, ...photos.map((named, at) => photographOf(named, ['photos', at]))];
}

/**
 * The photographs of an entry, each file once, with what is said of it first.
 * @example photographsOf({ samples: [], photos: ['photos/a.jpg', 'photos/a.jpg'] }).length // 1
 */
export function photographsOf(entry: Pictured): readonly Photograph[] {
  const byFile = new Map<string, Photograph>();
  for (const one of namedPhotographs(entry)) byFile.set(one.file, { ...one, ...byFile.get(one.file) });
  return [...byFile.values()];
}

/** An entry without the photographs that do not exist; the same where all do. */
export function withPhotographs(entry: Entry, missing: ReadonlySet<string>): Entry {
  const isThere = (named: Named | undefined): boolean =>
    named === undefined || !missing.has(typeof named === 'string' ? named : named.file);
  if (missing.size === 0 || namedPhotographs(entry).every(({ file }) => !missing.has(file))) return entry;
  const samples = entry.samples.map(({ photo, ...sample }) =>
    photo !== undefined && isThere(photo) ? { ...sample, photo } : sample,
  );
  return { ...entry, samples, photos: entry.photos.filter(isThere) };
}
