// What limits, what is left and what can be hoped for, on reactions small enough to be reckoned by hand.
import { describe, expect, test } from 'vitest';
import {
  atomEconomy,
  elementMasses,
  exact,
  expandedUncertainty,
  findLimitingReagent,
  molarMass,
  parseEquation,
  parseFormula,
  percentYield,
  productAsWeighed,
  standardUncertainty,
  theoreticalYield,
  withoutUncertainty,
  withUncertainty,
  type Equation,
  type Formula,
  type LimitingReagent,
  type ReactantSupply,
  type ReagentTaken,
} from '../../src/chemistry/index.js';
import type { Outcome } from '../../src/outcome.js';

const sure = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const formula = (text: string): Formula => sure(parseFormula(text));
const equation = (text: string): Equation => sure(parseEquation(text));

/** So many mol of a reagent, with a standard uncertainty of its own. */
const taken = (text: string, mol: string, uncertainty = '0', id = text): ReagentTaken => ({
  id,
  formula: formula(text),
  excess: false,
  substance: withUncertainty(mol, uncertainty, `reading:${id}`),
});
const inExcess = (text: string, id = text): ReagentTaken => ({ id, formula: formula(text), excess: true });
const unmeasured = (text: string, id = text): ReagentTaken => ({ id, formula: formula(text), excess: false });
const labels = (all: readonly { readonly term: { readonly label: string } }[]): string[] =>
  all.map(({ term }) => term.label);
const reactant = ({ reactants }: LimitingReagent, label: string): ReactantSupply =>
  reactants.find(({ term }) => term.label === label)!;

const precipitation = equation('BaCl2 + Na2SO4 -> BaSO4 + 2 NaCl');
const water = equation('2 H2 + O2 -> 2 H2O');
const malachite = equation('2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2');

describe('what limits', () => {
  test('is the smallest amount divided by its coefficient, not the smallest amount', () => {
    const found = findLimitingReagent(water, [taken('H2', '3'), taken('O2', '2')]);
    expect([found.limiting!.term.label, found.extent!.value.toString()]).toEqual(['H2', '1.5']);
    const oxygen = reactant(found, 'O2');
    expect([oxygen.equivalents!.value.toString(), oxygen.left!.value.toString()]).toEqual([
      exact(4).div(3).toString(),
      '0.5',
    ]);
    const hydrogen = reactant(findLimitingReagent(water, [taken('H2', '4'), taken('O2', '1')]), 'H2');
    expect([hydrogen.equivalents!.value.toString(), hydrogen.left!.value.toString()]).toEqual(['2', '2']);
  });
  test('has one equivalent and nothing left; nothing of an amount of nothing is compared', () => {
    const found = findLimitingReagent(water, [taken('H2', '3'), taken('O2', '2')]);
    expect([found.limiting!.equivalents!.value.toString(), found.limiting!.left!.value.toString()]).toEqual(['1', '0']);
    const nothing = findLimitingReagent(water, [taken('H2', '0'), taken('O2', '2')]);
    expect(nothing.limiting!.term.label).toBe('H2');
    for (const { equivalents, left } of nothing.reactants) expect([equivalents, left]).toEqual([undefined, undefined]);
  });
  test('of two equal amounts is the first in the equation, and the other may as well', () => {
    const found = findLimitingReagent(precipitation, [taken('Na2SO4', '1'), taken('BaCl2', '1')]);
    expect([found.limiting!.term.label, labels(found.possiblyLimiting)]).toEqual(['BaCl2', ['Na2SO4']]);
  });
  test('cannot be told where the difference is within its expanded uncertainty', () => {
    // U(difference) = 2·√(0.01² + 0.01²) = 0.0283 mol.
    const at = (mol: string): string[] =>
      labels(
        findLimitingReagent(precipitation, [taken('BaCl2', '1', '0.01'), taken('Na2SO4', mol, '0.01')])
          .possiblyLimiting,
      );
    expect(at('1.028')).toEqual(['Na2SO4']);
    expect(at('1.029')).toEqual([]);
    expect(at('5')).toEqual([]);
  });
  test('one reading behind both amounts does not blur their difference', () => {
    const shared = [taken('BaCl2', '1', '0.1', 'pot'), taken('Na2SO4', '1.05', '0.1', 'pot')];
    expect(findLimitingReagent(precipitation, shared).possiblyLimiting).toEqual([]);
  });
  test('is not told where a reactant is missing or its amount unknown', () => {
    const missing = findLimitingReagent(precipitation, [taken('BaCl2', '1')]);
    expect([missing.limiting, missing.extent, missing.unsupplied.map(({ label }) => label)]).toEqual([
      undefined,
      undefined,
      ['Na2SO4'],
    ]);
    const unknown = findLimitingReagent(precipitation, [taken('BaCl2', '1'), unmeasured('Na2SO4')]);
    expect([unknown.limiting, unknown.unsupplied, unknown.amountUnknown.map(({ label }) => label)]).toEqual([
      undefined,
      [],
      ['Na2SO4'],
    ]);
  });
});

