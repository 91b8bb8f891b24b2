// Mixtures at random: dilution never makes a label graver, one ingredient more never makes it milder.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  classificationOfRows,
  classifyMixture,
  signalWordOf,
  substances,
  type HazardClass,
} from '../../../src/hazards/ghs/index.js';
import { classLabels, labelOf } from '../../../src/hazards/ghs/hazard-classes.js';

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
