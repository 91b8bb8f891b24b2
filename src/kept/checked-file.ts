// Texts that are kept say by which code they were written and what they must come to: what was damaged, or is of other
// code, is not taken.
import { randomBytes } from 'node:crypto';
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hashOf } from './inputs.js';

/** First line of a text that is kept. */
const headOf = (version: string, rest: string): string => `kept 1 ${version} ${hashOf(rest)}\n`;

/** A text as it was kept; undefined where it is missing, damaged or of other code. */
export function readChecked(file: string, version: string): string | undefined {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
  const end = text.indexOf('\n') + 1;
  const rest = text.slice(end);
  return text.slice(0, end) === headOf(version, rest) ? rest : undefined;
}

export const writeChecked = (file: string, version: string, rest: string): void =>
  writeBeside(file, headOf(version, rest) + rest);

/** Written beside and renamed, so that whoever reads meanwhile finds the old text or the new one. */
export function writeBeside(file: string, content: string | Uint8Array): void {
  const beside = `${file}.${randomBytes(6).toString('hex')}`;
  try {
    writeFileSync(beside, content);
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}
