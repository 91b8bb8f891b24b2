// Atomic publication: a site is built whole in a staging folder beside the old one and then takes its place by two
// renames. One publication at a time: the site is locked meanwhile. Beside `site` lie, while it is published,
// `.site.lock`, `.site.staging-TOKEN` and for a moment `.site.former-TOKEN`; what a killed run left of them is
// recognised and healed. Of a large site the former one stays as `.site.spare-TOKEN` (`spare-site.ts`).
import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { isOnDisk, isPieces, type FileContent, type Pieces } from './assets.js';
import { besides, leftBeside } from './folders-beside.js';
import { quietly, takeLock, type LockOptions } from './lock.js';
import { beginHash, contentHash, finishHash, manifestFile, manifestText, type Manifest } from './manifest.js';
import {
  isWhole,
  leaveOnlyOurs,
  linkOrCopy,
  manifestHash,
  manifestOf,
  othersIn,
  removeAll,
  removeFormer,
  stampOf,
  takeOver,
} from './site-folder.js';
import { isThereAlready, putSameInPlace, takeSame, type InBoth } from './same-files.js';
import { SpareSite, madeOfSecondNames } from './spare-site.js';
import { bytesOf } from './text-bytes.js';

/** The site can't be published there: the folder is somebody else's, or something of theirs is in the way. */
export class NotOurs extends Error {
  constructor(
    message: string,
    readonly cure = 'name another folder with --to, or empty it yourself.',
  ) {
    super(message);
  }
}