describe('what supplies a reactant', () => {
  test('several bottles of it are added up, each by what it holds', () => {
    const found = findLimitingReagent(equation('Al^3+ + 3 OH^- -> Al(OH)3'), [
      taken('KAl(SO4)2·12H2O', '0.1'),
      taken('Al2(SO4)3·18H2O', '0.2'),
      taken('NaOH', '1'),
    ]);
    const aluminium = reactant(found, 'Al^3+');
    expect([aluminium.suppliedBy.length, aluminium.amountOfSubstance!.value.toString()]).toEqual([2, '0.5']);
    expect(found.limiting!.term.label).toBe('OH^-');
  });
  test('one of several taken in excess is enough; the others’ amount is still told', () => {
    const found = findLimitingReagent(precipitation, [
      taken('BaCl2', '1'),
      taken('Na2SO4', '0.2', '0', 'weighed'),
      inExcess('Na2SO4·10H2O', 'tipped in'),
    ]);
    const sulfate = reactant(found, 'Na2SO4');
    expect([sulfate.inExcess, sulfate.suppliedBy, sulfate.amountOfSubstance!.value.toString()]).toEqual([
      true,
      ['weighed', 'tipped in'],
      '0.2',
    ]);
    expect([sulfate.extent, found.limiting!.term.label]).toEqual([undefined, 'BaCl2']);
  });
  test('one of several whose amount is unknown leaves the sum unknown', () => {
    const found = findLimitingReagent(precipitation, [
      taken('BaCl2', '1'),
      taken('Na2SO4', '0.2', '0', 'weighed'),
      unmeasured('Na2SO4', 'a pinch'),
    ]);
    expect(found.amountUnknown.map(({ label }) => label)).toEqual(['Na2SO4']);
    expect(reactant(found, 'Na2SO4').amountOfSubstance).toBeUndefined();
  });
  test('an amount said of what is taken in excess is not counted', () => {
    const both = { ...inExcess('Na2SO4'), substance: withoutUncertainty(5) };
    expect(
      reactant(findLimitingReagent(precipitation, [taken('BaCl2', '1'), both]), 'Na2SO4').amountOfSubstance,
    ).toBeUndefined();
  });
  test('water, and oxygen of the air, need nobody to supply them; ozone, superoxide and the rest do', () => {
    const assumed = (text: string, absent?: 'ambient' | 'all'): string[] =>
      findLimitingReagent(equation(text), [], absent).assumedPresent.map(({ label }) => label);
    expect(assumed('CaO + H2O -> Ca(OH)2')).toEqual(['H2O']);
    expect(assumed('2 Cu + O2 -> 2 CuO')).toEqual(['O2']);
    expect(assumed('O3 + O2^- + H2O2 -> H2O')).toEqual([]);
    expect(assumed('CaO + H2O -> Ca(OH)2', 'all')).toEqual(['CaO', 'H2O']);
    const found = findLimitingReagent(equation('CaO + H2O -> Ca(OH)2'), [taken('CaO', '1')]);
    expect([reactant(found, 'H2O').inExcess, found.limiting!.term.label]).toEqual([true, 'CaO']);
  });
  test('water that was weighed out is reckoned like anything else', () => {
    const found = findLimitingReagent(equation('CaO + H2O -> Ca(OH)2'), [taken('CaO', '1'), taken('H2O', '0.5')]);
    expect([found.limiting!.term.label, found.assumedPresent]).toEqual(['H2O', []]);
  });
  test('electrons come from the circuit', () => {
    const found = findLimitingReagent(equation('Cu^2+ + 2 e^- -> Cu'), [taken('CuSO4', '1')]);
    expect([reactant(found, 'e^-').inExcess, found.limiting!.term.label]).toEqual([true, 'Cu^2+']);
  });
  test('what supplies nothing takes no part; what has no formula is not judged', () => {
    const found = findLimitingReagent(precipitation, [
      taken('BaCl2', '1'),
      taken('Na2SO4', '1'),
      taken('KNO3', '1'),
      { id: 'madder', excess: false },
    ]);
    expect(found.takingNoPart).toEqual(['KNO3']);
  });
});

