// Writing the register: before the site goes live, whole or not at all, and nothing that another publication added is
// lost.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { readRegister, registerFile, registerText, sortedAddresses } from '../journal/index.js';
import { takeLock } from './lock.js';
import { writeWhole } from './whole-file.js';

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

/** Takes away the lock of a run that was ended; another's is left. */
async function clearStale(lockFile: string): Promise<void> {
  try {
    (await takeLock(lockFile, { patience: 0 })).release();
  } catch {
    // It is held, or the journal can only be read.
  }
}

/** The lock of a journal's register; it stands only while the register is written. */
export const registerLock = (folder: string): string => join(folder, `.${registerFile}.lock`);

/**
 * Does `work` with the journal's register holding `addresses` and all that was in it. Where `work` fails, the register
 * is again what it was. A register that has them already is not written.
 * @param folder the journal's folder
 */
export async function withRegistered(folder: string, addresses: readonly string[], work: () => void): Promise<void> {
  const file = join(folder, registerFile);
  const wantedOf = (text: string | undefined): string =>
    registerText(sortedAddresses([...readRegister(text ?? '').register, ...addresses]));
  const lockFile = registerLock(folder);
  const before = textOf(file);
  if (before === wantedOf(before)) {
    work();
    if (existsSync(lockFile)) await clearStale(lockFile);
    return;
  }
  const lock = await takeLock(lockFile);
  try {
    const now = textOf(file);
    writeWhole(file, wantedOf(now));
    try {
      work();
    } catch (error) {
      if (now === undefined) rmSync(file, { force: true });
      else writeWhole(file, now);
      throw error;
    }
  } finally {
    lock.release();
  }
}
