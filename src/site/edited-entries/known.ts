// What is known after a publication, so that the next can tell in little time whether only words of entries have been
// edited since. It lies with what is kept of the journal, one text for each site, and is not believed where it is
// damaged or of other code.
import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  readdirSync,
  readSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Answers } from '../../journal/asked-folder.js';
import { readChecked, writeChecked } from '../../kept/checked-file.js';
import { hashOf, identityOf } from '../../kept/inputs.js';
import { keptFolder } from '../../kept/kept-folder.js';
import { once } from '../../once.js';
import type { PublishOptions } from '../publication.js';
import type { StampedFile } from '../staging.js';

/** A file of an entry as it was read. */
export interface KnownEntry {
  /** What the folder answered; empty where it may have been written to since and answer the same. */
  readonly answer: string;
  /** Hash of its text. */
  readonly text: string;
  /** Where the line of the entry stands in the file of lines; none where its words cannot be taken alone. */
  readonly line?: { readonly at: number; readonly bytes: number; readonly hash: string };
}

/** The search index of a site: what has to be known to make it again after an edit of words. */
export interface KnownSearch {
  /** Name of the file that holds the words of each thing and how much each word counts; hash of its text. */
  readonly file: string;
  readonly hash: string;
  /** Two letters. */
  readonly language: string;
  /** How many things there are. */
  readonly things: number;
  /** Numbers of the entries, which are the last of the things. */
  readonly entries: readonly number[];
}

/** A site as it was published, and the one before, which lies beside it. */
export interface KnownSite {
  /** Real path. */
  readonly site: string;
  /** Name of the folder of the one before; where there is none, it is made of second names of the site's files. */
  readonly spare?: string;
  /** Paths of files that the one before has not, or not as the site has them. */
  readonly older: readonly string[];
  /** Hash of the text of the site's manifest. */
  readonly manifest: string;
  readonly files: ReadonlyMap<string, StampedFile>;
  /**
   * Stamps of each folder, in the site and in the one before; empty where they may not tell of a change. None where the
   * next site has to be made in the ordinary way.
   */
  readonly folders: ReadonlyMap<string, readonly [site: string, spare: string]>;
}

export interface Known extends KnownSite {
  /** Identity of the options that it was published with. */
  readonly options: string;
  /** Real path of the journal. */
  readonly root: string;
  readonly asked: Answers;
  readonly entries: ReadonlyMap<string, KnownEntry>;
  /** Hashes of the texts of small files of the journal, by path: of those whose stamps do not tell enough. */
  readonly texts: Readonly<Record<string, string>>;
  /** Bytes of all files. */
  readonly bytes: number;
  /** Names of the files of lines, and of what the publication told. */
  readonly lines: string;
  readonly told: string;
  /** Of those of what is around the entries, and of what pages and files other than theirs were made of. */
  readonly around: string;
  readonly made: string;
  /** Where the site has a search index of which enough is known. */
  readonly search?: KnownSearch;
}

const folderName = 'sites';

export const sitesFolder = (journal: string): string => join(journal, keptFolder, folderName);

const nameOf = (site: string): string => hashOf(site);

type Head = Omit<Known, 'files' | 'folders' | 'entries' | 'asked'> &
  Omit<Answers, 'found'> & {
    readonly counts: readonly [found: number, entries: number, files: number, folders: number];
  };

/** As text, or undefined where a name has signs that part its lines. */
function textOf({ files, folders, entries, asked: { found, ...asked }, ...rest }: Known): string | undefined {
  const head: Head = { ...rest, ...asked, counts: [found.length, entries.size, files.size, folders.size] };
  let isPlain = true;
  const named = (path: string): string => {
    isPlain &&= !/[\t\n]/.test(path);
    return path;
  };
  // There are ten thousand rows where entries are many: they are put together as text and as nothing else.
  let rows = '';
  for (const [path, answer] of found) rows += `${named(path)}\t${answer}\n`;
  for (const [file, { answer, text, line }] of entries) {
    const place = line ? `\t${line.at}\t${line.bytes}\t${line.hash}` : '';
    rows += `${named(file)}\t${answer}\t${text}${place}\n`;
  }
  for (const [path, { hash, stamp }] of files) rows += `${named(path)}\t${hash}\t${stamp}\n`;
  for (const [path, [own, other]] of folders) rows += `${named(path)}\t${own}\t${other}\n`;
  return isPlain ? `${JSON.stringify(head)}\n${rows}` : undefined;
}

