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
/** Numbers stand before the list in so many digits each, so that one is read without those before it. */
const digits = 8;

/** Where an item begins, by where the one before it ends. */
const beginBehind = (end: number | undefined): number => (end === undefined ? '['.length : end + betweenItems.length);

/** A list as such text: how many items it has, where in what follows each ends, and the list with a line for each. */
export function linesOf(items: readonly unknown[]): string {
  const lines = items.map(asciiJson);
  const ends: number[] = [];
  for (const { length } of lines) ends.push(beginBehind(ends.at(-1)) + length);
  const numbers = [items.length, ...ends].map((one) => String(one).padStart(digits));
  return `${numbers.join('')}\n[${lines.join(betweenItems)}]`;
}

/** So much of a list is read at first: all of a short one. */
const atFirst = 2048;

/** The items of such text, each the same object however often it is asked for. */
export class ItemsAtHand<Item> {
  /** The beginning of the text, or all of it. */
  private readonly head: string;
  /** Where the list begins. */
  private readonly begin: number;
  readonly length: number;
  private items: Item[] = [];
  private whole: readonly Item[] | undefined;

  constructor(private readonly text: TextAtHand) {
    this.head = text.part(0, atFirst);
    this.length = Number(this.head.slice(0, digits));
    this.begin = digits * (this.length + 1) + '\n'.length;
  }

  /** The item at a place from 0, which must be in the list. */
  at(place: number): Item {
    return (this.items[place] ??= this.readOne(place));
  }

  all(): readonly Item[] {
    this.whole ??= this.readAll();
    return this.whole;
  }

  private readAll(): readonly Item[] {
    const all = JSON.parse(this.part(this.begin, this.text.length - this.begin)) as Item[];
    // Those that were asked for before stay the same objects.
    this.items.forEach((item, place) => {
      all[place] = item;
    });
    this.items = all;
    return all;
  }

  private readOne(place: number): Item {
    // The end of the item before it and its own stand side by side; before the first there is none.
    const first = place === 0;
    const ends = this.part(digits * (first ? 1 : place), first ? digits : 2 * digits);
    const begin = beginBehind(first ? undefined : Number(ends.slice(0, digits)));
    const end = Number(ends.slice(-digits));
    return JSON.parse(this.part(this.begin + begin, end - begin)) as Item;
  }

  /** So much of the text from a place, without reading again what was read at first. */
  private part(from: number, length: number): string {
    const end = from + length;
    return end <= this.head.length ? this.head.slice(from, end) : this.text.part(from, length);
  }
}

/** About so many keys stand in one item of a list by keys. */
const keysTogether = 4;

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
