// What a publication knew of a journal around its entries, put down so that it need not be read again where only
// entries are others.
import type { Entry, Journal, Page } from '../../journal/entry.js';
import { lotsNamed } from '../../journal/references.js';
import type { ShelfReagent } from '../../journal/schema.js';
import { identityOf } from '../../kept/inputs.js';
import { readChecked, writeChecked } from '../../kept/checked-file.js';
import type { PictureSizes } from '../../journal/entry.js';
import type { SitePlan } from '../plan.js';
import type { SaidByPages } from './said.js';

/** An entry without its text. */
export type CheckedEntry = Omit<Entry, 'matter' | 'body'>;

/** An entry of which lots are named. */
interface DrawnOn {
  readonly number: number;
  readonly file: string;
  /** Files of the entries that name them. */
  readonly takers: readonly string[];
}

interface Kept extends Pick<Journal, 'settings' | 'settingsText' | 'series' | 'colours' | 'pages' | 'files'> {
  readonly register: readonly string[];
  readonly shelf: {
    readonly file: string;
    readonly text: string;
    readonly jars: readonly (readonly [string, ShelfReagent])[];
  };
  /** Paths of what instruments wrote. */
  readonly readings: readonly string[];
  readonly published?: readonly (readonly [string, string])[];
  readonly pictures?: readonly (readonly [string, PictureSizes])[];
  /** Entries that are left out as drafts. */
  readonly drafts: readonly CheckedEntry[];
  /** Entries of which other entries name lots. */
  readonly drawnOn: readonly DrawnOn[];
  /** Every page that is no entry's, in order, with what it says; nothing where its words are remarked on. */
  readonly said: readonly (readonly [address: string, said: string | null])[];
  /** Identity of what pages of entries draw on besides what they are of. */
  readonly shared: string;
}

export interface Around extends Pick<Kept, 'drafts' | 'drawnOn' | 'said' | 'shared'> {
  readonly journal: Omit<Journal, 'folder' | 'entries' | 'readings'>;
  readonly readings: readonly string[];
}

export interface ToPutDown {
  readonly plan: SitePlan;
  readonly said: SaidByPages;
  readonly registered: readonly string[];
  readonly drafts: readonly Entry[];
}

/** Identity of all that every entry's pages draw on. */
export const sharedIdentity = ({ shared, addresses, context, model }: SitePlan): string =>
  identityOf([shared, addresses, context.pictures ?? null, model.series.map(({ element, name }) => [element, name])]);

function drawnOnIn({ entries, shelf }: Journal): readonly DrawnOn[] {
  const takers = new Map<number, Set<string>>();
  for (const entry of entries)
    for (const lot of lotsNamed(entry, shelf)) {
      const number = Number(lot.split('/')[0]);
      const files = takers.get(number) ?? new Set();
      takers.set(number, files.add(entry.file));
    }
  return entries.flatMap(({ number, file }) =>
    takers.has(number) ? [{ number, file, takers: [...takers.get(number)!] }] : [],
  );
}

const withoutText = ({ matter: _, body: __, ...checked }: Entry): CheckedEntry => checked;

export function writeAround(file: string, version: string, { plan, said, registered, drafts }: ToPutDown): void {
  const { settings, settingsText, series, colours, pages, files, shelf, readings, published, pictures } =
    plan.model.journal;
  const kept: Kept = {
    ...{ settings, settingsText, series, colours, pages, files },
    register: registered,
    shelf: { file: shelf.file, text: shelf.text, jars: [...shelf.reagents] },
    readings: [...readings.keys()],
    ...(published && { published: [...published] }),
    ...(pictures && { pictures: [...pictures] }),
    drafts: drafts.map(withoutText),
    drawnOn: drawnOnIn(plan.model.journal),
    said: said.ofOthers(plan.pages),
    shared: sharedIdentity(plan),
  };
  writeChecked(file, version, JSON.stringify(kept));
}

export function readAround(file: string, version: string): Around | undefined {
  const text = readChecked(file, version);
  if (text === undefined) return undefined;
  const { shelf, readings, published, pictures, drafts, drawnOn, said, shared, ...rest } = JSON.parse(text) as Kept;
  return {
    journal: {
      ...rest,
      shelf: { file: shelf.file, text: shelf.text, reagents: new Map(shelf.jars) },
      ...(published && { published: new Map(published) }),
      ...(pictures && { pictures: new Map(pictures) }),
    },
    ...{ readings, drafts, drawnOn, said, shared },
  };
}

/** Pages and words of the journal's, all that is around its entries. */
export const pagesOf = ({ pages, series, colours }: Around['journal']): readonly Page[] => [
  ...pages,
  ...series,
  ...colours,
];
