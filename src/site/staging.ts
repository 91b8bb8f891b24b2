// Atomic publication: a site is built whole in a staging folder beside the old one and then takes its place by two
// renames. One publication at a time: the site is locked meanwhile. Beside `site` lie, while it is published,
// `.site.lock`, `.site.staging-TOKEN` and for a moment `.site.former-TOKEN`; what a killed run left of them is
// recognised and healed. Of a large site the former one stays as `.site.spare-TOKEN` (`spare-site.ts`).
import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { FileContent } from './assets.js';
import { fileOfAddress, makeFolder, writerInto, type SiteBefore, type WrittenFile } from './file-writing.js';
import { besides } from './folders-beside.js';
import { quietly, takeLock, type Lock, type LockOptions } from './lock.js';
import { manifestFile, manifestText, type Manifest } from './manifest.js';
import {
  isWhole,
  linkOrCopy,
  manifestHash,
  manifestOf,
  othersIn,
  removeAll,
  removeFormer,
  stampOf,
  takeOver,
} from './site-folder.js';
import {
  exchange,
  heal,
  LockLost,
  NotOurs,
  putAway,
  realPath,
  refuseForeign,
  spareMade,
  spareOf,
} from './site-places.js';
import { SpareSite } from './spare-site.js';

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

/** Stamps of the files of the site that is there; none where they are those of another. */
function stampsFor(site: string, { stampsOf }: StageOptions): Stamps | undefined {
  const stamps = stampsOf?.(site);
  return stamps !== undefined && manifestHash(site) === stamps.manifest ? stamps : undefined;
}

/** What a site is staged with. */
interface Begun {
  readonly site: string;
  readonly lock: Lock;
  /** Part of the names of what lies beside the site for this publication. */
  readonly token: string;
  /** Where it is built. */
  readonly folder: string;
  readonly stamps: Stamps | undefined;
  readonly spare: SpareSite | undefined;
  readonly options: StageOptions;
}

/** Makes the folder in which the new site is built, or takes the spare for it. */
function openFolder(site: string, folder: string): SpareSite | undefined {
  const left = spareOf(site);
  heal(site, left);
  refuseForeign(site);
  const spare = left === undefined ? undefined : SpareSite.taken(left, folder);
  if (!spare) {
    if (left !== undefined) removeFormer(left, site);
    mkdirSync(folder);
  }
  beginManifest(folder);
  return spare;
}

/**
 * Puts the manifest of a site that is not there yet into its folder; that of a spare, which may be another site's under
 * a second name, is replaced at one stroke. Without one at every moment a later run would not know the folder for ours.
 */
function beginManifest(folder: string): void {
  const manifest = join(folder, manifestFile);
  const text = manifestText({ journal: '', registered: [], files: new Map() });
  const isThere = existsSync(manifest);
  const begun = isThere ? `${manifest}.begun` : manifest;
  writeFileSync(begun, text);
  if (isThere) renameSync(begun, manifest);
}

class StagedSite implements Staging {
  readonly site: string;
  readonly folder: string;
  readonly former?: Manifest;
  readonly before?: SiteBefore;
  /** Hashes of the files of the new site, by path. */
  private readonly files = new Map<string, string>();
  private readonly takenOver = new Set<string>();
  /** Folders that are there. */
  private readonly made: Set<string>;
  private readonly writeInto: ReturnType<typeof writerInto>;
  private stands: Swapped | undefined;

  constructor(private readonly begun: Begun) {
    const { site, folder, spare, stamps } = begun;
    this.site = site;
    this.folder = folder;
    const former = manifestOf(site);
    if (former) {
      this.former = former;
      this.before = { site, isInFormer: spare !== undefined };
    }
    this.made = new Set(spare?.folders);
    const withStamps = this.before && { ...this.before, takeStamped: stamps && this.takeOver };
    this.writeInto = writerInto(folder, this.made, withStamps);
  }

  readonly swapped = (): Swapped | undefined => this.stands;

  readonly has = (path: string): boolean => this.files.has(path);

  readonly whole: Staging['whole'] = ({ path, hash }) => {
    const from = join(this.site, path);
    const stamp = this.begun.stamps?.files.get(path);
    return this.former?.files.get(path) === hash && isWhole(from, hash, stamp) ? from : undefined;
  };

  readonly takeOver: Staging['takeOver'] = ({ path, hash }) => {
    const { spare, stamps } = this.begun;
    if (this.files.has(path) || this.former?.files.get(path) !== hash) return false;
    if (!spare?.has(path, stamps?.files.get(path))) {
      const from = this.whole({ path, hash });
      if (from === undefined) return false;
      spare?.makeRoom(path, this.made);
      spare?.remove(path);
      makeFolder(dirname(join(this.folder, path)), this.made);
      linkOrCopy(from, join(this.folder, path));
    }
    this.files.set(path, hash);
    this.takenOver.add(path);
    return true;
  };

