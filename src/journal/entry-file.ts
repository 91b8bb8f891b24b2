// Reads one entry from the text of its file.
import type { Entry } from './entry.js';
import type { Remark } from './remarks.js';

export interface EntryReading {
  /** Missing when number, title, date or status could not be read. */
  readonly entry?: Entry;
  readonly remarks: Remark[];
}

/**
 * Reads the text of one entry's file: front matter, body, and all that can be checked without the rest of the journal.
 * Pure: reads nothing, so it can run in a worker thread.
 * @param file path below the journal, `entries/014-malachite.md`
 * @example readEntry('entries/001-x.md', '---\nnumber: 1\ntitle: X\ndate: 2026-01-02\nstatus: planned\n---\n').entry?.number // 1
 */
export function readEntry(file: string, text: string): EntryReading {
  void text;
  throw new Error(`reading ${file} is being built`);
}
