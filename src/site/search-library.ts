// The library that indexes the words of pages. It runs in a process of its own, is given the words of each thing, and
// makes the files that our search page asks for. What our own page does not ask of it is left out.
import type { ChildProcess } from 'node:child_process';
import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import { gunzipSync } from 'node:zlib';
import type { PagefindIndex } from 'pagefind';
import type { SiteFile } from './assets.js';
import { folderOfPart, partOfThing, partsFor, thingsOfPart } from './search-parts.js';

type Pagefind = typeof import('pagefind');

/** The index could not be made: the indexer did not start, or came to its end too early. */
export class SearchFault extends Error {}

/**
 * Files of the library that our search page never asks for: it searches in the page's own thread, and cuts excerpts
 * itself from what pages show.
 */
const stock = /^pagefind-(ui|modular-ui|component-ui|highlight|playground|worker)|^playground\/|^fragment\//;

/** Files of the library that the first part has for all. */
const forAll = /^pagefind\.js$|^wasm\./;

/** How many things are handed to the indexer before its answers are awaited. */
const atOnce = 200;

/**
 * Which thing a hit of the library is, by the name of the library's piece for it. No two pieces of a part have one
 * name; pieces of two parts may (once in some ten thousand things), and then a hit of one is taken for a hit of both.
 */
export type Pieces = Readonly<Record<string, number | readonly number[]>>;

/** Takes a file of the index when it is made, so that no more than one of them is held. */
export type Give = (file: SiteFile) => void;

/** What is indexed. */
export interface WordsOfThings {
  /** Two letters. */
  readonly language: string;
  /** How many there are. */
  readonly things: number;
  /** Words of some of them, by their numbers. */
  readonly wordsOf: (some: readonly number[]) => readonly string[];
  /** Called with how many things the indexer has taken in. */
  readonly progress?: (done: number) => void;
  /** Called, once for each part, when the indexer has all its words and is at work on its files in its own process. */
  readonly meanwhile?: (done: number, of: number) => void;
  /** What is there already, where not all is made. */
  readonly before?: PartsBefore;
}

/** An index in which the words of some things are others now. */
export interface PartsBefore {
  /** Pieces as they were. */
  readonly pieces: Pieces;
  /** Things whose words are others; parts without such stay as they are. */
  readonly anew: readonly number[];
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

/** Which thing each piece of a part is of. */
type PiecesOfPart = readonly (readonly [name: string, thing: number])[];

/** Pieces as they were, of things whose words are the same: they need not be opened. */
function piecesBefore(part: number, { things, before }: WordsOfThings): PiecesOfPart {
  if (!before) return [];
  const anew = new Set(before.anew);
  return Object.entries(before.pieces).flatMap(([name, known]) =>
    [known]
      .flat()
      .flatMap(
        (thing): PiecesOfPart => (partOfThing(thing, things) === part && !anew.has(thing) ? [[name, thing]] : []),
      ),
  );
}

/**
 * @param before the name of a piece is said by its content, as long as no two would have the same: then the library
 * makes one longer
 */
function piecesAmong(files: readonly MadeFile[], before: PiecesOfPart): PiecesOfPart {
  const named = files.flatMap(({ path, content }): (readonly [name: string, content: Uint8Array])[] => {
    const name = /^fragment\/(.+)\.pf_fragment$/.exec(path)?.[1];
    return name === undefined ? [] : [[name, content]];
  });
  const areAlike = new Set([...named, ...before].map(([{ length }]) => length)).size === 1;
  const known = new Map(areAlike ? before : []);
  return named.map(([name, content]) => [name, known.get(name) ?? thingOf(content)]);
}

/** Pieces of all parts. */
function allPieces(ofParts: readonly PiecesOfPart[]): Pieces {
  const things = new Map<string, readonly number[]>();
  for (const [name, thing] of ofParts.flat().sort((one, other) => one[1] - other[1]))
    things.set(name, [...(things.get(name) ?? []), thing]);
  return Object.fromEntries([...things].map(([name, all]) => [name, all.length === 1 ? all[0]! : all]));
}

/** Comes after what was handed to other processes has been sent off, as far as they take it. */
const sentOff = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** A promise that is awaited later: what else fails until then is told, and not that nobody has waited for it. */
function toBeAwaited<T>(promise: Promise<T>): Promise<T> {
  promise.catch(() => undefined);
  return promise;
}

/** Hands the words of a part to the indexer. */
async function handOver(library: PagefindIndex, part: number, of: WordsOfThings, taken: (more: number) => void) {
  const { language, things, wordsOf } = of;
  const all = thingsOfPart(part, things);
  let before = Promise.resolve<unknown>(undefined);
  for (let from = 0; from < all.length; from += atOnce) {
    const some = all.slice(from, from + atOnce);
    const records = wordsOf(some).map((content, at) => ({ url: String(some[at]!), content, language }));
    const now = toBeAwaited(Promise.all(records.map((record) => library.addCustomRecord(record))));
    // While the indexer takes them in, the next are put together; no more than these wait for it.
    await Promise.all([before, sentOff()]);
    taken(some.length);
    before = now;
  }
  await before;
}

/** A part as the indexer has made it. */
async function makePart(
  { createIndex }: Pagefind,
  part: number,
  of: WordsOfThings,
  { taken, meanwhile }: { readonly taken: (more: number) => void; readonly meanwhile: () => void },
): Promise<readonly MadeFile[]> {
  const { index, errors } = await createIndex();
  if (!index) throw new SearchFault(`the indexer did not start (${errors.join('; ')})`);
  await handOver(index, part, of, taken);
  const made = toBeAwaited(index.getFiles());
  await sentOff();
  meanwhile();
  const { files } = await made;
  // What the indexer holds of it is let go before it takes in the next.
  await index.deleteIndex();
  return files;
}

async function makeParts(pagefind: Pagefind, of: WordsOfThings, give: Give): Promise<void> {
  const { things, before, progress, meanwhile } = of;
  const parts = Array.from({ length: partsFor(things) }, (_, part) => part);
  const anew = new Set(before ? before.anew.map((thing) => partOfThing(thing, things)) : parts);
  const pieces: PiecesOfPart[] = [];
  let [taken, made] = [0, 0];
  for (const part of parts) {
    const known = piecesBefore(part, of);
    if (!anew.has(part)) {
      pieces.push(known);
      continue;
    }
    const files = await makePart(pagefind, part, of, {
      taken: (more) => progress?.((taken += more)),
      meanwhile: () => meanwhile?.((made += 1), anew.size),
    });
    pieces.push(piecesAmong(files, known));
    for (const { path, content } of files)
      if (!stock.test(path) && (part === 0 || !forAll.test(path)))
        give({ address: `${folderOfPart(part)}${path}`, content });
  }
  give({ address: piecesAddress, content: JSON.stringify(allPieces(pieces)) });
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
 * @param give is given each file when it is made; files of parts that stay as they are it is not given
 * @throws SearchFault where the indexer fails
 */
export const wordFiles = (of: WordsOfThings, give: Give): Promise<void> =>
  watched((pagefind) => makeParts(pagefind, of, give));
