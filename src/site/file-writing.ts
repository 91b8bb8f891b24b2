// Writes files of a site by address; what is the same in the site before is taken over instead.
import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { isOnDisk, isPieces, type FileContent, type Pieces } from './assets.js';
import { beginHash, contentHash, finishHash } from './manifest.js';
import { isThereAlready, putSameInPlace, takeSame, type InBoth } from './same-files.js';
import { bytesOf } from './text-bytes.js';

/** File of an address: `/14/` → `14/index.html`. */
export const fileOfAddress = (address: string): string =>
  (address.endsWith('/') ? `${address}index.html` : address).slice(1);

/** A file as written: its path in the site, its size and the hash of its content. */
export interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
  readonly hash: string;
  /** It is the very file of the site that is there, under a second name. */
  readonly isSame?: true;
}

/** Makes a file that is not there: one that is there may be the file of the published site under a second name. */
function asNew<T>(file: string, make: () => T): T {
  try {
    return make();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    rmSync(file);
    return make();
  }
}

/** Small pieces are written together, up to so many bytes. */
const writtenAtOnce = 65_536;

/** Pieces as bytes, small ones together; large bytes as they are, each done with before the next is asked for. */
function* together(pieces: Iterable<string | Uint8Array>): Iterable<Uint8Array> {
  let some: Uint8Array[] = [];
  let bytes = 0;
  for (const piece of pieces) {
    const one = typeof piece === 'string' ? Buffer.from(piece) : piece;
    if (one.length >= writtenAtOnce) {
      if (bytes > 0) yield Buffer.concat(some);
      [some, bytes] = [[], 0];
      yield one;
      continue;
    }
    some.push(one);
    bytes += one.length;
    if (bytes < writtenAtOnce) continue;
    yield Buffer.concat(some);
    [some, bytes] = [[], 0];
  }
  if (some.length > 0) yield Buffer.concat(some);
}

function writePieces(file: string, pieces: Iterable<string | Uint8Array>): Omit<WrittenFile, 'path'> {
  const hash = beginHash();
  let bytes = 0;
  const handle = asNew(file, () => openSync(file, 'wx'));
  try {
    for (const all of together(pieces)) {
      hash.update(all);
      for (let at = 0; at < all.length; ) at += writeSync(handle, all, at);
      bytes += all.length;
    }
  } finally {
    closeSync(handle);
  }
  return { bytes, hash: finishHash(hash) };
}

/** Makes a folder. @param made those that are there already */
export function makeFolder(folder: string, made: Set<string>): void {
  if (made.has(folder)) return;
  // Most folders lie in one that is there, and making just them takes half the time.
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another thread, or the site before last, may have made it.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') mkdirSync(folder, { recursive: true });
  }
  made.add(folder);
}

/** The site before the one that is written, of which files are taken over that are the same. */
export interface SiteBefore {
  readonly site: string;
  /** The folder that is written into was that of a former site, and may hold the same files already. */
  readonly isInFormer: boolean;
  /** Takes a file over if its stamp says that it is the same, without reading it; where stamps are known. */
  readonly takeStamped?: ((file: Omit<WrittenFile, 'bytes'>) => boolean) | undefined;
}

/**
 * Writes files by address into a folder.
 * @param made folders that are there already
 * @param before what may have the same files
 * @returns a function of the address, the content and the hash that the site before says of its file there
 */
export function writerInto(
  folder: string,
  made: Set<string> = new Set(),
  before?: SiteBefore,
): (address: string, content: FileContent, hashBefore?: string) => WrittenFile {
  const inBoth = (path: string): InBoth => ({ file: join(folder, path), before: join(before!.site, path) });
  const isTakenOver = (written: WrittenFile, bytes: Uint8Array): boolean => {
    if (before!.takeStamped?.(written)) return true;
    const both = inBoth(written.path);
    if (before!.isInFormer && isThereAlready(both, bytes)) return true;
    makeFolder(dirname(both.file), made);
    return takeSame(both, bytes);
  };
  const writtenInPieces = (path: string, content: Pieces, hashBefore: string | undefined): WrittenFile => {
    const file = join(folder, path);
    makeFolder(dirname(file), made);
    const written = { path, ...writePieces(file, content.pieces()) };
    const isSame = before && written.hash === hashBefore && putSameInPlace(inBoth(path));
    return isSame ? { ...written, isSame } : written;
  };
  return (address, content, hashBefore) => {
    const path = fileOfAddress(address);
    if (isPieces(content)) return writtenInPieces(path, content, hashBefore);
    const whole = isOnDisk(content) ? readFileSync(content.file) : content;
    // Made bytes once: to write, to count and to hash.
    const bytes = typeof whole === 'string' ? bytesOf(whole) : whole;
    const written = { path, bytes: bytes.length, hash: contentHash(bytes) };
    if (before && written.hash === hashBefore && isTakenOver(written, bytes)) return { ...written, isSame: true };
    const file = join(folder, path);
    makeFolder(dirname(file), made);
    asNew(file, () => writeFileSync(file, bytes, { flag: 'wx' }));
    return written;
  };
}
