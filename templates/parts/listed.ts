// From the journal model to what an entry list shows.
import type { JournalModel, SampleRow } from '../../src/crosslinks/model.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import type { ListedEntry } from './entry-list.js';

const rowsOf = new WeakMap<JournalModel, Map<number, SampleRow[]>>();

/** The samples of each entry, sorted out once for a model. */
export function samplesByEntry(model: JournalModel): ReadonlyMap<number, readonly SampleRow[]> {
  let rows = rowsOf.get(model);
  if (!rows) {
    rows = new Map();
    for (const row of model.samples) {
      const list = rows.get(row.entry.number);
      if (list) list.push(row);
      else rows.set(row.entry.number, [row]);
    }
    rowsOf.set(model, rows);
  }
  return rows;
}

function linkTo(entry: ReckonedEntry['entry']): ListedEntry['entry'] {
  const { number, title, date, status, failed, abandoned, withdrawn } = entry;
  const why = { failed, abandoned, withdrawn }[status as 'failed'];
  return { number, title, date, status, ...(why !== undefined && { why }) };
}

export const listed = (model: JournalModel, entries: readonly ReckonedEntry[]): ListedEntry[] =>
  entries.map(({ entry }) => ({
    entry: linkTo(entry),
    question: entry.question,
    pigment: entry.pigment?.name,
    samples: samplesByEntry(model).get(entry.number) ?? [],
  }));
