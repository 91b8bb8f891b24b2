// A journal of a few lines for tests, read and reckoned as a maker's is; and the commands on the same words.
import { command as foreseeCommand } from '../../src/commands/foresee.js';
import { command as weighCommand } from '../../src/commands/weigh.js';
import { openJournal } from '../../src/open.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import { entry, folderOf, settings } from '../journal-folder.js';

export interface Written {
  readonly shelf?: string;
  /** Front matter of entries 1, 2 … */
  readonly entries: readonly string[];
}

/** A journal folder with these entries. */
export const journalOf = ({ shelf = '', entries }: Written): string =>
  folderOf({
    'journal.yaml': settings,
    'shelf.yaml': shelf,
    ...Object.fromEntries(
      entries.map((matter, at) => [`entries/00${at + 1}-e.md`, entry(at + 1, `${matter.trim()}\n`)]),
    ),
  });

/** The reckoned entries of a journal folder, by number. */
export async function reckonedIn(folder: string): Promise<readonly ReckonedEntry[]> {
  const { model, remarks } = await openJournal(folder);
  if (!model) throw new Error(remarks.map(({ reason }) => reason).join('\n'));
  return [...model.entries].sort((a, b) => a.entry.number - b.entry.number);
}

/** Runs a command on a journal and gives its JSON. */
async function jsonOf(
  command: typeof foreseeCommand,
  journal: string,
  positionals: readonly string[],
  values: Record<string, string | string[]> = {},
) {
  let out = '';
  await command.run(
    { values, positionals, journal, json: true },
    { result: (text) => (out += text), aside: () => undefined, terminal: false },
  );
  return JSON.parse(out);
}

export const foreseeJson = (journal: string, ...reagents: string[]) => jsonOf(foreseeCommand, journal, reagents);
export const weighJson = (journal: string, reaction: string, ...reagents: string[]) =>
  jsonOf(weighCommand, journal, [], { reaction, reagent: reagents });
