// Answers of short commands, kept beside the journal and told again as long as the disk answers everything that they
// were made of byte for byte as it did. Each lies in a file of its own, so that none of what publications keep is read
// for it, and everything is compared as it is: loading what hashes would take longer. At the least doubt an answer is
// reckoned anew.
import {
  existsSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  writeFileSync,
  type Dirent,
  type Stats,
} from 'node:fs';
import { join } from 'node:path';
import { keptFolder, makeKeptFolder } from './kept-folder.js';
import { askDisk, type Answered, type Noted, type Question } from './noted-files.js';

/** What a command said, piece by piece, and its exit code. */
export interface Answer {
  readonly said: readonly (readonly [to: 'result' | 'aside', text: string])[];
  readonly code: 0 | 1;
}

type MadeOf = readonly (readonly [question: Question, path: string, answered: string])[];

interface KeptAnswer extends Answer {
  readonly key: readonly string[];
  readonly madeOf: MadeOf;
}

/** Where the answer to a question is kept. */
export interface AnswerPlace {
  /** Absolute path of the journal's folder. */
  readonly journal: string;
  /** All that the answer depends on besides the disk. */
  readonly key: readonly string[];
}

const answersFolder = 'answers';

/** So many are kept, the newest, and so many bytes of them; none that is longer (in signs). */
const [most, mostBytes, longest] = [100, 40e6, 2e6];

const kindOf = (one: Stats | Dirent): string => {
  if (one.isFile()) return 'file';
  if (one.isDirectory()) return 'folder';
  return one.isSymbolicLink() ? 'link' : 'other';
};

/** All that a command may draw on of what the disk answered. */
function inWords(answered: Answered): string {
  if (answered === 'nothing there') return answered;
  const { value } = answered;
  // Each byte is a sign.
  if (value instanceof Uint8Array) return `bytes ${value.toString('latin1')}`;
  if (Array.isArray(value)) return `holds ${JSON.stringify(value.map((one) => [kindOf(one), one.name]))}`;
  if (typeof value !== 'object') return `is ${value}`;
  const kind = kindOf(value);
  return kind === 'file' ? `file ${value.size}` : kind;
}

/** What an answer was made of, each question once; undefined where the disk changed meanwhile. */
function madeOf(notes: readonly Noted[]): MadeOf | undefined {
  const all = new Map<string, MadeOf[number]>();
  for (const { question, path, answered } of notes) {
    const [asked, words] = [`${question} ${path}`, inWords(answered)];
    if ((all.get(asked)?.[2] ?? words) !== words) return undefined;
    all.set(asked, [question, path, words]);
  }
  return [...all.values()];
}

/** The file of a key; of two keys that share one the newer is kept. */
function fileOf({ journal, key }: AnswerPlace): string {
  let name = 0;
  for (const sign of key.join('\0')) name = (name * 31 + sign.codePointAt(0)!) % 0xffff_ffff_ffff;
  return join(journal, keptFolder, answersFolder, name.toString(36));
}

/** A text stands in its file twice, and is believed where both are the same. */
function readTwice(file: string): string | undefined {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch {
    return undefined;
  }
  const half = bytes.length / 2;
  return Number.isInteger(half) && bytes.subarray(0, half).equals(bytes.subarray(half))
    ? bytes.toString('utf8', 0, half)
    : undefined;
}

/** Written beside and renamed, so that whoever reads meanwhile finds what was there or what is. */
function writeTwice(file: string, text: string): void {
  const beside = `${file}.${process.pid}-${Date.now()}`;
  try {
    writeFileSync(beside, text + text, { flag: 'wx' });
    renameSync(beside, file);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** The answer that is kept; undefined where there is none, or the disk answers anything as it did not. */
export function answerKept(place: AnswerPlace): Answer | undefined {
  const text = readTwice(fileOf(place));
  if (text === undefined) return undefined;
  try {
    const kept = JSON.parse(text) as KeptAnswer;
    const isAsked = JSON.stringify(kept.key) === JSON.stringify(place.key);
    const isAsItWas = ([question, path, words]: MadeOf[number]): boolean => inWords(askDisk(question, path)) === words;
    return isAsked && kept.madeOf.every(isAsItWas) ? kept : undefined;
  } catch {
    // It is none of ours, or what was read then cannot be read now.
    return undefined;
  }
}

/**
 * Keeps an answer, where that can be done.
 * @param notes of all that was asked of the disk for it
 */
export function keepAnswer(place: AnswerPlace, { said, code }: Answer, notes: readonly Noted[]): void {
  try {
    const made = madeOf(notes);
    // What asked nothing of the journal is answered at once.
    if (made === undefined || made.length === 0) return;
    const kept: KeptAnswer = { key: place.key, madeOf: made, said, code };
    const text = JSON.stringify(kept);
    if (text.length > longest || !existsSync(join(place.journal, 'journal.yaml'))) return;
    makeKeptFolder(place.journal, answersFolder);
    writeTwice(fileOf(place), text);
    clearOldest(join(place.journal, keptFolder, answersFolder));
  } catch {
    // A folder that cannot be written to, a full disk: nothing is kept.
  }
}

/** Takes away what is too much, and what killed commands have left with it. */
function clearOldest(folder: string): void {
  const files = readdirSync(folder)
    .map((name) => join(folder, name))
    .map((file) => ({ file, ...statSync(file) }))
    .sort((a, b) => b.mtimeMs - a.mtimeMs);
  let bytes = 0;
  for (const [at, { file, size }] of files.entries()) {
    bytes += size;
    if (at >= most || bytes > mostBytes) unlinkSync(file);
  }
}
