// Assays: worked examples of textbooks, what is lacking, and later uses that take what an assay came to.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assayOf, cupboardOf, resolveUse, type AssayWritten } from '../../src/reagents/index.js';
import { referenceRows } from '../reference/read.js';

const assayed = (formula: string, assay: AssayWritten) => {
  const found = assayOf(formula, assay);
  if (!found.ok) throw new Error(found.fault.message);
  return found.value;
};
const written = (text: string): AssayWritten =>
  Object.fromEntries(text.split('; ').map((part) => part.split(': '))) as unknown as AssayWritten;

test.each(referenceRows('workshop/assays.csv').map((row) => [row.id, row.formula, row] as const))(
  '%s: %s comes to the published figure',
  (_, formula, { assay, value, unit, tolerance }) => {
    const found = assayed(formula!, written(assay!));
    expect(found.unit).toBe(unit);
    expect(Math.abs(found.value.value.toNumber() / Number(value) - 1)).toBeLessThan(Number(tolerance));
  },
);

test('its uncertainty is that of its readings', () => {
  // u(V)/V = 0.005/√3/31.43, u(c)/c = 0.0005/√3/0.108, u(taken)/taken = 0.005/√3/2.00; by hand, GUM 5.1.6.
  const found = assayed('CH3COOH', written('by: titration; taken: 2.00 mL; titrant: NaOH 0.108 mol/L; used: 31.43 mL'));
  const relative = Math.hypot(0.005 / 31.43, 0.0005 / 0.108, 0.005 / 2) / Math.sqrt(3);
  const u = Math.hypot(...found.value.contributions.parts);
  expect(u / 1.69722).toBeCloseTo(relative, 4);
});

describe('what is lacking is asked for', () => {
  test.each([
    ['by: titration; taken: 2.00 mL; titrant: NaOH 0.1 mol/L', 'used'],
    ['by: titration; taken: 2.00 mL; used: 10.00 mL', 'titrant'],
    ['by: titration; titrant: NaOH 0.1 mol/L; used: 10.00 mL', 'taken'],
    ['by: titration; taken: 2.00 mL; titrant: NaOH; used: 10.00 mL', 'titrant'],
    ['by: gravimetric; taken: 1.00 g', 'weighed'],
    ['by: density', 'density'],
    ['by: ignition; before: 1.00 g', 'after'],
  ])('%s: %s', (text, key) => {
    const found = assayOf('CH3COOH', written(text));
    expect(found.ok ? '' : found.fault.message).toContain(`Nothing says ${key}:`);
  });
  test('an equation, where protons do not tell the ratio', () => {
    const found = assayOf(
      'FeSO4·7H2O',
      written('by: titration; taken: 1.000 g; titrant: KMnO4 0.02 mol/L; used: 35.00 mL'),
    );
    expect(found.ok ? '' : found.fault.cure).toContain('equation');
  });
  test('a formula', () => expect(assayOf(undefined, { by: 'density', density: '1.1 g/mL' }).ok).toBe(false));
});

test('twice the sample with twice the titrant is as pure, and more titrant is purer', () => {
  fc.assert(
    fc.property(fc.integer({ min: 10, max: 5000 }), fc.integer({ min: 10, max: 5000 }), (grams, millilitres) => {
      const of = (factor: number): number =>
        assayed('Na2CO3', {
          by: 'titration',
          taken: `${(grams * factor) / 1000} g`,
          titrant: 'HCl 0.1 mol/L',
          used: `${(millilitres * factor) / 100} mL`,
        }).value.value.toNumber();
      expect(of(2) / of(1)).toBeCloseTo(1, 9);
    }),
  );
});

describe('later uses', () => {
  const shelf = new Map([
    [
      'old-vinegar',
      {
        name: 'old vinegar',
        formula: 'CH3COOH',
        strength: '5 %',
        density: '1.005 g/mL',
        assay: { by: 'titration', taken: '2.00 mL', titrant: 'NaOH 0.108 mol/L', used: '31.43 mL' },
      } as const,
    ],
    [
      'washed-epsom',
      {
        name: 'epsom salt from the stable',
        formula: 'MgSO4·7H2O',
        assay: { by: 'gravimetric', taken: '0.4550 g', weighed: 'BaSO4 0.3084 g' },
      } as const,
    ],
  ]);
  const cupboard = cupboardOf(shelf, () => undefined);
  test('of a solution take its strength, not that of the label', () => {
    const { taken } = resolveUse({ reagent: 'old-vinegar', amount: '10.00 mL' }, cupboard);
    expect(taken.substance!.value.toNumber()).toBeCloseTo(0.0169722, 6);
  });
  test('of a solid take its purity; a hydrate counts as it is written', () => {
    const { taken } = resolveUse({ reagent: 'washed-epsom', amount: '4.550 g' }, cupboard);
    // 0.3084 g BaSO4 (233.38): 1.3214 mmol in 0.4550 g.
    expect(taken.substance!.value.toNumber()).toBeCloseTo(0.013214, 5);
  });
  test('that state a strength of their own go by that', () => {
    const use = { reagent: 'old-vinegar', amount: '10.00 mL', strength: '1.0 mol/L' };
    expect(resolveUse(use, cupboard).taken.substance!.value.toNumber()).toBeCloseTo(0.01, 9);
  });
  test('of a lot take what its assay found', () => {
    const lots = cupboardOf(new Map(), () => ({
      lot: '9/A',
      name: 'zinc white',
      formula: 'ZnO',
      purity: '92.0 % u = 0.3 %',
    }));
    const { taken } = resolveUse({ lot: '9/A', amount: '8.138 g' }, lots);
    expect(taken.substance!.value.toNumber()).toBeCloseTo(0.092, 4);
  });
});
