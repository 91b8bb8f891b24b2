// Answers of short commands, kept beside the journal and told again as long as the disk answers everything that they
// were made of byte for byte as it did. Each lies in a file of its own, so that none of what publications keep is read
// for it. None is believed at the least doubt: then it is reckoned anew.
import { existsSync, readdirSync, statSync, unlinkSync, type Dirent, type Stats } from 'node:fs';
import { join } from 'node:path';
import { readChecked, writeChecked } from './checked-file.js';
import { hashOf } from './inputs.js';
import { keptFolder, makeKeptFolder } from './kept-folder.js';
import { askDisk, type Answered, type Noted, type Question } from './noted-files.js';

/** What a command said, piece by piece, and its exit code. */
export interface Answer {
  readonly said: readonly (readonly [to: 'result' | 'aside', text: string])[];
  readonly code: 0 | 1;
}

interface KeptAnswer extends Answer {
  readonly madeOf: readonly (readonly [question: Question, path: string, gist: string])[];
}

const answersFolder = 'answers';

/** So many are kept, the newest, and none that is longer (in signs). */
const most = 100;
const longest = 1 << 20;

const kindOf = (one: Stats | Dirent): string => {
  if (one.isFile()) return 'file';
  if (one.isDirectory()) return 'folder';
  return one.isSymbolicLink() ? 'link' : 'other';
};

/** All that a command may draw on of what the disk answered, in a short text. */
function gistOf(answered: Answered): string {
  if (answered === 'nothing there') return answered;
  const { value } = answered;
  if (value instanceof Uint8Array) return hashOf(value);
  if (Array.isArray(value)) return hashOf(...value.flatMap((one) => [kindOf(one), one.name]));
  if (typeof value !== 'object') return `${value}`;
  const kind = kindOf(value);
  return kind === 'file' ? `file ${value.size}` : kind;
}

/** What an answer was made of, each question once; undefined where the disk changed meanwhile. */
function madeOf(notes: readonly Noted[]): KeptAnswer['madeOf'] | undefined {
  const gists = new Map<string, KeptAnswer['madeOf'][number]>();
  for (const { question, path, answered } of notes) {
    const [key, gist] = [`${question} ${path}`, gistOf(answered)];
    if ((gists.get(key)?.[2] ?? gist) !== gist) return undefined;
    gists.set(key, [question, path, gist]);
  }
  return [...gists.values()];
}

/**
 * Where the answer to a question is kept, and under which key.
 * @param journal absolute path of its folder
 * @param key all that the answer depends on besides the disk
 */
export interface AnswerPlace {
  readonly journal: string;
  readonly key: string;
}

const fileOf = ({ journal, key }: AnswerPlace): string => join(journal, keptFolder, answersFolder, key);

/** The answer that is kept; undefined where there is none, or the disk answers anything as it did not. */
export function answerKept(place: AnswerPlace): Answer | undefined {
  const text = readChecked(fileOf(place), place.key);
  if (text === undefined) return undefined;
  try {
    const kept = JSON.parse(text) as KeptAnswer;
    return kept.madeOf.every(([question, path, gist]) => gistOf(askDisk(question, path)) === gist) ? kept : undefined;
  } catch {
    // What cannot be read now could be read then.
    return undefined;
  }
}

/**
 * Keeps an answer, where that can be done.
 * @param notes of all that was asked of the disk for it
 */
export function keepAnswer(place: AnswerPlace, { said, code }: Answer, notes: readonly Noted[]): void {
  const gists = madeOf(notes);
  if (gists === undefined || gists.length === 0) return;
  const kept: KeptAnswer = { madeOf: gists, said, code };
  const text = JSON.stringify(kept);
  try {
    if (text.length > longest || !existsSync(join(place.journal, 'journal.yaml'))) return;
    makeKeptFolder(place.journal, answersFolder);
    writeChecked(fileOf(place), place.key, text);
    clearOldest(join(place.journal, keptFolder, answersFolder));
  } catch {
    // A folder that cannot be written to, a full disk: nothing is kept.
  }
}

/** Takes away what is too much, and what killed commands have left with it. */
function clearOldest(folder: string): void {
  const names = readdirSync(folder);
  if (names.length <= most) return;
  const files = names.map((name) => join(folder, name)).map((file) => ({ file, at: statSync(file).mtimeMs }));
  for (const { file } of files.sort((a, b) => b.at - a.at).slice(most)) unlinkSync(file);
}
