// Loss on ignition: hydrates of textbooks, and what a residue tells of its product.
import { describe, expect, test } from 'vitest';
import {
  exact,
  parseFormula,
  productInResidue,
  unitsInResidue,
  waterInResidue,
  withoutUncertainty,
  type Formula,
} from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/read.js';

function formula(text: string): Formula {
  const read = parseFormula(text);
  if (!read.ok) throw new Error(text);
  return read.value;
}

describe('water by loss on ignition', () => {
  test.each(referenceRows('workshop/hydrates.csv').map((row) => [row.id, row.residue, row] as const))(
    '%s, %s, comes to the published whole number',
    (_, residue, { before_g, after_g, water }) => {
      const found = waterInResidue(withoutUncertainty(before_g!), withoutUncertainty(after_g!), formula(residue!))!;
      expect(found.value.toNumber()).toBeGreaterThan(Number(water) - 0.2);
      expect(found.value.toNumber()).toBeLessThan(Number(water) + 0.2);
    },
  );

  test('a residue of nothing tells nothing', () => {
    expect(waterInResidue(withoutUncertainty(1), withoutUncertainty(0), formula('CuSO4'))).toBeUndefined();
  });
});

// Source: 2CuCO3·Cu(OH)2 and the like by their formulae; own arithmetic.
test.each([
  ['Cu2CO3(OH)2', 'CuO', 0.5],
  ['Fe4[Fe(CN)6]3', 'Fe2O3', 2 / 7],
  ['FeO(OH)', 'Fe2O3', 2],
  ['CuSO4', 'CuSO4', 1],
  ['CaCO3', 'CaO', 1],
])('one unit of %s as %s', (product, residue, units) => {
  expect(unitsInResidue(formula(product), formula(residue))!.toNumber()).toBeCloseTo(units, 9);
});

test('formulae without a common element that stays, or that do not agree, tell nothing', () => {
  expect(unitsInResidue(formula('CuCO3'), formula('Fe2O3'))).toBeUndefined();
  expect(unitsInResidue(formula('CuFe2O4'), formula('CuFeO2'))).toBeUndefined();
});

test('a residue of 1.59 g CuO comes from a hundredth of a mole of malachite', () => {
  const found = productInResidue(withoutUncertainty('1.591'), formula('CuO'), formula('Cu2CO3(OH)2'))!;
  expect(found.value.minus(exact('0.01')).abs().lt('1e-5')).toBe(true);
});
