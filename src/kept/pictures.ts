// What is kept of pictures beside the journal is bounded: what the site shows stays, of the rest the newest.
import { lstatSync, readdirSync, rmSync, type Stats } from 'node:fs';
import { basename, join } from 'node:path';

/** So much is kept of what the last publication did not show: it may come back, as when a draft is taken up again. */
export const mostUnused = 200 * 1024 * 1024;

/** Names that are made here: a hash, and the forms and the index of what has it. */
const ours = /^((?:share-)?[0-9a-f]{32})(?:\.\d+\.(?:avif|webp|jpeg)|\.[a-z][a-z0-9]{1,4})(\.\d+)?$/;

/** A file that was being written when its writer was stopped is left alone for so long, in milliseconds. */
const beingWritten = 60 * 60 * 1000;

/** A picture in the cache: its forms and its index have one name in front. */
interface KeptPicture {
  readonly files: { readonly file: string; readonly size: number; readonly links: number }[];
  /** When the newest of its files was written. */
  newest: number;
}

function statsOf(file: string): Stats | undefined {
  try {
    return lstatSync(file);
  } catch {
    return undefined;
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function remove(file: string): void {
  try {
    rmSync(file);
  } catch {
    // What cannot be removed stays; another publication tries again.
  }
}

/** Pictures in the cache that no publication's list names, by their name in front. */
function unusedIn(cache: string, used: ReadonlySet<string>): Map<string, KeptPicture> {
  const pictures = new Map<string, KeptPicture>();
  for (const name of namesIn(cache)) {
    const [, picture, half] = ours.exec(name) ?? [];
    if (picture === undefined || used.has(picture)) continue;
    const file = join(cache, name);
    const stats = statsOf(file);
    // Only plain files are made here.
    if (!stats?.isFile()) continue;
    if (half !== undefined) {
      if (Date.now() - stats.mtimeMs > beingWritten) remove(file);
      continue;
    }
    const known = pictures.get(picture) ?? { files: [], newest: 0 };
    known.files.push({ file, size: stats.size, links: stats.nlink });
    known.newest = Math.max(known.newest, stats.mtimeMs);
    pictures.set(picture, known);
  }
  return pictures;
}

/** Files that a site holds by a link of its own take no room of the cache's. */
const roomOf = ({ files }: KeptPicture): number =>
  files.reduce((sum, { size, links }) => sum + (links > 1 ? 0 : size), 0);

/**
 * Takes out of a cache of pictures what the last publication did not show, the oldest first, down to a limit. Files
 * that were not made here are never touched.
 * @param shown paths in the cache that were published
 */
export function boundPictures(cache: string, shown: Iterable<string>, limit = mostUnused): void {
  // A link to another folder is somebody's own arrangement.
  if (!statsOf(cache)?.isDirectory()) return;
  const used = new Set([...shown].flatMap((file) => ours.exec(basename(file))?.[1] ?? []));
  const unused = [...unusedIn(cache, used).values()].sort((a, b) => b.newest - a.newest);
  let kept = 0;
  for (const picture of unused) {
    const room = roomOf(picture);
    kept += room;
    if (room === 0 || kept <= limit) continue;
    // The index goes first: what it lists is there as long as it is.
    const isIndex = ({ file }: { readonly file: string }): boolean => file.endsWith('.json');
    for (const { file } of picture.files.filter(isIndex)) remove(file);
    for (const { file } of picture.files.filter((one) => !isIndex(one))) remove(file);
  }
}
