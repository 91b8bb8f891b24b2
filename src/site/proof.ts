// The proof: every remark of a journal, the write-ups' own included; nothing is written.
import type { Remark } from '../journal/remarks.js';
import { inOrder, openJournal, type OpenedJournal } from '../open.js';
import { entryBody } from './entry-pages.js';

export interface Proof extends OpenedJournal {
  readonly entries: number;
}

/** Proofs the journal in `folder`. */
export async function proof(folder: string, options: { drafts?: boolean } = {}): Promise<Proof> {
  const opened = await openJournal(folder, options);
  const bodies: Remark[] =
    opened.model?.entries.flatMap((reckoned) => [...entryBody(reckoned, () => undefined).remarks]) ?? [];
  return { ...opened, remarks: inOrder([...opened.remarks, ...bodies]), entries: opened.model?.entries.length ?? 0 };
}
