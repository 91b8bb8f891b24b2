// A file that is written whole or not at all: beside its place, down to the disk, then renamed.
import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  fsyncSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** The directory's own entry comes down to the disk too, where the system allows it. */
function flushFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // Not every system opens folders.
  }
}

function writeFlushed(file: string, text: string | Uint8Array): void {
  const handle = openSync(file, 'wx');
  try {
    writeFileSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

const modeOf = (file: string): number | undefined => statSync(file, { throwIfNoEntry: false })?.mode;

/** Takes away what a killed writing of the same file left beside it. */
function clearLeft(file: string): void {
  const left = new RegExp(`^\\.${basename(file).replaceAll('.', '\\.')}\\.[0-9a-f]{12}$`);
  for (const name of readdirSync(dirname(file)))
    if (left.test(name)) rmSync(join(dirname(file), name), { force: true });
}

/**
 * Writes a file so that at every instant the old text or the new one stands there, whole. Callers see to it that no two
 * write the same file at once.
 */
export function writeWhole(path: string, text: string | Uint8Array): void {
  const mode = modeOf(path);
  // Where the file is a link, what it leads to is replaced.
  const file = mode === undefined ? path : realpathSync(path);
  clearLeft(file);
  const beside = join(dirname(file), `.${basename(file)}.${randomBytes(6).toString('hex')}`);
  try {
    writeFlushed(beside, text);
    if (mode !== undefined) chmodSync(beside, mode & 0o7777);
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
  flushFolder(dirname(file));
}
