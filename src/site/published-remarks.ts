// Which remarks there were at the last publication, so that the proof can tell what is new.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Cause } from '../remarks/causes.js';
import { writeWhole } from './whole-file.js';

const fileName = '.remarks.json';

/** The same as long as the same thing is said of the same thing; numbers of lines change. */
export const keyOfCause = ({ remark: { ruleId, subject, file, actual, reason } }: Cause): string =>
  subject === undefined ? `${ruleId} ${file} ${actual ?? reason}` : `${ruleId} ${subject}`;

/** Keys of the remarks at the last publication; undefined where nothing is known of one. */
export function remarksPublished(folder: string): ReadonlySet<string> | undefined {
  try {
    const read: unknown = JSON.parse(readFileSync(join(folder, fileName), 'utf8'));
    return Array.isArray(read) ? new Set(read.map(String)) : undefined;
  } catch {
    return undefined;
  }
}

/** Keys of all, each once, in order. */
export const keysOfCauses = (causes: readonly Cause[]): readonly string[] =>
  [...new Set(causes.map(keyOfCause))].sort();

/** Keeps the remarks of a publication; where the folder cannot be written, the proof only knows less. */
export function keepRemarks(folder: string, causes: readonly Cause[]): void {
  try {
    writeWhole(join(folder, fileName), `${JSON.stringify(keysOfCauses(causes), undefined, 1)}\n`);
  } catch {
    // Nothing rests on it but `proof --new`.
  }
}
