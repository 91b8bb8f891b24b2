/**
 * Items under each of their keys, in their order; the empty key is none.
 * @example groupBy(['lead', 'lime', 'zinc'], (word) => [word[0]!]).get('l') // ['lead', 'lime']
 */
export function groupBy<Item>(
  items: readonly Item[],
  keysOf: (item: Item) => readonly string[],
): ReadonlyMap<string, readonly Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    for (const key of new Set(keysOf(item))) {
      const group = groups.get(key);
      if (group) group.push(item);
      else if (key !== '') groups.set(key, [item]);
    }
  }
  return groups;
}
