// Runs in a worker thread: renders the pages of a batch of entries and writes them into the staging folder.
import { workerData } from 'node:worker_threads';
import { factsOf, type RemarkFacts } from '../remarks/remark.js';
import { splitAddress } from './context.js';
import { renderEntryPages, type EntryWork, type SharedByEntries } from './entry-pages.js';
import type { PartLink } from './markdown.js';
import { SiteLinks, type GatheredLinks } from './site-links.js';
import { writerInto, type WrittenFile } from './staging.js';

export interface WorkerStart {
  readonly shared: SharedByEntries;
  readonly folder: string;
}

export interface BatchDone {
  readonly files: readonly WrittenFile[];
  readonly remarks: readonly RemarkFacts[];
  readonly partLinks: readonly PartLink[];
  readonly links: GatheredLinks;
}

/** A fault of the system while pages were written; an error's own fields are lost between threads. */
export interface BatchFault {
  readonly fault: Pick<NodeJS.ErrnoException, 'message' | 'code' | 'path' | 'syscall' | 'stack'>;
}

// tinypool hands over workerData as [its own, ours].
const { shared, folder } = (workerData as [unknown, WorkerStart])[1];
const write = writerInto(folder);

function render(batch: readonly EntryWork[]): BatchDone {
  const files: WrittenFile[] = [];
  const remarks: RemarkFacts[] = [];
  const partLinks: PartLink[] = [];
  const links = new SiteLinks(splitAddress(shared.context.address));
  for (const work of batch) {
    for (const { address, rendered } of renderEntryPages(shared, work)) {
      files.push(write(address, rendered.html));
      remarks.push(...rendered.remarks.map(factsOf));
      partLinks.push(...rendered.partLinks);
      links.add(address, rendered.html);
    }
  }
  return { files, remarks, partLinks, links: links.gathered };
}

export default function renderBatch(batch: readonly EntryWork[]): BatchDone | BatchFault {
  try {
    return render(batch);
  } catch (error) {
    const { message, code, path, syscall, stack } = error as NodeJS.ErrnoException;
    return { fault: { message, code, path, syscall, stack } };
  }
}
