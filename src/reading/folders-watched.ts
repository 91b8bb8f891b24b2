// Watches the folders of a journal, each by itself. Files are not watched one by one: of thousands each would be asked
// for its time after every change of one.
import { lstatSync, readdirSync, watch, type FSWatcher } from 'node:fs';
import { join, sep } from 'node:path';

/** What editors and systems put beside files is no change of a journal. */
const isAside = (name: string): boolean => name.startsWith('.') || name.endsWith('~');

/** Whether it is a folder itself, and no link to one; what cannot be looked at is none. */
function isFolder(path: string): boolean {
  try {
    return lstatSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
  } catch {
    return false;
  }
}

const namesIn = (folder: string): readonly string[] => (isFolder(folder) ? readdirSync(folder) : []);

export interface FoldersWatchedOptions {
  readonly onChange: () => void;
  /** Called where a folder cannot be watched. */
  readonly onTrouble: (error: NodeJS.ErrnoException) => void;
}

/** A folder and all folders in it, those that come later too. */
export class FoldersWatched {
  private readonly watchers = new Map<string, FSWatcher>();

  /** @param root may be missing: nothing is watched then */
  constructor(
    root: string,
    private readonly options: FoldersWatchedOptions,
  ) {
    this.take(root);
  }

  close(): void {
    for (const watcher of this.watchers.values()) watcher.close();
    this.watchers.clear();
  }

  /** Watches the folder that is at a path now, if there is one: it may be another than was watched by that name. */
  private take(path: string): void {
    this.drop(path);
    try {
      if (!isFolder(path)) return;
      const watcher = watch(path, (event, name) => this.heard(path, event, name));
      watcher.on('error', (error) => this.failed(path, error));
      this.watchers.set(path, watcher);
      for (const name of namesIn(path)) if (!isAside(name) && isFolder(join(path, name))) this.take(join(path, name));
    } catch (error) {
      this.failed(path, error as NodeJS.ErrnoException);
    }
  }

  /** Folders go while they are looked at: that is a change, and no trouble. */
  private failed(path: string, error: NodeJS.ErrnoException): void {
    this.drop(path);
    if (isFolder(path)) this.options.onTrouble(error);
    else this.options.onChange();
  }

  private drop(path: string): void {
    for (const [one, watcher] of this.watchers) {
      if (one !== path && !one.startsWith(path + sep)) continue;
      watcher.close();
      this.watchers.delete(one);
    }
  }

  private heard(folder: string, event: string, name: string | null): void {
    if (name !== null && isAside(name)) return;
    // A file that is written to is no folder that came or went.
    if (event === 'rename') for (const one of name === null ? namesIn(folder) : [name]) this.mayHaveCome(folder, one);
    this.options.onChange();
  }

  private mayHaveCome(folder: string, name: string): void {
    const path = join(folder, name);
    if (this.watchers.has(path) || isFolder(path)) this.take(path);
  }
}
