// Lists of which few items are read: each item, and each value by its key, is the one that was put in.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ItemsAtHand, linesOf, listOf, listsByKey, type TextAtHand } from '../../src/tables/items-at-hand.js';

/** A text of which parts are read, as of a file. */
const text = (all: string): TextAtHand => ({
  length: all.length,
  part: (from, length) => all.slice(from, from + length),
});
const long = Array.from({ length: 9000 }, (_, at) => ({ at, word: 'ochre '.repeat(at % 7) }));

it.each<[what: string, items: readonly unknown[]]>([
  ['no items', []],
  ['one item', ['only one']],
  ['items with signs of the list itself', [{ a: 'line\nbreak, and "quotes"' }, [1, [2]], null, '],\n[']],
  ['items with signs that are no ASCII', ['cendre bleue', 'brûlée, 60 °C']],
  ['more items than are read at first', long],
])('%s, one at a time and all together', (_, items) => {
  const lines = text(linesOf(items));
  const atHand = new ItemsAtHand(lines);
  expect(atHand.length).toBe(items.length);
  expect(items.map((_one, place) => atHand.at(place))).toEqual(items);
  expect(atHand.all()).toEqual(items);
  expect(new ItemsAtHand(lines).all()).toEqual(items);
});

it('an item is the same object, alone and among all', () => {
  const atHand = new ItemsAtHand<object>(text(linesOf([{}, { a: 1 }])));
  const alone = atHand.at(1);
  expect(atHand.all()[1]).toBe(alone);
  expect(atHand.at(1)).toBe(alone);
  const read = new ItemsAtHand<object>(text(linesOf([{}, { a: 1 }])));
  const all = read.all();
  expect(read.at(1)).toBe(all[1]);
});

it('every key stands in its list, once, with the value given last', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.string(), fc.nat())), (values) => {
      const lists = listsByKey(values);
      const wanted = new Map(values);
      expect(lists.flat().length).toBe(wanted.size);
      for (const [key, value] of wanted)
        expect(lists[listOf(key, lists.length)]!.filter(([one]) => one === key)).toEqual([[key, value]]);
    }),
  );
});
