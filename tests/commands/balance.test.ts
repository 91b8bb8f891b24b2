// masstone balance: every published equation driven from outside, its errors, and how little code it loads.
import { describe, expect, test } from 'vitest';
import { command } from '../../src/commands/balance.js';
import { referenceRows } from '../reference/read.js';
import { roomsLoaded, run } from './bench.js';

describe('masstone balance', () => {
  test.each([
    ['copper sulphate + washing soda -> copper carbonate', /^Write CuSO4 \+ Na2CO3·10H2O -> \S+, if/],
    ['lead nitrate + K2CrO4 = PbCrO4 + KNO3', /^Write Pb\(NO3\)2 \+ K2CrO4 -> PbCrO4 \+ KNO3, if/],
  ])('%s is told in formulae', async (written, cure) => {
    const { code, json } = await run(command, '--json', written);
    expect(code).toBe(1);
    expect(json.error.cure).toMatch(cure);
  });
  test('every row of the table of equations, as JSON', async () => {
    for (const row of referenceRows('chem/balance.csv')) {
      const { code, json } = await run(command, '--json', row.unbalanced!);
      if (row.status === 'unique') {
        expect([code, json.balanced]).toEqual([0, row.balanced_smallest_integers]);
        const again = [json.reactants, json.products]
          .map((side) =>
            side
              .map(({ formula, coefficient }: { formula: string; coefficient: number }) =>
                coefficient === 1 ? formula : `${coefficient} ${formula}`,
              )
              .join(' + '),
          )
          .join(' -> ');
        expect(again).toBe(json.balanced);
      } else
        expect([code, json.error.code]).toEqual([
          1,
          row.status!.startsWith('underdetermined') ? 'underdetermined' : 'no-solution',
        ]);
    }
  });
  const more = referenceRows('chem/more-equations.csv');
  test.each(more.map((row) => [row.equation!, row.coefficients!] as const))('%s: %s', async (text, expected) => {
    const { code, json } = await run(command, '--json', '--', text);
    if (/^[a-z]/.test(expected))
      expect([code, json.error.code, typeof json.error.message]).toEqual([1, expected, 'string']);
    else
      expect(
        [...json.reactants, ...json.products].map(({ coefficient }: { coefficient: number }) => coefficient).join(' '),
      ).toBe(expected);
    if (expected === 'syntax') expect(json.error.column).toBeGreaterThan(0);
  });
  test('every equation was run', () => expect(more.length).toBe(232));
  test('coefficients that are there are not kept', async () => {
    const { json } = await run(command, '--json', '7 H2 + 3 O2 -> 5 H2O');
    expect(json).toEqual({
      balanced: '2 H2 + O2 -> 2 H2O',
      reactants: [
        { formula: 'H2', coefficient: 2 },
        { formula: 'O2', coefficient: 1 },
      ],
      products: [{ formula: 'H2O', coefficient: 2 }],
    });
    expect((await run(command, '7 H2 + 3 O2 -> 5 H2O')).aside).toContain('Hydrogen (H) is off by 4');
  });
  test('a substance on the wrong side: the equation is printed with the sides put right', async () => {
    // The fewest substances change sides. Each balances by inspection.
    for (const [written, corrected] of [
      ['Fe + Fe2O3 -> O2', '2 Fe2O3 -> 3 O2 + 4 Fe'],
      ['Fe -> O2 + Fe2O3', '4 Fe + 3 O2 -> 2 Fe2O3'],
      ['CaCO3 + CO2 -> CaO', 'CaCO3 -> CaO + CO2'],
      ['Fe + O2 + Fe2O3 -> H2O + H2', undefined],
    ] as const) {
      const words = await run(command, written);
      expect([words.code, words.result]).toEqual([1, corrected === undefined ? '' : `${corrected}\n`]);
      const { json } = await run(command, '--json', written);
      expect([json.error.code, json.error.correction]).toEqual(['no-solution', corrected]);
      if (corrected) expect(words.aside).toContain(corrected);
    }
  });
  test('what cannot be read is a syntax error with a column', async () => {
    const { code, json } = await run(command, '--json', 'H2 + Xy -> H2O');
    expect([code, json.error.code, json.error.column]).toEqual([1, 'syntax', 6]);
    expect((await run(command, '--json', 'H2 + O2')).json.error.code).toBe('syntax');
  });
  test('in words it is the equation alone', async () =>
    expect((await run(command, 'Fe + O2 -> Fe2O3')).result).toBe('4 Fe + 3 O2 -> 2 Fe2O3\n'));
  test('without an equation it is wrong use', async () => {
    await expect(run(command, 'a', 'b')).rejects.toThrow('Give one equation');
  });
  test('loads no more than the reckoning needs, so that it answers at once', () =>
    expect(
      roomsLoaded('balance', '--json', 'K4[Fe(CN)6] + KMnO4 + H2SO4 -> KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O'),
    ).toEqual(['decimal.js', 'src', 'src/chemistry', 'src/commands', 'src/tables']));
});
