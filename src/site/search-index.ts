// The search index: Pagefind's library over our own records; its stock page parts are left out.
import type { ChildProcess } from 'node:child_process';
import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import { close, createIndex, type PagefindIndex } from 'pagefind';
import type { JournalModel } from '../crosslinks/model.js';
import type { SiteFile } from './assets.js';
import { searchRecords } from './search-records.js';

/** The index could not be made: the indexer did not start, or came to its end too early. */
export class SearchFault extends Error {}

/** Files of the library that our search page never asks for. */
const stock = /^pagefind-(ui|modular-ui|component-ui|highlight|playground)|^playground\//;

/** How many records are handed to the indexer before its answers are awaited. */
const atOnce = 200;

type Progress = (done: number, of: number) => void;

async function filled(index: PagefindIndex, model: JournalModel, progress: Progress): Promise<SiteFile[]> {
  const records = searchRecords(model);
  for (let from = 0; from < records.length; from += atOnce) {
    await Promise.all(records.slice(from, from + atOnce).map((record) => index.addCustomRecord(record)));
    progress(Math.min(from + atOnce, records.length), records.length);
  }
  const { files } = await index.getFiles();
  return files
    .filter((file) => !stock.test(file.path))
    .map((file) => ({ address: `/find/${file.path}`, content: file.content }));
}

const whyEnded = (code: number | null, signal: NodeJS.Signals | null): string =>
  `the indexer ended before its work was done (${signal ?? `exit code ${code}`})`;

/**
 * Does work with the library while its own process is watched: the library waits for the answers of a dead indexer for
 * ever, and prints a trace of what it meets.
 */
async function watched<T>(work: () => Promise<T>): Promise<T> {
  const { error: printed } = console;
  let failed: (why: Error) => void = () => undefined;
  const failure = new Promise<never>((_, reject) => {
    failed = reject;
  });
  const onProcess = (message: unknown): void => {
    const { process } = message as { process: ChildProcess };
    process.once('error', (error) => failed(new SearchFault(`the indexer did not start (${error.message})`)));
    process.once('exit', (code, signal) => failed(new SearchFault(whyEnded(code, signal))));
  };
  subscribe('child_process', onProcess);
  console.error = () => undefined;
  try {
    return await Promise.race([work(), failure]);
  } catch (error) {
    throw error instanceof SearchFault ? error : new SearchFault((error as Error).message, { cause: error });
  } finally {
    failure.catch(() => undefined);
    unsubscribe('child_process', onProcess);
    console.error = printed;
    await close();
  }
}

/**
 * Makes the index; its files lie below /find/.
 * @throws SearchFault where the indexer fails
 */
export const searchIndex = (model: JournalModel, progress: Progress = () => undefined): Promise<SiteFile[]> =>
  watched(async () => {
    const { index, errors } = await createIndex({ includeCharacters: '·()[]' });
    if (!index) throw new SearchFault(`the indexer did not start (${errors.join('; ')})`);
    return filled(index, model, progress);
  });
