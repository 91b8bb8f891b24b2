// A reagent meant to be in excess that limits: how much short, how much would be needed, what yield then.
import { describe, expect, it } from 'vitest';
import { severityOf } from '../../../src/remarks/remark.js';
import { reckon } from '../entries.js';

const malachite = (soda: string, more = ''): string => `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: ${soda}, intent: excess }
samples: [{ sample: A, obtained: 1.60 g }]
${more}`;
const ofSample = (matter: string) => {
  const { amounts, remarks } = reckon(matter);
  return { sample: amounts.samples[0]!, remarks };
};

describe('a reagent meant to be in excess', () => {
  // 5.00 g / 249.685 g/mol = 20.025 mmol of copper, as much soda: 20.025 mmol · 105.988 g/mol = 2.1225 g; half as much
  // malachite, 221.114 g/mol: 2.2140 g. Molar masses: abridged standard atomic weights 2021. 1 − 1.70/2.1225 = 19.9 %.
  it('that limits is short by what is lacking of what would be needed', () => {
    const [short] = ofSample(malachite('1.70 g')).sample.short!;
    expect(short!.reagent).toBe('soda');
    expect(Number(short!.percent.value)).toBeCloseTo(19.91, 1);
    expect(Number(short!.needed.value)).toBeCloseTo(2.1225, 3);
    expect(Number(short!.theoreticalYieldThen!.value)).toBeCloseTo(2.214, 3);
    expect(short!.words).toBe(
      'The soda is 20 % short: 2.12 g would be needed for all of the blue vitriol; 2.21 g of product could then be had.',
    );
  });
  it('that does not limit is not short', () => {
    expect(ofSample(malachite('2.50 g')).sample).not.toHaveProperty('short');
  });
  it('and is a quarter more than is needed, however roughly, is not too close to call', () => {
    // 2.71 g ± 0.9 g is 1.28 equivalents: its ± reaches below 1, and it is plainly ample all the same.
    const { sample } = ofSample(malachite('2.71 g ± 0.9 g'));
    expect(sample).not.toHaveProperty('tooCloseToCall');
    expect(ofSample(malachite('2.30 g ± 0.9 g')).sample.tooCloseToCall).toContain('soda');
  });
});

describe('a reactant that nothing supplies', () => {
  it('is an error where it is known what everything is', () => {
    const chalk = (reagent: string): string => `pigment: { name: chalk, formula: CaCO3 }
reaction: CaCl2 + Na2CO3 -> CaCO3 + 2 NaCl
reagents:
  - { reagent: { name: salt, formula: NaCl }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.00 g }
${reagent}`;
    const of = (matter: string) =>
      ofSample(matter)
        .remarks.filter(({ ruleId }) => ruleId === 'reactant-without-reagent')
        .map((one) => `${severityOf(one)} ${one.actual}`);
    expect(of(chalk(''))).toEqual(['error CaCl2']);
    expect(of(chalk('  - { reagent: { name: white granules }, amount: 2 tsp }'))).toEqual(['warning CaCl2']);
  });
});
