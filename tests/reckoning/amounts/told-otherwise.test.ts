// A sample of which only words tell what went in has no limiting reagent, no yield, and is set against no other by
// what it weighed. The recipe is invented; the masses are reckoned by hand: 5.00 g of CuSO4·5H2O (249.68 g/mol) give
// at most 2.214 g of Cu2CO3(OH)2 (221.11 g/mol).
import { describe, expect, it } from 'vitest';
import { reckonAmounts } from '../../../src/reckoning/amounts/amounts.js';
import { lotsOf } from '../../../src/reckoning/lots.js';
import { emptyRoom, entry } from '../entries.js';

const written = (sampleB: string, more = '') =>
  entry(
    14,
    `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.50 g }
  - { reagent: { name: chalk, formula: CaCO3 }, amount: 1.00 g, role: additive }
  - { reagent: water, amount: 100 mL, role: solvent }
samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, obtained: 1.21 g, ${sampleB} }
${more}`,
  );
const reckoned = (sampleB: string, more = '') => reckonAmounts(written(sampleB, more), emptyRoom).amounts;

describe('words alone tell what went in', () => {
  const { samples, comparisons } = reckoned('differs: half the soda');
  const [a, b] = samples;

  it('the others keep their yield', () => {
    expect(a!.percentYield!.text).toBe('89.43 ± 0.28 %');
    expect(a!.limiting).toBe('copper sulfate');
  });

  it('there is no yield, nothing limits, and why stands beside', () => {
    expect(b!.percentYield).toBeUndefined();
    expect(b!.theoreticalYield).toBeUndefined();
    expect(b!.limiting).toBeUndefined();
    expect(b!.massIntensity).toBeUndefined();
    expect(b!.metals).toBeUndefined();
    expect(b!.noYield).toBe(
      'only its words (“half the soda”) tell what it had of soda, and words are not reckoned with',
    );
    expect(b!.obtained!.text).toBe('1.210 ± 0.006 g');
  });

  it('which is said of the sample to whoever weighs it', () => {
    expect(b!.onlyInWords).toBe('half the soda');
    expect(a!.onlyInWords).toBeUndefined();
  });

  it('what is told otherwise stands in its own words', () => {
    const line = (id: string) => b!.ingredients.find((one) => one.id === id)!;
    expect(line('soda')).toMatchObject({ written: '“half the soda”', limiting: false, tooClose: true });
    expect(line('soda').amount).toBeUndefined();
    expect(line('copper sulfate').written).toBe('5.00 g');
    expect(line('copper sulfate').equivalents).toBeUndefined();
  });

  it('and it is not compared', () => expect(comparisons).toBeUndefined());

  it('whatever reacts may still be in it', () => {
    const one = written('differs: half the soda');
    const [, lot] = lotsOf(one, { samples });
    expect(lot!.carries!.map(({ name }) => name)).toEqual(expect.arrayContaining(['copper sulfate', 'soda']));
  });
});

describe('where it does not hang on the words', () => {
  it.each(['twice the water', 'without the chalk'])(
    '%s: the yield is told, what was used for a gram is not',
    (words) => {
      const [a, b] = reckoned(`differs: ${words}`).samples;
      expect(b!.percentYield!.text).toBe('54.65 ± 0.27 %');
      expect(b!.massIntensity).toBeUndefined();
      expect(a!.massIntensity).toBeDefined();
    },
  );

  it('all amounts are others', () => {
    const [, b] = reckoned('differs: double batch').samples;
    expect(b!.noYield).toBe('only its words (“double batch”) tell what it had, and words are not reckoned with');
    expect(b!.ingredients.every(({ written: amount }) => amount === '“double batch”')).toBe(true);
  });

  it('the amount is written too', () => {
    const [, b] = reckoned('differs: half the soda, change: [{ reagent: soda, amount: 1.25 g }]').samples;
    expect(b!.percentYield!.text).toMatch(/^92\.8/);
  });

  it('the maker has read the remark and stands by what is written', () => {
    const accepted = 'accept: [{ warning: amount-in-words-only, because: half went in before the pause }]';
    expect(reckoned('differs: half the soda', accepted).samples[1]!.percentYield).toBeDefined();
  });
});

describe('what does not dissolve and takes no part is weighed with the product', () => {
  it('it is named where the yield lies above 100 %', () => {
    const [, b] = reckonAmounts(
      entry(
        15,
        `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.50 g }
samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, add: [{ reagent: { name: chalk, formula: CaCO3 }, amount: 2.00 g }], obtained: 3.95 g }`,
      ),
      emptyRoom,
    ).amounts.samples;
    expect(b!.overHundred).toMatch(/ 2\.00.* g of chalk, which no water takes out/);
  });
});

describe('words tell of more of what is added to the sample', () => {
  it('which is written there, and reckoned', () => {
    // 5.00 and 1.00 g of CuSO4·5H2O are 24.03 mmol, 2.50 g of Na2CO3 (105.99 g/mol) 23.59 mmol, for 11.79 mmol of product.
    const [, b] = reckoned(
      'differs: more copper, add: [{ reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 1.00 g }]',
    ).samples;
    expect(b!.onlyInWords).toBeUndefined();
    expect(Number(b!.theoreticalYield!.value)).toBeCloseTo(2.608, 2);
  });
  it('but not of another: the soda is told by words alone', () => {
    const [, b] = reckoned(
      'differs: half the soda, add: [{ reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 1.00 g }]',
    ).samples;
    expect(b!.onlyInWords).toBe('half the soda');
  });
});
