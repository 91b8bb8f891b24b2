// The pages of an entry of which only words were edited, from what was put down when it was published last.
import { listedRows } from '../../crosslinks/crosslink.js';
import type { Entry } from '../../journal/entry.js';
import type { Shelf } from '../../journal/entry.js';
import { seenInChecks } from '../../journal/cross-checks.js';
import { bodyLinks, shownAsWords, type BodyLink } from '../../journal/links.js';
import { hashOf, identityOf } from '../../kept/inputs.js';
import { readLarge } from '../../kept/store.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import { rowsOfReckoning } from '../../reckoning/gist.js';
import { writtenOf } from '../../reckoning/entry-part.js';
import { findingsOnStocks } from '../../reckoning/journal-stocks.js';
import { keptAs, type KeptAs } from '../../reckoning/kept-reckoning.js';
import { toldInWords } from '../../reckoning/told/told-in-words.js';
import type { Finding } from '../../remarks/findings.js';
import type { EntryWork } from '../entry-pages.js';
import type { EditedFile } from './journal-again.js';
import { bytesOfLine } from './known.js';

/** Of an entry what is asked for to join it with others. */
interface JoiningLine {
  readonly number: number;
  /** The entry but for its text. */
  readonly checked: Omit<Entry, 'file' | 'matter' | 'body'>;
  /** Where the front matter stands in the text of the file, and where the write-up begins. */
  readonly from: number;
  readonly to: number;
  readonly bodyFrom: number;
  /** Hash of the text. */
  readonly text: string;
  /** `writtenOf` the entry. */
  readonly written: string;
  /** Where links of the words lead. */
  readonly links: readonly BodyLink[];
  /** How its reckoning is kept, and what tells it, with its stocks, from others. */
  readonly as: KeptAs;
  readonly identity: string;
  readonly reckoned: Pick<ReckonedEntry, 'elements' | 'gist' | 'stock'>;
  /** What was found of its stocks. */
  readonly found: readonly Finding[];
  /** `seenInChecks` */
  readonly seen: string;
  /** Identity of what joins it to others. */
  readonly joined: string;
}

/** The rest, which is asked for where pages of the entry or lists that show it are made. */
interface LaterLine {
  /** Hash of what of its text stands before the write-up. */
  readonly before: string;
  /** What is told by its words. */
  readonly told: string;
  readonly rows?: ReckonedEntry['rows'];
  readonly work: Omit<EntryWork, 'reckoned' | 'rows' | 'addresses'>;
  readonly addresses: readonly (readonly [file: string, address: string])[];
  /**
   * By address of each page, what other pages and the proof have of it. Missing where something is remarked of its
   * words, so that they cannot be taken alone.
   */
  readonly pages?: readonly (readonly [address: string, said: string])[];
}

/** Of an entry all that its pages are made of but its words, and what is said of them elsewhere. */
export interface EntryLine {
  readonly first: JoiningLine;
  readonly rest: () => LaterLine;
}

const identityOfLinks = (links: readonly BodyLink[]): string =>
  identityOf(links.map(({ written, target, image, relative }) => [written, target, image, relative]));

/**
 * What to put down of an entry.
 * @param text of its file
 * @param joined identity of what joins it to others, where that is known
 * @returns undefined where its parts do not stand in its text as they are, or it is not kept
 */
export function lineOf(
  { reckoned, rows: _, addresses, ...work }: EntryWork,
  text: string,
  pages: LaterLine['pages'],
  shelf: Shelf,
  joined = identityOf(work.links),
): Buffer | undefined {
  const { entry, elements, gist, stock, rows } = reckoned;
  const { file: __, matter, body, ...checked } = entry;
  const as = keptAs(reckoned);
  const from = text.indexOf(matter);
  const bodyFrom = text.length - body.length;
  const isPlain = from >= 0 && from + matter.length < bodyFrom && text.endsWith(body) && text[bodyFrom - 1] === '\n';
  if (!isPlain || as === undefined) return undefined;
  const first: JoiningLine = {
    number: entry.number,
    checked,
    from,
    to: from + matter.length,
    bodyFrom,
    text: hashOf(text),
    written: writtenOf(entry),
    links: bodyLinks(entry),
    as,
    identity: identityOf(reckoned),
    reckoned: { elements, gist, ...(stock && { stock }) },
    found: findingsOnStocks(reckoned),
    seen: seenInChecks(entry, shelf),
    joined,
  };
  const rest: LaterLine = {
    before: hashOf(text.slice(0, bodyFrom)),
    told: toldInWords(entry),
    ...(rows && { rows }),
    work,
    addresses: [...addresses],
    ...(pages && shownAsWords(entry).length === 0 && { pages }),
  };
  return bytesOfLine(first, rest);
}

/** The entry with its new words; undefined where they say something that has a part elsewhere. */
function withWords({ first, rest }: EntryLine, { file, text }: EditedFile): Entry | undefined {
  const { checked, from, to, bodyFrom, links } = first;
  const { before, told } = rest();
  if (hashOf(text.slice(0, bodyFrom)) !== before) return undefined;
  const entry: Entry = { ...checked, file, matter: text.slice(from, to), body: text.slice(bodyFrom) };
  const areLinksAlike = identityOfLinks(bodyLinks(entry)) === identityOfLinks(links);
  const isAlike = toldInWords(entry) === told && areLinksAlike && shownAsWords(entry).length === 0;
  return isAlike ? entry : undefined;
}

/** What the pages of an entry are made of with its new words; undefined where it has to be made in the ordinary way. */
export function workAgain(
  line: EntryLine,
  edited: EditedFile,
  { journal, version }: { readonly journal: string; readonly version: string },
): EntryWork | undefined {
  const { as, reckoned: put } = line.first;
  const { work, addresses, pages } = line.rest();
  const entry = pages && withWords(line, edited);
  const whole = entry && (readLarge(journal, version, as.large) as Whole | undefined);
  if (!whole) return undefined;
  const { stock } = put;
  const amounts = stock ? { ...whole.amounts, stock } : whole.amounts;
  const rows = rowsOfReckoning(entry, whole.amounts, whole.appearance);
  const reckoned: ReckonedEntry = {
    ...put,
    ...whole,
    entry,
    amounts,
    rows,
    findings: [],
    identity: as.large,
  };
  return { ...work, reckoned, rows: listedRows(reckoned), addresses: new Map(addresses) };
}

type Whole = Pick<ReckonedEntry, 'amounts' | 'dangers' | 'appearance'>;
