// A journal, or one entry with all that it draws on, as one zip file: the same bytes whenever the same is packed.
import { createHash } from 'node:crypto';
import { readFileSync, realpathSync } from 'node:fs';
import { join, sep } from 'node:path';
import { zipSync, type Zippable } from 'fflate';
import type { JournalModel } from '../../crosslinks/model.js';
import { noEntry } from '../../journal/no-entry.js';
import { bad, good, type Outcome } from '../../outcome.js';
import { isPieces, type FileContent } from '../assets.js';
import { citationFile, citationText } from '../citation-file.js';
import { crateEntities, crateFile, crateText, type CrateScope } from '../crate.js';
import { cautionsFile, cautionsText } from './cautions.js';
import { partsOfEntry, registerFile, wholeParts, type Parts } from './parts.js';

export interface Pack {
  readonly bytes: Uint8Array;
  readonly sha256: string;
  /** Numbers of the entries in it, ascending. */
  readonly entries: readonly number[];
  /** Paths below its root, sorted, with their sizes. */
  readonly files: readonly { readonly path: string; readonly bytes: number }[];
  /** Photographs are packed as they are, with the place and the camera that they may carry. */
  readonly photographs: readonly string[];
}

interface Packed {
  readonly path: string;
  readonly content: Uint8Array;
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Where this machine has the format's schema, which is nobody else's business; it may have more signs than UTF-8. */
const schemaHere = /^# yaml-language-server: \$schema=file:.*\r?\n/gm;
const withoutSchemaHere = (path: string, content: Uint8Array): Uint8Array =>
  /\.(?:md|ya?ml)$/.test(path)
    ? Buffer.from(Buffer.from(content).toString('latin1').replaceAll(schemaHere, ''), 'latin1')
    : content;

/** A file of the journal as it lies on the disk; absent where it is gone, or lies outside the journal. */
function fromDisk(folder: string, path: string): readonly Packed[] {
  try {
    const real = realpathSync(join(folder, path));
    return real.startsWith(realpathSync(folder) + sep)
      ? [{ path, content: withoutSchemaHere(path, readFileSync(real)) }]
      : [];
  } catch {
    return [];
  }
}

const textOf = (content: FileContent): string => (isPieces(content) ? [...content.pieces()].join('') : String(content));

/** What a file that belongs to no one entry is. */
const whatIs = (path: string): string => {
  const known: Readonly<Record<string, string>> = {
    'journal.yaml': 'Settings of the journal.',
    'shelf.yaml': 'Reagents that the entries use, by id.',
    [registerFile]: 'Addresses that have been published.',
    [citationFile]: 'How the journal is cited: Citation File Format.',
    [cautionsFile]: 'Hazards of the entries, and what was foreseen in them.',
  };
  return known[path] ?? (path.endsWith('.md') ? 'Words of a page.' : 'A file that the journal names.');
};

function crateOf(
  model: JournalModel,
  { entries }: Parts,
  packed: readonly Packed[],
  number: number | undefined,
): string {
  const paths = new Set(packed.map(({ path }) => path));
  const numbers = new Set(entries.map((entry) => entry.number));
  const described = model.entries
    .filter(({ entry }) => numbers.has(entry.number))
    .sort((a, b) => a.entry.number - b.entry.number);
  const ofEntries = new Set(described.map(({ entry }) => entry.file));
  const { title, description, subtitle } = model.journal.settings;
  const one = described.find(({ entry }) => entry.number === number)?.entry;
  const scope: CrateScope = {
    entries: described,
    entryFile: ({ file }) => file,
    entryFolders: false,
    has: (path) => paths.has(path),
    files: [...paths].filter((path) => !ofEntries.has(path)).map((path) => ({ path, what: whatIs(path) })),
    name: one ? `${one.title} (${title}, entry ${one.number})` : title,
    description: one
      ? `Entry ${one.number} of ${title} with what it takes to reckon it again.`
      : (description ?? subtitle ?? `${title}: experiments with pigments.`),
  };
  return textOf(crateText(crateEntities(model, scope)));
}

/** Midnight of the first day that a zip file can tell, in no time zone, so that the bytes are the same everywhere. */
const zipDate = (): Date => new Date(1980, 0, 1);
/** A plain file that its owner may write and all may read, as Unix has it (APPNOTE.TXT 4.4.15). */
const zipAttributes = { os: 3, attrs: (0o100644 << 16) >>> 0 } as const;

function zipped(packed: readonly Packed[]): Uint8Array {
  const files: Zippable = {};
  for (const { path, content } of packed) files[path] = [content, { level: 9, mtime: zipDate(), ...zipAttributes }];
  return zipSync(files);
}

const byPath = (a: Packed, b: Packed): number => (a.path < b.path ? -1 : 1);

/**
 * Packs a journal, or one of its entries with the entries, jars and files that it takes to reckon it again. Fault:
 * `no-entry`.
 */
export function packOf(model: JournalModel, number?: number): Outcome<Pack> {
  const { journal } = model;
  const parts = number === undefined ? wholeParts(journal) : partsOfEntry(number, journal);
  if (!parts) return bad(noEntry(number!, journal));
  const onDisk = [...parts.entries.map(({ file }) => file), ...parts.pages.map(({ file }) => file), ...parts.files];
  const packed: Packed[] = [
    ...fromDisk(journal.folder, 'journal.yaml'),
    ...(parts.shelf === undefined ? [] : [{ path: 'shelf.yaml', content: utf8(parts.shelf) }]),
    ...(parts.register === undefined ? [] : [{ path: registerFile, content: utf8(parts.register) }]),
    ...[...new Set(onDisk)].flatMap((path) => fromDisk(journal.folder, path)),
    { path: citationFile, content: utf8(citationText(model)) },
    { path: cautionsFile, content: utf8(cautionsText(model, new Set(parts.entries.map(({ number }) => number)))) },
  ].sort(byPath);
  if (parts.entries.length > 0) packed.push({ path: crateFile, content: utf8(crateOf(model, parts, packed, number)) });
  packed.sort(byPath);
  const bytes = zipped(packed);
  return good({
    bytes,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    entries: parts.entries.map((entry) => entry.number).sort((a, b) => a - b),
    files: packed.map(({ path, content }) => ({ path, bytes: content.length })),
    photographs: packed.map(({ path }) => path).filter((path) => path.startsWith('photos/')),
  });
}
