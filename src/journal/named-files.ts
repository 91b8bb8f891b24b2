// The files that entries and the shelf name: read once, each fault found wherever the file is named.
import { posix } from 'node:path';
import { decodeText } from '../colour/instruments/text.js';
import { onceFor } from '../once.js';
import { found, type Findings, type Found, type Path } from '../remarks/findings.js';
import type { Entry, Shelf } from './entry.js';
import { isPublishedFile, unpublishable, type FileText, type Folder } from './folder.js';
import { misspelt as misspeltName } from './nearest.js';
import { namedPhotographs } from './photographs.js';
import type { ColourReading } from './schema.js';

interface NamedFile {
  readonly file: string;
  readonly path: Path;
  readonly kind: 'spectrum' | 'photo';
}

/** A photograph that a colour is read from, and the file of its chart where that is no known chart. */
function filesOfPhotograph(colour: ColourReading | undefined, path: Path): readonly NamedFile[] {
  const { photo, chart } = colour ?? {};
  if (photo === undefined) return [];
  const shown: NamedFile = { file: photo, path: [...path, 'photo'], kind: 'photo' };
  return chart?.includes('.') ? [shown, { file: chart, path: [...path, 'chart'], kind: 'spectrum' }] : [shown];
}

function filesOfColour(colour: ColourReading | undefined, path: Path): readonly NamedFile[] {
  const named = (file: string | undefined, ...steps: Path): NamedFile[] =>
    file === undefined ? [] : [{ file, path: [...path, ...steps], kind: 'spectrum' }];
  return [
    ...named(colour?.spectrum, 'spectrum'),
    ...filesOfPhotograph(colour, path),
    ...named(colour?.white, 'white'),
    ...(colour?.tints ?? []).flatMap(({ spectrum }, at) => named(spectrum, 'tints', at, 'spectrum')),
    ...(colour?.readings ?? []).flatMap(({ spectrum }, at) => named(spectrum, 'readings', at, 'spectrum')),
  ];
}

function filesOfSample(sample: Entry['samples'][number], path: Path): readonly NamedFile[] {
  const { colour, opacity, aged = [] } = sample;
  const films = (['over-black', 'over-white'] as const).flatMap((film): NamedFile[] => {
    const file = opacity?.[film];
    return typeof file === 'string' ? [{ file, path: [...path, 'opacity', film], kind: 'spectrum' }] : [];
  });
  const after = aged.flatMap((one, at) => filesOfColour(one.colour, [...path, 'aged', at, 'colour']));
  return [...filesOfColour(colour, [...path, 'colour']), ...after, ...films];
}

const filesOf = onceFor((entry: Entry): readonly NamedFile[] => [
  ...filesOfColour(entry.reference?.colour, ['reference', 'colour']),
  ...entry.samples.flatMap((sample, index) => filesOfSample(sample, ['samples', index])),
  ...namedPhotographs(entry).map(({ file, path }): NamedFile => ({ file, path, kind: 'photo' })),
]);

/** Paths of the spectra, charts and photographs that an entry names, each once. */
export const filesNamedIn = onceFor((entry: Entry): readonly string[] => [
  ...new Set(filesOf(entry).map(({ file }) => file)),
]);

/** A file that is named otherwise than the disk spells it. */
function misspelt(folder: Folder, file: string): Found | undefined {
  const spelt = folder.spelling(file);
  if (spelt === undefined || spelt === file) return undefined;
  return found('spelt-otherwise', { file, spelt, actual: file, expected: [spelt] });
}

/** What keeps a file from being shown or linked to, if anything. Pages are judged elsewhere. */
export function fileFault(folder: Folder, file: string, what: 'image' | 'link' | 'photo'): Found | undefined {
  const fault = unpublishable(folder, file);
  if (fault && fault.rule !== 'missing-file') return fault;
  const other = misspelt(folder, file) ?? fault;
  if (other) return other;
  return isPublishedFile(file) || file.endsWith('.md')
    ? undefined
    : found('not-published', { what, file, actual: file });
}

/** A name without what is often written otherwise: capitals, spaces, hyphens. */
const plainName = (name: string): string =>
  name
    .normalize('NFC')
    .toLowerCase()
    .replace(/[\s_-]+/g, '');

/** The file beside it that was probably meant for one that is not there: `IMG_4432.jpg` for `IMG 4432.JPG`. */
function nearTo(file: string, folder: Folder): { readonly near?: string; readonly expected?: readonly string[] } {
  const name = plainName(posix.basename(file));
  // Where all of them lie, a name is often written without its folder.
  const above = [posix.dirname(file), 'photos', 'spectra'].filter(
    (one, at, all) => one !== '.' && all.indexOf(one) === at,
  );
  const there = new Map(
    above
      .toReversed()
      .flatMap((one) => folder.list(one).names.map((it): [string, string] => [plainName(it), `${one}/${it}`])),
  );
  const near = there.get(name) ?? there.get(misspeltName(name, [...there.keys()]) ?? '');
  return near === undefined ? {} : { near, expected: [near] };
}

/** What an instrument wrote, as text; it need not be UTF-8. */
export const readReading = (folder: Folder, file: string): FileText => folder.read(file, nowhere, decodeText);

/** Gathers the files that are named, and the text of those that instruments wrote. */
export class NamedFiles {
  readonly readings = new Map<string, string>();
  /** Files that exist, for the site to publish. */
  readonly files = new Set<string>();
  /** Photographs that are not there. */
  readonly missing = new Set<string>();
  private readonly faults = new Map<string, Found | undefined>();

  constructor(private readonly folder: Folder) {}

  takeOfEntry(entry: Entry, findings: Findings): void {
    for (const { file, path, kind } of filesOf(entry)) {
      if (!this.faults.has(file)) this.faults.set(file, kind === 'photo' ? this.photo(file) : this.reading(file));
      const fault = this.faults.get(file);
      if (fault?.rule === 'missing-file' && !path.includes('colour') && kind === 'photo') {
        this.missing.add(file);
        findings.add('missing-file', path, { ...fault.facts, ...nearTo(file, this.folder), photo: true });
      } else if (fault?.rule === 'missing-file')
        findings.add('missing-file', path, { ...fault.facts, ...nearTo(file, this.folder) });
      else if (fault) findings.take({ ...fault, where: path });
      else if (kind === 'spectrum') this.reading(file);
    }
  }

  takeOfShelf({ reagents }: Shelf, findings: Findings): void {
    for (const [id, { colour }] of reagents) {
      for (const { file, kind } of filesOfColour(colour, [id, 'colour'])) {
        const fault = kind === 'photo' ? this.photo(file) : this.reading(file);
        if (fault) findings.take({ ...fault, where: [id, 'colour'] });
      }
    }
  }

  private photo(file: string): Found | undefined {
    const fault = fileFault(this.folder, file, 'photo');
    if (!fault) this.files.add(file);
    return fault;
  }

  /** Reads what an instrument wrote, once. */
  private reading(file: string): Found | undefined {
    if (this.readings.has(file)) return undefined;
    const read = readReading(this.folder, file);
    if (!read.ok) {
      const { where: _, ...fault } = read.finding;
      return misspelt(this.folder, file) ?? fault;
    }
    this.readings.set(file, read.text);
    this.files.add(file);
    return misspelt(this.folder, file);
  }
}

/** The place of a file that is named is that of its name, which is not known while it is read. */
const nowhere = { file: '', line: 1, column: 1 } as const;