function knownIn(text: string): Known {
  const lines = text.split('\n');
  const { counts, spelt, listed, ...rest } = JSON.parse(lines[0]!) as Head;
  let at = 1;
  const rows = (count: number): string[][] => {
    const some = lines.slice(at, at + count).map((line) => line.split('\t'));
    at += count;
    return some;
  };
  const [found, entries, files, folders] = counts.map(rows) as [string[][], string[][], string[][], string[][]];
  return {
    ...rest,
    asked: { found: found as [string, string][], spelt, listed },
    entries: new Map(
      entries.map(([file, answer, hash, ...line]) => [
        file!,
        {
          answer: answer!,
          text: hash!,
          ...(line.length > 0 && { line: { at: Number(line[0]), bytes: Number(line[1]), hash: line[2]! } }),
        },
      ]),
    ),
    files: new Map(files.map(([path, hash, stamp]) => [path!, { hash: hash!, stamp: stamp! }])),
    folders: new Map(folders.map(([path, one, other]) => [path!, [one!, other!]])),
  };
}

/** Everything that a publication is told and that changes what it makes. */
export const optionsIdentity = ({ drafts, search, labels, sharePictures, spareFrom }: PublishOptions): string =>
  identityOf([drafts ?? false, search ?? true, labels ?? false, sharePictures ?? true, spareFrom ?? null]);

/** Whether an edit of words changes pages of entries and the search index alone: sheets of labels show words too. */
export const isForWordsAlone = ({ labels, keep }: PublishOptions): boolean => keep !== false && labels !== true;

/** The file in which it lies. */
export const fileOfKnown = (journal: string, site: string): string => join(sitesFolder(journal), nameOf(site));

/** Whether anything was put down of a site; it may be of no use. */
export const isAnyKnown = (journal: string, site: string): boolean => existsSync(fileOfKnown(journal, site));

/** What is known of the last publication of a journal to a site. */
export function readKnown(journal: string, site: string, version: string): Known | undefined {
  const text = readChecked(fileOfKnown(journal, site), version);
  return text === undefined ? undefined : knownIn(text);
}

/** So many sites of one journal are known. */
const mostSites = 3;

/** Puts down what is known now; what belongs to no site that is known goes. */
export function writeKnown(journal: string, known: Known, version: string): void {
  const text = textOf(known);
  if (text !== undefined) writeChecked(fileOfKnown(journal, known.site), version, text);
}

/**
 * Makes the folder, and takes away files of it that no site needs.
 * @param needed names of files that are to stay of those of this site
 */
export function makeRoom(journal: string, site: string, needed: readonly string[] = []): string {
  const folder = sitesFolder(journal);
  mkdirSync(folder, { recursive: true });
  const own = nameOf(site);
  const timeOf = (name: string): number => statSync(join(folder, name)).mtimeMs;
  const names = readdirSync(folder);
  const sites = names.filter((name) => /^[\w-]{22}$/.test(name) && name !== own);
  const stay = new Set(sites.sort((a, b) => timeOf(b) - timeOf(a)).slice(0, mostSites - 1));
  const isNeeded = (name: string): boolean => stay.has(name.slice(0, 22)) || needed.includes(name);
  for (const name of names) if (!isNeeded(name)) rmSync(join(folder, name), { force: true });
  return folder;
}

/** Name of a file that belongs to what is known of a site. */
export const nameBeside = (
  site: string,
  what: 'lines' | 'told' | 'around' | 'made' | 'search',
  token: string,
): string => `${nameOf(site)}.${what}-${token}`;

/** A line of a file of lines: what is asked for of every entry, and what only of some. */
export interface LineParts {
  readonly first: unknown;
  readonly rest: () => unknown;
}

/** No JSON has it, as it is written here. */
const betweenParts = '\n';

/** A line as it is put down. */
export const bytesOfLine = (first: unknown, rest: unknown): Buffer =>
  Buffer.from(`${JSON.stringify(first)}${betweenParts}${JSON.stringify(rest)}`);

/** Most of a line is read where it is asked for: of a thousand entries all of it would take as long as all else. */
function partsOfLine(line: Buffer): LineParts {
  const end = line.indexOf(betweenParts);
  return {
    first: JSON.parse(line.toString('utf8', 0, end)),
    rest: once(() => JSON.parse(line.toString('utf8', end + 1)) as unknown),
  };
}

/** All lines of a file of lines, as far as they are what they were. */
export function readLines(file: string, entries: Known['entries']): Map<string, LineParts> {
  const all = readFileSync(file);
  const lines = new Map<string, LineParts>();
  for (const [path, { line }] of entries) {
    const bytes = line && all.subarray(line.at, line.at + line.bytes);
    if (bytes && hashOf(bytes) === line.hash) lines.set(path, partsOfLine(bytes));
  }
  return lines;
}

/** A line of a file of lines; undefined where it is not what it was. */
export function readLine(file: string, { at, bytes, hash }: NonNullable<KnownEntry['line']>): LineParts | undefined {
  const line = Buffer.alloc(bytes);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, line, 0, bytes, at);
  } finally {
    closeSync(handle);
  }
  return hashOf(line) === hash ? partsOfLine(line) : undefined;
}
