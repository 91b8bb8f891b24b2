// The files that the search page asks for, below /find/: names on shelves of our own, so that a name finds at once what
// it names; and the library's index of the words that pages show.
import type { JournalModel } from '../crosslinks/model.js';
import type { Kept } from '../kept/kept.js';
import { systematicNames } from '../reckoning/names.js';
import type { SiteFile } from './assets.js';
import { countWords, indexedWords, type CountedWords } from './search-counts.js';
import { searchKey, shelfOf } from './search-key.js';
import { piecesAddress, wordFiles, type Give, type PartsBefore, type Pieces } from './search-library.js';
import { NameShelves } from './search-names.js';
import { partByPart, partOfFile, partOfThing, partsFor } from './search-parts.js';
import { everything, type Findable } from './search-things.js';
import { VocabularyCount, type Counts, type Vocabulary } from './search-vocabulary.js';

/** Things in one file. */
const thingsAtOnce = 32;

/** By how many letters shelves are told apart: the larger the journal the more, so that a shelf stays small. */
function lettersFor(things: number): number {
  return things < 4000 ? 2 : 3;
}

type Progress = (done: number, of: number) => void;

/** The file of a shelf: letters that a file name should not hold by their number. */
const shelfFile = (shelf: string): string =>
  shelf.replace(/[^a-z0-9]/g, (letter) => `-${letter.codePointAt(0)!.toString(16)}`);

const json = (address: string, value: unknown): SiteFile => ({
  address: `/find/${address}.json`,
  content: JSON.stringify(value),
});

/** Names of the trade by their first letter, each with the systematic name of what it means. */
function otherwise(): ReadonlyMap<string, Readonly<Record<string, string>>> {
  const byLetter = new Map<string, Record<string, string>>();
  for (const [name, systematic] of systematicNames()) {
    const key = searchKey(name);
    const letter = shelfOf(key, 1);
    if (letter === '') continue;
    const own = byLetter.get(letter) ?? {};
    own[key] = systematic;
    byLetter.set(letter, own);
  }
  return byLetter;
}

/** The file in which a thing stands, with others. @param thing its number */
export const fileOfThing = (thing: number): { readonly address: string; readonly at: number } => ({
  address: `/find/things/${Math.floor(thing / thingsAtOnce)}.json`,
  at: thing % thingsAtOnce,
});

/** The file of the words that the page of a thing shows; none where it shows none. @param thing its number */
export const shownWordsFile = (thing: number, words: string): SiteFile[] =>
  words === '' ? [] : [json(`words/${thing}`, words)];

/** Files of the journal's words by their first letters. */
export const vocabularyFiles = (vocabulary: ReadonlyMap<string, Vocabulary>): SiteFile[] =>
  [...vocabulary].map(([letter, words]) => json(`vocabulary/${shelfFile(letter)}`, words));

/** Takes down what the index is made of, for a time when little of it is another. */
export interface IndexNotes {
  /** Words of things as the library is given them, one part after the other. */
  readonly take: (words: readonly string[]) => void;
  readonly end: (language: string, vocabulary: Counts) => void;
}

/** Address of the file that says what there is on shelves, and of how many things. */
export const aboutAddress = '/find/index.json';

export const aboutFile = (about: object): SiteFile => ({ address: aboutAddress, content: JSON.stringify(about) });

/** Letters under which there is something, as they are told. */
export const lettersOf = (byLetters: ReadonlyMap<string, unknown>): readonly string[] => [...byLetters.keys()].sort();

/** Whether a file of the site holds words of the journal. @param path in the site */
export const isOfVocabulary = (path: string): boolean => path.startsWith('find/vocabulary/');

/** Whether a file of the site is the library's, and none of our own shelves. @param path in the site */
export const isOfLibrary = (path: string): boolean =>
  path.startsWith('find/') && !/^find\/(?:index\.json$|(?:names|otherwise|things|vocabulary|words)\/)/.test(path);

/** @param path in the site */
const isPieces = (path: string): boolean => path === piecesAddress.slice(1);

const countedIn = ({ thing, names, words, counted }: Findable): CountedWords =>
  counted ?? countWords({ thing, names, words });

/** What is gathered of all things for shelves of our own, one thing after the other. */
class Gathered {
  readonly names = new NameShelves();
  readonly vocabulary: VocabularyCount;
  private batch: Findable['thing'][] = [];
  private batches = 0;
  private taken = 0;

  constructor(
    private readonly all: readonly Findable[],
    private readonly give: Give,
  ) {
    this.vocabulary = new VocabularyCount(all.length);
  }

