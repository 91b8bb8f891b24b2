// Whatever is typed, the readers answer with a value or a fault that can be acted on; none throws.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  atomEconomy,
  balance,
  balancedOrAfresh,
  composition,
  elementMasses,
  endForms,
  exact,
  findLimitingReagent,
  hillFormula,
  imbalances,
  imbalanceSentence,
  ionsOf,
  massFractionRanges,
  massFractions,
  molarMass,
  molarMassBounds,
  openProportions,
  oxideEquivalents,
  parseEquation,
  parseFormula,
  parseQuantity,
  percentYield,
  printEquation,
  printFormula,
  productAsWeighed,
  roundToUncertainty,
  showWithUnit,
  speciesKey,
  suppliedBy,
  reading,
  theoreticalYield,
  typeset,
  unknownCounts,
  withoutWater,
  withUncertainty,
  type Equation,
  type Formula,
  type UncertainDecimal,
} from '../../src/chemistry/index.js';
import type { Outcome } from '../../src/outcome.js';
import { arbitraryText, expectFault, mutated } from '../any-text.js';
import { referenceRows } from '../reference/read.js';

const formulae = referenceRows('chem/molar-masses.csv').map(({ formula }) => formula!);
const equations = referenceRows('chem/balance.csv').map(({ unbalanced }) => unbalanced!);
const quantities = [
  '5.00 g',
  '5.00 g ± 0.01 g',
  '(5.00 ± 0.01) g',
  '5.000(6) g',
  '95-99 %',
  '5 g - 6 g',
  '≥ 95 %',
  '4.2×10⁻³ mol',
  '1 000 g',
  '300 K',
  '-5 to 5 °C',
  '£3.50 per 100 mL',
  '4.20 EUR / 500 g',
  '50.0 mL ± 0.5 %',
];
const anyFormula = fc.oneof(arbitraryText, mutated(formulae));
const openFormulae = mutated([
  '(Zn,Mn)O',
  'CdS1-xSex',
  'KFe[Fe(CN)6]·xH2O',
  '(Co,Zn)(Al,Cr)2O4',
  'Ti1-x-yNixSbyO2',
  'Ca5(PO4)3(OH,F)',
  '(C6H10O5)n',
  '2(Fe,Mg)1-x(SO4)·nH2O',
  '(Na1-xKx)2-yO',
]);
const anyEquation = fc.oneof(arbitraryText, mutated(equations));
const anyQuantity = fc.oneof(arbitraryText, mutated(quantities));

const valueOf = <T>(outcome: Outcome<T>): T | undefined => (outcome.ok ? outcome.value : undefined);

const amount: fc.Arbitrary<UncertainDecimal> = fc
  .tuple(fc.constantFrom('0', '1e-60', '0.05', '1', '3.5', '1e60'), fc.constantFrom('0', '0.001', '1e-60', '1e60'))
  .map(([value, uncertainty]) => withUncertainty(value, uncertainty, 'reading:a'));

/** Everything that is computed from a formula alone. */
function everythingOf(formula: Formula): void {
  const given = { x: exact(2), n: exact(0), y: exact('0.5') };
  for (const counts of [undefined, given]) {
    composition(formula, counts);
    hillFormula(formula, counts);
    unknownCounts(formula, counts);
    for (const weights of ['abridged', 'standard'] as const) molarMass(formula, { given: counts, weights });
    molarMassBounds(formula, counts);
    massFractions(formula, { given: counts });
  }
  massFractionRanges(formula);
  oxideEquivalents(formula);
  openProportions(formula.parts);
  endForms(formula).forEach(printFormula);
  ionsOf(formula);
  speciesKey(formula);
  withoutWater(formula);
  suppliedBy(formula, formula);
  expect(printFormula(formula).length).toBeGreaterThan(0);
}

/** Everything that is computed from a reaction and what was taken for it. */
function everythingFrom(equation: Equation, taken: readonly UncertainDecimal[], obtained: UncertainDecimal): void {
  imbalanceSentence(imbalances(equation));
  printEquation(equation);
  balancedOrAfresh(equation);
  const reagents = equation.reactants.map(({ formula }, index) => ({
    id: String(index),
    formula,
    excess: false,
    substance: taken[index % (taken.length + 1)],
  }));
  for (const absent of ['ambient', 'all'] as const) {
    const { extent, reactants } = findLimitingReagent(equation, reagents, absent);
    for (const { equivalents, left } of reactants)
      for (const value of [equivalents, left]) if (value) showWithUnit(value, 'mol');
    for (const product of equation.products) {
      atomEconomy(equation, product);
      if (!extent) continue;
      const { mass, massAtLeast, substance } = theoreticalYield(extent, product);
      const theoretical = mass ?? massAtLeast ?? substance;
      const percent = valueOf(percentYield(obtained, theoretical));
      if (percent) showWithUnit(percent, '%');
      for (const symbol of composition(product.formula).keys()) elementMasses(substance, product.formula, symbol);
      for (const weighed of equation.reactants) {
        const term = productAsWeighed(product, weighed.formula, weighed.label);
        theoreticalYield(extent, term);
      }
    }
  }
}

