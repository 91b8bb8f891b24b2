// From what is measured out to moles: every way of dosing comes to the same amount; what is assumed is said, and what
// is not known stays unknown.
import { describe, expect, test } from 'vitest';
import { exact } from '../../src/chemistry/index.js';
import { resolveText, stuffFor, type ResolvedReagent } from '../../src/reagents/index.js';

const resolved = (text: string): ResolvedReagent => {
  const outcome = resolveText(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const codes = ({ doubts, taken }: ResolvedReagent): readonly string[] => [
  ...doubts.map(({ code }) => code),
  ...taken.missing.map(({ code }) => code),
];

describe('an amount of acetic acid, 60.052 g/mol', () => {
  // All by hand, with the abridged molar mass of 60.052 g/mol.
  test.each([
    ['CH3COOH 6.0052 g', 0.1],
    ['CH3COOH 0.1 mol', 0.1],
    ['CH3COOH 100 mL 1.0 mol/L', 0.1],
    ['CH3COOH 10.0087 g 60 %', 0.1],
    ['CH3COOH 6.0052 g purity 50 %', 0.05],
    ['CH3COOH 10 g 60 % purity 50 %', 0.0499567],
    ['CH3COOH 10 mL 60 % 1.06 g/mL', 0.105908],
    ['CH3COOH 5.72 mL 1.05 g/mL', 0.100013],
    ['CH3COOH 60.052 mL 10 % w/v', 0.1],
    ['CH3COOH 60.052 mL 100 g/L', 0.1],
    ['CH3COOH 100 drops 60 % 1.06 g/mL drop 0.05 mL', 0.052954],
    ['CH3COOH 104 g 1.0 mol/L 1.04 g/mL', 0.1],
    ['CH3COOH 50 mmol', 0.05],
    ['CH3COOH 6005.2 mg', 0.1],
  ])('%s', (text, moles) => {
    expect(Number(resolved(text).taken.substance!.value)).toBeCloseTo(moles, 5);
  });
  // Densities: CRC Handbook, 102nd ed., acetic acid at 20 °C: 60 % 1.0629, 6 % 1.0066 (1.0058 mol/L) g/mL.
  test.each([
    ['CH3COOH 10 mL 60 %', 0.106198, 'density-from-table'],
    ['CH3COOH 10.066 g 1.0058 mol/L', 0.010058, 'density-from-table'],
    // 9 drops of 0.05 mL: 0.45 mL x 1.06 x 0.60 / 60.052
    ['CH3COOH 9 drops 60 % 1.06 g/mL', 0.0047659, 'drop-volume-assumed'],
    ['CH3COOH 9 drops 60 % 1.06 g/mL', 0.0047659, 'drop-volume-missing'],
    // 5 %, of 4 to 7: Averill and Eldredge, General Chemistry
    ['vinegar 10 g', 0.0083261, 'strength-from-name'],
  ])('%s is told with what was assumed: %s, %s', (text, moles, code) => {
    const reagent = resolved(text);
    expect(Number(reagent.taken.substance!.value) / moles).toBeCloseTo(1, 3);
    expect(codes(reagent)).toContain(code);
  });
  test.each([
    ['CH3COOH 10 mL', 'strength-missing'],
    ['CuSO4·5H2O 10 mL', 'density-missing'],
    ['dragon dust 10 g', 'formula-missing'],
    ['FexO 10 g', 'unknown-count'],
    ['sodium hydroxide solution 10 mL', 'strength-missing'],
  ])('%s is not guessed: %s', (text, code) => {
    const reagent = resolved(text);
    expect(reagent.taken.substance).toBeUndefined();
    expect(codes(reagent)).toContain(code);
  });
  test('of a range, a bound or a drop the most that it can be is kept for where danger is judged', () => {
    const most = (text: string): number => Number(resolved(text).taken.molAtMost);
    expect(most('CH3COOH 10 g 40-60 %')).toBeCloseTo(0.0999134, 6);
    expect(most('CH3COOH 6.0052 g purity ≥ 90 %')).toBeCloseTo(0.1, 6);
    expect(most('CH3COOH 6.0 g ± 0.6 g')).toBeCloseTo(6.6 / 60.052, 6);
    // a drop is at most 0.083 mL, vinegar at most 7 %: 5 x 0.083 x 1.0080 x 0.07 / 60.052
    expect(most('vinegar 5 drops')).toBeCloseTo(0.000488, 6);
    // the table of acetic acid goes to 100 %, 1.0477 g/mL
    expect(most('CH3COOH 10 mL')).toBeCloseTo(10.477 / 60.052, 4);
  });
  test('and the way back gives the same mass and volume', () => {
    const { portion } = resolved('CH3COOH 60 % 1.06 g/mL');
    const { mass, volume } = stuffFor(exact('0.105908'), portion);
    expect(Number(mass!.value)).toBeCloseTo(10.6, 3);
    expect(Number(volume!.value)).toBeCloseTo(10, 3);
  });
});
