// What follows from the tables alone: reckoned once when the house is built, and read as data by the command line.
// Where nothing was prepared (tests on the sources, a browser, another program), it is reckoned when it is first
// asked for.

import { asciiJson, ItemsAtHand, linesOf, listOf, listsByKey, type TextAtHand } from './items-at-hand.js';

/** By name, what makes the text that keeps it. */
const makers = new Map<string, () => string>();
let readPrepared: (name: string) => TextAtHand | undefined = () => undefined;

/**
 * Something that follows from the tables alone, made when it is first asked for.
 * @param name under which it is kept
 * @param make gives data that JSON keeps; numbers in decimals become text
 * @returns what gives these data, the same whether they were prepared or are made now
 */
export function prepared<Data>(name: string, make: () => unknown): () => Data {
  makers.set(name, () => asciiJson(make()));
  let data: Data | undefined;
  const read = (): unknown => {
    const text = readPrepared(name);
    return text ? JSON.parse(text.part(0, text.length)) : plain(make());
  };
  return () => (data ??= read() as Data);
}

/**
 * A list that follows from the tables alone, and of which few items are asked for.
 * @returns what gives the item at a place from 0
 */
export function preparedList<Item>(name: string, make: () => readonly unknown[]): (place: number) => Item {
  makers.set(name, () => linesOf(make()));
  let at: ((place: number) => Item) | undefined;
  const look = (): ((place: number) => Item) => {
    const text = readPrepared(name);
    if (text === undefined) {
      const items = plain(make()) as readonly Item[];
      return (place) => items[place]!;
    }
    const items = new ItemsAtHand<Item>(text);
    return (place) => items.at(place);
  };
  return (place) => (at ??= look())(place);
}

type Lookup<Value> = (key: string) => Value | undefined;

/**
 * Values by key that follow from the tables alone, and of which few are asked for.
 * @param make gives every key with its value, in data that JSON keeps; of two of one key the later counts
 */
export function preparedByKey<Value>(
  name: string,
  make: () => Iterable<readonly [key: string, value: unknown]>,
): Lookup<Value> {
  return lookup(name, make, () => {
    const values = new Map(plain([...make()]) as readonly (readonly [string, Value])[]);
    return (key) => values.get(key);
  });
}

/**
 * Answers to what is asked of texts that stand in the tables, where they were prepared. Where they were not, each is
 * cheaper to find when it is asked for.
 * @param make gives every text with its answer
 * @param otherwise finds it where nothing was prepared; none where the caller does
 */
export const preparedAnswers = <Answer>(
  name: string,
  make: () => Iterable<readonly [text: string, answer: Answer]>,
  otherwise: Lookup<Answer> = () => undefined,
): Lookup<Answer> => lookup<Answer>(name, make, () => otherwise);

/** @param otherwise what looks where nothing was prepared */
function lookup<Value>(
  name: string,
  make: () => Iterable<readonly [key: string, value: unknown]>,
  otherwise: () => Lookup<Value>,
): Lookup<Value> {
  makers.set(name, () => linesOf(listsByKey(make())));
  let find: Lookup<Value> | undefined;
  const prepare = (): Lookup<Value> => {
    const text = readPrepared(name);
    if (text === undefined) return otherwise();
    const lists = new ItemsAtHand<readonly (readonly [string, Value])[]>(text);
    return (key) => {
      for (const pair of lists.at(listOf(key, lists.length))) if (pair[0] === key) return pair[1];
      return undefined;
    };
  };
  return (key) => (find ??= prepare())(key);
}

/** Data as JSON keeps it. */
const plain = (data: unknown): unknown => JSON.parse(JSON.stringify(data));

/** Says where what was prepared is read; a name of which nothing is there is answered with undefined. */
export function takePreparedFrom(read: (name: string) => TextAtHand | undefined): void {
  readPrepared = read;
}

/** Everything that can be prepared by the modules that are loaded, as text and by name. */
export const preparations = (): ReadonlyMap<string, () => string> => makers;
