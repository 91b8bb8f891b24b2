// The flow up to the journal model: files → entries → reckoned entries → crosslinks, with every stage's remarks.
import { crosslink } from './crosslinks/crosslink.js';
import type { JournalModel } from './crosslinks/model.js';
import { readJournal, type ReadOptions } from './journal/index.js';
import { severityOf, type Remark } from './journal/remarks.js';
import { reckonJournal, remarksOf } from './reckoning/reckon.js';

export interface OpenedJournal {
  /** Missing only where the folder holds no usable journal. */
  readonly model?: JournalModel;
  /** In order of file and place. */
  readonly remarks: Remark[];
  /** Milliseconds each stage took. */
  readonly took: { readonly read: number; readonly reckon: number; readonly crosslink: number };
}

/** Remarks in order of file, line and column, errors first at one place. */
export function inOrder(remarks: readonly Remark[]): Remark[] {
  const rank = { error: 0, warning: 1, note: 2 } as const;
  return [...remarks].sort(
    (a, b) =>
      a.file.localeCompare(b.file, 'en', { numeric: true }) ||
      a.line - b.line ||
      a.column - b.column ||
      rank[severityOf(a)] - rank[severityOf(b)],
  );
}

export const hasErrors = (remarks: readonly Remark[]): boolean => remarks.some((one) => severityOf(one) === 'error');

/**
 * Reads, reckons and joins a journal.
 * @example const { model, remarks } = await openJournal('content', { drafts: true });
 */
export async function openJournal(folder: string, options: ReadOptions = {}): Promise<OpenedJournal> {
  const begin = performance.now();
  const { journal, remarks } = await readJournal(folder, options);
  const read = performance.now();
  if (!journal) return { remarks: inOrder(remarks), took: { read: read - begin, reckon: 0, crosslink: 0 } };
  const reckoned = reckonJournal(journal);
  const reckon = performance.now();
  const model = crosslink(journal, reckoned);
  return {
    model,
    remarks: inOrder([...remarks, ...remarksOf(reckoned)]),
    took: { read: read - begin, reckon: reckon - read, crosslink: performance.now() - reckon },
  };
}
