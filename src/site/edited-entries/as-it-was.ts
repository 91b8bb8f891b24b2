// Whether a site, and the one before that lies beside it, are as a publication left them: thousands of files and
// folders are asked for their stamps.
import { lstatSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { leftBeside } from '../folders-beside.js';
import { contentHash, manifestFile } from '../manifest.js';
import { foldersAbove, stampOf } from '../site-folder.js';
import type { KnownSite } from './known.js';

/**
 * What was written to so shortly before, in milliseconds, may be written to again and have the same time: some disks
 * count whole seconds, two at a time.
 */
export const unsureFor = 2500;

/** What changes when something comes into a folder or goes; undefined where it is not there. */
function folderStamp(folder: string): { readonly stamp: string; readonly time: number } | undefined {
  const stats = lstatSync(folder, { throwIfNoEntry: false });
  return stats?.isDirectory() ? { stamp: `${stats.mtimeMs} ${stats.ino}`, time: stats.mtimeMs } : undefined;
}

/**
 * The stamp of a folder as it is put down: empty where it may not tell of a change.
 * @param at when it was sure what is in it, in milliseconds
 */
export function stampToKnow(folder: string, at: number): string {
  const found = folderStamp(folder);
  if (!found) return noFolder;
  return found.time > at - unsureFor ? '' : found.stamp;
}

export const noFolder = 'none';

export const pathIn = (folder: string, path: string): string => (path === '' ? folder : `${folder}/${path}`);

/** Folders of files, the outermost too. */
export const foldersOf = (paths: Iterable<string>): Set<string> => new Set(['', ...[...paths].flatMap(foldersAbove)]);

/**
 * Stamps of the folders of a site and of the one before, where there is one.
 * @param at when the site took its place, in milliseconds
 */
export function folderStamps(
  site: string,
  spare: string | undefined,
  folders: Iterable<string>,
  at: number,
): Map<string, readonly [site: string, spare: string]> {
  const of = (folder: string, path: string): string => stampToKnow(pathIn(folder, path), at);
  const ofSpare = (path: string): string => (spare === undefined ? noFolder : of(spare, path));
  return new Map([...folders].map((path) => [path, [of(site, path), ofSpare(path)] as const]));
}

/** Names that have to be in folders. */
function namesIn(known: KnownSite, folders: ReadonlySet<string>): ReadonlyMap<string, ReadonlySet<string>> {
  const names = new Map([...folders].map((path) => [path, new Set(path === '' ? [manifestFile] : [])]));
  const lengths = new Set([...folders].map(({ length }) => length));
  const put = (path: string): void => {
    const slash = path.lastIndexOf('/');
    // Of ten thousand paths few lie in these folders.
    if (!lengths.has(Math.max(0, slash))) return;
    names.get(slash < 0 ? '' : path.slice(0, slash))?.add(path.slice(slash + 1));
  };
  for (const path of known.files.keys()) put(path);
  for (const path of known.folders.keys()) if (path !== '') put(path);
  return names;
}

/** Which of the two: the site, or the one before. */
type Side = 0 | 1;

/** Whether a folder is as its stamp says; of one without a stamp, its names are looked at. */
const isFolderAsItWas = (folder: string, path: string, stamp: string): boolean =>
  stamp === '' || (folderStamp(pathIn(folder, path))?.stamp ?? noFolder) === stamp;

/** Whether in folders that have no stamp there is nothing but what was. */
function areUnsureAsTheyWere(known: KnownSite, folder: string, side: Side): boolean {
  const unsure = new Set([...known.folders].flatMap(([path, stamps]) => (stamps[side] === '' ? [path] : [])));
  if (unsure.size === 0) return true;
  const names = namesIn(known, unsure);
  return [...unsure].every((path) => {
    const there = readdirSync(pathIn(folder, path));
    const wanted = names.get(path)!;
    if (!there.every((name) => wanted.has(name))) return false;
    return side === 1 ? areSpareFiles(known, folder, path, wanted) : there.length === wanted.size;
  });
}

/** Whether the folders are as they were, and nothing is in them but what was. */
export const areFoldersAsTheyWere = (known: KnownSite, folder: string, side: Side): boolean =>
  [...known.folders].every(([path, stamps]) => isFolderAsItWas(folder, path, stamps[side])) &&
  areUnsureAsTheyWere(known, folder, side);

/** Whether a folder of the site before has the files of the site, but for those that are known to be others. */
function areSpareFiles(known: KnownSite, folder: string, below: string, names: ReadonlySet<string>): boolean {
  const older = new Set(known.older);
  return [...names].every((name) => {
    const path = below === '' ? name : `${below}/${name}`;
    const file = known.files.get(path);
    return file === undefined || older.has(path) || stampOf(pathIn(folder, path)) === file.stamp;
  });
}

/** Where the site before lies. */
export const spareIn = ({ site, spare }: KnownSite): string => join(dirname(site), spare!);

/** Something of the site or of the one before that has a stamp: whether that is what it was. */
type Stamped = () => boolean;

/** All that has a stamp, the same in the same order wherever it is asked for. */
export function stampedIn(known: KnownSite): readonly Stamped[] {
  const { site, files, folders } = known;
  const foldersIn = (folder: string, side: Side): Stamped[] =>
    [...folders].map(
      ([path, stamps]) =>
        () =>
          isFolderAsItWas(folder, path, stamps[side]),
    );
  return [
    ...[...files].map(
      ([path, { stamp }]) =>
        () =>
          stampOf(pathIn(site, path)) === stamp,
    ),
    ...foldersIn(site, 0),
    ...(known.spare === undefined ? [] : foldersIn(spareIn(known), 1)),
  ];
}

/** The same of all that has no stamp: what lies beside the site, its manifest, and folders written to lately. */
export function isRestAsItWas(known: KnownSite): boolean {
  const { site } = known;
  const left = leftBeside(site).map(({ path }) => path);
  if (left.join('\n') !== (known.spare === undefined ? '' : spareIn(known))) return false;
  if (contentHash(readFileSync(join(site, manifestFile))) !== known.manifest) return false;
  if (!areUnsureAsTheyWere(known, site, 0)) return false;
  return known.spare === undefined || areUnsureAsTheyWere(known, spareIn(known), 1);
}
