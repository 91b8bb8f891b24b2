// Lists kept as JSON with a line for each item, of which a command asks for few: each is parsed when it is asked for.

/** A list as such text: `[`, a line for each item, `]` at the end of the last. */
export const linesOf = (items: readonly unknown[], json: (item: unknown) => string = JSON.stringify): string =>
  `[\n${items.map(json).join(',\n')}]`;

/** The items of such text, each the same object however often it is asked for. */
export class ItemsAtHand<Item> {
  private readonly lines: readonly string[];
  private readonly items: Item[] = [];
  private whole: readonly Item[] | undefined;

  constructor(text: string) {
    this.lines = text.split('\n');
  }

  get length(): number {
    return this.lines[1] === ']' ? 0 : this.lines.length - 1;
  }

  /** The item at a place from 0, which must be in the list. */
  at(place: number): Item {
    return (this.items[place] ??= JSON.parse(this.lines[place + 1]!.slice(0, -1)) as Item);
  }

  all(): readonly Item[] {
    return (this.whole ??= Array.from({ length: this.length }, (_, place) => this.at(place)));
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
