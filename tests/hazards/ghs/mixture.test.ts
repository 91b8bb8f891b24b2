// Dilution: specific limits first, generic ones after; sums, acute toxicity estimates, aquatic summation with
// M-factors.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  classifyMixture,
  findSubstance,
  classificationOfRows,
  substances,
  type HazardClass,
} from '../../../src/hazards/ghs/index.js';
import { labelCodesOf, signalWordOf } from '../../../src/hazards/ghs/pictograms.js';
import { classLabels, labelOf } from '../../../src/hazards/ghs/hazard-classes.js';
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

describe('always', () => {
  const rows = substances().filter((row) => row.classes.length > 0);
  const anyRow = fc.constantFrom(...rows);
  const anyPercent = fc.integer({ min: 1, max: 100_000 }).map((thousandths) => (thousandths / 1000).toString());
  const familyOf = ({ hazardClass, code, route }: HazardClass): string => {
    if (hazardClass.startsWith('Skin Corr') || hazardClass.startsWith('Skin Irrit')) return 'skin';
    if (hazardClass.startsWith('Eye')) return 'eye';
    return code === 'H335' || code === 'H336' ? code : `${hazardClass} ${route ?? ''}`;
  };
  /** How grave a label is: for each class and route the best rank held; a smaller number is graver. */
  const grades = (ingredients: Parameters<typeof classifyMixture>[0]): ReadonlyMap<string, number> => {
    const into = new Map<string, number>();
    const put = (family: string, grade: number): void => {
      into.set(family, Math.min(grade, into.get(family) ?? Infinity));
    };
    for (const held of classifyMixture(ingredients, false).classes) {
      const rank =
        classLabels().find((label) => label.hazardClass === held.hazardClass && label.category === held.category)
          ?.rank ?? labelOf(held)!.rank;
      const family = familyOf(held);
      put(family, held.hazardClass === 'Skin Corr.' ? 0 : rank); // 1, 1A, 1B and 1C carry one label
      // What burns the skin burns eyes and airways too: CLP 3.3.2.2 and 3.8.1 (guidance on STOT SE 3).
      if (held.hazardClass === 'Skin Corr.') for (const family of ['eye', 'H335']) put(family, 0);
    }
    return into;
  };

  test('dilution never raises a class, and never brings one that was not there', () => {
    fc.assert(
      fc.property(anyRow, anyPercent, anyPercent, (row, a, b) => {
        const [weak, strong] = Number(a) <= Number(b) ? [a, b] : [b, a];
        const grave = grades([{ classification: classificationOfRows(row.name, [row]), percent: strong! }]);
        for (const [family, rank] of grades([
          { classification: classificationOfRows(row.name, [row]), percent: weak! },
        ]))
          expect(grave.get(family), `${row.name} ${weak} against ${strong} %: ${family}`).toBeLessThanOrEqual(rank);
      }),
      { numRuns: 3000 },
    );
  });

  test('every row, step by step from a trace to the undiluted substance, only grows graver', () => {
    const steps = [
      '0.001',
      '0.009',
      '0.01',
      '0.024',
      '0.025',
      '0.05',
      '0.1',
      '0.24',
      '0.25',
      '0.29',
      '0.3',
      '0.5',
      '0.9',
      '1',
      '2',
      '2.4',
      '2.5',
      '2.9',
      '3',
      '4.9',
      '5',
      '7',
      '8',
      '9.9',
      '10',
      '13',
      '15',
      '19.9',
      '20',
      '24.9',
      '25',
      '30',
      '35',
      '50',
      '65',
      '70',
      '80',
      '90',
      '99',
      '99.9',
      '100',
    ];
    for (const row of rows) {
      let before = new Map<string, number>() as ReadonlyMap<string, number>;
      for (const percent of steps) {
        const here = grades([{ classification: classificationOfRows(row.name, [row]), percent }]);
        for (const [family, rank] of before)
          expect(here.get(family), `${row.name} ${percent} %: ${family}`).toBeLessThanOrEqual(rank);
        before = here;
      }
    }
  });

  test('an ingredient in the place of water never removes or softens a class', () => {
    fc.assert(
      fc.property(
        anyRow,
        anyRow,
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: 1, max: 490 }),
        (one, other, a, b) => {
          const first = { classification: classificationOfRows('first', [one]), percent: (a / 10).toString() };
          const second = { classification: classificationOfRows('second', [other]), percent: (b / 10).toString() };
          const together = grades([first, second]);
          for (const [family, rank] of grades([first]))
            expect(together.get(family), `${one.name} with ${other.name}: ${family}`).toBeLessThanOrEqual(rank);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('the undiluted substance keeps every class, statement and the signal word of its row', () => {
    for (const row of substances()) {
      const { classes, supplementary } = classifyMixture([
        { classification: classificationOfRows(row.name, [row]), percent: '100' },
      ]);
      const codes = [...classes.map((held) => held.code), ...supplementary.map((extra) => extra.code)];
      for (const code of row.codes) expect(codes, row.name).toContain(code);
      expect(signalWordOf(classes) ?? '', row.name).toBe(row.signalWord ?? '');
    }
  });
});
