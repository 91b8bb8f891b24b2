// The files that the search page asks for, below /find/: names on shelves of our own, so that a name finds at once what
// it names; and Pagefind's index of the words that pages show. What our own page does not ask of it is left out.
import type { ChildProcess } from 'node:child_process';
import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import { gunzipSync } from 'node:zlib';
import { close, createIndex, type PagefindIndex } from 'pagefind';
import type { JournalModel } from '../crosslinks/model.js';
import type { Kept } from '../kept/kept.js';
import { systematicNames } from '../reckoning/names.js';
import type { SiteFile } from './assets.js';
import { countWords, type CountedWords } from './search-counts.js';
import { littleWords, searchKey, shelfOf } from './search-key.js';
import { NameShelves } from './search-names.js';
import { everything, type Findable } from './search-things.js';
import { VocabularyCount } from './search-vocabulary.js';

/** The index could not be made: the indexer did not start, or came to its end too early. */
export class SearchFault extends Error {}

/**
 * Files of the library that our search page never asks for: it searches in the page's own thread, and cuts excerpts
 * itself from what pages show.
 */
const stock = /^pagefind-(ui|modular-ui|component-ui|highlight|playground|worker)|^playground\/|^fragment\//;

/** How many records are handed to the indexer before its answers are awaited. */
const atOnce = 200;

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

/** A word counts so often on one page and no oftener: what is said twice is what the page is about. */
const mostTimes = 2;

/**
 * Words as the library is given them: as they are compared, each next to its repetitions, without those that tell
 * nothing: the little ones, and the digits of decimals (the numbers of entries are names).
 * A first query loads half as much as with the text as it stands.
 */
function indexedWords({ texts }: CountedWords): string {
  return texts
    .filter(([word]) => !littleWords.has(word) && !/^\d{1,3}$/.test(word))
    .sort(([word], [other]) => (word < other ? -1 : 1))
    .map(([word, times]) => `${word} `.repeat(Math.min(mostTimes, times)))
    .join('');
}

/** Which thing a hit of the library is, by the name of the library's piece for it. */
function thingsByPiece(files: readonly { readonly path: string; readonly content: Uint8Array }[]): object {
  const pieces = files.flatMap(({ path, content }): [string, number][] => {
    const name = /^fragment\/(.+)\.pf_fragment$/.exec(path)?.[1];
    if (name === undefined) return [];
    const written = gunzipSync(content).toString('utf8');
    const { url } = JSON.parse(written.slice(written.indexOf('{'))) as { url: string };
    return [[name, Number(url)]];
  });
  return Object.fromEntries(pieces.sort((one, other) => one[1] - other[1]));
}

/** Takes a file of the index when it is made, so that no more than one of them is held. */
type Give = (file: SiteFile) => void;

/** What is gathered of all things, in one going through them: each is read when it is asked for. */
class Gathered {
  readonly names = new NameShelves();
  readonly vocabulary = new VocabularyCount();
  private batch: Findable['thing'][] = [];
  private batches = 0;

  constructor(private readonly give: Give) {}

  /** @returns the words of a thing as the library is given them */
  take({ thing, names, words, counted = countWords({ thing, names, words }) }: Findable, at: number): string {
    this.batch.push(thing);
    if (this.batch.length === thingsAtOnce) this.giveBatch();
    this.names.take(at, names);
    this.vocabulary.take(counted);
    if (words !== '') this.give(json(`words/${at}`, words));
    return indexedWords(counted);
  }

  /** When all things were taken. */
  end(): void {
    if (this.batch.length > 0) this.giveBatch();
  }

  private giveBatch(): void {
    this.give(json(`things/${this.batches}`, this.batch));
    this.batches += 1;
    this.batch = [];
  }
}

interface Indexing {
  readonly language: string;
  readonly gathered: Gathered;
  readonly give: Give;
  readonly progress: Progress;
}

async function giveTexts(
  index: PagefindIndex,
  all: readonly Findable[],
  { language, gathered, give, progress }: Indexing,
): Promise<void> {
  for (let from = 0; from < all.length; from += atOnce) {
    const records = all
      .slice(from, from + atOnce)
      .map((one, at) => ({ url: String(from + at), content: gathered.take(one, from + at), language }));
    await Promise.all(records.map((record) => index.addCustomRecord(record)));
    progress(Math.min(from + atOnce, all.length), all.length);
  }
  gathered.end();
  const { files } = await index.getFiles();
  give(json('pieces', thingsByPiece(files)));
  for (const { path, content } of files) if (!stock.test(path)) give({ address: `/find/${path}`, content });
}

function giveNames({ names, vocabulary }: Gathered, things: number, give: Give): void {
  const letters = lettersFor(things);
  const shelves = names.end(letters);
  const meanings = otherwise();
  const words = vocabulary.end();
  const index = {
    names: [...shelves.keys()].sort(),
    vocabulary: [...words.keys()].sort(),
    otherwise: [...meanings.keys()].sort(),
    letters,
    things,
    atOnce: thingsAtOnce,
  };
  give(json('index', index));
  for (const [shelf, content] of shelves) give(json(`names/${shelfFile(shelf)}`, content));
  for (const [letter, known] of words) give(json(`vocabulary/${shelfFile(letter)}`, known));
  for (const [letter, called] of meanings) give(json(`otherwise/${shelfFile(letter)}`, called));
}

const whyEnded = (code: number | null, signal: NodeJS.Signals | null): string =>
  `the indexer ended before its work was done (${signal ?? `exit code ${code}`})`;

/**
 * Does work with the library while its own process is watched: the library waits for the answers of a dead indexer for
 * ever, and prints a trace of what it meets.
 */
async function watched<T>(work: () => Promise<T>): Promise<T> {
  const { error: printed } = console;
  let failed: (why: Error) => void = () => undefined;
  const failure = new Promise<never>((_, reject) => {
    failed = reject;
  });
  const onProcess = (message: unknown): void => {
    const { process } = message as { process: ChildProcess };
    process.once('error', (error) => failed(new SearchFault(`the indexer did not start (${error.message})`)));
    process.once('exit', (code, signal) => failed(new SearchFault(whyEnded(code, signal))));
  };
  subscribe('child_process', onProcess);
  console.error = () => undefined;
  try {
    return await Promise.race([work(), failure]);
  } catch (error) {
    throw error instanceof SearchFault ? error : new SearchFault((error as Error).message, { cause: error });
  } finally {
    failure.catch(() => undefined);
    unsubscribe('child_process', onProcess);
    console.error = printed;
    await close();
  }
}

export interface IndexOptions {
  /** What the entries are found by, by number. */
  readonly entries?: readonly Findable[] | undefined;
  /** What else was made before. */
  readonly kept?: Kept;
  readonly progress?: Progress;
}

/**
 * Makes the index; its files lie below /find/.
 * @param give is given each file when it is made
 * @throws SearchFault where the indexer fails
 */
export const searchIndex = (
  model: JournalModel,
  give: Give,
  { entries, kept, progress = () => undefined }: IndexOptions = {},
): Promise<void> =>
  watched(async () => {
    const { index, errors } = await createIndex();
    if (!index) throw new SearchFault(`the indexer did not start (${errors.join('; ')})`);
    const all = everything(model, entries, kept);
    const language = model.journal.settings.language.split('-')[0] ?? 'en';
    const gathered = new Gathered(give);
    await giveTexts(index, all, { language, gathered, give, progress });
    giveNames(gathered, all.length, give);
  });
