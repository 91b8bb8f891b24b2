// From what is measured out to moles: every way of dosing comes to the same amount, and what is not known stays unknown.
import { describe, expect, test } from 'vitest';
import { exact, parseReagentText, stuffFor, take, type Taken } from '../../src/chemistry/index.js';

const taken = (text: string): Taken => {
  const outcome = parseReagentText(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return take({ id: 'one', ...outcome.value });
};

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
    expect(Number(taken(text).substance!.value)).toBeCloseTo(moles, 5);
  });
  test.each([
    ['CH3COOH 10 mL', 'density-missing'],
    ['CH3COOH 10 mL 60 %', 'density-missing'],
    ['CH3COOH 10 g 1.0 mol/L', 'density-missing'],
    ['CH3COOH 9 drops 60 % 1.06 g/mL', 'drop-volume-missing'],
    ['vinegar 10 g', 'formula-missing'],
    ['FexO 10 g', 'unknown-count'],
  ])('%s is not guessed: %s', (text, code) => {
    expect(taken(text).substance).toBeUndefined();
    expect(taken(text).missing.map((fault) => fault.code)).toContain(code);
  });
  test('and the way back gives the same mass and volume', () => {
    const outcome = parseReagentText('CH3COOH 60 % 1.06 g/mL');
    if (!outcome.ok) throw new Error(outcome.fault.message);
    const { mass, volume } = stuffFor(exact('0.105908'), { id: 'one', ...outcome.value });
    expect(Number(mass!.value)).toBeCloseTo(10.6, 3);
    expect(Number(volume!.value)).toBeCloseTo(10, 3);
  });
});
