// Dilution: specific limits first, generic ones after; sums, acute toxicity estimates, aquatic summation with
// M-factors.
import { describe, expect, test } from 'vitest';
import { classifyMixture, findSubstance, classificationOfRows } from '../../../src/hazards/ghs/index.js';
import { labelCodesOf } from '../../../src/hazards/ghs/pictograms.js';
import { referenceRows } from '../../reference/read.js';

const known = (name: string) => classificationOfRows(name, findSubstance({ name }).rows);
const codesAt = (name: string, percent: string): readonly string[] => {
  const { classes, supplementary } = classifyMixture([{ classification: known(name), percent }], true);
  return labelCodesOf(
    [...classes.map((held) => held.code), ...supplementary.map((extra) => extra.code)].filter((code) => code !== ''),
  );
};

describe('dilution of one substance, each case with the place of its limit', () => {
  const cases = referenceRows('hazards/dilution-cases.csv');
  test('there are cases enough to mean something', () => {
    expect(cases.length).toBeGreaterThan(60);
  });
  test.each(cases.map((row) => [`${row['substance']} ${row['percent']} %`, row] as const))('%s', (_, row) => {
    expect([...codesAt(row['substance']!, row['percent']!)].sort(), row['place']).toEqual(
      row['label']!.split('; ')
        .filter((code) => code !== '')
        .sort(),
    );
  });
});

describe('categories of corrosion', () => {
  test.each([
    ['nitric acid', '20', '1A'],
    ['nitric acid', '19.99', '1B'],
    ['nitric acid', '5', '1B'],
    ['sodium hydroxide', '5', '1A'],
    ['sodium hydroxide', '4.99', '1B'],
    ['acetic acid', '90', '1A'],
    ['acetic acid', '25', '1B'],
  ])('%s at %s %% is Skin Corr. %s (CLP Annex VI, specific limits of the entry)', (name, percent, category) => {
    expect(
      classifyMixture([{ classification: known(name), percent }], true).classes.find(
        (held) => held.hazardClass === 'Skin Corr.',
      )?.category,
    ).toBe(category);
  });
});

describe('several ingredients', () => {
  const codes = (...parts: readonly (readonly [string, string])[]): readonly string[] =>
    classifyMixture(parts.map(([name, percent]) => ({ classification: known(name), percent }))).classes.map(
      (held) => held.code,
    );
  test('corrosives add up: 3 % and 2 % of two acids without limits reach 5 % (CLP Table 3.2.3)', () => {
    expect(codes(['silver nitrate', '3'], ['disodium metasilicate', '2'])).toContain('H314');
    expect(codes(['silver nitrate', '3'], ['disodium metasilicate', '1.9'])).not.toContain('H314');
  });
  test('specific limits add up as parts of one: half the limit of two acids each (CLP 3.2.3.3)', () => {
    expect(codes(['hydrochloric acid', '12.5'], ['sulphuric acid', '7.5'])).toContain('H314');
    expect(codes(['hydrochloric acid', '12.4'], ['sulphuric acid', '7.4'])).not.toContain('H314');
  });
  test('ten times the corrosive counts with the irritant (CLP Table 3.2.3)', () => {
    expect(codes(['silver nitrate', '0.5'], ['sulfur', '5'])).toContain('H315');
    expect(codes(['silver nitrate', '0.4'], ['sulfur', '5'])).not.toContain('H315');
  });
  test('acute toxicity adds up: 20 % and 10 % of oral category 4 leave 2000/1.2 mg/kg (CLP 3.1.3.6.1)', () => {
    expect(codes(['oxalic acid', '20'], ['ammonium chloride', '10'])).toContain('H302');
    expect(codes(['oxalic acid', '14'], ['ammonium chloride', '10'])).not.toContain('H302');
  });
  test('a part of unknown toxicity over 10 % is taken out of the hundred (CLP 3.1.3.6.2.3)', () => {
    const unknown = { classification: classificationOfRows('dragon’s blood', []), percent: '40' };
    // 500/0.20 = 2500 mg/kg without the unknown part, 60/(20/500) = 1500 mg/kg with it
    const oxalic = { classification: known('oxalic acid'), percent: '20' };
    expect(classifyMixture([oxalic]).classes.map((held) => held.code)).not.toContain('H302');
    expect(classifyMixture([oxalic, unknown]).classes.map((held) => held.code)).toContain('H302');
  });
  test('each carcinogen is judged alone: twice 0.06 % is not 0.1 %', () => {
    expect(codes(['lead chromate', '0.06'], ['calcium chromate', '0.06'])).not.toContain('H350');
  });
  test('organs of several ingredients are both kept', () => {
    const organs = classifyMixture([
      { classification: known('copper(II) acetate'), percent: '50' },
      { classification: known('calcium oxide'), percent: '50' },
    ])
      .classes.filter((held) => held.code === 'H372')
      .map((held) => held.organs);
    expect(organs.sort()).toEqual(['liver', 'respiratory organs']);
  });
});

describe('what is told beside the classes', () => {
  const of = (...parts: [name: string, percent: string][]) =>
    classifyMixture(parts.map(([name, percent]) => ({ classification: known(name), percent })));
  const kindsOf = (...parts: [name: string, percent: string][]) => of(...parts).notes.map(({ kind }) => kind);

  // EUH071 "corrosive to the respiratory tract" belongs to what corrodes: UN GHS 3.8.2.3, CLP Annex II 1.2.6.
  test('a statement that is left off a weak solution is told; one that stays is not', () => {
    expect(kindsOf(['nitric acid … % [C ≤ 70 %]', '0.5'])).toEqual(['statement-left-off-solution']);
    const strong = of(['nitric acid … % [C ≤ 70 %]', '60']);
    expect(strong.supplementary.map(({ code, ground }) => [code, ground.rule])).toEqual([
      ['EUH071', 'statement-of-ingredient'],
    ]);
    expect(strong.notes.filter(({ kind }) => kind === 'statement-left-off-solution')).toEqual([]);
  });
  test('a class that is kept because no limit is known is told; where nothing was decided, nothing is', () => {
    expect(kindsOf(['acetone', '30'])).toEqual(['class-kept']);
    expect(kindsOf(['oxalic acid', '30'])).toEqual([]);
  });
  test('an ingredient of 0 % says nothing, and leaves the other undiluted', () => {
    expect(of(['nitric acid … % [C ≤ 70 %]', '0'], ['sodium chloride', '50'])).toEqual(of(['sodium chloride', '50']));
    expect(of(['silver nitrate', '100'], ['oxalic acid', '0'])).toEqual(of(['silver nitrate', '100']));
  });
  test('two ingredients are a mixture also where one alone is given as 100 %', () => {
    const codes = of(['sodium dithionite', '100'], ['silver nitrate', '5']).classes.map(({ code }) => code);
    expect(codes).toContain('H314');
    expect(codes).toContain('H251');
  });
  test('nothing at all is no class', () => expect(classifyMixture([]).classes).toEqual([]));
});
