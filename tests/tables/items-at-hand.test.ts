// Lists of which few items are read: each item, and each value by its key, is the one that was put in.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ItemsAtHand, linesOf, listOf, listsByKey } from '../../src/tables/items-at-hand.js';

it.each([[[]], [['only one']], [[{ a: 'line\nbreak, and "quotes"' }, [1, [2]], null, '],\n[']]])(
  'the items of %j, one at a time and all together',
  (items: readonly unknown[]) => {
    const text = linesOf(items);
    expect(JSON.parse(text)).toEqual(items);
    const atHand = new ItemsAtHand(text);
    expect(atHand.length).toBe(items.length);
    for (const [place, item] of items.entries()) expect(atHand.at(place)).toEqual(item);
    expect(atHand.all()).toEqual(items);
    expect(new ItemsAtHand(text).all()).toEqual(items);
  },
);

it('an item is the same object, alone and among all', () => {
  const atHand = new ItemsAtHand<object>(linesOf([{}, { a: 1 }]));
  const alone = atHand.at(1);
  expect(atHand.all()[1]).toBe(alone);
  expect(atHand.at(1)).toBe(alone);
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
