// The library that indexes the words of pages. It runs in a process of its own, is given the words of each thing, and
// makes the files that our search page asks for. What our own page does not ask of it is left out.
import type { ChildProcess } from 'node:child_process';
import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import { gunzipSync } from 'node:zlib';
import type { PagefindIndex } from 'pagefind';
import type { SiteFile } from './assets.js';

type Pagefind = typeof import('pagefind');

/** The index could not be made: the indexer did not start, or came to its end too early. */
export class SearchFault extends Error {}

/**
 * Files of the library that our search page never asks for: it searches in the page's own thread, and cuts excerpts
 * itself from what pages show.
 */
const stock = /^pagefind-(ui|modular-ui|component-ui|highlight|playground|worker)|^playground\/|^fragment\//;

/** How many things are handed to the indexer before its answers are awaited. */
export const atOnce = 200;

/** Which thing a hit of the library is, by the name of the library's piece for it. */
export type Pieces = Readonly<Record<string, number>>;

/** Takes a file of the index when it is made, so that no more than one of them is held. */
export type Give = (file: SiteFile) => void;

/** What is indexed. */
export interface WordsOfThings {
  /** Two letters. */
  readonly language: string;
  /** Words of things, some at a time, in the order of the things' numbers. */
  readonly words: Iterable<readonly string[]>;
  /** Called with how many things the indexer has taken in. */
  readonly progress?: (done: number) => void;
  /** Called when the indexer has all words, and is at work on its files in its own process. */
  readonly meanwhile?: () => void;
  /** Pieces as they were, of things whose words are the same: they need not be opened. */
  readonly pieces?: Pieces;
}

/** Address of the file that says which thing a piece is of. */
export const piecesAddress = '/find/pieces.json';

interface MadeFile {
  readonly path: string;
  readonly content: Uint8Array;
}

function thingOf(content: Uint8Array): number {
  const written = gunzipSync(content).toString('utf8');
  const { url } = JSON.parse(written.slice(written.indexOf('{'))) as { url: string };
  return Number(url);
}

/**
 * @param before pieces of things whose words are the same. The name of a piece is said by its content, as long as no
 * two would have the same: then the library makes one longer.
 */
function piecesAmong(files: readonly MadeFile[], before: Pieces = {}): Pieces {
  const named = files.flatMap(({ path, content }): (readonly [name: string, content: Uint8Array])[] => {
    const name = /^fragment\/(.+)\.pf_fragment$/.exec(path)?.[1];
    return name === undefined ? [] : [[name, content]];
  });
  const areAlike =
    new Set([...named.map(([name]) => name), ...Object.keys(before)].map(({ length }) => length)).size === 1;
  const known = areAlike ? before : {};
  const pieces = named.map(([name, content]): [string, number] => [name, known[name] ?? thingOf(content)]);
  return Object.fromEntries(pieces.sort((one, other) => one[1] - other[1]));
}

/** Comes after what was handed to other processes has been sent off, as far as they take it. */
const sentOff = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** A promise that is awaited later: what else fails until then is told, and not that nobody has waited for it. */
function toBeAwaited<T>(promise: Promise<T>): Promise<T> {
  promise.catch(() => undefined);
  return promise;
}

async function index(library: PagefindIndex, of: WordsOfThings, give: Give): Promise<void> {
  const { language, words, progress, meanwhile, pieces } = of;
  let from = 0;
  let before = Promise.resolve<unknown>(undefined);
  for (const some of words) {
    const records = some.map((content, at) => ({ url: String(from + at), content, language }));
    const taken = toBeAwaited(Promise.all(records.map((record) => library.addCustomRecord(record))));
    // While the indexer takes them in, the next are put together; no more than these wait for it.
    await Promise.all([before, sentOff()]);
    progress?.(from);
    before = taken;
    from += some.length;
  }
  await before;
  progress?.(from);
  const made = toBeAwaited(library.getFiles());
  await sentOff();
  meanwhile?.();
  const { files } = await made;
  give({ address: piecesAddress, content: JSON.stringify(piecesAmong(files, pieces)) });
  for (const { path, content } of files) if (!stock.test(path)) give({ address: `/find/${path}`, content });
}

const whyEnded = (code: number | null, signal: NodeJS.Signals | null): string =>
  `the indexer ended before its work was done (${signal ?? `exit code ${code}`})`;

/**
 * Does work with the library while its own process is watched: the library waits for the answers of a dead indexer for
 * ever, and prints a trace of what it meets.
 */
async function watched<T>(work: (pagefind: Pagefind) => Promise<T>): Promise<T> {
  const pagefind = await import('pagefind');
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
    return await Promise.race([work(pagefind), failure]);
  } catch (error) {
    throw error instanceof SearchFault ? error : new SearchFault((error as Error).message, { cause: error });
  } finally {
    failure.catch(() => undefined);
    unsubscribe('child_process', onProcess);
    console.error = printed;
    await pagefind.close();
  }
}

/**
 * Makes the files of the index of words; they lie below /find/.
 * @param give is given each file when it is made
 * @throws SearchFault where the indexer fails
 */
export const wordFiles = (of: WordsOfThings, give: Give): Promise<void> =>
  watched(async ({ createIndex }) => {
    const { index: library, errors } = await createIndex();
    if (!library) throw new SearchFault(`the indexer did not start (${errors.join('; ')})`);
    await index(library, of, give);
  });
