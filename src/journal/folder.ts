// The only way to the files of a journal: regular files inside its folder, of a size that can be meant; nothing else is
// read.
import { isUtf8 } from 'node:buffer';
import type { Stats } from 'node:fs';
import { join, sep } from 'node:path';
import { lstatSync, readFileSync, readdirSync, realpathSync, statSync } from '../kept/noted-files.js';
import { once } from '../once.js';
import { found, type Finding, type Found } from '../remarks/findings.js';
import type { Place } from '../remarks/remark.js';

const megabyte = 1024 * 1024;

/** Largest Markdown or YAML file, and largest data file, that are read, in bytes. */
const textLimit = 2 * megabyte;

/** Largest file that is published as it is, and largest photograph that is made anew for publication, in bytes. */
const publishedLimit = 50 * megabyte;
const photographLimit = 200 * megabyte;

/** Whether a file below the journal goes onto the site where it is named: photos and spectra do. */
export const isPublishedFile = (path: string): boolean => /^(?:photos|spectra)\//.test(path);

/** Kinds of pictures that are made anew; data and the like are published as they are. */
const pictureKinds = /\.(?:jpe?g|png|webp|avif|tiff?|gif|heic|heif|jxl|jp2|dng|cr[23]|nef|arw|orf|raf|rw2|pef|srw)$/i;

/** Whether a file below the journal is a photograph that is made anew for publication. */
export const isPhotograph = (path: string): boolean => path.startsWith('photos/') && pictureKinds.test(path);

/** Whether a file below the journal is a drawing that is written anew for publication. */
export const isDrawing = (path: string): boolean => /^photos\/.*\.svg$/i.test(path);

/** Kinds that a browser runs when they are opened: pages, programs, drawings that are not written anew. */
const running = /\.(?:x?html?|xht|shtml|mhtml?|svgz?|[cm]?js|xslt?|wasm|swf|hta|htc|php\d?)$/i;

/** XML that a browser draws or styles, and so may run: XHTML and SVG, and what names a style sheet. */
const runningXml = /<\?xml-stylesheet|www\.w3\.org\/(?:1999\/xhtml|2000\/svg|1999\/XSL)/i;

/**
 * Whether a file below the journal could put a script on the site, and so is not published.
 * @param text of a file that an instrument wrote, where it was read
 */
export function mayRun(path: string, text: string | undefined): boolean {
  if (!isPublishedFile(path) || isDrawing(path)) return false;
  if (/\.xml$/i.test(path)) return text === undefined || runningXml.test(text);
  return running.test(path);
}

/** Kinds that carry place, date or device, and are published as they are. */
const carrying = /\.(?:mov|mp4|m4v|avi|mkv|webm|3gp|mp3|m4a|wav|pdf|zip|docx?|xlsx?|psd|xcf)$/i;

/** Whether a file below the journal may tell more than it shows, and is not made anew for publication. */
export const mayTellMore = (path: string): boolean => path.startsWith('photos/') && carrying.test(path);

export type FileText =
  | { readonly ok: true; readonly text: string; readonly stamp: string }
  | { readonly ok: false; readonly finding: Finding };

/** What stands at a path below the journal. */
export type AtPath =
  | { readonly kind: 'file'; readonly stats: Stats }
  | { readonly kind: 'missing' }
  | { readonly kind: 'outside' }
  | { readonly kind: 'other'; readonly what: string };

export interface Listing {
  /** Names of files, sorted; none when there is no such folder. */
  readonly names: readonly string[];
  readonly folders: readonly string[];
  readonly findings: readonly Finding[];
}

export interface Folder {
  /** Absolute path, links followed. */
  readonly root: string;
  /** What a folder below the journal holds. */
  readonly list: (below: string) => Listing;
  /** What stands at a path below the journal. */
  readonly find: (path: string) => AtPath;
  /** A path as the disk spells it, found without regard to capitals and to how accents are put together. */
  readonly spelling: (path: string) => string | undefined;
  /**
   * Text of a file below the journal; `at` is where findings about it are put (default: the file itself). With `decode`
   * the file need not be UTF-8: it turns its bytes into text (what instruments write).
   */
  readonly read: (path: string, at?: Place, decode?: (bytes: Uint8Array) => string) => FileText;
}