describe('for any text', () => {
  test.each([
    ['formula', parseFormula, anyFormula],
    ['quantity', parseQuantity, anyQuantity],
    ['equation', parseEquation, anyEquation],
    ['balance', balance, anyEquation],
  ] as const)('%s: a value, or a fault with a sentence and a place within the text', (_, read, texts) => {
    fc.assert(
      fc.property(texts, (written) => {
        const outcome = read(written);
        if (!outcome.ok) expectFault(outcome.fault, written);
      }),
      { numRuns: 1500 },
    );
  });
  test('what is doubtful in a formula or an equation has a place too', () => {
    fc.assert(
      fc.property(fc.oneof(anyFormula, anyEquation), (written) => {
        for (const doubt of valueOf(parseFormula(written))?.doubts ?? []) expectFault(doubt, written);
        for (const doubt of valueOf(parseEquation(written))?.doubts ?? []) expectFault(doubt, written);
      }),
      { numRuns: 1000 },
    );
  });
  test('what was read as a formula can be weighed, taken apart, set and spoken', () => {
    fc.assert(
      fc.property(anyFormula, (written) => {
        expect(typeset(written).runs.length).toBeGreaterThan(0);
        ionsOf(written);
        const formula = valueOf(parseFormula(written));
        if (formula) everythingOf(formula);
      }),
      { numRuns: 1000 },
    );
  });
  test('a mass of what is left open lies between its bounds', () => {
    fc.assert(
      fc.property(openFormulae, (written) => {
        const formula = valueOf(parseFormula(written));
        fc.pre(
          formula !== undefined && (unknownCounts(formula).length > 0 || openProportions(formula.parts).length > 0),
        );
        const bounds = valueOf(molarMassBounds(formula!));
        fc.pre(bounds !== undefined);
        expect(bounds!.asks).toBeDefined();
        for (const form of endForms(formula!)) {
          const mass = valueOf(molarMass(form));
          if (!mass) continue;
          expect(mass.low.gte(bounds!.low.times('0.9999999999'))).toBe(true);
          if (bounds!.high) expect(mass.high.lte(bounds!.high.times('1.0000000001'))).toBe(true);
        }
      }),
      { numRuns: 400 },
    );
  });
  test('what was read as a quantity is a finite number in its base unit, and can be shown', () => {
    fc.assert(
      fc.property(anyQuantity, (written) => {
        const quantity = valueOf(parseQuantity(written));
        fc.pre(quantity !== undefined);
        const { base, low, high, resolution } = quantity!;
        expect(base.isFinite() && resolution.isFinite()).toBe(true);
        if (low && high) expect(low.lt(base) && base.lt(high)).toBe(true);
        if (quantity!.baseUnit === '°C') expect(base.gte('-273.15')).toBe(true);
        roundToUncertainty(base, quantity!.tolerance ?? quantity!.standardUncertainty ?? exact(0));
        showWithUnit(reading(quantity!, 'reading:a'), quantity!.baseUnit);
      }),
      { numRuns: 1000 },
    );
  });
  test('what was read as an equation can be balanced, and reckoned from whatever was taken and obtained', () => {
    fc.assert(
      fc.property(anyEquation, fc.array(amount, { maxLength: 4 }), amount, (written, taken, obtained) => {
        const equation = valueOf(parseEquation(written));
        if (equation) everythingFrom(equation, taken, obtained);
        const balanced = valueOf(balance(written));
        if (balanced) everythingFrom(balanced.equation, taken, obtained);
      }),
      { numRuns: 600 },
    );
  });
  test('the largest equation that is let in has more kinds of atoms than substances: it has no solution', () => {
    const symbols = [
      'H',
      'C',
      'N',
      'O',
      'Na',
      'S',
      'Cl',
      'Fe',
      'Cu',
      'Pb',
      'K',
      'Ca',
      'Ba',
      'Zn',
      'Cd',
      'Hg',
      'Mg',
      'Al',
      'Si',
      'P',
      'Mn',
      'Cr',
      'Co',
      'Ni',
      'Ag',
      'Au',
      'Sn',
      'Sb',
      'Bi',
      'V',
    ];
    const wild = (n: number): string =>
      symbols.map((symbol, index) => `${symbol}${(((n + 7) * (index + 13) * 7919) % 99991) + 1}`).join('');
    const side = (from: number): string =>
      Array.from({ length: 17 }, (_, index) => wild(from + index))
        .join(' + ')
        .slice(0, 1900)
        .replace(/\s*\+\s*[^+]*$/, '');
    const text = `${side(1)} -> ${side(100)}`;
    expect(text.length).toBeGreaterThan(3000);
    expect(balance(text)).toMatchObject({ ok: false, fault: { code: 'no-solution' } });
  });
});
