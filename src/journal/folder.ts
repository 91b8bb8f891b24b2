// The only way to the files of a journal: regular files inside its folder, of a size that can be meant; nothing else is read.
import { isUtf8 } from 'node:buffer';
import { lstatSync, readFileSync, readdirSync, realpathSync, statSync, type Stats } from 'node:fs';
import { join, sep } from 'node:path';
import { remark, type Place, type Remark } from './remarks.js';

/** Largest Markdown or YAML file, and largest data file, that are read, in bytes. */
const textLimit = 2 * 1024 * 1024;

/** Whether a file below the journal goes onto the site where it is named: photos and spectra do. */
export const isPublishedFile = (path: string): boolean => /^(?:photos|spectra)\//.test(path);

export type FileText =
  | { readonly ok: true; readonly text: string; readonly stamp: string }
  | { readonly ok: false; readonly remark: Remark };
export type Found =
  | { readonly kind: 'file'; readonly stats: Stats }
  | { readonly kind: 'missing' }
  | { readonly kind: 'outside' }
  | { readonly kind: 'other'; readonly what: string };

export interface Folder {
  /** Absolute path, links followed. */
  readonly root: string;
  /** Names of a folder below the journal, sorted; none when there is no such folder. */
  readonly list: (below: string) => {
    readonly names: readonly string[];
    readonly folders: readonly string[];
    readonly remarks: Remark[];
  };
  /** What stands at a path below the journal. */
  readonly find: (path: string) => Found;
  /** A path as the disk spells it, found without regard to capitals and to how accents are put together. */
  readonly spelling: (path: string) => string | undefined;
  /**
   * Text of a file below the journal; `at` is where remarks about it are put (default: the file itself). With `decode` the
   * file need not be UTF-8: it turns its bytes into text (what instruments write).
   */
  readonly read: (path: string, at?: Place, decode?: (bytes: Uint8Array) => string) => FileText;
}

const moveIn = 'Put the file itself into the journal’s folder.';

