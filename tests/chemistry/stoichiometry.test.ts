// Limiting reagents, yields, what is left, atom economy and solution strengths against published worked problems.
import { describe, expect, test } from 'vitest';
import {
  atomEconomy,
  exact,
  parseEquation,
  parseFormula,
  parseQuantity,
  percentYield,
  findLimitingReagent,
  theoreticalYield,
  type Decimal,
  type Formula,
  type Quantity,
} from '../../src/chemistry/index.js';
import {
  dilute,
  readReagentText,
  resolveStrength,
  resolveText,
  takePortion,
  termsOf,
} from '../../src/reagents/index.js';
import type { DilutionStrength } from '../../src/reagents/dilution.js';
import { referenceRows } from '../reference/read.js';

const rows = referenceRows('chem/stoichiometry-cases.csv');
const sure = <T>(outcome: { ok: true; value: T } | { ok: false; fault: { message: string } }): T => {
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const formula = (text: string): Formula => sure(parseFormula(text));
const quantity = (text: string): Quantity => sure(parseQuantity(text));
const near = (actual: Decimal | number, expected: number, relative: number): void => {
  expect(Math.abs(Number(actual) - expected) / Math.abs(expected)).toBeLessThan(relative);
};
/** Half of the last printed digit, with a little more for textbooks that round on the way. */
const printed = (text: string): number => {
  const digits = text.replace(/E.*/i, '').replace(/^0+\.?0*|\./g, '').length;
  if (digits <= 2) return 0.03;
  return digits === 3 ? 0.006 : 0.0015;
};

/** The mass of an obtained product: grams, or a volume with its density. */
const obtainedMass = (text: string) => sure(resolveText(`unnamed product ${text}`)).taken.pure!;

const reactions = rows.filter(({ equation, reagents }) => equation !== '' && reagents !== '');
describe('a reaction with weighed reagents', () => {
  test.each(reactions.map((row) => [row.id, row] as const))(
    '%s: limiting reagent, yield and what is left are those of the source',
    (_, row) => {
      const equation = sure(parseEquation(row.equation!));
      const takens = row.reagents!.split(';').map((text) => sure(resolveText(text)).taken);
      const limitation = findLimitingReagent(equation, takens, 'all');
      const product = equation.products.find(({ label }) => label === row.product)!;
      // Where a source prints that two are just enough, either may be called limiting.
      if (row.expected_limiting) expect(limitation.limiting!.term.label).toBe(row.expected_limiting);
      else if (/just|both/.test(row.note ?? ''))
        expect(
          limitation.reactants
            .filter(({ equivalents }) => equivalents)
            .every(({ equivalents }) => equivalents!.value.lt('1.01')),
        ).toBe(true);
      expect(limitation.limiting!.term.label).toBe(row.computed_limiting);
      const yielded = theoreticalYield(limitation.extent!, product);
      // Computed columns: independent exact arithmetic with the full 2021 weights; abridged weights differ by less than
      // 5E-5.
      near(yielded.mass!.value, Number(row.computed_theoretical_mass!.split(' ')[0]), 5e-5);
      near(yielded.substance.value, Number(row.computed_theoretical_amount!.split(' ')[0]), 5e-5);
      if (row.expected_theoretical_yield && row.id !== 'ST032') {
        const expected = quantity(row.expected_theoretical_yield);
        near(
          expected.dimension === 'amount' ? yielded.substance.value : yielded.mass!.value,
          Number(expected.base),
          printed(row.expected_theoretical_yield.split(' ')[0]!),
        );
      }
      if (row.actual_yield) {
        const percent = sure(percentYield(obtainedMass(row.actual_yield), yielded.mass!)).value;
        near(percent, Number(row.computed_percent_yield), 3e-4);
        near(percent, Number(row.expected_percent_yield), printed(row.expected_percent_yield!));
      }
      const lefts = new Map(
        limitation.reactants.map((supply) => [
          supply.term.label,
          supply.left &&
            supply.left.value.times(takens.find(({ id }) => id === supply.suppliedBy[0])!.molarMass!.value),
        ]),
      );
      for (const column of ['expected_excess_left', 'computed_excess_left']) {
        const [label, mass] = row[column]!.split(' ');
        // Where two are just enough, what is left is the difference of two nearly equal numbers.
        if (label && !/rounding matter/.test(row.note ?? ''))
          near(lefts.get(label)!, Number(mass), column.startsWith('expected') ? 0.03 : 2e-3);
      }
      near(sure(atomEconomy(equation, product)).value, Number(row.computed_atom_economy_percent), 1e-3);
    },
  );

  test('every row with an equation and reagents was run', () => expect(reactions.length).toBe(44));
});

describe('atom economy', () => {
  const economies = rows.filter(({ kind, equation }) => kind === 'atom economy' && equation !== '');
  test.each(economies.map((row) => [row.id, row] as const))('%s: is that of the source', (_, row) => {
    const equation = sure(parseEquation(row.equation!));
    const economy = sure(atomEconomy(equation, equation.products.find(({ label }) => label === row.product)!)).value;
    near(economy, Number(row.computed_atom_economy_percent), 1e-3);
    if (row.location !== 'ERRATUM') near(economy, Number(/economy ([\d.]+) %/.exec(row.note!)![1]), 0.011);
  });
  test('ST068: a molar mass over 514 g of reactants is that of the source', () => {
    const ibuprofen = takePortion({
      id: 'i',
      name: 'ibuprofen',
      formula: formula('C13H18O2'),
      amount: quantity('1 mol'),
    });
    near(ibuprofen.pure!.value.div(514).times(100), 40.13, 1e-3);
  });
  test('every row was run', () => expect(economies.length).toBe(6));
});

const solution = (text: string, solute?: string): DilutionStrength => {
  const { strength, density, purity } = sure(readReagentText(`stock ${text}`));
  return termsOf(
    resolveStrength({ stuff: 'stock', strength, density, purity, ...(solute && { formula: formula(solute) }) }),
  );
};
const volume = (text: string): { volume: Decimal } => ({ volume: quantity(text).base });
const mass = (text: string): { mass: Decimal } => ({ mass: quantity(text).base });
const moles = (text: string, of: string): Decimal => sure(resolveText(`${of} ${text}`)).taken.substance!.value;
const litres = (text: string): Decimal => quantity(text).base.div(1000);

/** What each solution problem asks, in the terms of this room. The statements stand in the table. */
const problems: Readonly<Record<string, () => Decimal>> = {
  ST045: () =>
    sure(
      dilute({ stock: solution('5.00 M'), have: volume('0.850 L'), make: volume('1.80 L') }),
    ).strength.molarConcentration!.times(1000),
  ST046: () =>
    sure(
      dilute({ stock: solution('2.04 M'), have: volume('25.0 mL'), make: volume('500.0 mL') }),
    ).strength.molarConcentration!.times(1000),
  ST047: () =>
    sure(dilute({ stock: solution('0.45 M'), have: volume('0.011 L'), to: solution('0.12 M') })).made.volume!.div(1000),
  ST048: () =>
    sure(dilute({ stock: solution('1.59 M'), to: solution('0.100 M'), make: volume('5.00 L') })).stock.volume!.div(
      1000,
    ),
  ST049: () =>
    sure(
      dilute({ stock: solution('2.19 M'), have: volume('25.0 mL'), make: volume('72.8 mL') }),
    ).strength.molarConcentration!.times(1000),
  ST050: () => solution('37.2 % 1.19 g/mL').massConcentration!.times(500),
  ST051: () => exact(125).div(solution('37.2 % 1.19 g/mL').massConcentration!),
  ST052: () => sure(dilute({ stock: solution('68.0 %'), to: solution('10.0 %'), make: mass('400.0 g') })).stock.mass!,
  ST053: () =>
    sure(dilute({ stock: solution('purity 97.0 %'), to: solution('10.0 % 1.109 g/mL'), make: volume('1.00 L') })).stock
      .mass!,
  ST054: () => solution('5.0 % 1.029 g/mL', 'C6H12O6').molarConcentration!.times(1000),
  ST055: () =>
    sure(
      dilute({ stock: { massFraction: exact(1) }, have: mass('135 g'), make: mass('910 g') }),
    ).strength.massFraction!.times(100),
  ST056: () => moles('25.2 g', 'CH3CO2H').div(litres('0.500 L')),
  ST057: () => moles('10.5 kg', 'Na2SO4·10H2O').div(litres('18.60 L')),
  ST058: () => moles('10.0 g', 'CoCl2·2H2O').div(litres('500 mL')),
  ST059: () => moles('90.0 g', '(NH4)2Cr2O7').div(litres('250 mL')),
  ST060: () =>
    takePortion({ id: 'a', name: 'FeSO4·7H2O', formula: formula('FeSO4·7H2O'), amount: quantity('0.5758 mol') }).mass!
      .value,
  ST061: () =>
    takePortion({
      id: 'a',
      name: 'acetic acid',
      formula: formula('CH3COOH'),
      amount: { ...quantity('1 mol'), base: moles('31.0 mL 2.51 M', 'NaOH') },
    })
      .mass!.value.div(50)
      .times(100),
};

describe('solutions', () => {
  const cases = rows.filter(({ equation, kind }) => equation === '' && kind !== 'atom economy');
  test.each(cases.map((row) => [row.id, row] as const))('%s: comes out as in the source', (_, row) => {
    const answer = problems[row.id!]!();
    near(answer, Number(row.computed_theoretical_mass || row.computed_limiting), 5e-4);
    near(
      answer,
      Number(row.expected_theoretical_yield!.split(' ')[0]),
      printed(row.expected_theoretical_yield!.split(' ')[0]!),
    );
  });
  test('every row was run', () => expect(cases.length).toBe(Object.keys(problems).length));
});

describe('bought acids and bases', () => {
  const bottles = referenceRows('chem/solutions.csv');
  const worked = bottles.filter(({ molarity_computed_mol_l: molarity }) => molarity !== '');
  test.each(worked.map((row) => [row.id, row.name, row] as const))(
    '%s: %s has the strength that density and percent make of it',
    (_, __, row) => {
      const { molarConcentration } = solution(`${row.mass_percent} % ${row.density_g_ml} g/mL`, row.solute_formula);
      near(molarConcentration!.times(1000), Number(row.molarity_computed_mol_l), 3e-4);
      // A label's molarity goes with its own rounding; rows whose source contradicts itself say so in their note.
      if (row.molarity_published_mol_l && !/ERRATUM|does not give|56.6/.test(row.note!))
        near(molarConcentration!.times(1000), Number(row.molarity_published_mol_l), 0.012);
    },
  );
  test('a row without density or percent is told by the table of densities, or not at all', () => {
    const unlisted = bottles.filter((one) => !worked.includes(one));
    for (const row of unlisted) {
      if (!/^\d+(\.\d+)?$/.test(row.mass_percent!) || row.density_g_ml) continue;
      const { stuff, ...strength } = { stuff: row.name!, strength: quantity(`${row.mass_percent} %`) };
      expect(resolveStrength({ stuff, ...strength }).molarConcentration).toBeUndefined();
      const told = resolveStrength({ stuff, ...strength, formula: formula(row.solute_formula!) });
      expect([told.molarConcentration !== undefined, told.densityFrom]).toEqual([true, 'table']);
    }
    expect(unlisted.length).toBe(5);
    expect(bottles.length).toBe(35);
  });
});

describe('historic and school preparations', () => {
  const preparations = referenceRows('chem/preparations.csv');
  test.each(preparations.map((row) => [row.id, `${row.title}: ${row.case}`, row] as const))('%s %s', (_, __, row) => {
    const equation = sure(parseEquation(row.equation!));
    const takens = row.amounts_mmol!.split('; ').map((text) => sure(resolveText(text)).taken);
    const limitation = findLimitingReagent(equation, takens, 'all');
    expect(limitation.limiting!.term.label).toBe(row.limiting);
    const product = equation.products.find(({ label }) => label === row.product)!;
    const yielded = theoreticalYield(limitation.extent!, product);
    near(yielded.mass!.value, Number(row.theoretical_yield_g), 8e-4);
    near(yielded.substance.value.times(1000), Number(row.theoretical_yield_mmol), 8e-4);
    near(sure(atomEconomy(equation, product)).value, Number(row.atom_economy_percent), 3e-3);
    const left = limitation.reactants.find(({ term }) => term.label === row.left_over)!;
    near(
      left.left!.value.times(takens.find(({ id }) => id === left.suppliedBy[0])!.molarMass!.value),
      Number(row.left_over_g),
      0.02,
    );
  });
  test('every preparation was run', () => expect(preparations.length).toBe(21));
});
