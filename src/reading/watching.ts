// Watches a journal's folder, through renaming and coming back of the folder itself; where watching fails, says so
// once.
import { statSync } from 'node:fs';
import { watch, type FSWatcher } from 'chokidar';

export interface Watching {
  /** False when the files cannot be watched, so that changes are not told. */
  readonly works: () => boolean;
  readonly close: () => Promise<void>;
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

/** Starts watching; resolves when changes are noticed from now on, or watching has failed. */
export async function watchJournal(folder: string, options: WatchingOptions): Promise<Watching> {
  const { onChange, onTrouble, lookEvery = 1000 } = options;
  let failed = false;
  let watcher: FSWatcher | undefined;
  let identity = identityOrFault(folder);

  const begin = async (): Promise<void> => {
    const begun = watch(folder, {
      ignoreInitial: true,
      followSymlinks: false,
      ignored: (path) => /(^|[/\\])\.[^/\\]+$/.test(path.slice(folder.length)) || path.endsWith('~'),
    });
    watcher = begun;
    begun.on('all', onChange);
    await new Promise<void>((done) => {
      begun.once('ready', done);
      begun.on('error', (error) => {
        if (!failed) onTrouble(error as NodeJS.ErrnoException);
        failed = true;
        done();
      });
    });
    if (failed) await begun.close();
  };

  // The watcher does not notice when the folder itself is renamed and comes back, or is another of the same name.
  const look = setInterval(() => {
    const now = identityOrFault(folder);
    if (now === identity || failed) return;
    identity = now;
    void (async () => {
      await watcher?.close();
      if (now !== 'gone') await begin();
      onChange();
    })();
  }, lookEvery);
  look.unref();

  await begin();
  return {
    works: () => !failed,
    close: async () => {
      clearInterval(look);
      await watcher?.close();
    },
  };
}
