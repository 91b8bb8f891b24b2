// Compositions that are aimed at: by hand, and by what must hold for every one: each element that stays is conserved.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  composition,
  exact,
  parseFormula,
  parseTarget,
  sharesTaken,
  solveTarget,
  type Formula,
} from '../../src/chemistry/index.js';

function formula(text: string): Formula {
  const read = parseFormula(text);
  if (!read.ok) throw new Error(text);
  return read.value;
}
const source = (text: string) => ({ name: text, formula: formula(text) });
function target(text: string) {
  const read = parseTarget(text);
  if (!read.ok) throw new Error(read.fault.message);
  return read.value;
}
function molesFor(text: string, ...sources: string[]): number[] {
  const solved = solveTarget(target(text), sources.map(source));
  if (!solved.ok) throw new Error(solved.fault.code);
  return solved.value.moles.map((value) => value.toNumber());
}

describe('how much of each source', () => {
  test.each([
    ['Mn0.3Zn0.7O', ['MnCO3', 'ZnO'], [0.3, 0.7]],
    ['CoAl2O4', ['Co3O4', 'Al(OH)3'], [1 / 3, 2]],
    ['CoAl2O4', ['Co(NO3)2·6H2O', 'Al2O3'], [1, 1]],
    ['ZnFe2O4', ['ZnO', 'Fe2O3'], [1, 1]],
    ['Ca0.5Sr0.5CuSi4O10', ['CaCO3', 'SrCO3', 'CuO', 'SiO2'], [0.5, 0.5, 1, 4]],
    ['BiVO4', ['Bi2O3', 'NH4VO3'], [0.5, 1]],
    ['MgAl2O4', ['MgAl2O4', 'MgO'], [1, 0]],
  ])('%s from %j', (aimed, sources, moles) => {
    molesFor(aimed, ...sources).forEach((value, at) => expect(value).toBeCloseTo(moles[at]!, 12));
  });

  test('a recipe of oxides in per cent: 40 g of CoO (74.93) and 60 g of Al2O3 (101.96)', () => {
    const [cobalt, aluminium] = molesFor('CoO 40 %, Al2O3 60 %', 'CoO', 'Al2O3');
    expect(cobalt).toBeCloseTo(40 / 74.932, 4);
    expect(aluminium).toBeCloseTo(60 / 101.961, 4);
    expect(target('CoO 40 %, Al2O3 60 %').unitMass.value.toNumber()).toBeCloseTo(100, 12);
  });
  test('a recipe by amount', () => expect(molesFor('CoO 1 mol, Al2O3 2 mol', 'CoO', 'Al(OH)3')).toEqual([1, 4]));
});

describe('what cannot be made', () => {
  const codeOf = (aimed: string, ...sources: string[]): string => {
    const solved = solveTarget(target(aimed), sources.map(source));
    return solved.ok ? '' : solved.fault.code;
  };
  test('an element without a source', () => expect(codeOf('CoAl2O4', 'CoO')).toBe('no-source'));
  test('a proportion that the sources cannot have', () => expect(codeOf('CoAl2O4', 'CoAlO3')).toBe('no-answer'));
  test('several ways', () => expect(codeOf('CoAl2O4', 'CoO', 'Co3O4', 'Al2O3')).toBe('several'));
  test('a source that leaves something open', () => expect(codeOf('ZnO', 'ZnxO')).toBe('source'));
  test.each(['some pink', 'CO2', 'CoO 40 %, Al2O3 1 mol', 'H2O 40 %, CO2 60 %'])('%s is no target', (text) =>
    expect(parseTarget(text).ok).toBe(false),
  );
  test('what must leave is told', () => {
    const solved = solveTarget(target('ZnO'), [source('ZnSO4·7H2O')]);
    expect(solved.ok && solved.value.mustLeave).toEqual(['S']);
  });
});

test('every element that stays is conserved, whatever the proportion', () => {
  const tenths = fc.integer({ min: 1, max: 9 });
  const manganese = fc.constantFrom('MnCO3', 'MnO2', 'Mn(NO3)2·4H2O', 'Mn2O3');
  const zinc = fc.constantFrom('ZnO', 'Zn5(CO3)2(OH)6');
  fc.assert(
    fc.property(tenths, manganese, zinc, (x, mn, zn) => {
      const aimed = target(`Mn${x / 10}Zn${(10 - x) / 10}O`);
      const sources = [source(mn), source(zn)];
      const solved = solveTarget(aimed, sources);
      if (!solved.ok) throw new Error(solved.fault.code);
      const { moles } = solved.value;
      for (const [symbol, wanted] of aimed.atoms) {
        const brought = sources
          .map(({ formula: one }, at) => (composition(one).get(symbol)?.low ?? exact(0)).times(moles[at]!))
          .reduce((a, b) => a.plus(b));
        expect(brought.minus(wanted).abs().lt('1e-25')).toBe(true);
      }
      const taken = sources.map(({ formula: one }, at) => ({ formula: one, moles: moles[at]! }));
      for (const share of sharesTaken(aimed, taken)!)
        expect(share.taken.minus(share.target).abs().lt('1e-25')).toBe(true);
    }),
  );
});
