// The pages of an entry of which only words were edited, from what was put down when it was published last.
import { listedRows } from '../../crosslinks/crosslink.js';
import type { Entry } from '../../journal/entry.js';
import { bodyLinks, shownAsWords } from '../../journal/links.js';
import { hashOf, identityOf } from '../../kept/inputs.js';
import { readLarge } from '../../kept/store.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { rowsOfReckoning } from '../../reckoning/gist.js';
import { largeKeyOf } from '../../reckoning/reckon.js';
import { toldInWords } from '../../reckoning/told-stuff.js';
import type { EntryWork } from '../entry-pages.js';
import type { PageRecord } from '../page-record.js';
import type { EditedFile } from './journal-again.js';

/** Of an entry all that its pages are made of but its words, and what is said of them elsewhere. */
export interface EntryLine {
  readonly number: number;
  /** The entry but for its text. */
  readonly checked: Omit<Entry, 'file' | 'matter' | 'body'>;
  /** Where the front matter stands in the text of the file, and where the write-up begins. */
  readonly from: number;
  readonly to: number;
  readonly bodyFrom: number;
  /** Hash of the text before the write-up. */
  readonly before: string;
  /** What of the words has a part elsewhere: what is told by them, and where links lead. */
  readonly told: string;
  readonly links: string;
  /** What is large of the reckoning is kept under this key. */
  readonly large: string;
  readonly reckoned: Pick<ReckonedEntry, 'elements' | 'gist' | 'stock'>;
  readonly work: Omit<EntryWork, 'reckoned' | 'rows' | 'addresses'>;
  readonly addresses: readonly (readonly [file: string, address: string])[];
  /** By address of each page, what other pages and the proof have of it. */
  readonly pages: readonly (readonly [address: string, said: string])[];
}

const linksIn = (entry: Entry): string =>
  identityOf(bodyLinks(entry).map(({ written, target, image, relative }) => [written, target, image, relative]));

/**
 * What other pages and the proof have of a page: its ids and links.
 * @returns undefined where something is remarked of its words, as remarks have a line
 */
export function saidOf({ ids, to, dead, remarks, partLinks }: PageRecord): string | undefined {
  if (remarks.length > 0) return undefined;
  return identityOf([ids, to, dead, partLinks.map(({ page, part }) => [page, part])]);
}

/**
 * What to put down of an entry.
 * @param text of its file
 * @returns undefined where its words cannot be taken alone
 */
export function lineOf(
  { reckoned, rows: _, addresses, ...work }: EntryWork,
  text: string,
  pages: EntryLine['pages'],
): EntryLine | undefined {
  const { entry, elements, gist, stock } = reckoned;
  const { file: __, matter, body, ...checked } = entry;
  const large = largeKeyOf(reckoned);
  const from = text.indexOf(matter);
  const bodyFrom = text.length - body.length;
  const isPlain = from >= 0 && from + matter.length < bodyFrom && text.endsWith(body) && text[bodyFrom - 1] === '\n';
  if (!isPlain || large === undefined || shownAsWords(entry).length > 0) return undefined;
  return {
    number: entry.number,
    checked,
    from,
    to: from + matter.length,
    bodyFrom,
    before: hashOf(text.slice(0, bodyFrom)),
    told: toldInWords(entry),
    links: linksIn(entry),
    large,
    reckoned: { elements, gist, ...(stock && { stock }) },
    work,
    addresses: [...addresses],
    pages,
  };
}

/** The entry with its new words; undefined where they say something that has a part elsewhere. */
function withWords(line: EntryLine, { file, text }: EditedFile): Entry | undefined {
  const { checked, from, to, bodyFrom, before } = line;
  if (hashOf(text.slice(0, bodyFrom)) !== before) return undefined;
  const entry: Entry = { ...checked, file, matter: text.slice(from, to), body: text.slice(bodyFrom) };
  const isAlike = toldInWords(entry) === line.told && linksIn(entry) === line.links && shownAsWords(entry).length === 0;
  return isAlike ? entry : undefined;
}

/** What the pages of an entry are made of with its new words; undefined where it has to be made in the ordinary way. */
export function workAgain(
  line: EntryLine,
  edited: EditedFile,
  { journal, version }: { readonly journal: string; readonly version: string },
): EntryWork | undefined {
  const entry = withWords(line, edited);
  const whole = entry && (readLarge(journal, version, line.large) as Whole | undefined);
  if (!whole) return undefined;
  const { stock } = line.reckoned;
  const amounts = stock ? { ...whole.amounts, stock } : whole.amounts;
  const rows = rowsOfReckoning(entry, whole.amounts, whole.appearance);
  const reckoned: ReckonedEntry = {
    ...line.reckoned,
    ...whole,
    entry,
    amounts,
    rows,
    findings: [],
    identity: line.large,
  };
  return { ...line.work, reckoned, rows: listedRows(reckoned), addresses: new Map(line.addresses) };
}

type Whole = Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'>;
