// Everything that a journal holds, by what others call it.
import { once } from '../once.js';
import type { Entry, Page, Shelf } from './entry.js';
import type { Folder } from './folder.js';

/** The parts of a journal before they are held together. */
export interface Parts {
  readonly entries: readonly Entry[];
  /** Entry files that could not be read at all. */
  readonly unread: readonly string[];
  readonly pages: readonly Page[];
  readonly shelf: Shelf;
  readonly folder: Folder;
  /** Addresses that were ever published. */
  readonly register?: readonly string[];
  /** Planned and running entries are shown too. */
  readonly drafts: boolean;
}

export interface Catalogue extends Parts {
  /** The first entry of each number. */
  readonly byNumber: ReadonlyMap<number, Entry>;
  readonly byFile: ReadonlyMap<string, Entry>;
  readonly unreadFiles: ReadonlySet<string>;
  /** Numbers that the names of unread files begin with. */
  readonly unreadNumbers: ReadonlySet<number>;
  readonly pageFiles: ReadonlySet<string>;
  readonly reagentIds: readonly string[];
}

/** The number that a file's name begins with; not a number where it begins with none. */
export const numberInName = (file: string): number => Number(/(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1]);

/** A number that a file's name begins with for certain: not one of a longer number. */
const beginsWith = (file: string): number => Number(/(?:^|\/)0*(\d{1,6})(?!\d)[^/]*$/.exec(file)?.[1] ?? 0);

/**
 * The next number that neither an entry, nor a file's name, nor the register has.
 * @param files of entries, by their names or paths
 * @example nextNumber([{ number: 3 }], ['entries/004-x.md'], ['/7/']) // 8
 */
export function nextNumber(
  entries: readonly Pick<Entry, 'number'>[],
  files: readonly string[],
  register: readonly string[],
): number {
  const numbers = [
    ...entries.map(({ number }) => number),
    ...files.map(beginsWith),
    ...register.map((address) => Number(/^\/(\d+)/.exec(address)?.[1] ?? 0)),
  ];
  return 1 + numbers.reduce((most, one) => Math.max(most, one), 0);
}

/**
 * Asked for one of the files, the next number that neither another has nor an entry nor the register. Mostly that is
 * the same for all: only who has the greatest number in its name has it looked for anew.
 */
export function freeNumberFor(
  entries: readonly Pick<Entry, 'number'>[],
  files: readonly string[],
  register: readonly string[],
): (file: string) => number {
  const next = once(() => nextNumber(entries, files, register));
  const besides = (file: string): number =>
    nextNumber(
      entries,
      files.filter((one) => one !== file),
      register,
    );
  return (file) => (beginsWith(file) + 1 === next() ? besides(file) : next());
}

export function catalogueOf(parts: Parts): Catalogue {
  const { entries, unread, pages, shelf } = parts;
  const byNumber = new Map<number, Entry>();
  for (const entry of entries) if (!byNumber.has(entry.number)) byNumber.set(entry.number, entry);
  return {
    ...parts,
    byNumber,
    byFile: new Map(entries.map((entry) => [entry.file, entry])),
    unreadFiles: new Set(unread),
    unreadNumbers: new Set(unread.map(numberInName)),
    pageFiles: new Set(pages.map(({ file }) => file)),
    reagentIds: [...shelf.reagents.keys()],
  };
}
