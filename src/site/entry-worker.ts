// Runs in a worker thread: renders pages of a batch of entries and writes them into the staging folder.
import { workerData } from 'node:worker_threads';
import { splitAddress } from './context.js';
import { renderEntryPages, type EntryWork, type SharedByEntries } from './entry-pages.js';
import { recordOf, type PageRecord } from './page-record.js';
import { writerInto, type WrittenFile } from './staging.js';

export interface WorkerStart {
  readonly shared: SharedByEntries;
  readonly folder: string;
}

/** An entry of which pages have to be rendered, and which. */
export interface EntryToRender {
  readonly work: EntryWork;
  readonly addresses: readonly string[];
}

export interface BatchDone {
  readonly pages: readonly {
    readonly address: string;
    readonly file: WrittenFile;
    readonly record: PageRecord;
  }[];
}

/** A fault of the system while pages were written; an error's own fields are lost between threads. */
export interface BatchFault {
  readonly fault: Pick<NodeJS.ErrnoException, 'message' | 'code' | 'path' | 'syscall' | 'stack'>;
}

// tinypool hands over workerData as [its own, ours].
const { shared, folder } = (workerData as [unknown, WorkerStart])[1];
const write = writerInto(folder);
const site = splitAddress(shared.context.address);

const render = (batch: readonly EntryToRender[]): BatchDone => ({
  pages: batch.flatMap(({ work, addresses }) =>
    renderEntryPages(shared, work, addresses).map(({ address, rendered }) => {
      const file = write(address, rendered.html);
      return { address, file, record: recordOf(address, rendered, file, site) };
    }),
  ),
});

export default function renderBatch(batch: readonly EntryToRender[]): BatchDone | BatchFault {
  try {
    return render(batch);
  } catch (error) {
    const { message, code, path, syscall, stack } = error as NodeJS.ErrnoException;
    return { fault: { message, code, path, syscall, stack } };
  }
}
