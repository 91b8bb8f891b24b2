// Texts that are kept say by which code they were written and what they must come to: what was damaged, or is of other
// code, is not taken.
import { randomBytes } from 'node:crypto';
import { closeSync, openSync, readFileSync, renameSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { HashInPieces, hashOf } from './inputs.js';

/** First line of a text that is kept; of the same length for all texts. */
const headOf = (version: string, hash: string): string => `kept 1 ${version} ${hash}\n`;

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
  return text.slice(0, end) === headOf(version, hashOf(rest)) ? rest : undefined;
}

export const writeChecked = (file: string, version: string, rest: string): void =>
  writeBeside(file, headOf(version, hashOf(rest)) + rest);

/** So many bytes are written at a time. */
const atOnce = 1 << 20;

/**
 * The same of a text that is large, piece by piece.
 * @param length of the whole text in signs
 */
export function writeCheckedPieces(
  file: string,
  version: string,
  { length, pieces }: { readonly length: number; readonly pieces: Iterable<string> },
): void {
  const hash = new HashInPieces(length);
  // Its first line is known when all has been gone through.
  const head = headOf(version, hashOf());
  const write = (beside: string): void => {
    const handle = openSync(beside, 'w');
    try {
      let [at, gathered] = [head.length, ''];
      const putDown = (): void => {
        const bytes = Buffer.from(gathered);
        for (let done = 0; done < bytes.length; )
          done += writeSync(handle, bytes, done, bytes.length - done, at + done);
        [at, gathered] = [at + bytes.length, ''];
      };
      for (const piece of pieces) {
        hash.take(piece);
        gathered += piece;
        if (gathered.length >= atOnce) putDown();
      }
      putDown();
      writeSync(handle, headOf(version, hash.end()), 0);
    } finally {
      closeSync(handle);
    }
  };
  madeBeside(file, write);
}

/** Written beside and renamed, so that whoever reads meanwhile finds the old text or the new one. */
export const writeBeside = (file: string, content: string | Uint8Array): void =>
  madeBeside(file, (beside) => writeFileSync(beside, content));

function madeBeside(file: string, write: (beside: string) => void): void {
  const beside = `${file}.${randomBytes(6).toString('hex')}`;
  try {
    write(beside);
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}
