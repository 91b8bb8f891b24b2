// Whether a journal is what it was when it was published, but for words of some entries.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { answerOf, isSpeltAndListed, type Answers, type AskedFolder } from '../../journal/asked-folder.js';
import { openFolder, type Folder } from '../../journal/folder.js';
import { hashOf } from '../../kept/inputs.js';
import { registerLock } from '../register-file.js';
import type { Known, KnownEntry } from './known.js';
import { unsureFor } from './as-it-was.js';

/** An entry whose file has another text. */
export interface EditedFile {
  readonly file: string;
  readonly text: string;
  readonly known: KnownEntry;
}

export interface JournalAgain {
  readonly edited: readonly EditedFile[];
  /** The entries as they are now. */
  readonly entries: ReadonlyMap<string, KnownEntry>;
}

/** An answer to put down: empty where a file was written to so shortly before that it may be again, unnoticed. */
function answerToKnow(answer: string, asked: number): string {
  const [kind, ...times] = answer.split(' ');
  if (kind !== 'file') return answer;
  return Math.max(Number(times[0]), Number(times[1])) > asked - unsureFor ? '' : answer;
}

/** Larger files are not read to see whether they are the same. */
const largest = 2 * 1024 * 1024;

/** Hash of the text of a small file; undefined where there is none. */
export function hashOfFile(file: string): string | undefined {
  try {
    const bytes = readFileSync(file);
    return bytes.length > largest ? undefined : hashOf(bytes);
  } catch {
    return undefined;
  }
}

/** Files that publications themselves write: what stands in them counts. */
export const written = ['register.txt', '.remarks.json'];

/**
 * What to put down of a journal as it was read.
 * @param began when it began to be read, in milliseconds
 */
export function knownOfFolder(
  asked: AskedFolder,
  texts: Pick<ReadonlyMap<string, string>, 'has'>,
  began: number,
): Pick<Known, 'asked' | 'texts'> & { readonly answers: ReadonlyMap<string, string> } {
  const { found, ...rest } = asked.answers;
  const answers = new Map<string, string>();
  const others: [string, string][] = [];
  const unsure: [string, string][] = [];
  const read = (path: string): void => {
    const hash = hashOfFile(join(asked.root, path));
    if (hash !== undefined) unsure.push([path, hash]);
  };
  for (const [path, answer] of found) {
    const sure = answerToKnow(answer, began);
    if (texts.has(path)) answers.set(path, sure);
    else if (written.includes(path)) continue;
    else {
      others.push([path, sure]);
      if (sure === '') read(path);
    }
  }
  for (const path of written) read(path);
  return { asked: { found: others, ...rest } satisfies Answers, texts: Object.fromEntries(unsure), answers };
}

/** Whether everything but the files of entries is what it was. */
function areOthersAsTheyWere(folder: Folder, { asked, texts }: Known): boolean {
  if (!isSpeltAndListed(folder, asked)) return false;
  const isSame = ([path, answer]: readonly [string, string]): boolean =>
    answer === '' ? texts[path] !== undefined : answerOf(folder.find(path)) === answer;
  return (
    asked.found.every(isSame) &&
    written.every((path) => texts[path] !== undefined) &&
    Object.entries(texts).every(([path, hash]) => hashOfFile(join(folder.root, path)) === hash)
  );
}

/** The same journal with other words in some entries; undefined where more may be another. */
export function journalAgain(journal: string, known: Known): JournalAgain | undefined {
  const folder = openFolder(journal);
  if (folder?.root !== known.root || existsSync(registerLock(journal))) return undefined;
  const began = Date.now();
  const entries = new Map<string, KnownEntry>();
  const edited: EditedFile[] = [];
  for (const [file, entry] of known.entries) {
    if (entry.answer !== '' && answerOf(folder.find(file)) === entry.answer) {
      entries.set(file, entry);
      continue;
    }
    const read = folder.read(file);
    if (!read.ok) return undefined;
    const text = hashOf(read.text);
    const now = { ...entry, text, answer: answerToKnow(`file ${read.stamp}`, began) };
    entries.set(file, now);
    if (text !== entry.text) edited.push({ file, text: read.text, known: entry });
  }
  return areOthersAsTheyWere(folder, known) ? { edited, entries } : undefined;
}
