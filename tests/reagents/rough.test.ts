// Amounts as they are said: published ends where a measure has them, else an unknown amount and never a fault.
import { describe, expect, test } from 'vitest';
import { readAmountWords, resolveText, resolveUse, type ResolvedReagent } from '../../src/reagents/index.js';

const resolved = (text: string): ResolvedReagent => {
  const outcome = resolveText(text);
  if (!outcome.ok) throw new Error(`${text}: ${outcome.fault.message}`);
  return outcome.value;
};
const ends = (words: string): readonly unknown[] => {
  const read = readAmountWords(words);
  if (read.kind === 'rough') return [read.low.toNumber(), read.usual.toNumber(), read.high.toNumber(), read.unit];
  if (read.kind !== 'measured') return [read.kind];
  const { low, base, high, baseUnit } = read.quantity;
  return [low?.toNumber(), base.toNumber(), high?.toNumber(), baseUnit];
};

describe('an amount as it stands behind a key', () => {
  // Metric spoons of 5 and 15 mL (math.net), cutlery of 2.5 to 7.3 and 7 to 20 mL; cups from 200 mL (Japan) to 284 mL
  // (imperial); a pinch of 1/24 to 1/8 teaspoon; the German splash of 10 to 30 mL; avoirdupois ounce (NIST SP 811).
  // How far `about` goes: common practice, no source.
  test.each([
    ['2 tsp', [5, 10, 14.6, 'mL']],
    ['1 tbsp', [7, 15, 20, 'mL']],
    ['one heaped teaspoon', [8, 10, 15, 'mL']],
    ['1/2 cup', [100, 120, 142.065, 'mL']],
    ['half a cup', [100, 120, 142.065, 'mL']],
    ['a pinch', [0.2, 0.308, 0.616, 'mL']],
    ['knife point', [0.4, 0.6, 1, 'mL']],
    ['a splash', [10, 20, 30, 'mL']],
    ['a handful', [40, 60, 100, 'mL']],
    ['a jam jar full', [300, 400, 450, 'mL']],
    ['2-3 tsp', [5, 12.5, 21.9, 'mL']],
    ['~9 mL', [8.1, 9, 9.9, 'mL']],
    ['about 9 mL', [8.1, 9, 9.9, 'mL']],
    ['ca. 9 g', [8.1, 9, 9.9, 'g']],
    ['about 3 g', [2.5, 3, 3.5, 'g']],
    ['9-10 mL', [9, 9.5, 10, 'mL']],
    ['a few drops', [2, 3, 5, 'drops']],
    ['half a litre', [450, 500, 550, 'mL']],
    ['1 1/2 L', [1350, 1500, 1650, 'mL']],
    ['eine Prise', [0.2, 0.308, 0.616, 'mL']],
    ['2 Messerspitzen', [0.8, 1.2, 2, 'mL']],
    ['zwei Löffel', [5, 20, 40, 'mL']],
    ['ein Schuss', [10, 20, 30, 'mL']],
    ['un chorrito', [10, 20, 30, 'mL']],
    ['una cucharada', [7, 15, 20, 'mL']],
    ['2 cuillères à café', [5, 10, 14.6, 'mL']],
    ['ein halber TL', [1.25, 2.5, 3.65, 'mL']],
    ['2 bis 3 TL', [5, 12.5, 21.9, 'mL']],
    ['5 Gramm', [undefined, 5, undefined, 'g']],
    ['3 Tropfen', [undefined, 3, undefined, 'drops']],
  ])('%s', (words, wanted) => {
    expect(ends(words)).toEqual(wanted);
  });
  test('in ounces is good to a tenth, or to its decimals', () => {
    expect(Number(ends('8 oz')[0])).toBeCloseTo(28.349523125 * 7.2, 6);
    expect(Number(ends('3.52 oz')[2])).toBeCloseTo(28.349523125 * 3.525, 6);
  });
  test.each([
    'some',
    'a little',
    'plenty',
    '1 part',
    '1:3 by volume',
    'to pH 8',
    'until it stops fizzing',
    'enough to cover',
  ])('%s is an amount that nobody measured', (words) =>
    expect(readAmountWords(words)).toMatchObject({ kind: 'unknown', understood: true, words }),
  );
  test('of words that are not known it is said that they are not', () => {
    expect(readAmountWords('excces')).toMatchObject({ kind: 'unknown', understood: false });
    expect(readAmountWords('2 teh')).toMatchObject({ kind: 'unknown', understood: false });
  });
  test('what was added until there was enough of it is ample, what was only some is not', () => {
    const isAmple = (words: string): unknown => (readAmountWords(words) as { readonly ample?: boolean }).ample;
    expect(['to pH 8', 'until it stops fizzing', 'enough to cover', 'plenty'].map(isAmple)).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect(['some', 'a little', '1 part'].map(isAmple)).toEqual([false, false, false]);
  });
});

