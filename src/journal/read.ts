// Reads a whole journal from its folder: settings, shelf, entries, pages, register and the files that entries name.
import type { Entry, Journal } from './entry.js';
import type { Remark } from './remarks.js';

export interface ReadOptions {
  /** `false` leaves planned and running entries out, and makes links to them remarks. Default: true. */
  readonly drafts?: boolean;
  /** Kept by the caller between readings (`new Map()` at first): files that have not changed are not read again. */
  readonly memory?: Map<string, Remembered>;
}

/** What a reading remembers of one file. */
export interface Remembered {
  readonly stamp: string;
  readonly entry?: Entry;
  readonly remarks: readonly Remark[];
  readonly [more: string]: unknown;
}

/** A journal as read; `journal` is missing only when there is no usable journal.yaml. */
export interface Reading {
  readonly journal?: Journal;
  /** Every finding, in order of file and place. */
  readonly remarks: Remark[];
}

/**
 * Reads the journal in `folder`. Never throws for what stands in the folder: what is wrong comes back as remarks.
 * An entry with errors is still in the journal as far as it could be understood (its wrong values left out).
 * @param folder path of the journal, absolute or from the current folder
 * @example const { journal, remarks } = await readJournal('content', { drafts: false });
 */
export async function readJournal(folder: string, options: ReadOptions = {}): Promise<Reading> {
  void options;
  throw new Error(`reading ${folder} is being built`);
}