export function openFolder(folder: string): Folder | undefined {
  let root: string;
  try {
    root = realpathSync(folder);
    if (!statSync(root).isDirectory()) return undefined;
  } catch {
    return undefined;
  }
  const inside = (real: string): boolean => real === root || real.startsWith(root.endsWith(sep) ? root : root + sep);

  /** Folders whose own path holds no link, so that a plain file in them needs no second look. */
  const plainFolders = new Map<string, boolean>();
  const isPlain = (below: string): boolean => {
    let plain = plainFolders.get(below);
    if (plain === undefined) {
      try {
        plain = realpathSync(join(root, below)) === join(root, below);
      } catch {
        plain = false;
      }
      plainFolders.set(below, plain);
    }
    return plain;
  };

  const find = (path: string): Found => {
    if (path.includes('\0') || path.length > 4000) return { kind: 'missing' };
    const full = join(root, path);
    if (!inside(full)) return { kind: 'outside' };
    try {
      const slash = path.lastIndexOf('/');
      let stats = lstatSync(full);
      if (stats.isSymbolicLink() || !isPlain(slash < 0 ? '' : path.slice(0, slash))) {
        if (!inside(realpathSync(full))) return { kind: 'outside' };
        stats = statSync(full);
      }
      if (stats.isFile()) return { kind: 'file', stats };
      return { kind: 'other', what: stats.isDirectory() ? 'a folder' : 'not an ordinary file' };
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG') return { kind: 'missing' };
      return {
        kind: 'other',
        what: code === 'ELOOP' ? 'a link that leads to itself' : `not readable (${code ?? 'unknown'})`,
      };
    }
  };

  const listed = new Map<string, readonly string[]>();
  const namesIn = (below: string): readonly string[] => {
    let names = listed.get(below);
    if (!names) {
      try {
        names = readdirSync(join(root, below));
      } catch {
        names = [];
      }
      listed.set(below, names);
    }
    return names;
  };
  const spelling: Folder['spelling'] = (path) => {
    if (find(path).kind === 'outside') return undefined;
    let spelt = '';
    for (const part of path.split('/')) {
      const names = namesIn(spelt);
      const name = names.includes(part) ? part : names.find((one) => folded(one) === folded(part));
      if (name === undefined) return undefined;
      spelt = spelt === '' ? name : `${spelt}/${name}`;
    }
    return spelt;
  };

  const read: Folder['read'] = (path, at, decode) => {
    const place = at ?? { file: path, line: 1, column: 1 };
    const refuse = (rule: string, found: string, cure: string): FileText => ({
      ok: false,
      remark: remark({ place, severity: 'error', rule, found, actual: at ? path : undefined, cure }),
    });
    const what = find(path);
    const name = at ? `The file ${path}` : 'The file';
    switch (what.kind) {
      case 'missing':
        return refuse('missing-file', `${name} does not exist.`, 'Correct the path, or put the file there.');
      case 'outside':
        return refuse('outside-journal', `${name} leads out of the journal’s folder and is not read.`, moveIn);
      case 'other':
        return refuse('not-a-file', `${name} is ${what.what} and is not read.`, moveIn);
      case 'file':
        break;
    }
    if (what.stats.size > textLimit)
      return refuse(
        'file-size',
        `${name} has ${(what.stats.size / 1024 / 1024).toFixed(1)} MB; at most ${textLimit / 1024 / 1024} MB are read.`,
        'Shorten it, or split it.',
      );
    let bytes: Buffer;
    try {
      bytes = readFileSync(join(root, path));
    } catch (error) {
      return refuse(
        'unreadable',
        `${name} can’t be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`,
        'Look at the file’s permissions.',
      );
    }
    if (decode) return { ok: true, text: decode(bytes), stamp: stampOf(what.stats) };
    if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
      return refuse('not-utf-8', `${name} is saved as UTF-16.`, 'Save it as UTF-8.');
    if (bytes.includes(0))
      return refuse(
        'not-text',
        `${name} holds something other than text.`,
        'Save it as plain text (UTF-8), or move it out of this folder.',
      );
    if (!isUtf8(bytes)) return refuse('not-utf-8', `${name} is not saved as UTF-8.`, 'Save it as UTF-8.');
    const text = bytes.toString('utf8');
    return { ok: true, text: text.charCodeAt(0) === 0xfeff ? text.slice(1) : text, stamp: stampOf(what.stats) };
  };

  const list: Folder['list'] = (below) => {
    const what = find(below);
    const remarks: Remark[] = [];
    const place = { file: below, line: 1, column: 1 };
    if (what.kind === 'missing') return { names: [], folders: [], remarks };
    if (what.kind !== 'other' || what.what !== 'a folder') {
      const found =
        what.kind === 'outside'
          ? `The folder ${below} leads out of the journal and is not read.`
          : `${below} should be a folder, and is not.`;
      remarks.push(
        remark({
          place,
          severity: 'error',
          rule: what.kind === 'outside' ? 'outside-journal' : 'not-a-folder',
          found,
          cure: `Make ${below} a folder inside the journal’s.`,
        }),
      );
      return { names: [], folders: [], remarks };
    }
    try {
      const all = readdirSync(join(root, below), { withFileTypes: true }).filter(({ name }) => !name.startsWith('.'));
      return {
        names: all
          .filter((one) => !one.isDirectory())
          .map(({ name }) => name)
          .sort(),
        folders: all
          .filter((one) => one.isDirectory())
          .map(({ name }) => name)
          .sort(),
        remarks,
      };
    } catch (error) {
      remarks.push(
        remark({
          place,
          severity: 'error',
          rule: 'unreadable',
          found: `The folder ${below} can’t be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`,
          cure: 'Look at the folder’s permissions.',
        }),
      );
      return { names: [], folders: [], remarks };
    }
  };

  return { root, list, find, spelling, read };
}

const folded = (name: string): string => name.normalize('NFC').toLowerCase();

/** Changes whenever a file is written. */
export const stampOf = ({ mtimeMs, ctimeMs, size, ino }: Stats): string => `${mtimeMs} ${ctimeMs} ${size} ${ino}`;
