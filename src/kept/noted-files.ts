// The disk as a short command asks it about a journal. While notes are taken, each question is put down with what the
// disk answered: as long as it answers all of them alike, the command says the same (`answers.ts`). What tells when a
// file was written is no part of an answer, and not handed out then. In what the build puts together for short commands
// nothing else reads a journal: it stops where a module asks `node:fs` itself (`.config/command-line.mjs`).
import * as disk from 'node:fs';
import type { Dirent, Stats } from 'node:fs';

/** What the disk is asked of a path, by name. */
const questions = {
  exists: disk.existsSync,
  bytes: (path: string): Buffer => disk.readFileSync(path),
  /** A link itself, and what it leads to. */
  stands: (path: string): Stats => disk.lstatSync(path),
  leads: (path: string): Stats => disk.statSync(path),
  real: (path: string): string => disk.realpathSync(path),
  holds: (path: string): Dirent[] => disk.readdirSync(path, { withFileTypes: true }),
} as const;
export type Question = keyof typeof questions;
type AnswerTo<Q extends Question> = ReturnType<(typeof questions)[Q]>;

/** What the disk answered: a value, or that nothing is there. */
export type Answered = { readonly value: AnswerTo<Question> } | 'nothing there';

export interface Noted {
  readonly question: Question;
  readonly path: string;
  readonly answered: Answered;
}

let notes: Noted[] | undefined;
/** Whether the disk failed to answer something. */
let failed = false;

/** From here on notes are taken. */
export function takeNotes(): void {
  notes = [];
}

/** All that was asked, in order; undefined where the disk failed to answer something. */
export const notesTaken = (): readonly Noted[] | undefined => (failed ? undefined : notes);

const isNothingThere = (error: unknown): boolean =>
  ['ENOENT', 'ENOTDIR'].includes(String((error as NodeJS.ErrnoException).code));

/** Asks the disk; whatever else goes wrong than that nothing is there is thrown. */
export function askDisk(question: Question, path: string): Answered {
  try {
    return { value: questions[question](path) };
  } catch (error) {
    if (isNothingThere(error)) return 'nothing there';
    throw error;
  }
}

function asked<Q extends Question>(question: Q, path: string): AnswerTo<Q> {
  try {
    const value = questions[question](path) as AnswerTo<Q>;
    notes?.push({ question, path, answered: { value } });
    return value;
  } catch (error) {
    if (isNothingThere(error)) notes?.push({ question, path, answered: 'nothing there' });
    else failed = true;
    throw error;
  }
}

/** While notes are taken, without what tells when it was written, and under which number the disk has it. */
function withoutTimes(stats: Stats): Stats {
  return notes ? Object.assign(stats, { mtimeMs: 0, ctimeMs: 0, atimeMs: 0, birthtimeMs: 0, ino: 0 }) : stats;
}

export const existsSync = (path: string): boolean => asked('exists', path);
export const lstatSync = (path: string): Stats => withoutTimes(asked('stands', path));
export const statSync = (path: string): Stats => withoutTimes(asked('leads', path));
export const realpathSync = (path: string): string => asked('real', path);

export function readFileSync(path: string): Buffer;
export function readFileSync(path: string, encoding: 'utf8'): string;
export function readFileSync(path: string, encoding?: 'utf8'): Buffer | string {
  const bytes = asked('bytes', path);
  return encoding === undefined ? bytes : bytes.toString(encoding);
}

export function readdirSync(path: string): string[];
export function readdirSync(path: string, how: { readonly withFileTypes: true }): Dirent[];
export function readdirSync(path: string, how?: { readonly withFileTypes: true }): Dirent[] | string[] {
  const all = asked('holds', path);
  return how ? all : all.map(({ name }) => name);
}