  /** Takes the next, as far as this one. */
  takeUpTo(end: number): void {
    for (; this.taken < end; this.taken += 1) this.take(this.all[this.taken]!, this.taken);
    if (end === this.all.length && this.batch.length > 0) this.giveBatch();
  }

  private take(one: Findable, at: number): void {
    this.batch.push(one.thing);
    if (this.batch.length === thingsAtOnce) this.giveBatch();
    this.names.take(at, one.names);
    this.vocabulary.take(at, countedIn(one));
    for (const file of shownWordsFile(at, one.words)) this.give(file);
  }

  private giveBatch(): void {
    this.give(json(`things/${this.batches}`, this.batch));
    this.batches += 1;
    this.batch = [];
  }
}

function giveNames({ names, vocabulary }: Gathered, things: number, give: Give): void {
  const letters = lettersFor(things);
  const shelves = names.end(letters);
  const meanings = otherwise();
  const words = vocabulary.end();
  give(
    aboutFile({
      names: lettersOf(shelves),
      vocabulary: lettersOf(words),
      otherwise: lettersOf(meanings),
      letters,
      things,
      atOnce: thingsAtOnce,
      parts: partsFor(things),
    }),
  );
  for (const [shelf, content] of shelves) give(json(`names/${shelfFile(shelf)}`, content));
  for (const file of vocabularyFiles(words)) give(file);
  for (const [letter, called] of meanings) give(json(`otherwise/${shelfFile(letter)}`, called));
}

export interface IndexOptions {
  /** What the entries are found by, by number. */
  readonly entries?: readonly Findable[] | undefined;
  /** What else was made before. */
  readonly kept?: Kept;
  readonly progress?: Progress;
  readonly notes?: IndexNotes | undefined;
  /** What the site has of the library already. */
  readonly before?: LibraryBefore | undefined;
}

/** The library's files as they were made last. */
export interface LibraryBefore {
  /** Words that it was given of each thing, by number. */
  readonly words: readonly string[];
  readonly pieces: Pieces;
  /** Takes files over as they are. @param stays of each of the library's files, by its path in the site */
  readonly takeOver: (stays: (path: string) => boolean) => void;
}

/** Takes over what the library made of the same words; what else it has made is begun with. */
function partsBefore(words: readonly string[], { words: were, pieces, takeOver }: LibraryBefore): PartsBefore {
  const anew = words.flatMap((one, thing) => (one === were[thing] ? [] : [thing]));
  const parts = new Set(anew.map((thing) => partOfThing(thing, words.length)));
  takeOver((path) => parts.size === 0 || (!isPieces(path) && !parts.has(partOfFile(path))));
  return { pieces, anew };
}

/** What the library is given of things. */
interface Given {
  readonly wordsOf: (some: readonly number[]) => readonly string[];
  readonly before?: PartsBefore;
}

/** @param notes take down all of it, one part after the other */
function given(all: readonly Findable[], { notes, before }: Pick<IndexOptions, 'notes' | 'before'>): Given {
  const wordsOf = (some: readonly number[]): readonly string[] => {
    const words = some.map((thing) => indexedWords(countedIn(all[thing]!)));
    notes?.take(words);
    return words;
  };
  if (before?.words.length !== all.length) return { wordsOf };
  const order = partByPart(all.length);
  const words: string[] = [];
  for (const [at, one] of wordsOf(order).entries()) words[order[at]!] = one;
  return { wordsOf: (some) => some.map((thing) => words[thing]!), before: partsBefore(words, before) };
}

/**
 * Makes the index; its files lie below /find/.
 * @param give is given each file when it is made
 * @throws SearchFault where the indexer fails
 */
export async function searchIndex(
  model: JournalModel,
  give: Give,
  { entries, kept, progress = () => undefined, notes, before }: IndexOptions = {},
): Promise<void> {
  const all = everything(model, entries, kept);
  const things = all.length;
  const language = model.journal.settings.language.split('-')[0] ?? 'en';
  const gathered = new Gathered(all, give);
  const shelve = (done: number, of: number): void => gathered.takeUpTo(Math.ceil((things * done) / of));
  const of = given(all, { notes, before });
  if (of.before?.anew.length === 0) shelve(1, 1);
  else
    await wordFiles({ language, things, ...of, progress: (done) => progress(done, things), meanwhile: shelve }, give);
  notes?.end(language, gathered.vocabulary.counts);
  giveNames(gathered, things, give);
}