/** The lock was taken away while the site was built. */
export class LockLost extends Error {}

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
function makeFolder(folder: string, made: Set<string>): void {
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

/** Stamps of the files of a site, as they were when it was published. */
export interface Stamps {
  /** Hash of the text of the manifest: which files these were, and with what in them. */
  readonly manifest: string;
  /** By path. */
  readonly files: ReadonlyMap<string, string>;
}

/** A file of a published site: the hash of its content, and the stamp that it had then. */
export interface StampedFile {
  readonly hash: string;
  readonly stamp: string;
}

/** What stands after a swap. */
export interface Swapped {
  readonly files: ReadonlyMap<string, StampedFile>;
  /** Paths of those that were not taken over from the site before. */
  readonly written: readonly string[];
  /** When it was, in milliseconds: what has come into the site since may be others'. */
  readonly at: number;
  /** Where the site before stays. */
  readonly spare?: string;
  /** There was no site before, or one with nothing in common: it is made of second names of this one's files. */
  readonly spareIsSame?: true;
}

export interface StageOptions extends LockOptions {
  /** Of the site that is there: what has its stamp still is not read to see whether it is whole. */
  readonly stampsOf?: (site: string) => Stamps | undefined;
  /**
   * The former site of at least so many files stays beside the new one, for the next to be built in; default: none.
   */
  readonly spareFrom?: number;
  /**
   * Nothing is put down for the next publication: what stands after the swap is not asked for, and a former site stays
   * only where one has stayed before.
   */
  readonly isForgotten?: boolean;
}

export interface Staging {
  /** Real path of the site. */
  readonly site: string;
  /** What stands after the swap; undefined before it, and where it is forgotten. */
  readonly swapped: () => Swapped | undefined;
  /** Folder in which the new site is built. */
  readonly folder: string;
  /** What the site that is there says of itself; missing where there is none. */
  readonly former?: Manifest;
  /** Writes the file of an address; what is the same in the site that is there is taken over. */
  readonly write: (address: string, content: FileContent) => WrittenFile;
  /** What others of ours (worker threads) have to know of the site that is there; missing where there is none. */
  readonly before?: SiteBefore;
  /**
   * Makes room for files that others of ours will write.
   * @returns the hash that the site that is there says of each, by address
   */
  readonly makeRoom: (addresses: readonly string[]) => Readonly<Record<string, string>>;
  /**
   * Takes a file of the site that is there over into the new one, if it is there and whole; false where it is not.
   * @param file as it was when it was published
   */
  readonly takeOver: (file: Omit<WrittenFile, 'bytes'>) => boolean;
  /** Path of a file of the site that is there, if it is whole. @param file as it was when it was published */
  readonly whole: (file: Omit<WrittenFile, 'bytes'>) => string | undefined;
  /** Takes note of files that were written by others of ours (worker threads). */
  readonly note: (files: readonly WrittenFile[]) => void;
  /** Whether the new site has a file of that path. */
  readonly has: (path: string) => boolean;
  /**
   * The staged site takes the old one's place.
   * @param journal the journal's address, and what is registered of it with this publication
   * @param around called when all else is done; what is given to it is the swap itself
   * @returns what lies in the site's folder besides, left as it was: `CNAME`, `.git/`
   */
  readonly swap: (
    journal: Pick<Manifest, 'journal' | 'registered'>,
    around?: (swap: () => void) => Promise<void> | void,
  ) => Promise<readonly string[]>;
  /** Everything staged is thrown away; the old site was never touched. Harmless after a swap. */
  readonly abandon: () => void;
}

/** A site that is being made, wherever that is. */
export type SiteInMaking = Pick<
  Staging,
  'site' | 'folder' | 'before' | 'write' | 'makeRoom' | 'takeOver' | 'whole' | 'note' | 'has'
>;

/** Names that a host's repository of a site begins with; a folder with only these in it may become a site. */
const hostsOwn = /^(?:\.git|\.gitignore|\.gitattributes|\.nojekyll|CNAME|(?:README|LICEN[CS]E)(?:\.\w+)?)$/i;

/** @throws NotOurs if `site` is there and is neither a site of ours nor empty */
export function refuseForeign(site: string): void {
  const there = statSync(site, { throwIfNoEntry: false });
  if (!there) return;
  if (!there.isDirectory()) throw new NotOurs(`${site} is not a folder`);
  const names = readdirSync(site);
  if (!names.includes(manifestFile) && !names.every((name) => hostsOwn.test(name)))
    throw new NotOurs(`${site} holds files that Masstone did not publish`);
}

/** A path with every link in it followed, as far as it is there. */
export function realPath(path: string): string {
  const whole = resolve(path);
  const link = lstatSync(whole, { throwIfNoEntry: false });
  if (link) return link.isSymbolicLink() && !existsSync(whole) ? whole : realpathSync(whole);
  const parent = dirname(whole);
  return parent === whole ? whole : join(realPath(parent), basename(whole));
}

/** @throws NotOurs if publishing to `site` would replace the journal in `journal` */
export function refuseJournal(site: string, journal: string): void {
  const below = relative(realPath(site), realPath(journal));
  const isAbove = below === '..' || below.startsWith(`..${sep}`) || isAbsolute(below);
  if (!isAbove) throw new NotOurs(`${site} holds the journal itself`, 'name another folder with --to.');
}

/**
 * Heals what a killed run left: a site that was moved aside comes back if no other took its place; what was left over
 * goes. Only for the owner of the site's lock.
 * @param spare that is left as it is
 */
export function heal(site: string, spare?: string): void {
  const left = leftBeside(site);
  const formers = left.filter(({ kind }) => kind === 'former');
  if (!existsSync(site) && formers.length > 0) {
    const [last] = formers.sort((a, b) => statSync(b.path).ctimeMs - statSync(a.path).ctimeMs);
    renameSync(last!.path, site);
  }
  for (const { path, kind } of leftBeside(site)) {
    if (kind === 'staging') removeAll(path);
    else if (path !== spare) removeFormer(path, site);
  }
}

/** The old site goes aside, the new one takes its place; if that fails, the old one comes back. */
export function exchange(site: string, next: string, former: string): void {
  const isThere = existsSync(site);
  if (isThere) {
    chmodSync(next, statSync(site).mode & 0o7777);
    renameSync(site, former);
  }
  try {
    renameSync(next, site);
  } catch (error) {
    if (isThere) renameSync(former, site);
    throw error;
  }
}

/**
 * A former site whose place another has taken goes, or stays for the next to be built in.
 * @returns where it stays
 */
export function putAway(former: string, site: string, staysAsSpare: boolean): string | undefined {
  if (!staysAsSpare) {
    removeFormer(former, site);
    return undefined;
  }
  leaveOnlyOurs(former, site);
  const spare = besides(site, 'spare', randomBytes(6).toString('hex'));
  renameSync(former, spare);
  return spare;
}

/** What takes the part of the site before where there was none. @returns where it lies */
function spareMade(site: string, paths: Iterable<string>): string {
  const spare = besides(site, 'spare', randomBytes(6).toString('hex'));
  madeOfSecondNames(site, spare, paths);
  return spare;
}

/** The spare of a site. */
function spareOf(site: string): string | undefined {
  const spares = leftBeside(site).filter(({ kind }) => kind === 'spare');
  return spares.length === 1 ? spares[0]!.path : undefined;
}

/** Stamps of the files of the site that is there; none where they are those of another. */
function stampsFor(site: string, { stampsOf }: StageOptions): Stamps | undefined {
  const stamps = stampsOf?.(site);
  return stamps !== undefined && manifestHash(site) === stamps.manifest ? stamps : undefined;
}

/**
 * Locks the site that stands, or will stand, at `target`, heals it, and opens a staging folder for it.
 * @throws NotOurs if somebody else's folder is there, LockTaken if another publication is under way for longer than
 * is waited
 */
export async function stage(target: string, options: StageOptions = {}): Promise<Staging> {
  const site = realPath(target);
  const [parent, name] = [dirname(site), basename(site)];
  refuseForeign(site);
  mkdirSync(parent, { recursive: true });
  const lock = await takeLock(join(parent, `.${name}.lock`), options);
  const token = randomBytes(6).toString('hex');
  const folder = besides(site, 'staging', token);
  const abandon = (): void => {
    quietly(() => removeAll(folder));
    lock.release();
  };
  let stamps: Stamps | undefined;
  let spare: SpareSite | undefined;
  try {
    const left = spareOf(site);
    heal(site, left);
    refuseForeign(site);
    stamps = stampsFor(site, options);
    spare = left === undefined ? undefined : SpareSite.taken(left, folder);
    if (!spare) {
      if (left !== undefined) removeFormer(left, site);
      mkdirSync(folder);
    }
    rmSync(join(folder, manifestFile), { force: true });
    writeFileSync(join(folder, manifestFile), manifestText({ journal: '', registered: [], files: new Map() }));
  } catch (error) {
    abandon();
    throw error;
  }
  const former = manifestOf(site);
  const files = new Map<string, string>();
  const takenOver = new Set<string>();
  const made = new Set<string>(spare?.folders);
  let swapped: Swapped | undefined;
  // Asked anew of what was taken over too: another publication may have made the same site of other files.
  const stampedFiles = (): Map<string, StampedFile> =>
    new Map([...files].map(([path, hash]) => [path, { hash, stamp: stampOf(join(folder, path)) }]));
  const whole: Staging['whole'] = ({ path, hash }) => {
    const from = join(site, path);
    return former?.files.get(path) === hash && isWhole(from, hash, stamps?.files.get(path)) ? from : undefined;
  };
  const swap: Staging['swap'] = async (journal, around = (work) => work()) => {
    spare?.leaveOnly(files);
    writeFileSync(join(folder, manifestFile), manifestText({ ...journal, files }));
    const others = existsSync(site) ? othersIn(site, former, files) : undefined;
    if (others && others.inTheWay.length > 0) {
      const paths = others.inTheWay.slice(0, 3).map((path) => join(site, path));
      throw new NotOurs(
        `Files that Masstone did not publish are where its own have to be: ${paths.join(', ')}`,
        'move them away, or give the page or picture of that name another.',
      );
    }
    if (others) takeOver(others, site, folder);
    const aside = besides(site, 'former', token);
    const stamped = options.isForgotten ? undefined : stampedFiles();
    const written = [...files.keys()].filter((path) => !takenOver.has(path));
    let at = 0;
    await around(() => {
      at = Date.now();
      if (!lock.holds()) throw new LockLost(`${site} was locked by another publication meanwhile`);
      exchange(site, folder, aside);
    });
    // What is left over is no reason to call a publication failed that has taken place: the next one clears it away.
    let stays: string | undefined;
    const isLarge = files.size >= (options.spareFrom ?? Infinity);
    const isToStay = options.isForgotten ? spare !== undefined : isLarge;
    // A former site that has nothing in common with this one is no help to the next.
    const isMade = isToStay && takenOver.size === 0;
    quietly(() => {
      if (existsSync(aside)) stays = putAway(aside, site, isToStay && !isMade);
      if (isMade) stays = spareMade(site, files.keys());
    });
    const spareNow = stays !== undefined && { spare: stays, ...(isMade && { spareIsSame: true as const }) };
    if (stamped) swapped = { files: stamped, written, at, ...spareNow };
    lock.release();
    return others?.named ?? [];
  };
  const takeOverOurs: Staging['takeOver'] = ({ path, hash }) => {
    if (files.has(path)) return false;
    if (former?.files.get(path) !== hash) return false;
    if (!spare?.has(path, stamps?.files.get(path))) {
      const from = whole({ path, hash });
      if (from === undefined) return false;
      spare?.makeRoom(path, made);
      spare?.remove(path);
      makeFolder(dirname(join(folder, path)), made);
      linkOrCopy(from, join(folder, path));
    }
    files.set(path, hash);
    takenOver.add(path);
    return true;
  };
  const before = former && { site, isInFormer: spare !== undefined };
  const write = writerInto(folder, made, before && { ...before, takeStamped: stamps && takeOverOurs });
  const note = ({ path, hash, isSame }: WrittenFile): void => {
    files.set(path, hash);
    // What was taken over is another now.
    if (isSame) takenOver.add(path);
    else takenOver.delete(path);
  };
  return {
    site,
    folder,
    former,
    ...(before && { before }),
    swapped: () => swapped,
    write: (address, content) => {
      const path = fileOfAddress(address);
      spare?.makeRoom(path, made);
      const file = write(address, content, former?.files.get(path));
      note(file);
      return file;
    },
    makeRoom: (addresses) => {
      const hashes: Record<string, string> = {};
      for (const address of addresses) {
        const path = fileOfAddress(address);
        spare?.makeRoom(path, made);
        const hash = former?.files.get(path);
        if (hash !== undefined) hashes[address] = hash;
      }
      return hashes;
    },
    whole,
    takeOver: takeOverOurs,
    note: (written) => {
      for (const file of written) note(file);
    },
    has: (path) => files.has(path),
    swap,
    abandon,
  };
}

/** Bytes of a file as published, for tests and the reading copy. */
export const readPublished = (site: string, address: string): Buffer =>
  readFileSync(join(site, fileOfAddress(address)));