/** Opens the folder of a journal; undefined where there is none. */
export function openFolder(folder: string): Folder | undefined {
  try {
    const root = realpathSync(folder);
    return statSync(root).isDirectory() ? new OpenedFolder(root) : undefined;
  } catch {
    return undefined;
  }
}

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? 'unknown';

/** What the machine's no means for a path. */
function atPathOf(error: unknown): AtPath {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG') return { kind: 'missing' };
  return { kind: 'other', what: code === 'ELOOP' ? 'a link that leads to itself' : `not readable (${code})` };
}

const folded = (name: string): string => name.normalize('NFC').toLowerCase();

/** Names in a folder. */
interface NamesInFolder {
  readonly exact: ReadonlySet<string>;
  /** The first of those that are the same without regard to capitals. */
  readonly first: () => ReadonlyMap<string, string>;
}

function namesOf(folder: string): NamesInFolder {
  let names: readonly string[] = [];
  try {
    names = readdirSync(folder);
  } catch {
    // What cannot be listed has no other spelling.
  }
  const first = once(() => new Map([...names].reverse().map((name) => [folded(name), name] as const)));
  return { exact: new Set(names), first };
}

const nothingListed = { names: [], folders: [], findings: [] } as const;

class OpenedFolder implements Folder {
  /** Folders whose own path holds no link, so that a plain file in them needs no second look. */
  private readonly plain = new Map<string, boolean>();
  private readonly listed = new Map<string, NamesInFolder>();

  constructor(readonly root: string) {}

  readonly find = (path: string): AtPath => {
    if (path.includes('\0') || path.length > 4000) return { kind: 'missing' };
    const full = join(this.root, path);
    if (!this.holds(full)) return { kind: 'outside' };
    try {
      const stats = this.statsOf(path, full);
      if (!stats) return { kind: 'outside' };
      if (stats.isFile()) return { kind: 'file', stats };
      return { kind: 'other', what: stats.isDirectory() ? 'a folder' : 'not an ordinary file' };
    } catch (error) {
      return atPathOf(error);
    }
  };

  private holds(real: string): boolean {
    const { root } = this;
    return real === root || real.startsWith(root.endsWith(sep) ? root : root + sep);
  }

  private isPlain(below: string): boolean {
    let plain = this.plain.get(below);
    if (plain === undefined) {
      const full = join(this.root, below);
      try {
        plain = realpathSync(full) === full;
      } catch {
        plain = false;
      }
      this.plain.set(below, plain);
    }
    return plain;
  }

  /** What the disk says of a path, links followed; undefined where they lead out of the journal. */
  private statsOf(path: string, full: string): Stats | undefined {
    const stats = lstatSync(full);
    const slash = path.lastIndexOf('/');
    if (!stats.isSymbolicLink() && this.isPlain(slash < 0 ? '' : path.slice(0, slash))) return stats;
    return this.holds(realpathSync(full)) ? statSync(full) : undefined;
  }

  private namesIn(below: string): NamesInFolder {
    let names = this.listed.get(below);
    if (!names) {
      names = namesOf(join(this.root, below));
      this.listed.set(below, names);
    }
    return names;
  }

  readonly spelling = (path: string): string | undefined => {
    if (this.find(path).kind === 'outside') return undefined;
    let spelt = '';
    for (const part of path.split('/')) {
      const { exact, first } = this.namesIn(spelt);
      const name = exact.has(part) ? part : first().get(folded(part));
      if (name === undefined) return undefined;
      spelt = spelt === '' ? name : `${spelt}/${name}`;
    }
    return spelt;
  };

  readonly read: Folder['read'] = (path, at, decode) => {
    const file = at && path;
    const refuse = (why: Found): FileText => ({
      ok: false,
      finding: { ...why, where: at ?? { file: path, line: 1, column: 1 } },
    });
    const there = this.find(path);
    if (there.kind !== 'file') return refuse(notRead(there, file));
    const { size } = there.stats;
    if (size > textLimit) return refuse(tooLarge(file, size, textLimit, 'Shorten it, or split it.'));
    const text = textIn(join(this.root, path), file, decode);
    return typeof text === 'string' ? { ok: true, text, stamp: stampOf(there.stats) } : refuse(text);
  };

