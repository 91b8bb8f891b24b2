// What lies in the folder of a site: files of ours, which a publication replaces, and files of others, which it
// leaves as they are.
import {
  chmodSync,
  copyFileSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  readlinkSync,
  renameSync,
  rmSync,
  rmdirSync,
  symlinkSync,
  unlinkSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { contentHash, manifestFile, readManifest, type Manifest } from './manifest.js';

/**
 * Something in a folder, by its path below it, with forward slashes. A link is taken for itself, whatever it leads
 * to.
 */
interface Found {
  readonly path: string;
  readonly kind: 'file' | 'folder' | 'link';
}

/** All that lies in a folder, each folder before what is in it. */
export function* everything(folder: string, below = ''): Iterable<Found> {
  for (const one of readdirSync(join(folder, below), { withFileTypes: true })) {
    const path = below === '' ? one.name : `${below}/${one.name}`;
    if (one.isDirectory()) {
      yield { path, kind: 'folder' };
      yield* everything(folder, path);
    } else yield { path, kind: one.isSymbolicLink() ? 'link' : 'file' };
  }
}

/** Folders that a path lies in: `a/b/c.txt` → `a`, `a/b`. */
export function foldersAbove(path: string): string[] {
  const parts = path.split('/');
  return parts.slice(1).map((_, at) => parts.slice(0, at + 1).join('/'));
}

/** The manifest of the site in a folder; undefined where there is none, or none that can be read. */
export function manifestOf(site: string): Manifest | undefined {
  try {
    return readManifest(readFileSync(join(site, manifestFile), 'utf8'));
  } catch {
    return undefined;
  }
}

/** Hash of the text of a site's manifest, which tells its files from those of another. */
export function manifestHash(site: string): string | undefined {
  try {
    return contentHash(readFileSync(join(site, manifestFile)));
  } catch {
    return undefined;
  }
}

/** Files of others in a site's folder. */
export interface Others {
  /** Each file, link and folder of theirs. */
  readonly found: readonly Found[];
  /** The same in few words, for a sentence: `CNAME`, `.git/`. */
  readonly named: readonly string[];
  /** Paths of theirs that lie where a file of the new site has to be. */
  readonly inTheWay: readonly string[];
}

/** What changes when a file is written to, or another takes its place. */
export function stampOf(file: string): string {
  const { size, mtimeMs, ino } = lstatSync(file);
  return `${size} ${mtimeMs} ${ino}`;
}

/** Bytes of a file, as its stamp tells them; none of a file that is not there. */
export const bytesInStamp = (of: { readonly stamp: string } | undefined): number =>
  Number(of?.stamp.split(' ')[0] ?? 0);

/**
 * Whether a file is there with the content it was published with. A link is none of ours, whatever it leads to.
 * @param stamp that it had when it was written: where it has it still, it need not be read
 */
export function isWhole(file: string, hash: string, stamp?: string): boolean {
  try {
    if (stamp !== undefined && stampOf(file) === stamp) return true;
    return lstatSync(file).isFile() && contentHash(readFileSync(file)) === hash;
  } catch {
    return false;
  }
}

/** Whether a file of ours that is not published any more has been changed by somebody since. */
const changedSince = (site: string, path: string, hash: string): boolean => !isWhole(join(site, path), hash);

/**
 * Looks for files of others in a site's folder.
 * @param former manifest of the site that is there; where it is not known, a file is ours if the new site has one of
 * its name
 * @param next paths of the new site's files
 */
export function othersIn(
  site: string,
  former: Manifest | undefined,
  next: { has(path: string): boolean; keys(): Iterable<string> },
): Others {
  const nextFolders = new Set([...next.keys()].flatMap(foldersAbove));
  const ourFolders = new Set([...nextFolders, ...[...(former?.files.keys() ?? [])].flatMap(foldersAbove)]);
  const isOurs = ({ path, kind }: Found): boolean => {
    if (path === manifestFile) return true;
    if (kind === 'folder') return ourFolders.has(path);
    const hash = former?.files.get(path);
    if (hash === undefined) return former === undefined && next.has(path);
    return next.has(path) || !changedSince(site, path, hash);
  };
  const found = [...everything(site)].filter((one) => !isOurs(one));
  const isInTheWay = ({ path, kind }: Found): boolean =>
    next.has(path) ||
    (kind !== 'folder' && nextFolders.has(path)) ||
    foldersAbove(path).some((above) => next.has(above));
  const inTheWay = found.filter(isInTheWay).map(({ path }) => path);
  const folders = new Set(found.filter(({ kind }) => kind === 'folder').map(({ path }) => path));
  const named = found
    .filter(({ path }) => !foldersAbove(path).some((above) => folders.has(above)))
    .map(({ path, kind }) => (kind === 'folder' ? `${path}/` : path));
  return { found, named, inTheWay };
}

/** The same file under a second name; where the file system has no links, a copy. */
export function linkOrCopy(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException;
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'].includes(code)) throw error;
    copyFileSync(from, to);
  }
}

