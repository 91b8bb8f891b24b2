// Watches a journal's folder, through renaming and coming back of the folder itself; where watching fails, says so
// once.
import { statSync } from 'node:fs';
import { FoldersWatched } from './folders-watched.js';

export interface Watching {
  /** False when the files cannot be watched, so that changes are not told. */
  readonly works: () => boolean;
  readonly close: () => void;
}

export interface WatchingOptions {
  readonly onChange: () => void;
  /** Called once if the files cannot be watched. */
  readonly onTrouble: (error: NodeJS.ErrnoException) => void;
  /** Milliseconds between two looks at the folder itself. Default: 1000. */
  readonly lookEvery?: number;
}

/** What tells a folder from another of its name, or that it is gone. */
function identityOf(folder: string): string {
  const stats = statSync(folder, { throwIfNoEntry: false });
  return stats ? `${stats.dev} ${stats.ino}` : 'gone';
}

function identityOrFault(folder: string): string {
  try {
    return identityOf(folder);
  } catch {
    return 'gone';
  }
}

/** Starts watching: changes are noticed from now on, or watching has failed. */
export function watchJournal(folder: string, options: WatchingOptions): Watching {
  const { onChange, onTrouble, lookEvery = 1000 } = options;
  let failed = false;
  let watched: FoldersWatched | undefined;
  let identity = identityOrFault(folder);

  const fail = (error: NodeJS.ErrnoException): void => {
    if (!failed) onTrouble(error);
    failed = true;
    watched?.close();
  };
  const begin = (): void => {
    watched?.close();
    watched = new FoldersWatched(folder, { onChange, onTrouble: fail });
    if (failed) watched.close();
  };

  // A folder does not tell that it was renamed and came back, or is another of the same name.
  const look = setInterval(() => {
    const now = identityOrFault(folder);
    if (now === identity || failed) return;
    identity = now;
    begin();
    onChange();
  }, lookEvery);
  look.unref();

  begin();
  return {
    works: () => !failed,
    close: () => {
      clearInterval(look);
      watched?.close();
    },
  };
}
