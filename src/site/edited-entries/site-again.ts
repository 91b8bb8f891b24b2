// The next site, of which few pages are others: it is made in the folder of the site before last, where all that has
// not changed lies already, once it is sure that nobody has changed anything in it or in the site.
import { randomBytes } from 'node:crypto';
import { lstatSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { FileContent } from '../assets.js';
import { besides } from '../folders-beside.js';
import { fileOfAddress, writerInto, type WrittenFile } from '../file-writing.js';
import { LockLost, exchange, putAway } from '../site-places.js';
import { quietly, type Lock } from '../lock.js';
import { contentHash, manifestFile, manifestText, readManifest, withOtherHashes } from '../manifest.js';
import { foldersAbove, linkOrCopy, removeAll, stampOf } from '../site-folder.js';
import { madeOfSecondNames } from '../spare-site.js';
import { areFoldersAsTheyWere, noFolder, pathIn, spareIn, stampToKnow } from './as-it-was.js';
import type { KnownSite } from './known.js';

/** The folder that a file lies in. @example folderOf('find/words/4.json') // 'find/words' */
export const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));

/** The next site, made in the folder of the one before. */
export class SiteAgain {
  private readonly token = randomBytes(6).toString('hex');
  /** Where it is made. */
  readonly folder: string;
  private readonly written = new Map<string, string>();
  private readonly dropped = new Set<string>();
  private readonly made: Set<string>;
  private readonly touched = new Set<string>(['']);

  /** @param known of which it is sure that all is as it was */
  constructor(
    private readonly known: KnownSite,
    private readonly lock: Lock,
  ) {
    const { site, folders, spare } = known;
    this.folder = besides(site, 'staging', this.token);
    if (spare === undefined) {
      madeOfSecondNames(site, this.folder, known.files.keys());
      for (const path of folders.keys()) this.touched.add(path);
      this.made = new Set([...folders.keys()].map((path) => this.pathOf(path)));
      return;
    }
    renameSync(spareIn(known), this.folder);
    this.made = new Set([...folders].flatMap(([path, [, stamp]]) => (stamp === noFolder ? [] : [this.pathOf(path)])));
  }

  /** Writes a file, in a folder that the site has already. */
  write(address: string, content: FileContent): WrittenFile {
    const path = fileOfAddress(address);
    this.touch(path);
    rmSync(this.pathOf(path), { force: true });
    const file = writerInto(this.folder, this.made)(address, content);
    this.written.set(path, file.hash);
    return file;
  }

  /** Leaves a file out that the site has, with others in its folder. */
  drop(path: string): void {
    this.touch(path);
    rmSync(this.pathOf(path), { force: true });
    this.dropped.add(path);
  }

  /**
   * The site takes the place of the one that is there.
   * @returns what is known of it then; undefined where something was changed meanwhile, so that too little is known
   */
  swap(): KnownSite | undefined {
    const { known, folder } = this;
    const { site } = known;
    this.takeRest();
    const manifest = this.writeManifest();
    const aside = besides(site, 'former', this.token);
    const files = this.filesNow();
    const at = Date.now();
    if (!this.lock.holds()) throw new LockLost(`${site} was locked by another publication meanwhile`);
    exchange(site, folder, aside);
    let after: KnownSite | undefined;
    // What is left over is no reason to call a publication failed that has taken place.
    quietly(() => {
      if (!this.isAsideAsItWas(aside)) return void putAway(aside, site, true);
      for (const path of this.dropped) rmSync(pathIn(aside, path));
      const spare = besides(site, 'spare', randomBytes(6).toString('hex'));
      renameSync(aside, spare);
      after = this.knownNow(files, manifest, spare, at);
    });
    return after;
  }

  /** Everything that was made is thrown away; harmless after a swap. */
  abandon(): void {
    quietly(() => removeAll(this.folder));
  }

  private pathOf(path: string): string {
    return path === '' ? this.folder : join(this.folder, path);
  }

  private touch(path: string): void {
    for (const above of foldersAbove(path)) this.touched.add(above);
  }

  private isAsideAsItWas(aside: string): boolean {
    const isAsItWas = (path: string): boolean => stampOf(pathIn(aside, path)) === this.known.files.get(path)!.stamp;
    return areFoldersAsTheyWere(this.known, aside, 0) && [...this.dropped].every(isAsItWas);
  }

  /** Files that are others than in the site, and are not written now. */
  private takeRest(): void {
    const { known } = this;
    for (const path of known.older) {
      if (this.written.has(path) || this.dropped.has(path)) continue;
      this.touch(path);
      const to = this.pathOf(path);
      for (const above of foldersAbove(path)) this.makeFolder(above);
      rmSync(to, { force: true });
      linkOrCopy(pathIn(known.site, path), to);
    }
  }

  private makeFolder(path: string): void {
    const folder = this.pathOf(path);
    if (this.made.has(folder)) return;
    mkdirSync(folder);
    this.made.add(folder);
  }

  private writeManifest(): string {
    const now = this.manifestNow(readFileSync(join(this.known.site, manifestFile), 'utf8'));
    const file = join(this.folder, manifestFile);
    const beside = `${file}.${this.token}`;
    writeFileSync(beside, now);
    renameSync(beside, file);
    return contentHash(now);
  }

  /** @param text that of the manifest which is there */
  private manifestNow(text: string): string {
    const same = this.dropped.size === 0 ? withOtherHashes(text, this.written) : undefined;
    if (same !== undefined) return same;
    const was = readManifest(text);
    if (!was) throw new Error('the manifest is not what it was');
    const files = new Map([...was.files, ...this.written]);
    for (const path of this.dropped) files.delete(path);
    return manifestText({ ...was, files });
  }

  private filesNow(): KnownSite['files'] {
    const { known, written, folder } = this;
    const files = new Map(known.files);
    for (const path of this.dropped) files.delete(path);
    for (const path of [...known.older, ...written.keys()]) {
      if (this.dropped.has(path)) continue;
      const hash = written.get(path) ?? known.files.get(path)!.hash;
      files.set(path, { hash, stamp: stampOf(pathIn(folder, path)) });
    }
    return files;
  }

  private knownNow(files: KnownSite['files'], manifest: string, spare: string, at: number): KnownSite {
    const { known, written, dropped, touched } = this;
    const { site } = known;
    const lessened = new Set([...dropped].map(folderOf));
    const folders = new Map(
      [...known.folders].map(([path, [was, is]]) => {
        // Of folders of which it was not sure, all names were looked at.
        const own = touched.has(path) || is === '' ? stampToKnow(pathIn(site, path), at) : is;
        const isUnsure = was === '' || lessened.has(path);
        return [path, [own, isUnsure ? stampToKnow(pathIn(spare, path), at) : was] as const];
      }),
    );
    return { site, spare: basename(spare), older: [...written.keys()], manifest, files, folders };
  }
}

/** Whether a file of the site before is the same file as that of the site, and not one like it. */
export function areSecondNames(site: string, spare: string, path: string): boolean {
  const [one, other] = [site, spare].map((folder) => lstatSync(pathIn(folder, path), { throwIfNoEntry: false }));
  return one !== undefined && other !== undefined && one.ino === other.ino && one.dev === other.dev;
}
