// A question about a journal that was answered before is answered again from what was kept of it, as long as nothing
// that the answer was made of has changed. The launcher asks here before it loads anything else.
import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { answerKept, keepAnswer, type AnswerPlace } from '../kept/answers.js';
import { notesTaken, takeNotes } from '../kept/noted-files.js';
import type { ExitCode } from './command.js';
import { Output } from './output.js';

/** What the program was put together of; the launcher says it. */
export interface Build {
  /** Hash of all code and tables. */
  readonly hash: string;
  /** Folder of what was prepared from the tables. */
  readonly prepared: string;
}

/** By these Node chooses its language, and what it does besides. */
const fromEnvironment = ['LC_ALL', 'LC_MESSAGES', 'LANG', 'TZ', 'NODE_ICU_DATA', 'NODE_OPTIONS'];

const stampOf = (file: string): string => {
  const { size, mtimeMs } = statSync(file);
  return `${size} ${mtimeMs}`;
};

const oneDay = 24 * 3600 * 1000;

/**
 * All that an answer depends on besides the disk: program, surroundings, words; and the day, since a date may be yet to
 * come.
 */
const keyOf = (words: readonly string[], { hash, prepared }: Build): readonly string[] => [
  hash,
  stampOf(join(prepared, 'texts')),
  stampOf(join(prepared, 'places.json')),
  process.version,
  process.versions.icu ?? '',
  ...process.execArgv,
  ...fromEnvironment.map((name) => `${name}=${process.env[name] ?? ''}`),
  String(Math.floor(Date.now() / oneDay)),
  process.cwd(),
  ...words,
];

/** The journal's folder among the words; where it is told otherwise, an answer is not found, and no other is told. */
function journalIn(words: readonly string[]): string {
  let named = 'content';
  for (const [at, word] of words.entries()) {
    if (word === '--') break;
    if (word === '--journal') named = words[at + 1] ?? named;
    else if (word.startsWith('--journal=')) named = word.slice('--journal='.length);
  }
  return resolve(named);
}

let place: AnswerPlace | undefined;

/**
 * Tells again what was answered before. Where nothing is kept that can be told, notes are taken from here on of what
 * the answer is made of.
 * @param words of the command line
 */
export function toldAgain(words: readonly string[], build: Build): boolean {
  try {
    place = { journal: journalIn(words), key: keyOf(words, build) };
  } catch {
    // The folder that the command was called in is gone, or the program is being exchanged: nothing is kept.
    return false;
  }
  const answer = answerKept(place);
  if (!answer) {
    takeNotes();
    return false;
  }
  const output = new Output(true);
  for (const [to, text] of answer.said) output.streams[to](text);
  process.exitCode = output.isFaulty ? 1 : answer.code;
  output.endWhereAllIsWritten();
  return true;
}

/** Keeps what was told, where all of it was and nothing failed. */
export function keepTold({ said, isFaulty, isClosed }: Output, code: ExitCode): void {
  const notes = notesTaken();
  if (!place || !notes || isFaulty || isClosed || code === 2) return;
  keepAnswer(place, { said, code }, notes);
}
