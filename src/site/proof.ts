// The proof: every remark that a publication of the journal would make; nothing is written.
import { inOrder, openJournal, type OpenedJournal } from '../open.js';
import type { Accepted } from '../remarks/accepted.js';
import { accepted } from './acceptance.js';
import { partRemarks } from './part-links.js';
import { idsOfPages, planSite } from './plan.js';

export interface Proof extends OpenedJournal {
  readonly entries: number;
  /** Entries besides that could not be read, or in part only. */
  readonly unread: number;
  /** Warnings that the maker accepts, and that are not among the remarks. */
  readonly accepted: readonly Accepted[];
}

/** Proofs the journal in `folder`. */
export async function proof(folder: string, options: { drafts?: boolean } = {}): Promise<Proof> {
  const opened = await openJournal(folder, options);
  if (!opened.model) return { ...opened, entries: 0, unread: 0, accepted: [] };
  const plan = planSite(opened.model);
  const bodies = plan.bodies.map((render) => render());
  const remarks = [...opened.remarks, ...bodies.flatMap((body) => [...body.remarks])];
  const links = bodies.flatMap((body) => [...body.partLinks]);
  remarks.push(...partRemarks(links, idsOfPages(plan), opened.remarks));
  const told = accepted(remarks, opened.model);
  return {
    ...opened,
    remarks: inOrder(told.remarks),
    accepted: told.accepted,
    entries: opened.model.entries.length,
    unread: opened.model.journal.unread?.length ?? 0,
  };
}