/** Takes files of others over into the new site; in the old one they stay as they are. */
export function takeOver({ found }: Others, site: string, next: string): void {
  for (const { path, kind } of found) {
    const [from, to] = [join(site, path), join(next, path)];
    mkdirSync(dirname(to), { recursive: true });
    if (kind === 'folder') mkdirSync(to, { recursive: true });
    else if (kind === 'link') symlinkSync(readlinkSync(from), to);
    else linkOrCopy(from, to);
  }
  // Modes last: nothing could be put into a folder that may not be written to.
  for (const { path, kind } of found)
    if (kind === 'folder') chmodSync(join(next, path), lstatSync(join(site, path)).mode & 0o7777);
}

/** Whether two paths are the same file, or links that lead to the same place, or files of the same content. */
function areSame(one: string, other: string): boolean {
  const [a, b] = [lstatSync(one), lstatSync(other)];
  if (a.ino === b.ino && a.dev === b.dev) return true;
  if (a.isSymbolicLink() && b.isSymbolicLink()) return readlinkSync(one) === readlinkSync(other);
  return a.isFile() && b.isFile() && a.size === b.size && readFileSync(one).equals(readFileSync(other));
}

/** Moves what came into the former site after its files were taken over; undefined where both sites have another. */
function rescue(former: string, site: string, path: string, ours: ReadonlyMap<string, string> | undefined): void {
  const [from, to] = [join(former, path), join(site, path)];
  if (!lstatSync(to, { throwIfNoEntry: false })) {
    mkdirSync(dirname(to), { recursive: true });
    renameSync(from, to);
    return;
  }
  const isNewer = lstatSync(from).mtimeMs > lstatSync(to).mtimeMs;
  if (areSame(from, to) || !isNewer) unlinkSync(from);
  else if (ours && !ours.has(path)) renameSync(from, to);
}

/** Does what the system may refuse: then it is left for a closer look. */
function ifPossible(work: () => void): void {
  try {
    work();
  } catch {
    // It is gone, or is not what it was.
  }
}

/** Takes away what is known to be ours, and each folder that is then empty, without looking at what else there is. */
function removeKnown(
  former: string,
  was: ReadonlyMap<string, string>,
  is: { readonly has: (path: string) => boolean },
): void {
  const folders = new Set<string>();
  for (const [path, hash] of was) {
    if (is.has(path) || !changedSince(former, path, hash)) ifPossible(() => unlinkSync(join(former, path)));
    for (const folder of foldersAbove(path)) folders.add(folder);
  }
  const depth = (folder: string): number => folder.split('/').length;
  for (const folder of [...folders].sort((a, b) => depth(b) - depth(a)))
    ifPossible(() => rmdirSync(join(former, folder)));
}

/**
 * Takes away a former site whose place another has taken. Nothing of others goes: what is not in the new site is moved
 * there. What cannot be is left where it lies.
 */
export function removeFormer(former: string, site: string): void {
  const was = manifestOf(former)?.files;
  const is = manifestOf(site)?.files;
  if (was && is) removeKnown(former, was, is);
  const folders: string[] = [];
  for (const { path, kind } of [...everything(former)]) {
    if (kind === 'folder') folders.push(path);
    if (kind === 'folder' || path === manifestFile) continue;
    const replaced = was ? was.has(path) && existsSync(join(site, path)) : (is?.has(path) ?? false);
    const dropped = was?.has(path) === true && !replaced && !changedSince(former, path, was.get(path)!);
    if (replaced || dropped) unlinkSync(join(former, path));
    else rescue(former, site, path, is);
  }
  for (const folder of folders.reverse()) removeIfEmpty(join(former, folder));
  // The manifest goes last: as long as it is there, a later run knows the folder for ours.
  if (readdirSync(former).every((name) => name === manifestFile)) {
    rmSync(join(former, manifestFile), { force: true });
    removeIfEmpty(former);
  }
}

/**
 * Takes out of a former site, whose place another has taken, all that the new one has not: what is left are files of
 * ours under their second names, or as they were before. Nothing of others goes: what is not in the new site is moved
 * there.
 */
export function leaveOnlyOurs(former: string, site: string): void {
  const was = manifestOf(former)?.files ?? new Map<string, string>();
  const is = manifestOf(site)?.files ?? new Map<string, string>();
  const needed = new Set([...is.keys()].flatMap(foldersAbove));
  const folders: string[] = [];
  for (const { path, kind } of [...everything(former)]) {
    if (kind === 'folder' && !needed.has(path)) folders.push(path);
    if (kind === 'folder' || path === manifestFile || (was.has(path) && is.has(path))) continue;
    if (was.has(path) && !changedSince(former, path, was.get(path)!)) unlinkSync(join(former, path));
    else rescue(former, site, path, is);
  }
  for (const folder of folders.reverse()) removeIfEmpty(join(former, folder));
}

function removeIfEmpty(folder: string): void {
  if (readdirSync(folder).length === 0) rmdirSync(folder);
}

/**
 * Takes a folder away in which everything is ours or a second name of what lies elsewhere. Its manifest goes last:
 * where this is cut short, a later run knows the rest for ours.
 */
export function removeAll(folder: string): void {
  if (existsSync(join(folder, manifestFile)))
    for (const name of readdirSync(folder))
      if (name !== manifestFile) rmSync(join(folder, name), { recursive: true, force: true });
  rmSync(folder, { recursive: true, force: true });
}
