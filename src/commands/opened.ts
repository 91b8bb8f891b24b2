// A journal opened for a command that reads all of it; where there is none, that is said in the way that was asked for.
import type { JournalModel } from '../crosslinks/model.js';
import { shownPath, type Streams } from './command.js';

/**
 * The journal model, drafts included; undefined where the folder holds no usable journal, which is then already said.
 */
export async function openedFor(journal: string, json: boolean, streams: Streams): Promise<JournalModel | undefined> {
  const [{ openJournal }, { printRemarks, remarksAsJson }] = await Promise.all([
    import('../open.js'),
    import('../journal/index.js'),
  ]);
  const { model, remarks } = await openJournal(journal, { drafts: true });
  if (model) return model;
  const message = remarks[0]?.reason ?? 'There is no journal here.';
  const error = { code: 'no-journal', message, cure: remarks[0]?.note };
  if (json) streams.result(`${JSON.stringify({ error, remarks: remarksAsJson(remarks) })}\n`);
  else streams.aside(printRemarks(remarks, shownPath(journal)));
  return undefined;
}
