// Washing: what a cake keeps, by published examples and by what must hold for any washing; which salts dissolve.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dissolves, exact, shareLeftByWashing } from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/read.js';

describe('washing', () => {
  test.each(referenceRows('workshop/washing.csv').map((row) => [row.id, row] as const))(
    '%s leaves the published share',
    (_, { liquor, held, volume, times, share }) => {
      const washes = [{ volume: exact(volume!), held: exact(held!), times: Number(times) }];
      const left = shareLeftByWashing(exact(liquor!), washes)!.toNumber();
      expect(Math.abs(left / Number(share) - 1)).toBeLessThan(2e-3);
    },
  );

  const millilitres = fc.integer({ min: 1, max: 100_000 }).map((tenths) => exact(tenths).div(10));
  const wash = fc.record({ volume: millilitres, held: millilitres, times: fc.integer({ min: 0, max: 6 }) });

  test('more washing never leaves more, and never less than nothing', () => {
    fc.assert(
      fc.property(millilitres, fc.array(wash, { minLength: 1, maxLength: 4 }), wash, (liquor, washes, another) => {
        const before = shareLeftByWashing(liquor, washes)!;
        const after = shareLeftByWashing(liquor, [...washes, another])!;
        expect(after.lte(before)).toBe(true);
        expect(after.gte(0) && before.lte(1)).toBe(true);
      }),
    );
  });

  test('several small washes leave less than one with the same water', () => {
    fc.assert(
      fc.property(millilitres, millilitres, fc.integer({ min: 2, max: 9 }), (held, volume, times) => {
        const liquor = held.times(4);
        const once = shareLeftByWashing(liquor, [{ held, volume: volume.times(times), times: 1 }])!;
        const often = shareLeftByWashing(liquor, [{ held, volume, times }])!;
        expect(often.lt(once)).toBe(true);
      }),
    );
  });

  test('what is measured in other units leaves the same share', () => {
    fc.assert(
      fc.property(millilitres, wash, fc.integer({ min: 2, max: 1000 }), (liquor, one, factor) => {
        const larger = { ...one, volume: one.volume.times(factor), held: one.held.times(factor) };
        const [plain, scaled] = [
          shareLeftByWashing(liquor, [one])!,
          shareLeftByWashing(liquor.times(factor), [larger])!,
        ];
        expect(plain.minus(scaled).abs().lt('1e-25')).toBe(true);
      }),
    );
  });

  test('without a wash or without liquor nothing is told', () => {
    expect(shareLeftByWashing(exact(100), [])).toBeUndefined();
    expect(shareLeftByWashing(exact(0), [{ volume: exact(1), held: exact(1), times: 1 }])).toBeUndefined();
  });
});

// Source: solubility rules as textbooks print them (W. L. Masterton, C. N. Hurley, Chemistry; from memory).
test.each([
  ['Na2SO4', true],
  ['K2SO4', true],
  ['NH4Cl', true],
  ['KNO3', true],
  ['Pb(NO3)2', true],
  ['FeSO4·7H2O', true],
  ['CuCl2', true],
  ['K4[Fe(CN)6]·3H2O', true],
  ['NaOH', true],
  ['HCl', true],
  ['CH3COOH', true],
  ['NaHCO3', true],
  ['BaSO4', false],
  ['PbSO4', false],
  ['CaSO4·2H2O', false],
  ['AgCl', false],
  ['PbI2', false],
  ['CuCl', false],
  ['Hg2Cl2', false],
  ['CaCO3', false],
  ['Cu(OH)2', false],
  ['Fe4[Fe(CN)6]3', false],
  ['KFe[Fe(CN)6]', false],
  ['Zn3(PO4)2', false],
  ['Fe2O3', false],
  ['Na2O', false],
  ['S', false],
])('%s dissolves: %s', (formula, does) => {
  expect(dissolves(formula)).toBe(does);
});