describe('the theoretical yield', () => {
  const product = malachite.products[0]!;
  const extent = withUncertainty('0.01', '0.0001', 'reading:a');
  test('is extent times coefficient times molar mass', () => {
    const { substance, mass, missing } = theoreticalYield(extent, malachite.products[1]!);
    // 2 · 0.01 mol · 142.036 g/mol.
    expect([substance.value.toString(), mass!.value.toString(), missing]).toEqual(['0.02', '2.84072', undefined]);
  });
  test('of a hydrate of unknown water is at least that of the dry salt, and the water is asked for', () => {
    const weighed = productAsWeighed(product, formula('Cu2CO3(OH)2·xH2O'), 'Cu2CO3(OH)2·xH2O');
    const { mass, massAtLeast, missing } = theoreticalYield(extent, weighed);
    expect([mass, massAtLeast!.value.toString(), missing!.code, missing!.column]).toEqual([
      undefined,
      sure(molarMass(formula('Cu2CO3(OH)2')))
        .low.times('0.01')
        .toString(),
      'unknown-count',
      13,
    ]);
  });
  test('of a range or an open proportion has that range as its uncertainty, and the share is asked for', () => {
    const [zinc, manganese] = ['ZnO', 'MnO'].map((text) => sure(molarMass(formula(text))).low);
    const certain = withoutUncertainty(1);
    const { mass, missing } = theoreticalYield(certain, { ...product, formula: formula('(Zn,Mn)O') });
    expect([mass!.value.toString(), missing!.code]).toEqual([
      zinc!.plus(manganese!).div(2).toString(),
      'open-proportion',
    ]);
    // Half the difference, as a rectangle: (81.379 − 70.937)/2/√3 = 3.014; the atomic weights add next to nothing.
    expect(standardUncertainty(mass!).toNumber()).toBeCloseTo(3.014, 2);
  });
  test('of an element without weight is an amount of substance alone', () => {
    const { substance, mass, massAtLeast, missing } = theoreticalYield(extent, {
      ...product,
      formula: formula('TcO2'),
    });
    expect([substance.value.toString(), mass, massAtLeast, missing!.code]).toEqual([
      '0.01',
      undefined,
      undefined,
      'no-standard-weight',
    ]);
  });
  test('in percent; of nothing there is none', () => {
    const percent = sure(percentYield(withUncertainty('1.5', '0.01', 'o'), withUncertainty('2', '0.02', 't')));
    expect(percent.value.toString()).toBe('75');
    // Relative: √((0.01/1.5)² + (0.02/2)²) = 1.2019 %; twice that of 75 %.
    expect(expandedUncertainty(percent).toNumber()).toBeCloseTo(1.8028, 3);
    expect(percentYield(withoutUncertainty(1), withoutUncertainty(0))).toMatchObject({
      ok: false,
      fault: { code: 'nothing-made' },
    });
  });
});

describe('a product weighed in another form', () => {
  const alum = equation('K2SO4 + Al2(SO4)3 + 24 H2O -> 2 KAl(SO4)2·12H2O').products[0]!;
  test('the same substance is the same term', () =>
    expect(productAsWeighed(alum, formula('KAl(SO4)2·12H2O'), 'alum')).toBe(alum));
  test('with other water, as many of it', () => {
    const dry = productAsWeighed(alum, formula('KAl(SO4)2'), 'burnt alum');
    expect([dry.label, dry.coefficient.toString()]).toEqual(['burnt alum', '2']);
  });
  test('in a double formula unit, half as many', () =>
    expect(productAsWeighed(alum, formula('K2SO4·Al2(SO4)3·24H2O'), 'alum').coefficient.toString()).toBe('1'));
  test('another substance changes nothing', () => expect(productAsWeighed(alum, formula('NaCl'), 'salt')).toBe(alum));
});

describe('atom economy', () => {
  test('is the product’s share of all that reacts, by mass', () => {
    // 221.114 / (2·159.602 + 2·105.988 + 18.015) = 40.2615 %.
    expect(sure(atomEconomy(malachite, malachite.products[0]!)).value.toNumber()).toBeCloseTo(40.2615, 3);
  });
  test('counts the product as the equation has it, in whatever form it is weighed', () => {
    const weighed = productAsWeighed(malachite.products[0]!, formula('Cu2CO3(OH)2·xH2O'), 'wet malachite');
    expect(sure(atomEconomy(malachite, weighed)).value.toNumber()).toBeCloseTo(40.2615, 3);
  });
  test('is not told of what has no weight', () => {
    const technetium = equation('Tc + O2 -> TcO2');
    expect(atomEconomy(technetium, technetium.products[0]!)).toMatchObject({
      ok: false,
      fault: { code: 'no-standard-weight' },
    });
    const circuit = equation('e^- -> e^-');
    expect(atomEconomy(circuit, circuit.products[0]!)).toMatchObject({ ok: false, fault: { code: 'nothing-reacts' } });
  });
});

describe('an element in an amount of substance', () => {
  const tenth = withoutUncertainty('0.1');
  test('is count times atomic weight', () => {
    expect(elementMasses(tenth, formula('Cu2CO3(OH)2'), 'Cu')!.value.toString()).toBe('12.7092');
    expect(elementMasses(tenth, formula('CuSO4'), 'Zn')).toBeUndefined();
    expect(elementMasses(tenth, formula('TcO2'), 'Tc')).toBeUndefined();
  });
  test('of a range is the middle, with half the range as a rectangle', () => {
    const sodium = elementMasses(tenth, formula('Na8-10Cl'), 'Na')!;
    // 0.1 · 9 · 22.990 g, ± 0.1 · 22.990/√3 g.
    expect(sodium.value.toString()).toBe('20.691');
    expect(standardUncertainty(sodium).toNumber()).toBeCloseTo(1.3273, 3);
  });
  test('that shares a place may be none or all of it', () => {
    const zinc = elementMasses(tenth, formula('(Zn,Mn)O'), 'Zn')!;
    expect(zinc.value.toString()).toBe(exact('65.38').times('0.05').toString());
    expect(standardUncertainty(zinc).toNumber()).toBeCloseTo((6.538 * 0.5) / Math.sqrt(3), 3);
  });
});
