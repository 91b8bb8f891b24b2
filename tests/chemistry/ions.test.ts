// Which ions a formula supplies: look-alikes are never confused, complexes stay whole, water is counted apart.
import { describe, expect, test } from 'vitest';
import { exact, ionsOf, parseFormula, suppliedBy, type Dissociation, type Formula } from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/read.js';

const formula = (text: string): Formula => {
  const outcome = parseFormula(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const dissociation = (text: string): Dissociation => {
  const outcome = ionsOf(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const inWords = (text: string): string =>
  dissociation(text)
    .ions.map(({ count, formula: written, id }) => `${count} ${written} ${id}`)
    .join(', ');

describe('ions', () => {
  const rows = referenceRows('chem/ions.csv');
  test.each(rows.map((row) => [row.formula, row] as const))('%s', (text, row) => {
    const { kind, water, balanced } = dissociation(text!);
    expect([kind, inWords(text!), water.toString()]).toEqual([row.kind, row.ions, row.water]);
    expect(balanced).toBe(true);
  });

  test('every ion of a salt adds up to the salt: charge is nil', () => {
    for (const { formula: text } of rows) {
      const { ions, kind } = dissociation(text!);
      if (kind === 'ion') continue;
      expect(
        ions
          .reduce((total, { charge, count }) => total.plus(count.times(charge)), dissociation('H2O').water.times(0))
          .toNumber(),
      ).toBeCloseTo(0, 9);
    }
  });

  test('a formula that leaves something open supplies what its ends supply, at most', () => {
    const atMost = (text: string): string[] =>
      dissociation(text)
        .ions.map(({ count, formula: written, atMost: open }) => `${open ? '≤' : ''}${count} ${written}`)
        .sort();
    expect(atMost('(Zn,Mn)O')).toEqual(['≤1 Mn^2+', '≤1 O^2-', '≤1 Zn^2+']);
    expect(atMost('(Fe,Mg)2SiO4')).toEqual(['≤1 SiO4^4-', '≤2 Fe^2+', '≤2 Mg^2+']);
    expect(atMost('CdS1-xSex')).toEqual(['≤1 Cd^2+', '≤1 S^2-', '≤1 Se^2-']);
    expect(atMost('Ca5(PO4)3(OH,F)')).toEqual(['≤1 F^-', '≤1 OH^-', '≤3 PO4^3-', '≤5 Ca^2+']);
    // Nothing bounds x, and iron must not be lost by it.
    expect(atMost('FexO')).toContain('≤1 Fe^2+');
    expect(dissociation('CuSO4·xH2O')).toEqual({ ...dissociation('CuSO4·5H2O'), water: exact(0) });
    expect(suppliedBy(formula('(Zn,Mn)SO4'), formula('Zn^2+')).toNumber()).toBe(0);
  });

  test('hydrogen beside a metal makes a salt; charges that cannot add up and metals that cannot be read are said', () => {
    expect(dissociation('KH(IO3)2')).toMatchObject({ kind: 'salt', balanced: true });
    expect(dissociation('NaCl4').balanced).toBe(false);
    expect(dissociation('Cu3Sn')).toMatchObject({ kind: 'unknown', balanced: false, ions: [] });
  });

  test('what stands around a bracket multiplies all that is in it', () => {
    expect(inWords('{[Cu(NH3)4]SO4}2')).toBe('2 [Cu(NH3)4]^2+ complex, 2 SO4^2- sulfate');
    expect(inWords('2(2PbCO3·Pb(OH)2)')).toBe('6 Pb^2+ lead, 4 CO3^2- carbonate, 4 OH^- hydroxide');
  });

  test('of what is left open the larger count is kept', () => {
    const sodium = dissociation('(Na,K)Cl·NaCl').ions.find(({ formula: written }) => written === 'Na^+');
    expect(sodium?.count.toString()).toBe('2');
  });

  test('molecules beside the ions are named', () => {
    expect(dissociation('2Na2CO3·3H2O2').molecules).toMatchObject([{ id: 'hydrogen peroxide' }]);
    expect(dissociation('NH3').molecules).toMatchObject([{ id: 'ammonia' }]);
    expect(dissociation('C2H5OH')).toMatchObject({ kind: 'molecule', ions: [] });
  });

  test('every published molar mass’s formula can be taken apart without a throw, and metals are never lost', () => {
    for (const { formula: text, kind } of referenceRows('chem/molar-masses.csv'))
      expect(() => dissociation(text!), kind).not.toThrow();
  });
});

describe('what a reagent supplies', () => {
  test.each([
    ['Na2CO3·10H2O', 'CO3^2-', 1],
    ['CuSO4·5H2O', 'Cu^2+', 1],
    ['CuSO4·5H2O', 'CuSO4', 1],
    ['CuSO4', 'CuSO4·5H2O', 1],
    ['K4[Fe(CN)6]·3H2O', '[Fe(CN)6]^4-', 1],
    ['K3[Fe(CN)6]', '[Fe(CN)6]^4-', 0],
    ['HCl', 'H^+', 1],
    ['H2SO4', 'H3O^+', 2],
    ['NaOH', 'OH^-', 1],
    ['KNO2', 'NO2^-', 1],
    ['KNO3', 'NO2^-', 0],
    ['K3[Co(NO2)6]', 'NO2^-', 0],
    ['Na2SO3', 'SO4^2-', 0],
    ['3CdSO4·8H2O', 'CdSO4', 3],
    ['S8', 'S', 8],
    ['O3', 'O2', 0],
    ['NH4OH', 'NH3', 1],
    ['NaCl', 'CuSO4', 0],
    ['CH3COOH', 'CH3COO^-', 1],
    ['FeCl3·6H2O', 'Fe^3+', 1],
    ['FeCl2·4H2O', 'Fe^3+', 0],
    ['C6H6', 'C2H2', 0],
    ['CuSO4', '[Cu(NH3)4]^2+', 0],
    ['CuSO4', '[Cu(H2O)6]^2+', 1],
    ['H2SO4', 'H3O^-', 0],
    ['Cu2CO3(OH)2·xH2O', 'Cu2CO3(OH)2', 1],
    ['K2SO4·Al2(SO4)3·24H2O', 'KAl(SO4)2·12H2O', 2],
  ])('%s supplies %s %i times', (reagent, species, count) =>
    expect(suppliedBy(formula(reagent), formula(species)).toNumber()).toBe(count),
  );
  const salts = referenceRows('chem/more-supplies.csv');
  test.each(salts.map(({ reagent, species, count }) => [reagent!, species!, Number(count)] as const))(
    '%s of the chemical cupboard supplies %s %i times',
    (reagent, species, count) => expect(suppliedBy(formula(reagent), formula(species)).toNumber()).toBe(count),
  );
  test('every salt was run', () => expect(salts.length).toBe(162));
});
