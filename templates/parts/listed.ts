// From the journal model to what an entry list shows.
import type { JournalModel, SampleRow } from '../../src/crosslinks/model.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import type { ListedEntry } from './entry-list.js';

/** What sets a sample apart, and which one it repeats: `cold`; `repeats A`; undefined where nothing is said. */
export const apartWords = ({ differs, repeats }: Pick<SampleRow, 'differs' | 'repeats'>): string | undefined =>
  repeats === undefined ? differs : [differs, `repeats ${repeats}`].filter(Boolean).join(', ');

const rowsOf = new WeakMap<readonly SampleRow[], Map<number, SampleRow[]>>();

/** The samples of each entry, sorted out once for a journal. */
export function samplesByEntry({ samples }: Pick<JournalModel, 'samples'>): ReadonlyMap<number, readonly SampleRow[]> {
  let rows = rowsOf.get(samples);
  if (!rows) {
    rows = new Map();
    for (const row of samples) {
      const list = rows.get(row.entry.number);
      if (list) list.push(row);
      else rows.set(row.entry.number, [row]);
    }
    rowsOf.set(samples, rows);
  }
  return rows;
}

function linkTo(entry: ReckonedEntry['entry']): ListedEntry['entry'] {
  const { number, title, date, status, failed, abandoned, withdrawn } = entry;
  const why = { failed, abandoned, withdrawn }[status as 'failed'];
  return { number, title, date, status, ...(why !== undefined && { why }) };
}

export const listed = (model: Pick<JournalModel, 'samples'>, entries: readonly ReckonedEntry[]): ListedEntry[] =>
  entries.map(({ entry }) => ({
    entry: linkTo(entry),
    question: entry.question,
    pigment: entry.pigment?.name,
    samples: samplesByEntry(model).get(entry.number) ?? [],
  }));
