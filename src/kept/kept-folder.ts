// The folder below a journal's in which is kept what was made before; it may be deleted at any time, and git leaves it.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Name of the folder below the journal's. */
export const keptFolder = '.kept';

/** Makes it with a folder in it, where they are not there. @throws where the disk takes nothing */
export function makeKeptFolder(journal: string, part: string): void {
  mkdirSync(join(journal, keptFolder, part), { recursive: true });
  writeFileSync(join(journal, keptFolder, '.gitignore'), '*\n');
}
