// A name that tells of other water of crystallisation than the formula beside it.
import { describe, expect, it } from 'vitest';
import { parseFormula } from '../../src/chemistry/index.js';
import { waterContradicted } from '../../src/reagents/index.js';

describe('a name and a formula that tell of different water', () => {
  it.each([
    ['nickel sulphate hexahydrate', 'NiSO4·7H2O', 'NiSO4·6H2O'],
    ['plaster of Paris', 'CaSO4·2H2O', 'CaSO4·0.5H2O'],
    ['green vitriol', 'FeSO4·H2O', 'FeSO4·7H2O'],
    ['blue vitriol', 'CuSO4·3H2O', 'CuSO4·5H2O'],
    ['Eisensulfat-Heptahydrat', 'FeSO4·H2O', 'FeSO4·7H2O'],
    ['copper sulfate pentahydrate', 'CuSO4', 'CuSO4·5H2O'],
    ['soda ash', 'Na2CO3·10H2O', 'Na2CO3'],
    ['gypsum', 'CaSO4·0.5H2O', 'CaSO4·2H2O'],
    ['cobalt chloride hexahydrate', 'CoCl2.2H2O', 'CoCl2·6H2O'],
    ['magnesium sulfate monohydrate', 'MgSO4*7H2O', 'MgSO4·H2O'],
  ])('%s as %s', (name, written, meant) => {
    const formula = parseFormula(written);
    expect(formula.ok && waterContradicted(name, formula.value)?.meant).toBe(meant);
  });
  it.each([
    ['alum', 'KAl(SO4)2·12H2O'],
    ['Epsom salt', 'MgSO4·7H2O'],
    ['cobalt chloride hexahydrate', 'CoCl2·6H2O'],
    ['lead acetate trihydrate', 'Pb(CH3COO)2·3H2O'],
    ['sodium carbonate', 'Na2CO3·H2O'],
    ['plaster of Paris', '2CaSO4·H2O'],
    ['calcium sulfate hemihydrate', 'CaSO4·0.5H2O'],
    ['washing soda', 'Na2CO3·10H2O'],
    ['copper(II) sulfate', 'CuSO4·5H2O'],
    ['Prussian blue', 'Fe4[Fe(CN)6]3·14H2O'],
    ['iron sulfate heptahydrate', 'FeSO4·xH2O'],
    ['cuprous chloride', 'CuCl'],
  ])('nothing is said of %s as %s', (name, written) => {
    const formula = parseFormula(written);
    expect(formula.ok && waterContradicted(name, formula.value)).toBeUndefined();
  });
});
