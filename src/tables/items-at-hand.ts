// Lists kept as JSON with a line for each item, of which a command asks for few: each is read when it is asked for.

/** A text in plain ASCII of which parts are read. */
export interface TextAtHand {
  readonly length: number;
  /** So much of it from a place, up to its end. */
  readonly part: (from: number, length: number) => string;
}

/** JSON in plain ASCII, so that each sign is a byte. */
export const asciiJson = (data: unknown): string =>
  JSON.stringify(data).replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

const betweenItems = ',\n';

/** Where an item begins, by where those before it end. */
const beginOf = (place: number, ends: readonly number[]): number =>
  place === 0 ? '['.length : ends[place - 1]! + betweenItems.length;

/** A list as such text: its first line tells where each item ends in what follows, the list with a line for each. */
export function linesOf(items: readonly unknown[]): string {
  const lines = items.map(asciiJson);
  const ends: number[] = [];
  for (const [at, { length }] of lines.entries()) ends.push(beginOf(at, ends) + length);
  return `${JSON.stringify(ends)}\n[${lines.join(betweenItems)}]`;
}

/** So much of a list is read at first; most are not longer. */
const atFirst = 32_768;

/** The items of such text, each the same object however often it is asked for. */
export class ItemsAtHand<Item> {
  /** The beginning of the text, or all of it. */
  private readonly head: string;
  /** Where the list begins. */
  private readonly begin: number;
  private readonly ends: readonly number[];
  private items: Item[] = [];
  private whole: readonly Item[] | undefined;

  constructor(private readonly text: TextAtHand) {
    const head = text.part(0, atFirst);
    this.head = head.includes('\n') ? head : text.part(0, text.length);
    this.begin = this.head.indexOf('\n') + 1;
    this.ends = JSON.parse(this.head.slice(0, this.begin)) as readonly number[];
  }

  get length(): number {
    return this.ends.length;
  }

  /** The item at a place from 0, which must be in the list. */
  at(place: number): Item {
    return (this.items[place] ??= this.read(beginOf(place, this.ends), this.ends[place]!) as Item);
  }

  all(): readonly Item[] {
    this.whole ??= this.items.length > 0 ? this.ends.map((_, place) => this.at(place)) : this.readAll();
    return this.whole;
  }

  private readAll(): readonly Item[] {
    this.items = this.read(0, this.text.length - this.begin) as Item[];
    return this.items;
  }

  private read(from: number, to: number): unknown {
    const [begin, end] = [this.begin + from, this.begin + to];
    return JSON.parse(end <= this.head.length ? this.head.slice(begin, end) : this.text.part(begin, end - begin));
  }
}

/** About so many keys stand in one item of a list by keys. */
const keysTogether = 16;

/** Which of some lists a key stands in. Source: Fowler, Noll, Vo, FNV-1a hash of 32 bits. */
export function listOf(key: string, lists: number): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < key.length; at += 1) hash = Math.imul(hash ^ key.charCodeAt(at), 0x01000193);
  return (hash >>> 0) % lists;
}

/** Values by key in lists, so that one is found without reading them all; of two of one key the later counts. */
export function listsByKey(
  values: Iterable<readonly [key: string, value: unknown]>,
): readonly (readonly (readonly [key: string, value: unknown])[])[] {
  const byKey = new Map(values);
  const lists = Array.from({ length: Math.ceil(byKey.size / keysTogether) || 1 }, (): [string, unknown][] => []);
  for (const [key, value] of byKey) lists[listOf(key, lists.length)]!.push([key, value]);
  return lists;
}
