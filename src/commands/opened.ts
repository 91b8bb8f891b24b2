// A journal opened for a command that reads all of it; where there is none, that is said in the way that was asked for.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import type { Remark } from '../journal/index.js';
import type { Kept } from '../kept/kept.js';
import { shownPath, type Streams } from './command.js';

/** What the last publication kept, where there is any; a command that only reads leaves it as it is. */
export async function keptByPublication(journal: string): Promise<Kept> {
  const [{ KeptOnDisk }, { keptFolder }, { codeVersion }, { keptNowhere }] = await Promise.all([
    import('../kept/store.js'),
    import('../kept/kept-folder.js'),
    import('../kept/code-version.js'),
    import('../kept/kept.js'),
  ]);
  if (!existsSync(join(journal, keptFolder))) return keptNowhere;
  const kept = new KeptOnDisk(journal, codeVersion(), { toRead: true });
  return kept.isEmpty ? keptNowhere : kept;
}

/** An error of the settings, which stands for those that follow from it. */
export const ofSettings = ({ file, fatal }: Remark): boolean => file === 'journal.yaml' && fatal === true;

/**
 * The journal model, drafts included; undefined where the folder holds no usable journal, which is then already said.
 */
export async function openedFor(journal: string, json: boolean, streams: Streams): Promise<JournalModel | undefined> {
  const [{ openJournal }, { printRemarks, remarksAsJson }, kept] = await Promise.all([
    import('../open.js'),
    import('../journal/index.js'),
    keptByPublication(journal),
  ]);
  const { model, remarks } = await openJournal(journal, { drafts: true, kept });
  // What they print names the journal and its address.
  if (model && !model.journal.stoodIn) return model;
  const { reason, note } = remarks.find(ofSettings) ?? remarks[0] ?? {};
  const error = { code: 'no-journal', message: reason ?? 'There is no journal here.', cure: note };
  if (json) streams.result(`${JSON.stringify({ error, remarks: remarksAsJson(remarks) })}\n`);
  else streams.aside(printRemarks(remarks, shownPath(journal)));
  return undefined;
}
