// The search index: Pagefind's library over our own records; its stock page parts are left out.
import { close, createIndex } from 'pagefind';
import type { JournalModel } from '../crosslinks/model.js';
import type { SiteFile } from './assets.js';
import { searchRecords } from './search-records.js';

/** Files of the library that our search page never asks for. */
const stock = /^pagefind-(ui|modular-ui|component-ui|highlight|playground)|^playground\//;

/** How many records are handed to the indexer before its answers are awaited. */
const atOnce = 200;

/** Makes the index; its files lie below /find/. */
export async function searchIndex(
  model: JournalModel,
  progress: (done: number, of: number) => void = () => undefined,
): Promise<SiteFile[]> {
  const { index, errors } = await createIndex({ includeCharacters: '·()[]' });
  if (!index) throw new Error(`the search indexer did not start: ${errors.join('; ')}`);
  try {
    const records = searchRecords(model);
    for (let from = 0; from < records.length; from += atOnce) {
      await Promise.all(records.slice(from, from + atOnce).map((record) => index.addCustomRecord(record)));
      progress(Math.min(from + atOnce, records.length), records.length);
    }
    const { files } = await index.getFiles();
    return files
      .filter((file) => !stock.test(file.path))
      .map((file) => ({ address: `/find/${file.path}`, content: file.content }));
  } finally {
    await close();
  }
}
