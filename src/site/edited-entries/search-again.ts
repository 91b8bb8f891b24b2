// The search index after an edit of entries that show others what they showed: what pages show and how often each word
// stands there is another for the edited entries alone, and only where words as they are compared are others the
// library makes its index again, of the words that were put down for all the rest.
import { randomBytes } from 'node:crypto';
import { appendFileSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { listedRows, nameOfSeries } from '../../crosslinks/crosslink.js';
import type { Entry, Shelf } from '../../journal/entry.js';
import type { ReckonedEntry } from '../../reckoning/contracts.js';
import type { SiteFile } from '../assets.js';
import { quietly } from '../lock.js';
import { beginHash, contentHash, finishHash } from '../manifest.js';
import { countWords, indexedWords, type CountedWords } from '../search-counts.js';
import {
  aboutAddress,
  aboutFile,
  fileOfThing,
  isOfLibrary,
  isOfVocabulary,
  lettersOf,
  shownWordsFile,
  vocabularyFiles,
  type IndexNotes,
} from '../search-index.js';
import { piecesAddress, wordFiles, type Pieces } from '../search-library.js';
import { partByPart, partOfFile, partOfThing } from '../search-parts.js';
import { namedEntry, namesAmong, titleOfEntry, type Findable } from '../search-things.js';
import { VocabularyCount, type Counts } from '../search-vocabulary.js';
import { entryWords } from '../search-words.js';
import type { EntryWork } from '../entry-pages.js';
import { bytesInStamp } from '../site-folder.js';
import { fileOfAddress } from '../file-writing.js';
import { nameBeside, sitesFolder, type Known, type KnownSearch } from './known.js';
import { areAlike } from './shown-alike.js';
import { pathIn } from './as-it-was.js';
import { folderOf, type SiteAgain } from './site-again.js';

/**
 * Puts down the words of things, each in a line, one part of the index after the other, and in the last how much each
 * word counts. What cannot be written is not known.
 */
export class SearchNotes implements IndexNotes {
  private readonly name: string;
  private readonly hash = beginHash();
  private readonly file: string;
  private things = 0;
  private ended: Pick<KnownSearch, 'language' | 'hash'> | undefined;
  private isWhole = false;

  /** @param journal its folder */
  constructor(journal: string, site: string) {
    const folder = sitesFolder(journal);
    this.name = nameBeside(site, 'search', randomBytes(6).toString('hex'));
    this.file = join(folder, this.name);
    quietly(() => {
      mkdirSync(folder, { recursive: true });
      this.isWhole = true;
    });
  }

  readonly take = (words: readonly string[]): void => {
    this.things += words.length;
    this.append(words.map((one) => `${one}\n`).join(''));
  };

  readonly end = (language: string, vocabulary: Counts): void => {
    this.append(JSON.stringify(vocabulary));
    this.ended = { language, hash: finishHash(this.hash) };
  };

  /** What is known then. @param entries their numbers; they are the last of the things, in this order */
  known(entries: readonly number[]): KnownSearch | undefined {
    const { ended, isWhole, name: file, things } = this;
    return ended && isWhole ? { file, ...ended, things, entries } : undefined;
  }

  private append(text: string): void {
    if (!this.isWhole) return;
    this.isWhole = false;
    quietly(() => {
      appendFileSync(this.file, text);
      this.isWhole = true;
    });
    this.hash.update(text);
  }
}

/** Words of each thing by its number, and how much each word counts. */
interface NotedWords {
  readonly words: readonly string[];
  readonly vocabulary: Counts;
}

/** What was put down of the words of things; undefined where it is another. @param journal its folder */
export function notedWords(journal: string, { file, hash, things }: KnownSearch): NotedWords | undefined {
  const text = readFileSync(join(sitesFolder(journal), file), 'utf8');
  if (contentHash(text) !== hash) return undefined;
  const lines = text.split('\n');
  if (lines.length !== things + 1) return undefined;
  const words: string[] = [];
  for (const [line, thing] of partByPart(things).entries()) words[thing] = lines[line]!;
  return { words, vocabulary: JSON.parse(lines.at(-1)!) as Counts };
}

/** The library's pieces of a site. */
export const piecesOf = (site: string): Pieces =>
  JSON.parse(readFileSync(pathIn(site, fileOfAddress(piecesAddress)), 'utf8')) as Pieces;

/** Words that the page of a thing shows, before and after. */
interface ShownWords {
  readonly thing: number;
  readonly title: string;
  readonly was: string;
  readonly is: string;
}

/** @returns undefined where there is no such file */
function shownBefore({ site, files }: Known, thing: number): string | undefined {
  const path = `find/words/${thing}.json`;
  return files.has(path) ? (JSON.parse(readFileSync(pathIn(site, path), 'utf8')) as string) : undefined;
}

/** The number of the thing that an entry is; undefined where it is none. */
function thingOf({ things, entries }: KnownSearch, { number }: Pick<Entry, 'number'>): number | undefined {
  const at = entries.indexOf(number);
  return at < 0 ? undefined : things - entries.length + at;
}

function shownWordsOf(known: Known, search: KnownSearch, { reckoned }: EntryWork): ShownWords | undefined {
  const { entry } = reckoned;
  const thing = thingOf(search, entry);
  const was = thing === undefined ? undefined : shownBefore(known, thing);
  const is = entryWords(reckoned);
  return thing === undefined || was === undefined || is === ''
    ? undefined
    : { thing, title: titleOfEntry(entry), was, is };
}

/** A site of whose search index enough is known. */
export type SearchedSite = Known & { readonly search: KnownSearch };

/** What an edit of words changes in the index. */
export interface SearchAgain {
  /** Files that are others, or were not there. */
  readonly files: readonly SiteFile[];
  /** Paths of those that are not there any more. */
  readonly gone: readonly string[];
  readonly search: KnownSearch;
}

const countedIn = (title: string, words: string): CountedWords => countWords({ thing: { title }, names: [], words });

/**
 * What the site's index is after an edit of words, or of what pages of the entries alone show.
 * @param journal its folder
 * @param works of the edited entries
 * @returns undefined where the index has to be made in the ordinary way
 */
export async function searchAgain(
  journal: string,
  known: SearchedSite,
  works: readonly EntryWork[],
): Promise<SearchAgain | undefined> {
  const again = await indexAgain(journal, known, works);
  return again?.files.every(({ address }) => known.folders.has(folderOf(fileOfAddress(address)))) ? again : undefined;
}

async function indexAgain(
  journal: string,
  known: SearchedSite,
  works: readonly EntryWork[],
): Promise<SearchAgain | undefined> {
  const { search } = known;
  const shown = works.map((work) => shownWordsOf(known, search, work));
  if (!shown.every((one) => one !== undefined)) return undefined;
  const others = shown.filter(({ was, is }) => was !== is);
  if (others.length === 0) return { files: [], gone: [], search };
  const noted = notedWords(journal, search);
  return noted && madeAgain(journal, known, others, noted);
}

/** An edited entry as it was and as it is, with all that was reckoned. */
export interface Reckonings {
  readonly was: ReckonedEntry;
  readonly is: ReckonedEntry;
}

/** What an entry is found by, as far as its words have no part in it. */
function namedAs(reckoned: ReckonedEntry, shelf: Shelf['reagents']): Findable {
  const names = new Map(reckoned.elements.map((symbol) => [symbol, nameOfSeries(symbol)]));
  const elementNames = namesAmong(reckoned.elements, names);
  return namedEntry({ reckoned, rows: listedRows(reckoned), elementNames }, shelf);
}

/**
 * Files of things with what hits say of edited entries now.
 * @returns undefined where one goes by other names, or hits say something else of one than is known
 */
export function thingsAgain(
  { site, search }: SearchedSite,
  edited: readonly Reckonings[],
  shelf: Shelf['reagents'],
): readonly SiteFile[] | undefined {
  const files = new Map<string, unknown[]>();
  for (const { was, is } of edited) {
    const thing = thingOf(search, is.entry);
    const [before, now] = [namedAs(was, shelf), namedAs(is, shelf)];
    if (thing === undefined || !areAlike(before.names, now.names)) return undefined;
    if (areAlike(before.thing, now.thing)) continue;
    const { address, at } = fileOfThing(thing);
    const things =
      files.get(address) ?? (JSON.parse(readFileSync(pathIn(site, fileOfAddress(address)), 'utf8')) as unknown[]);
    if (!areAlike(things[at], before.thing)) return undefined;
    things[at] = now.thing;
    files.set(address, things);
  }
  return [...files].map(([address, things]) => ({ address, content: JSON.stringify(things) }));
}

/** Writes what is another of the index into the next site; by how many bytes the site is larger. */
export function writeSearchAgain(site: SiteAgain, { files: before }: Known, { files, gone }: SearchAgain): number {
  let bytes = 0;
  for (const { address, content } of files) {
    const file = site.write(address, content);
    bytes += file.bytes - bytesInStamp(before.get(file.path));
  }
  for (const path of gone) {
    site.drop(path);
    bytes -= bytesInStamp(before.get(path));
  }
  return bytes;
}

async function madeAgain(
  journal: string,
  known: SearchedSite,
  others: readonly ShownWords[],
  noted: NotedWords,
): Promise<SearchAgain | undefined> {
  const { search, site } = known;
  const vocabulary = new VocabularyCount(search.things, noted.vocabulary);
  const words = [...noted.words];
  for (const { thing, title, was, is } of others) {
    const [before, now] = [countedIn(title, was), countedIn(title, is)];
    // What is published is not what was put down.
    if (indexedWords(before) !== words[thing]) return undefined;
    vocabulary.takeBack(thing, before);
    vocabulary.take(thing, now);
    words[thing] = indexedWords(now);
  }
  const counted = vocabularyAgain(known, vocabulary);
  const anew = others.flatMap(({ thing }) => (words[thing] === noted.words[thing] ? [] : [thing]));
  const ofLibrary = anew.length > 0 ? await libraryFiles(known, words, anew) : [];
  const parts = new Set(anew.map((thing) => partOfThing(thing, words.length)));
  const notes = new SearchNotes(journal, site);
  notes.take(partByPart(words.length).map((thing) => words[thing]!));
  notes.end(search.language, vocabulary.counts);
  const now = notes.known(search.entries);
  if (!now) return undefined;
  return {
    files: [...others.flatMap(({ thing, is }) => shownWordsFile(thing, is)), ...counted, ...ofLibrary].filter(
      ({ address, content }) => known.files.get(fileOfAddress(address))?.hash !== contentHash(content as string),
    ),
    gone: [
      ...pathsGone(known, counted, isOfVocabulary),
      ...pathsGone(known, ofLibrary, (path) => isOfLibrary(path) && parts.has(partOfFile(path))),
    ],
    search: now,
  };
}

/** Files of the journal's words, and what says under which letters there are such. */
function vocabularyAgain({ site }: Known, vocabulary: VocabularyCount): SiteFile[] {
  const byLetter = vocabulary.end();
  const about = JSON.parse(readFileSync(pathIn(site, fileOfAddress(aboutAddress)), 'utf8')) as object;
  return [...vocabularyFiles(byLetter), aboutFile({ ...about, vocabulary: lettersOf(byLetter) })];
}

/** The library's files of the parts that are made again. @param anew things whose words are others */
async function libraryFiles(
  { site, search }: SearchedSite,
  words: readonly string[],
  anew: readonly number[],
): Promise<SiteFile[]> {
  const files: SiteFile[] = [];
  const wordsOf = (some: readonly number[]): readonly string[] => some.map((thing) => words[thing]!);
  const before = { pieces: piecesOf(site), anew };
  await wordFiles({ language: search.language, things: words.length, wordsOf, before }, (file) => files.push(file));
  return files;
}

/** Paths of files of one kind that are not made any more. */
function pathsGone({ files }: Known, made: readonly SiteFile[], isOfKind: (path: string) => boolean): string[] {
  const there = new Set(made.map(({ address }) => fileOfAddress(address)));
  return [...files.keys()].filter((path) => isOfKind(path) && !there.has(path));
}
