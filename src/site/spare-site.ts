// The site before last, kept beside a large one: most of its files are those of the present site under second names,
// and so will be most of the next. It becomes the folder in which the next site is built, so that thousands of folders
// need not be made and taken away again. What is in it is not believed: a file counts only with the stamp that it was
// given when it was published, or with the very bytes that are to be written, and nothing is ever written into a file
// that is there.
import { mkdirSync, renameSync, rmSync, rmdirSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { manifestFile, manifestText } from './manifest.js';
import { everything, foldersAbove, linkOrCopy, manifestOf, removeAll, stampOf } from './site-folder.js';

/**
 * A folder in which all files of a site are under second names: what a site before last would be if nothing had
 * changed.
 * Nothing is left of it where that fails.
 * @param folder that is not there yet
 * @param paths of the site's files
 */
export function madeOfSecondNames(site: string, folder: string, paths: Iterable<string>): void {
  const all = [...paths];
  try {
    mkdirSync(folder);
    // With it the folder is known as ours if this run is killed.
    const files = new Map(all.map((path) => [path, '']));
    writeFileSync(join(folder, manifestFile), manifestText({ journal: '', registered: [], files }));
    // A folder comes after the one that it lies in.
    for (const path of [...new Set(all.flatMap(foldersAbove))].sort()) mkdirSync(`${folder}/${path}`);
    for (const path of all) linkOrCopy(`${site}/${path}`, `${folder}/${path}`);
  } catch (error) {
    removeAll(folder);
    throw error;
  }
}

export class SpareSite {
  private constructor(
    private readonly folder: string,
    /** Paths of the files that are in it. */
    private readonly files: Set<string>,
    private readonly ownFolders: Set<string>,
  ) {}

  /**
   * Moves a spare to where the next site is built.
   * @returns undefined where something in it is not ours; it is then where it was
   */
  static taken(path: string, folder: string): SpareSite | undefined {
    const manifest = manifestOf(path);
    if (!manifest) return undefined;
    const files = new Set<string>();
    const folders = new Set<string>();
    for (const one of everything(path)) {
      if (one.kind === 'folder') folders.add(one.path);
      else if (one.kind === 'file' && manifest.files.has(one.path)) files.add(one.path);
      else if (one.path !== manifestFile) return undefined;
    }
    renameSync(path, folder);
    return new SpareSite(folder, files, folders);
  }

  /** Whole paths of its folders. */
  get folders(): string[] {
    return [...this.ownFolders].map((path) => join(this.folder, path));
  }

  /** Whether a file is in it as it was published. @param stamp that it had then */
  has(path: string, stamp: string | undefined): boolean {
    return stamp !== undefined && this.files.has(path) && stampOf(join(this.folder, path)) === stamp;
  }

  /**
   * Takes away what is in the way of a file that is to be made, but for one of the same name.
   * @param made whole paths of folders that are there
   */
  makeRoom(path: string, made: Set<string>): void {
    for (const above of foldersAbove(path)) if (this.files.delete(above)) unlinkSync(join(this.folder, above));
    if (this.ownFolders.has(path)) this.removeFolder(path, made);
  }

  /** Takes a file away, if it is there. */
  remove(path: string): void {
    if (this.files.delete(path)) rmSync(join(this.folder, path), { force: true });
  }

  /** Takes away all that the new site has not. */
  leaveOnly(next: ReadonlyMap<string, string>): void {
    for (const path of this.files) if (!next.has(path)) unlinkSync(join(this.folder, path));
    const needed = new Set([...next.keys()].flatMap(foldersAbove));
    const rest = [...this.ownFolders].filter((path) => !needed.has(path));
    for (const path of rest.sort().reverse()) rmdirSync(join(this.folder, path));
  }

  private removeFolder(path: string, made: Set<string>): void {
    removeAll(join(this.folder, path));
    const isBelow = (other: string): boolean => other === path || other.startsWith(`${path}/`);
    for (const one of this.files) if (isBelow(one)) this.files.delete(one);
    for (const one of this.ownFolders)
      if (isBelow(one)) {
        this.ownFolders.delete(one);
        made.delete(join(this.folder, one));
      }
  }
}
