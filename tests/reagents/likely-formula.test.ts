// A formula whose charges do not balance, questioned with the salt that is one digit away or that its charges ask for.
import { describe, expect, it } from 'vitest';
import { likelyFormula } from '../../src/reagents/index.js';
import { namedFormulae } from '../../src/reagents/table-formulae.js';

describe('an impossible formula', () => {
  it.each([
    ['CaCI2', 'CaCl2'],
    ['CaCI2·6H2O', 'CaCl2·6H2O'],
    ['NaCIO', 'NaClO'],
    ['HCI', 'HCl'],
    ['CI4', undefined],
    ['CHI3', undefined],
    ['NaCO3', 'Na2CO3'],
    ['CaCl', 'CaCl2'],
    ['Na2SO3·5H2O', undefined],
    ['KCO3', 'K2CO3'],
    ['Cu2SO4·5H2O', undefined],
    ['ZnCl', 'ZnCl2'],
    ['AlSO4', 'Al2(SO4)3'],
    ['Al2SO4', 'Al2(SO4)3'],
    ['PbNO3', 'Pb(NO3)2'],
    ['AgNO4', 'AgNO3'],
    ['AlOH', 'Al(OH)3'],
    ['ZnPO4', 'Zn3(PO4)2'],
    ['Al2SO43', 'Al2(SO4)3'],
    ['CuOH2', 'Cu(OH)2'],
    ['KO2', undefined],
    ['CuNO3', undefined],
    ['Pb3O4', undefined],
    ['CaC2', undefined],
    ['Ca3N2', undefined],
    ['Al2(SO4)2', 'Al2(SO4)3'],
    ['NaSO4', 'Na2SO4'],
    ['Na2CO3', undefined],
    ['ZnNO3', 'Zn(NO3)2'],
    ['CaOH', 'Ca(OH)2'],
    ['K2NO3', 'KNO3'],
    ['Ca(OH)', 'Ca(OH)2'],
    ['MgCO', 'MgCO3'],
    ['NaCO3·10H2O', 'Na2CO3·10H2O'],
    ['K2Cr2O4', undefined],
    ['Fe3O4', undefined],
    ['CdS1-xSex', undefined],
    ['Cu2CO3(OH)2', undefined],
    ['YIn0.9Mn0.1O3', undefined],
    ['COSO4', 'CoSO4'],
    ['COSO4·7H2O', 'CoSO4·7H2O'],
    ['NIO', 'NiO'],
    ['SNO2', 'SnO2'],
    ['PBCO3', 'PbCO3'],
    ['COCO3', 'CoCO3'],
    ['CO3O4', 'Co3O4'],
    ['CO(NO3)2', 'Co(NO3)2'],
    ['CO2', undefined],
    ['NO2', undefined],
    ['HCN', undefined],
    ['KSCN', undefined],
    ['BaCO3', undefined],
    ['NaHCO3', undefined],
    ['VOSO4', undefined],
    ['CH3COOH', undefined],
    ['C6H5COONa', undefined],
    ['HCOONa', undefined],
    ['C14H8O4', undefined],
  ])('%s: %s', (written, likely) => {
    const fault = likelyFormula(written);
    if (likely === undefined) expect(fault).toBeUndefined();
    else expect(fault?.cure).toMatch(new RegExp(`^Write ${likely.replace(/[()]/g, '\\$&')} \\([^)]`));
  });

  it('is told with the elements that it names as its capitals stand', () => {
    expect(likelyFormula('COZnO2')).toMatchObject({
      code: 'capitals',
      message: 'As its capitals stand, COZnO2 is carbon, oxygen, zinc.',
      expected: 'CoZnO2',
      cure: 'Write CoZnO2, if that is meant.',
    });
  });

  it('is none that stands in a table', () => {
    expect([...new Set(namedFormulae())].filter((formula) => likelyFormula(formula) !== undefined)).toEqual([]);
  });
});
