// Photos, spectra and other files that entries and pages name: what of them is published, and where it lies on the
// disk.
import { existsSync, realpathSync, statSync } from 'node:fs';
import { join, sep } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import { isPublishedFile } from '../journal/index.js';

/**
 * Real path of each named file that is published, by its path below the journal; nothing from outside the journal's
 * folder.
 */
export function namedFiles({ journal }: JournalModel): Map<string, string> {
  const root = realpathSync(journal.folder) + sep;
  const files = new Map<string, string>();
  for (const path of new Set([...journal.files, ...journal.readings.keys()])) {
    const file = join(journal.folder, path);
    if (!isPublishedFile(path) || !existsSync(file)) continue;
    const real = realpathSync(file);
    if (real.startsWith(root) && statSync(real).isFile()) files.set(path, journal.published?.get(path) ?? real);
  }
  // The smaller forms of photographs, which no one names.
  for (const [path, file] of journal.published ?? []) if (!files.has(path)) files.set(path, file);
  return files;
}
