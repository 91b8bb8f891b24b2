// How much gas at worst: the reaction as written may give more than the equation of a rule, and a carbonate gives none
// with a salt of its own metal.
import { describe, expect, it } from 'vitest';
import { reckonDangers } from '../../src/reckoning/dangers/dangers.js';
import { emptyRoom, entry } from '../reckoning/entries.js';

const foreseen = (matter: string) => reckonDangers(entry(1, matter), emptyRoom).dangers.foreseen ?? [];

describe('the carbon dioxide of basic carbonates', () => {
  it('is what the reaction gives, where that is more: 50.0 mmol of zinc with carbonate give 30.0 mmol', () => {
    const [told] = foreseen(`
pigment: { name: basic zinc carbonate, formula: Zn5(CO3)2(OH)6 }
reaction: 5 ZnSO4 + 5 Na2CO3 + 3 H2O -> Zn5(CO3)2(OH)6 + 5 Na2SO4 + 3 CO2
reagents:
  - { reagent: { name: zinc sulfate heptahydrate, formula: ZnSO4·7H2O }, amount: 14.38 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 5.83 g }
samples: [{ sample: A }]`).filter(({ gas }) => gas === 'CO2');
    // 14.38 g / 287.56 g/mol · 3/5, by hand; weighing may be 0.005 g more.
    expect(Number(told!.worstCase!.mol)).toBeCloseTo(0.03, 4);
    expect(told!.worstCase!.words).toMatch(/730 mL|740 mL/);
  });
  it('is what the rule says, where the reaction gives no more', () => {
    const [told] = foreseen(`
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 10.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 5.00 g }
samples: [{ sample: A }]`).filter(({ gas }) => gas === 'CO2');
    expect(Number(told!.worstCase!.mol)).toBeCloseTo(0.02, 3);
  });
});

describe('a carbonate and a salt of its own metal', () => {
  const partners = (lines: string): readonly string[] =>
    foreseen(`reagents:\n${lines}\nsamples: [{ sample: A }]`)
      .filter(({ rule }) => rule === 'carbonate-metal-salt')
      .flatMap((one) => one.partners);
  const line = (name: string, formula: string): string =>
    `  - { reagent: { name: ${name}, formula: "${formula}" }, amount: 5 g }\n`;
  const [malachite, acetate] = [line('malachite', 'Cu2CO3(OH)2'), line('copper acetate', 'Cu(CH3COO)2·H2O')];
  it('give nothing', () => expect(partners(malachite + acetate)).toEqual([]));
  it('stay out of what another carbonate gives', () =>
    expect(partners(malachite + acetate + line('soda', 'Na2CO3'))).toEqual(['copper acetate', 'soda']));
  it('is told of another metal', () =>
    expect(partners(malachite + line('zinc sulfate', 'ZnSO4·7H2O'))).toEqual(['malachite', 'zinc sulfate']));
});

describe('what heat drives off one thing', () => {
  const line = (formula: string, amount: string): string =>
    `  - { reagent: { name: "${formula}", formula: "${formula}" }, amount: ${amount} g }`;
  const blue = foreseen(`
reaction: Cu2CO3(OH)2 + 2 CaCO3 + 8 SiO2 -> 2 CaCuSi4O10 + 3 CO2 + H2O
reagents:
${[line('Cu2CO3(OH)2', '3.00'), line('CaCO3', '2.72'), line('SiO2', '6.53')].join('\n')}
heating: [{ of: mixture, to: 900 °C }]
samples: [{ sample: A }]`);
  const yellow = foreseen(`
reaction: 4 FeSO4 + 8 NaHCO3 + O2 -> 4 FeO(OH) + 4 Na2SO4 + 8 CO2 + 2 H2O
reagents:
${[line('FeSO4·7H2O', '27.80'), line('NaHCO3', '17.0')].join('\n')}
heating: [{ of: product, to: 60 °C }]
samples: [{ sample: A }]`);
  const millimoles = (rule: string, found: ReturnType<typeof foreseen>): number =>
    1000 * Number(found.find((one) => one.rule === rule)?.worstCase?.mol);
  it('is no more than that holds', () => {
    // 2.72 g / 100.09, 3.00 g / 221.11, 17.0 g / 84.01 · 1/2, by hand.
    expect(millimoles('chalk-heated', blue)).toBeCloseTo(27.2, 0);
    expect(millimoles('carbonate-heated', blue)).toBeCloseTo(13.6, 0);
    expect(millimoles('hydrogencarbonate-heated', yellow)).toBeCloseTo(101.2, -0.5);
  });
  it('stands beside what the reaction as written gives', () => {
    // 3.00 g / 221.11 · 3; 27.80 g / 278.01 · 2, by hand.
    expect(millimoles('reaction-gives-carbon-dioxide', blue)).toBeCloseTo(40.7, 0);
    expect(millimoles('reaction-gives-carbon-dioxide', yellow)).toBeCloseTo(200, -0.5);
    expect(yellow.find(({ rule }) => rule === 'reaction-gives-carbon-dioxide')?.consequence).toBe('foaming');
  });
});