  readonly list = (below: string): Listing => {
    const there = this.find(below);
    if (there.kind === 'missing') return nothingListed;
    const listed = this.entriesOf(below, there);
    if (!Array.isArray(listed)) return { ...nothingListed, findings: [{ ...listed, where: placeOfFile(below) }] };
    const shown = listed.filter(({ name }) => !name.startsWith('.'));
    const namesOf = (folders: boolean): string[] =>
      shown.flatMap((one) => (one.isDirectory() === folders ? [one.name] : [])).sort();
    return { names: namesOf(false), folders: namesOf(true), findings: [] };
  };

  private entriesOf(below: string, there: AtPath) {
    if (there.kind === 'outside') return found('outside-journal', { of: 'folder', folder: below });
    if (there.kind !== 'other' || there.what !== 'a folder') return found('not-a-folder', { folder: below });
    try {
      return readdirSync(join(this.root, below), { withFileTypes: true });
    } catch (error) {
      return found('unreadable', { folder: below, code: codeOf(error) });
    }
  }
}

const placeOfFile = (file: string): Place => ({ file, line: 1, column: 1 });

function tooLarge(file: string | undefined, bytes: number, limit: number, cure: string, published = false): Found {
  const size = published ? String(Math.round(bytes / megabyte)) : (bytes / megabyte).toFixed(1);
  const name = file === undefined ? 'The file' : `The file ${file}`;
  const message = `${name} has ${size} MB; at most ${limit / megabyte} MB are ${published ? 'published' : 'read'}.`;
  return found('file-size', { message, cure, actual: file });
}

/** Why what stands at a path is not read. */
function notRead(there: Exclude<AtPath, { kind: 'file' }>, file: string | undefined): Found {
  const named = { file, actual: file };
  if (there.kind === 'missing') return found('missing-file', named);
  if (there.kind === 'outside') return found('outside-journal', { of: 'file', ...named });
  return found('not-a-file', { ...named, what: there.what, to: 'read' });
}

/** Text of a file of text, or why it is none. */
function textIn(
  full: string,
  file: string | undefined,
  decode: ((bytes: Uint8Array) => string) | undefined,
): string | Found {
  const named = { file, actual: file };
  let bytes: Buffer;
  try {
    bytes = readFileSync(full);
  } catch (error) {
    return found('unreadable', { ...named, code: codeOf(error) });
  }
  if (decode) return decode(bytes);
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    return found('not-utf-8', { ...named, utf16: true });
  if (bytes.includes(0)) {
    const name = file === undefined ? 'The file' : `The file ${file}`;
    return found('not-text', { message: `${name} holds something other than text.`, actual: file });
  }
  if (!isUtf8(bytes)) return found('not-utf-8', { ...named, utf16: false });
  const text = bytes.toString('utf8');
  return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
}

function tooLargeToPublish(file: string, size: number): Found | undefined {
  const [limit, cure] = isPhotograph(file)
    ? [photographLimit, 'Export it smaller.']
    : [publishedLimit, 'Make it smaller.'];
  return size > limit ? tooLarge(file, size, limit, cure, true) : undefined;
}

/** What keeps a file from being published, if anything. @param file its path below the journal */
export function unpublishable(folder: Folder, file: string): Found | undefined {
  const there = folder.find(file);
  const named = { file, actual: file };
  switch (there.kind) {
    case 'file':
      return tooLargeToPublish(file, there.stats.size);
    case 'missing':
      return found('missing-file', named);
    case 'outside':
      return found('outside-journal', { of: 'file', ...named });
    case 'other':
      return found('not-a-file', { ...named, what: there.what, to: 'publish' });
  }
}

/** Changes whenever a file is written. */
export const stampOf = ({ mtimeMs, ctimeMs, size, ino }: Stats): string => `${mtimeMs} ${ctimeMs} ${size} ${ino}`;