  readonly write = (address: string, content: FileContent): WrittenFile => {
    const hashBefore = this.roomFor(address);
    const file = this.writeInto(address, content, hashBefore);
    this.noteOne(file);
    return file;
  };

  readonly makeRoom: Staging['makeRoom'] = (addresses) => {
    const hashes: Record<string, string> = {};
    for (const address of addresses) {
      const hash = this.roomFor(address);
      if (hash !== undefined) hashes[address] = hash;
    }
    return hashes;
  };

  readonly note: Staging['note'] = (written) => {
    for (const file of written) this.noteOne(file);
  };

  readonly swap: Staging['swap'] = async (journal, around = (work) => work()) => {
    const { lock, spare, token, options } = this.begun;
    spare?.leaveOnly(this.files);
    writeFileSync(join(this.folder, manifestFile), manifestText({ ...journal, files: this.files }));
    const others = this.withOthers();
    const aside = besides(this.site, 'former', token);
    const stamped = options.isForgotten ? undefined : this.stampedFiles();
    const written = [...this.files.keys()].filter((path) => !this.takenOver.has(path));
    let at = 0;
    await around(() => {
      at = Date.now();
      if (!lock.holds()) throw new LockLost(`${this.site} was locked by another publication meanwhile`);
      exchange(this.site, this.folder, aside);
    });
    const spareNow = this.clearAway(aside);
    if (stamped) this.stands = { files: stamped, written, at, ...spareNow };
    lock.release();
    return others;
  };

  readonly abandon = (): void => {
    quietly(() => removeAll(this.folder));
    this.begun.lock.release();
  };

  /** Makes room for a file. @returns the hash that the site that is there says of it */
  private roomFor(address: string): string | undefined {
    const path = fileOfAddress(address);
    this.begun.spare?.makeRoom(path, this.made);
    return this.former?.files.get(path);
  }

  private noteOne({ path, hash, isSame }: WrittenFile): void {
    this.files.set(path, hash);
    // What was taken over is another now.
    if (isSame) this.takenOver.add(path);
    else this.takenOver.delete(path);
  }

  /**
   * Asked anew of what was taken over too: another publication may have made the same site of other files.
   */
  private stampedFiles(): Map<string, StampedFile> {
    const stamped = ([path, hash]: [string, string]) =>
      [path, { hash, stamp: stampOf(join(this.folder, path)) }] as const;
    return new Map([...this.files].map(stamped));
  }

  /** Takes what others have put into the site's folder along. @returns what that is */
  private withOthers(): readonly string[] {
    const { site, former, files } = this;
    if (!existsSync(site)) return [];
    const others = othersIn(site, former, files);
    if (others.inTheWay.length > 0) {
      const paths = others.inTheWay.slice(0, 3).map((path) => join(site, path));
      throw new NotOurs(
        `Files that Masstone did not publish are where its own have to be: ${paths.join(', ')}`,
        'move them away, or give the page or picture of that name another.',
      );
    }
    takeOver(others, site, this.folder);
    return others.named;
  }

  /**
   * The former site goes, or stays as a spare. What is left over is no reason to call a publication failed that has
   * taken place: the next one clears it away.
   */
  private clearAway(aside: string): Pick<Swapped, 'spare' | 'spareIsSame'> {
    const { site, files } = this;
    const { options, spare } = this.begun;
    const isLarge = files.size >= (options.spareFrom ?? Infinity);
    const isToStay = options.isForgotten ? spare !== undefined : isLarge;
    // A former site that has nothing in common with this one is no help to the next.
    const isMade = isToStay && this.takenOver.size === 0;
    let stays: string | undefined;
    quietly(() => {
      if (existsSync(aside)) stays = putAway(aside, site, isToStay && !isMade);
      if (isMade) stays = spareMade(site, files.keys());
    });
    return stays === undefined ? {} : { spare: stays, ...(isMade && { spareIsSame: true as const }) };
  }
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
  try {
    const spare = openFolder(site, folder);
    const stamps = stampsFor(site, options);
    return new StagedSite({ site, lock, token, folder, stamps, spare, options });
  } catch (error) {
    quietly(() => removeAll(folder));
    lock.release();
    throw error;
  }
}

/** Bytes of a file as published, for tests and the reading copy. */
export const readPublished = (site: string, address: string): Buffer =>
  readFileSync(join(site, fileOfAddress(address)));
