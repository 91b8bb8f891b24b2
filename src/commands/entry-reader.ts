// What a command needs of a journal without reading all of it: settings, shelf, single entries and the lots they make.
import { join } from 'node:path';
import type { LeftOut } from '../journal/check.js';
import type { Entry } from '../journal/entry.js';
import type { JournalSettings, ShelfReagent } from '../journal/schema.js';
import { existsSync, readFileSync } from '../kept/noted-files.js';
import { workspaceOf, type Workspace } from '../hazards/foresee/workspace.js';
import { bad, good, type Outcome } from '../outcome.js';
import { cupboardOf, type Cupboard } from '../reagents/index.js';
import type { LotFacts, ReckoningContext } from '../reckoning/contracts.js';

/** An entry as far as it can be read. */
export interface EntryAsFar {
  readonly entry: Entry;
  /** Why it is not read whole, in a sentence. */
  readonly wrong?: string;
}

/** A journal of which only what is asked for is read. */
export interface JournalAtHand {
  readonly settings: JournalSettings;
  readonly shelf: ReadonlyMap<string, ShelfReagent>;
  /** What of a jar could not be read, and counts as not written; paths begin with its id. */
  readonly jarNotRead: (id: string) => readonly LeftOut[];
  readonly entry: (number: number) => Outcome<Entry>;
  /** The same also where something indispensable of it is wrong, as far as it can be read; with what is wrong. */
  readonly asFarAsRead: (number: number) => Outcome<EntryAsFar>;
  /** Every entry that may take one of these lots, by its text; for what is left of a lot. */
  readonly entriesWith: (lots: readonly string[]) => readonly Entry[];
}

/**
 * Reads only what one entry needs: settings, shelf, its own file and those of the lots it uses, whatever the size of
 * the journal.
 */
export async function entryReader(folder: string): Promise<Outcome<JournalAtHand>> {
  const [{ openFolder }, { JarsAtHand, readSettings, settingsUnread }, { readEntry }, { textAsFar }] =
    await Promise.all([
      import('../journal/folder.js'),
      import('../journal/yaml-file.js'),
      import('../journal/entry-file.js'),
      import('../journal/text-as-far.js'),
    ]);
  const cure = 'Run masstone proof for every remark.';
  const opened = openFolder(folder);
  const textOf = (path: string): string | undefined => {
    const file = opened?.read(path);
    return file && opened && (file.ok ? file.text : textAsFar(opened, path, file.finding));
  };
  const isThere = opened?.find('journal.yaml').kind === 'file' || (opened?.list('entries').names.length ?? 0) > 0;
  if (!opened || !isThere)
    return bad({
      code: 'no-journal',
      message: `The journal in ${folder} cannot be read: it has no journal.yaml.`,
      cure: opened ? cure : 'Name the journal’s folder with --journal DIR.',
    });
  // Whatever is wrong with the settings, dangers are judged: what stands in for an address changes none.
  const settingsText = textOf('journal.yaml');
  const { settings } = settingsText === undefined ? settingsUnread() : readSettings('journal.yaml', settingsText);
  const shelfText = opened.find('shelf.yaml').kind === 'file' ? textOf('shelf.yaml') : undefined;
  const jars = shelfText === undefined ? undefined : new JarsAtHand('shelf.yaml', shelfText);
  const shelf: ReadonlyMap<string, ShelfReagent> = jars ?? new Map<string, ShelfReagent>();
  const names = opened.list('entries').names.filter((name) => name.endsWith('.md'));
  /** An entry's file, if it is wanted by its text; of one that is not saved as text it is read in part only. */
  const asFarAs = (name: string, isWanted: (text: string) => boolean) => {
    const file = `entries/${name}`;
    const text = textOf(file);
    if (text === undefined || !isWanted(text)) return undefined;
    const { entry, inPart, remarks } = readEntry(file, text);
    const wrong = remarks.find(({ fatal }) => fatal)?.reason ?? '';
    return entry && !opened.read(file).ok ? { inPart: entry, wrong: notText } : { entry, inPart, wrong };
  };
  // Files are usually named by their number; the others are only looked at when none of those is it.
  const asFarAsRead = (number: number): Outcome<EntryAsFar> => {
    const named = (name: string): boolean => Number(/^0*(\d+)\D/.exec(name)?.[1]) === number;
    // The key may have another name, and the number a sign before it: `Nummer: Nr. 8`.
    const own = new RegExp(
      `^[^\\s:#-][^:\n]{0,20}:[ \\t]*['"]?[^\\d\n]{0,9}0*${number}\\.?['"]?[ \\t]*(?:#.*)?\r?$`,
      'm',
    );
    let wrong: string | undefined;
    let inPart: EntryAsFar | undefined;
    for (const name of [...names.filter(named), ...names.filter((other) => !named(other))]) {
      const read = asFarAs(name, (text) => named(name) || own.test(text.slice(0, 4000)));
      if (read?.entry?.number === number) return good({ entry: read.entry });
      if (!read || read.entry) continue;
      if (!named(name) && read.inPart?.number !== number) continue;
      wrong ??= read.wrong;
      if (read.inPart) inPart ??= { entry: { ...read.inPart, number }, wrong };
    }
    if (inPart) return good(inPart);
    return wrong === undefined
      ? bad({
          code: 'no-entry',
          message: `There is no entry ${number} in ${folder}.`,
          cure: 'Write the number of an entry of this journal.',
        })
      : bad({ code: 'no-entry', message: `Entry ${number} cannot be read: ${wrong}`, cure });
  };
  return good({
    settings,
    shelf,
    jarNotRead: (id) => jars?.notRead(id) ?? [],
    entriesWith: (lots) => {
      // A lot is named by its own name, or by the id of a jar that holds it.
      const jars = [...shelf].filter(([, jar]) => jar.lot !== undefined && lots.includes(jar.lot)).map(([id]) => id);
      const words = [...lots, ...jars];
      return names.flatMap((name) => {
        const text = opened.read(`entries/${name}`);
        if (!text.ok || !words.some((word) => text.text.includes(word))) return [];
        return readEntry(`entries/${name}`, text.text).entry ?? [];
      });
    },
    entry: (number) => {
      const found = asFarAsRead(number);
      if (!found.ok || found.value.wrong === undefined) return found.ok ? good(found.value.entry) : found;
      return bad({ code: 'no-entry', message: `Entry ${number} cannot be read: ${found.value.wrong}`, cure });
    },
    asFarAsRead,
  });
}

