// What must be handed over with an entry so that it can be reckoned again: the entries, jars and files it draws on,
// and those that draw on it. Told by what stands in their texts, so that a key that is added is not forgotten: what is
// packed too much does no harm.
import type { Entry, Journal, Page } from '../../journal/entry.js';
import { bodyLinks, registerFile, registerText } from '../../journal/index.js';
import type { ShelfReagent } from '../../journal/schema.js';

/** The parts of a journal that are packed. */
export interface Parts {
  readonly entries: readonly Entry[];
  readonly pages: readonly Page[];
  /** Text of shelf.yaml; absent where the journal has none. */
  readonly shelf: string | undefined;
  readonly register: string | undefined;
  /** Spectra, photographs and other files, by path below the journal. */
  readonly files: readonly string[];
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const textOf = ({ matter, body }: Entry): string => `${matter}\n${body}`;

/** Numbers of the lots that a text names: of `9/A`, where entry 9 has a sample A. */
function lotsNamedIn(text: string, byNumber: ReadonlyMap<number, Entry>): readonly number[] {
  return [...text.matchAll(/(?<![\w/.-])(\d{1,6})\/([A-Za-z0-9-]+)/g)].flatMap(([, number, sample]) => {
    const entry = byNumber.get(Number(number));
    return entry?.samples.some((one) => one.sample === sample) ? [entry.number] : [];
  });
}

/** Jars of the shelf that a text names, by id or by a name. */
function jarsNamedIn(text: string, shelf: ReadonlyMap<string, ShelfReagent>): readonly string[] {
  const small = text.toLowerCase();
  return [...shelf]
    .filter(([id, jar]) =>
      [id, jar.name, ...(jar['also-called'] ?? [])].some((name) => small.includes(name.toLowerCase())),
    )
    .map(([id]) => id);
}

interface Found {
  readonly entries: Set<number>;
  readonly jars: Set<string>;
  readonly pages: Set<string>;
}

/** Numbers of the entries that an entry names outright. */
const namedBy = (entry: Entry): readonly number[] => [
  ...entry.follows,
  ...entry.repeats,
  ...entry['takes-up'].map((idea) => Number(idea.split('/')[0])),
];

/** Entries that weigh out a lot of this one: without them what is left of it is another figure. */
function takersOf({ number, samples }: Entry, { entries, shelf }: Journal): readonly number[] {
  if (samples.length === 0) return [];
  const lots = samples.map(({ sample }) => `${number}/${sample}`);
  const jars = [...shelf.reagents].filter(([, { lot }]) => lot !== undefined && lots.includes(lot)).map(([id]) => id);
  const named = new RegExp(`(?<![\\w/.-])(?:${[...lots, ...jars].map(escaped).join('|')})(?![\\w-])`);
  return entries.filter((other) => other.number !== number && named.test(other.matter)).map((other) => other.number);
}

/** Follows what is named from one entry until nothing new is. */
function followed(start: Entry, journal: Journal): Found {
  const byNumber = new Map(journal.entries.map((entry) => [entry.number, entry]));
  const byFile = new Map(journal.entries.map((entry) => [entry.file, entry.number]));
  const pages = new Map([...journal.pages, ...journal.series, ...journal.colours].map((page) => [page.file, page]));
  const found: Found = { entries: new Set(), jars: new Set(), pages: new Set() };
  const openEntries = [start.number, ...takersOf(start, journal)];
  const openPages: string[] = [];
  const takeLinks = (of: Entry | Page): void => {
    for (const { target } of bodyLinks(of)) {
      if (byFile.has(target)) openEntries.push(byFile.get(target)!);
      else if (pages.has(target)) openPages.push(target);
    }
  };
  const takeText = (text: string): void => {
    openEntries.push(...lotsNamedIn(text, byNumber));
    for (const id of jarsNamedIn(text, journal.shelf.reagents)) {
      found.jars.add(id);
      const lot = journal.shelf.reagents.get(id)?.lot;
      if (lot !== undefined) openEntries.push(Number(lot.split('/')[0]));
    }
  };
  while (openEntries.length + openPages.length > 0) {
    const entry = byNumber.get(openEntries.pop() ?? 0);
    if (entry && !found.entries.has(entry.number)) {
      found.entries.add(entry.number);
      openEntries.push(...namedBy(entry));
      takeText(textOf(entry));
      takeLinks(entry);
    }
    const page = pages.get(openPages.pop() ?? '');
    if (page && !found.pages.has(page.file)) {
      found.pages.add(page.file);
      takeLinks(page);
    }
  }
  return found;
}

/** Jars of a shelf as they are written, the others left out; the whole text where it is not one jar after another. */
function shelfWith(text: string, ids: ReadonlySet<string>): string {
  const starts = [...text.matchAll(/^(?:"([^"\n]+)"|'([^'\n]+)'|([A-Za-z0-9][\w-]*))[ \t]*:/gm)];
  if (starts.length === 0) return text;
  const blocks = starts.map((match, at) => ({
    id: match[1] ?? match[2] ?? match[3]!,
    text: text.slice(match.index, starts[at + 1]?.index),
  }));
  const kept = blocks.filter(({ id }) => ids.has(id)).map((block) => block.text);
  const head = text.slice(0, starts[0]!.index);
  return kept.length === 0 ? `${head}{}\n` : `${head}${kept.join('')}`;
}

/** Files whose path, as it is or as an address has it, stands in one of the texts. */
const filesNamedIn = (texts: readonly string[], files: readonly string[]): readonly string[] =>
  files.filter((path) => texts.some((text) => text.includes(path) || text.includes(encodeURI(path))));

/** Everything of a journal. */
export function wholeParts(journal: Journal): Parts {
  const { entries, pages, series, colours, shelf, files, readings, register } = journal;
  return {
    entries,
    pages: [...pages, ...series, ...colours],
    shelf: shelf.text === '' ? undefined : shelf.text,
    register: register.length === 0 ? undefined : registerText(register),
    files: [...new Set([...files, ...readings.keys()])].sort(),
  };
}

/** What one entry needs; undefined where there is none of this number. */
export function partsOfEntry(number: number, journal: Journal): Parts | undefined {
  const start = journal.entries.find((entry) => entry.number === number);
  if (!start) return undefined;
  const found = followed(start, journal);
  const whole = wholeParts(journal);
  const entries = whole.entries.filter((entry) => found.entries.has(entry.number));
  const pages = whole.pages.filter((page) => found.pages.has(page.file));
  const shelf = whole.shelf === undefined ? undefined : shelfWith(whole.shelf, found.jars);
  const register = journal.register.filter((address) =>
    found.entries.has(Number(/^\/(\d+)\//.exec(address)?.[1] ?? Number.NaN)),
  );
  const texts = [...entries.map(textOf), ...pages.map(({ body }) => body), shelf ?? ''];
  return {
    entries,
    pages,
    shelf,
    register: register.length === 0 ? undefined : registerText(register),
    files: filesNamedIn(texts, whole.files),
  };
}

export { registerFile };
