// Normality is mol/L of an acid or an alkali with a fixed number of protons; of anything else it is asked about.
import { describe, expect, it } from 'vitest';
import { readReagentText } from '../../src/reagents/text.js';
import { inMolarity } from '../../src/reagents/normality.js';

const strengthOf = (text: string) => {
  const read = readReagentText(text);
  return read.ok ? read.value.strength?.written : read.fault.message;
};

describe('a strength in normality', () => {
  // By the definition: mol/L = N ÷ protons; H2SO4 and Ba(OH)2 have two.
  it.each([
    ['2N NaOH', '2 mol/L'],
    ['NaOH 2 N', '2 mol/L'],
    ['HCl N/10', '0.1 mol/L'],
    ['N/10 HCl', '0.1 mol/L'],
    ['N HCl 10 mL', '1 mol/L'],
    ['normal HCl', '1 mol/L'],
    ['Schwefelsäure 0,5 n', '0.25 mol/L'],
    ['sulphuric acid 2N', '1 mol/L'],
    ['Natronlauge 2n', '2 mol/L'],
    ['2 N ammonia', '2 mol/L'],
    ['0.5N nitric acid 20 mL', '0.5 mol/L'],
    ['acetic acid 1 N', '1 mol/L'],
    ['baryta water N/10', '0.05 mol/L'],
  ])('%s', (text, wanted) => expect(strengthOf(text)).toBe(wanted));

  it.each(['0.1N KMnO4', 'phosphoric acid 3N', 'sodium carbonate 1 N'])('%s depends on the reaction', (text) =>
    expect(strengthOf(text)).toContain('depends on the reaction'),
  );

  it.each(['soda 2 g', 'Vitamin N', 'NH4NO3 5 g', 'no idea', 'N2', 'zinc nitrate 2 g'])('%s has none', (text) =>
    expect(inMolarity(text)).toBe(text),
  );
});

describe('a sign before a name', () => {
  it.each(['@NaOH pellets 6 g', '* NaOH pellets 6 g', '# NaOH pellets 6 g'])('%s', (text) => {
    const read = readReagentText(text);
    expect(read.ok && read.value.name).toMatch(/^NaOH/);
  });
});
