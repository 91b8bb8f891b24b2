// The shape of a command: one file each, found by its name, loaded only when it is called.
import { relative } from 'node:path';
import type { ParseArgsConfig } from 'node:util';

/** 0 fine, 1 remarks or no answer, 2 wrong use. */
export type ExitCode = 0 | 1 | 2;

export interface Given {
  readonly values: Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;
  readonly positionals: readonly string[];
  /** Absolute path of the journal folder (`--journal`, default `content`). */
  readonly journal: string;
  /** It was named with --journal, and is not only the folder that is looked at where none is. */
  readonly journalNamed?: boolean;
  readonly json: boolean;
}

/** Results go to `result` (stdout), progress and remarks to `aside` (stderr). */
export interface Streams {
  readonly result: (text: string) => void;
  readonly aside: (text: string) => void;
  /** stderr is a terminal, so that progress may be redrawn. */
  readonly terminal: boolean;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** Text of `--help`, with examples. */
  readonly help: string;
  /** Options besides --journal, --json and --help. */
  readonly options: NonNullable<ParseArgsConfig['options']>;
  readonly run: (given: Given, streams: Streams) => Promise<ExitCode>;
}

/** A path as a maker would type it here. */
export const shownPath = (path: string): string => relative(process.cwd(), path) || '.';

/**
 * Thrown by a command when it was called wrongly; the dispatcher prints it and exits 2. It is known by its name, since
 * the command and the dispatcher may each have been built with a copy of this class.
 */
export class WrongUse extends Error {
  override readonly name = 'WrongUse';
}
export const isWrongUse = (error: unknown): error is WrongUse => error instanceof Error && error.name === 'WrongUse';

/** Every answer of `--json` that is an error has this one shape. */
export interface JsonError {
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly column?: number;
    readonly expected?: string;
    readonly cure?: string;
  };
}