const notText = 'The file is not saved as UTF-8 text.';

/** The context of a reckoning that reads the entries behind lots when they are asked for. */
export async function contextOf({ settings, shelf, entry }: JournalAtHand): Promise<ReckoningContext> {
  const [{ reckonAmounts }, { lotsOf }] = await Promise.all([
    import('../reckoning/amounts/amounts.js'),
    import('../reckoning/lots.js'),
  ]);
  const lots = new Map<string, LotFacts | undefined>();
  const context: ReckoningContext = {
    settings,
    shelf,
    reading: () => undefined,
    lot: (name) => {
      if (lots.has(name)) return lots.get(name);
      lots.set(name, undefined);
      const from = entry(Number(name.split('/')[0]));
      if (from.ok)
        for (const lot of lotsOf(from.value, reckonAmounts(from.value, context).amounts)) lots.set(lot.lot, lot);
      return lots.get(name);
    },
  };
  return context;
}

/** The room that the journal in a folder tells of; nothing is read where its settings name none. */
export async function workspaceAt(folder: string): Promise<Workspace> {
  const file = join(folder, 'journal.yaml');
  const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
  if (!/workspace|volume|extraction/i.test(text)) return workspaceOf();
  const { readSettings } = await import('../journal/yaml-file.js');
  return workspaceOf(readSettings('journal.yaml', text).settings.workspace);
}

const lotName = /^\d{1,9}\/\S+$/;
/** Whether a shelf may have a jar of this id or name; what stands in a formula or a note is no name. */
const mayName = (shelf: string, name: string): boolean =>
  new RegExp(
    `(?:^|name:|[[,-])\\s*["']?${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}["']?\\s*(?:$|[:,\\]}#])`,
    'im',
  ).test(shelf);

const nothingAtHand: Cupboard = cupboardOf(new Map(), () => undefined);

/**
 * The cupboard of the journal in a folder, for these names; without a journal, names and formulae still do. The shelf
 * is read only where its text has one of the names, and an entry only where a lot is named: reading takes longer than
 * all the rest.
 */
export async function cupboardAt(folder: string, names: readonly string[]): Promise<Cupboard> {
  const file = join(folder, 'shelf.yaml');
  const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const onShelf = text !== '' && names.some((name) => mayName(text, name));
  const lots = names.some((name) => lotName.test(name));
  if (!onShelf && !lots) return nothingAtHand;
  const { JarsAtHand } = await import('../journal/yaml-file.js');
  const shelf = new JarsAtHand('shelf.yaml', text === '' ? '{}' : text);
  const called = cupboardOf(shelf.called(names), () => undefined);
  if (!lots && !names.some((name) => called.shelf(name)?.lot !== undefined)) return called;
  const reader = await entryReader(folder);
  if (!reader.ok) return cupboardOf(shelf, () => undefined);
  const context = await contextOf(reader.value);
  return cupboardOf(shelf, context.lot);
}
