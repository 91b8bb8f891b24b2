// The question whether a salt was weighed with its water is asked whatever way its formula is spelt.
import { describe, expect, it } from 'vitest';
import { identify, readReagentText, usualHydrate } from '../../src/reagents/index.js';

describe('the hydrate in which a salt is usually sold', () => {
  it.each([
    ['CuSO4', 'CuSO4·5H2O'],
    ['CuO4S', 'CuSO4·5H2O'],
    ['CuSO₄', 'CuSO4·5H2O'],
    ['Cu(NO3)2', 'Cu(NO3)2·3H2O'],
    ['CuN2O6', 'Cu(NO3)2·3H2O'],
    ['Cu(C2H3O2)2', 'Cu(CH3COO)2·H2O'],
  ])('%s', (formula, hydrate) => expect(usualHydrate(formula)).toBe(hydrate));

  it.each(['CuSO4·5H2O', 'CuSO4.H2O', 'CuS', 'verdigris', ''])('none of %s', (formula) =>
    expect(usualHydrate(formula)).toBeUndefined(),
  );
});

// The colours of hydrates and of dry salts: CRC Handbook of Chemistry and Physics, from memory.
describe('a name that tells of looks', () => {
  const formulaOf = (written: string): string | undefined => {
    const read = readReagentText(written);
    if (!read.ok) throw new Error(read.fault.message);
    return identify(read.value)?.substance.formula.replaceAll('.', '·');
  };
  it.each([
    ['blue copper sulphate', 'CuSO4·5H2O'],
    ['copper sulfate, blue crystals', 'CuSO4·5H2O'],
    ['Kupfersulfat blau', 'CuSO4·5H2O'],
    ['sulfate de cuivre cristaux', 'CuSO4·5H2O'],
    ['pink cobalt chloride', 'CoCl2·6H2O'],
    ['zinc sulfate white crystals', 'ZnSO4·7H2O'],
    ['iron(II) sulfate pale green', 'FeSO4·7H2O'],
    ['chrome alum violet crystals', 'KCr(SO4)2·12H2O'],
    ['magnesium chloride crystals', 'MgCl2·6H2O'],
  ])('%s is the hydrate', (written, formula) => expect(formulaOf(written)).toBe(formula));

  it.each([
    ['anhydrous copper sulfate crystals', 'CuSO4'],
    ['blue cobalt chloride', undefined],
    ['white copper sulfate', undefined],
    ['sodium chloride crystals', 'NaCl'],
    ['red copper oxide', 'Cu2O'],
    ['white lead', '2PbCO3·Pb(OH)2'],
  ])('%s is not', (written, formula) => expect(formulaOf(written)).toBe(formula));
});