describe('the same words on a line at the bench', () => {
  test.each([
    ['2 tsp baking soda', '2 tsp', 'baking soda'],
    ['baking soda 2 tsp', '2 tsp', 'baking soda'],
    ['a pinch of alum', 'a pinch', 'alum'],
    ['alum, a pinch', 'a pinch', 'alum'],
    ['vinegar, half a cup', 'half a cup', 'vinegar'],
    ['half a jam jar of vinegar', 'half a jam jar', 'vinegar'],
    ['some borax', 'some', 'borax'],
    ['ammonia to pH 8', 'to pH 8', 'ammonia'],
    ['enough ammonia to reach pH 9', 'enough to reach pH 9', 'ammonia'],
    ['washing soda until it stops fizzing', 'until it stops fizzing', 'washing soda'],
    ['slaked lime, enough to make a paste', 'enough to make a paste', 'slaked lime'],
    ['alum 1 part', '1 part', 'alum'],
  ])('%s', (line, words, name) => {
    const reagent = resolved(line);
    expect(reagent.name).toBe(name);
    const ofUse = resolveUse({ reagent: { name }, amount: words }, { shelf: () => undefined, lot: () => undefined });
    expect(reagent.amount).toBe(ofUse.amount);
    expect(reagent.taken.molAtMost).toEqual(ofUse.taken.molAtMost);
  });
  test.each([
    'drop black 5 g',
    'sodium sulphate, hydrate unknown',
    'green stone, ground',
    'iron sulphate, sold for lawns',
  ])('%s holds no kitchen measure', (line) => expect(['measured', 'not-said']).toContain(resolved(line).amount));
});

describe('a powder measured with a spoon', () => {
  // Bulk density of baking soda: 55 lb/ft3 and 689 kg/m3 printed (0.69 to 0.88 g/mL); 84.007 g/mol.
  test('weighs what is published for it as it is poured, and says so', () => {
    const soda = resolved('baking soda 2 tsp');
    expect(soda.taken.mass!.value.toNumber()).toBeCloseTo(8.81, 2);
    expect(soda.taken.substance!.value.toNumber()).toBeCloseTo(0.1049, 4);
    expect(soda.doubts.map(({ code }) => code)).toContain('bulk-density');
    // At worst 14.6 mL at 1.1 g/mL.
    expect(soda.taken.molAtMost!.toNumber()).toBeCloseTo((14.6 * 1.1 * 1) / 84.007, 2);
  });
  test('weighs the same in another language', () => {
    const [own, other] = ['Kupfersulfat 1 tsp', 'copper sulfate 1 tsp'].map((line) => resolved(line).taken.mass);
    expect(own!.value.toNumber()).toBe(other!.value.toNumber());
  });
  test('of which nothing is published has no mass, and one thing is missing', () => {
    const cobalt = resolved('knife point of cobalt carbonate');
    expect(cobalt.taken.mass).toBeUndefined();
    expect(cobalt.taken.missing.map(({ code }) => code)).toEqual(['density-missing']);
    expect(cobalt.taken.molAtMost).toBeUndefined();
  });
});

// Bottles of ammonia are sold up to 0.88, 35.6 % (sold-as.csv); salmiac spirit up to 25 %: common practice, no source.
describe('a name in another language', () => {
  test.each([
    ['Ammoniak', 0.356],
    ['ammoniaque', 0.356],
    ['ammonia', 0.356],
    ['Salmiakgeist', 0.25],
  ])('is as strong at most as what it is called in English: %s', (name, most) => {
    const read = resolveText(`${name} 50 mL`);
    expect(read.ok && Number(read.value.strength.atMost.massFraction)).toBeCloseTo(most, 3);
  });
});
