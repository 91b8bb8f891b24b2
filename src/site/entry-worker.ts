// Runs in a worker thread: renders the pages of a batch of entries and writes them into the staging folder.
import { workerData } from 'node:worker_threads';
import { factsOf, type RemarkFacts } from '../remarks/remark.js';
import { renderEntryPages, type EntryWork, type SharedByEntries } from './entry-pages.js';
import { writerInto } from './staging.js';

export interface WorkerStart {
  readonly shared: SharedByEntries;
  readonly folder: string;
}

export interface BatchDone {
  readonly pages: number;
  readonly bytes: number;
  readonly remarks: readonly RemarkFacts[];
}

// tinypool hands over workerData as [its own, ours].
const { shared, folder } = (workerData as [unknown, WorkerStart])[1];
const write = writerInto(folder);

export default function renderBatch(batch: readonly EntryWork[]): BatchDone {
  let pages = 0;
  let bytes = 0;
  const remarks: RemarkFacts[] = [];
  for (const work of batch) {
    for (const { address, rendered } of renderEntryPages(shared, work)) {
      pages += 1;
      bytes += write(address, rendered.html);
      remarks.push(...rendered.remarks.map(factsOf));
    }
  }
  return { pages, bytes, remarks };
}
