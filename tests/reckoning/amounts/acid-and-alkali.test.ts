// Acid and alkali in one pot: what they leave of each other for the reaction, a rough pH, acid that a lot carries.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { acidBaseOf } from '../../../src/chemistry/index.js';
import type { SampleAmounts } from '../../../src/reckoning/contracts.js';
import { entry, reckon, reckonAll } from '../entries.js';

// Source: proton counts as every textbook has them.
test.each([
  ['H2C2O4·2H2O', 'acid', 2],
  ['C6H8O7·H2O', 'acid', 3],
  ['H3PO4', 'acid', 3],
  ['NaHSO4', 'acid', 1],
  ['HNO3', 'acid', 1],
  ['H2SO4', 'acid', 2],
  ['CH3COOH', 'acid', 1],
  ['C8H5KO4', 'acid', 1],
  ['NaOH', 'base', 1],
  ['Ca(OH)2', 'base', 2],
  ['Na2CO3·10H2O', 'base', 2],
  ['NaHCO3', 'base', 1],
  ['NH3', 'base', 1],
])('%s is an %s of %d', (formula, kind, protons) => {
  const found = acidBaseOf(formula)!;
  expect([found.kind, found.equivalents.toNumber()]).toEqual([kind, protons]);
});
test.each(['NaCl', 'CuSO4', 'C6H12O6', 'H3BO3', 'FeCl3'])('%s is neither', (formula) =>
  expect(acidBaseOf(formula)).toBeUndefined(),
);

const bismuth = (acid: string, lye: string): SampleAmounts =>
  reckon(`
pigment: { name: bismuth yellow, formula: BiVO4 }
reaction: Bi(NO3)3·5H2O + NaVO3 + 2 NaOH -> BiVO4 + 3 NaNO3 + 6 H2O
reagents:
  - { reagent: { name: bismuth nitrate, formula: Bi(NO3)3·5H2O }, amount: 4.85 g }
  - { reagent: { name: metavanadate, formula: NaVO3 }, amount: 1.32 g }
  - { reagent: { name: nitric acid, formula: HNO3, strength: 1.0 mol/L }, amount: ${acid}, role: acid }
  - { reagent: caustic-soda, amount: ${lye}, role: base }
  - { reagent: water, amount: 120 mL, role: solvent }
samples: [{ sample: A, obtained: 3.00 g }]`).amounts.samples[0]!;
const lyeOf = ({ ingredients }: SampleAmounts) => ingredients.find(({ name }) => name.startsWith('sodium hydroxide'))!;

describe('an acid that is not in the equation', () => {
  test('takes alkali first; what is left of the alkali is what is left', () => {
    const sample = bismuth('30 mL', '27.0 mL');
    // 54 mmol of NaOH less 30 mmol of acid is 24 mmol; 4.85 g of bismuth nitrate (485.07) take 2 · 10.0: 4.0 mmol left.
    expect(Number(lyeOf(sample).left!.value)).toBeCloseTo(0.004 * 39.997, 2);
    expect(Number(lyeOf(sample).equivalents!.value)).toBeCloseTo(24 / 20, 1);
    expect(Number(sample.acidAndAlkali!.left!.value)).toBeCloseTo(0.024, 4);
    expect(sample.acidAndAlkali!.leftIs).toBe('alkali');
    // 4.0 mmol in 177 mL: 0.023 mol/L, pOH 1.6.
    expect(sample.acidAndAlkali!.pH).toBe('12');
  });
  test('in excess leaves no alkali for the reaction, and its own pH', () => {
    const sample = bismuth('80 mL', '27.0 mL');
    expect(sample.theoreticalYield).toBeUndefined();
    expect(sample.acidAndAlkali).toMatchObject({ leftIs: 'acid', pH: '1' });
  });
  test('without it nothing is set against anything', () => {
    const plain = reckon(`
pigment: { name: copper hydroxide, formula: Cu(OH)2 }
reaction: CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: caustic-soda, amount: 20.0 mL }
samples: [{ sample: A }]`).amounts.samples[0]!;
    expect(plain.acidAndAlkali).toBeUndefined();
  });
  test('more acid never leaves more alkali, and acid and alkali are conserved', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (millilitres) => {
        const [less, more] = [bismuth(`${millilitres} mL`, '40.0 mL'), bismuth(`${millilitres + 5} mL`, '40.0 mL')];
        const { acid, alkali, left } = less.acidAndAlkali!;
        expect(Number(left!.value)).toBeCloseTo(Math.abs(Number(alkali!.value) - Number(acid!.value)), 9);
        expect(Number(lyeOf(more).left?.value ?? 0)).toBeLessThanOrEqual(Number(lyeOf(less).left?.value ?? 0));
      }),
      { numRuns: 12 },
    );
  });
});

test('the salt of acid and alkali is washed out like those that the reaction frees', () => {
  const sample = reckon(`
pigment: { name: copper hydroxide, formula: Cu(OH)2 }
reaction: CuCl2 + 2 NaOH -> Cu(OH)2 + 2 NaCl
reagents:
  - { reagent: { name: copper chloride, formula: CuCl2·2H2O }, amount: 1.705 g }
  - { reagent: { name: sulfuric acid, formula: H2SO4, strength: 0.50 mol/L }, amount: 10 mL, role: acid }
  - { reagent: caustic-soda, amount: 20.0 mL }
liquor: 100 mL
washes: [{ volume: 90 mL, held: 10 mL }]
samples: [{ sample: A }]`).amounts.samples[0]!;
  // 5.0 mmol of H2SO4 make 5.0 mmol of Na2SO4 (142.04); a hundredth of it is left.
  const sulfate = sample.washing!.salts.find(({ formula }) => formula === 'Na2SO4')!;
  expect(sulfate.from).toBe('freed');
  expect(Number(sulfate.mass.value)).toBeCloseTo(0.0071, 5);
});

test('a weak alkali in excess tells no pH', () => {
  const sample = reckon(`
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 5.00 g }
  - { reagent: { name: citric acid, formula: C6H8O7·H2O }, amount: 0.50 g, role: acid }
  - { reagent: water, amount: 100 mL, role: solvent }
samples: [{ sample: A }]`).amounts.samples[0]!;
  // 0.50 g of citric acid monohydrate (210.14) has 3 · 2.379 mmol; soda 2 · 47.17 mmol.
  expect(Number(sample.acidAndAlkali!.acid!.value)).toBeCloseTo(0.007138, 5);
  expect(Number(sample.acidAndAlkali!.alkali!.value)).toBeCloseTo(0.09434, 4);
  expect(sample.acidAndAlkali).not.toHaveProperty('pH');
});

test('free acid that a lot carries takes alkali first', () => {
  const [, second] = reckonAll([
    entry(
      1,
      `pigment: { name: copper liquor, formula: CuCl2 }\nsamples: [{ sample: A, obtained: 50.00 g, free-acid: 0.5 mol/L }]`,
    ),
    entry(
      2,
      `pigment: { name: copper hydroxide, formula: Cu(OH)2 }
reaction: CuCl2 + 2 NaOH -> Cu(OH)2 + 2 NaCl
reagents:
  - { lot: 1/A, amount: 40 mL, strength: 0.25 mol/L }
  - { reagent: caustic-soda, amount: 25.0 mL }
samples: [{ sample: A }]`,
    ),
  ]);
  // 40 mL at 0.5 mol/L: 20 mmol of acid; 50 mmol of alkali, 20 of them for 10 mmol of copper.
  const sample = second!.amounts.samples[0]!;
  expect(Number(sample.acidAndAlkali!.acid!.value)).toBeCloseTo(0.02, 9);
  expect(Number(lyeOf(sample).left!.value)).toBeCloseTo(0.01 * 39.997, 3);
});

/** What is said of the liquor where a solid is given more acid than none, and less than it takes. */
const liquorOf = (reaction: string, solid: string, acid: string, millilitres: number) =>
  reckon(`
reaction: ${reaction}
reagents:
  - { reagent: { name: the solid, formula: ${solid} }, amount: 5.00 g }
  - { reagent: { name: the acid, formula: ${acid}, strength: 1.00 mol/L }, amount: ${millilitres} mL }
samples: [{ sample: A }]`).amounts.samples[0]!.acidAndAlkali;

describe('a hydroxide that hardly dissolves', () => {
  // Source: insoluble in water by the solubility rules of every textbook; none of them can make a strong alkali.
  test.each([
    ['Cu2CO3(OH)2 + 4 CH3COOH -> 2 Cu(CH3COO)2 + CO2 + 3 H2O', 'Cu2CO3(OH)2', 'CH3COOH'],
    ['Pb3(CO3)2(OH)2 + 6 CH3COOH -> 3 Pb(CH3COO)2 + 2 CO2 + 4 H2O', 'Pb3(CO3)2(OH)2', 'CH3COOH'],
    ['2 FeO(OH) + 3 H2SO4 -> Fe2(SO4)3 + 4 H2O', 'FeO(OH)', 'H2SO4'],
    ['2 Al(OH)3 + 3 H2SO4 -> Al2(SO4)3 + 6 H2O', 'Al(OH)3', 'H2SO4'],
    ['Zn(OH)2 + 2 CH3COOH -> Zn(CH3COO)2 + 2 H2O', 'Zn(OH)2', 'CH3COOH'],
    ['Cu(OH)2 + H2SO4 -> CuSO4 + 2 H2O', 'Cu(OH)2', 'H2SO4'],
    ['Ni(OH)2 + 2 HCl -> NiCl2 + 2 H2O', 'Ni(OH)2', 'HCl'],
    ['Co(OH)2 + 2 HNO3 -> Co(NO3)2 + 2 H2O', 'Co(OH)2', 'HNO3'],
    ['Fe(OH)3 + 3 HCl -> FeCl3 + 3 H2O', 'Fe(OH)3', 'HCl'],
    ['Cr(OH)3 + 3 HNO3 -> Cr(NO3)3 + 3 H2O', 'Cr(OH)3', 'HNO3'],
    ['Mn(OH)2 + H2SO4 -> MnSO4 + 2 H2O', 'Mn(OH)2', 'H2SO4'],
    ['Mg5(CO3)4(OH)2·4H2O + 10 HCl -> 5 MgCl2 + 4 CO2 + 10 H2O', 'Mg5(CO3)4(OH)2·4H2O', 'HCl'],
  ])('in %s makes no alkali of the liquor, and the page says that its pH is not reckoned', (reaction, solid, acid) => {
    const liquor = liquorOf(reaction, solid, acid, 10)!;
    expect(liquor).not.toHaveProperty('pH');
    expect(liquor.words).toMatch(/pH .* not reckoned.*the solid.* hardly dissolves/);
    expect(liquor.words).not.toContain('strong alkali');
  });

  test.each([
    ['CuO + H2SO4 -> CuSO4 + H2O', 'CuO', 'H2SO4'],
    ['CaCO3 + 2 HCl -> CaCl2 + CO2 + H2O', 'CaCO3', 'HCl'],
    ['BaCO3 + 2 HCl -> BaCl2 + CO2 + H2O', 'BaCO3', 'HCl'],
  ])('an oxide or carbonate in excess says nothing of pH: %s', (reaction, solid, acid) => {
    expect(liquorOf(reaction, solid, acid, 10)).toBeUndefined();
  });

  test('says nothing where the acid is in excess, which sets the pH', () => {
    const liquor = liquorOf('Zn(OH)2 + 2 HCl -> ZnCl2 + 2 H2O', 'Zn(OH)2', 'HCl', 115)!;
    expect(liquor.words).toMatch(/about pH 1, by the strong acid in excess/);
  });
});

describe('a hydroxide of which water takes little', () => {
  // Source: R. G. Bates, V. E. Bower, E. R. Smith, J. Res. Natl. Bur. Stand. 56 (1956) 305: saturated at 25 °C, pH 12.45.
  test('calcium hydroxide ends at no more than lime water', () => {
    const liquor = liquorOf('Ca(OH)2 + 2 HCl -> CaCl2 + 2 H2O', 'Ca(OH)2', 'HCl', 40)!;
    expect(Number(liquor.pH)).toBeGreaterThanOrEqual(12.4);
    expect(Number(liquor.pH)).toBeLessThanOrEqual(12.5);
    expect(liquor.words).toContain('at most');
  });
  // Source: solubility product 1.5 · 10⁻¹¹ (article on magnesium hydroxide at liquisearch.com): [OH⁻] = (2 · 1.5 · 10⁻¹¹)^⅓.
  test('magnesium hydroxide ends at no more than milk of magnesia', () => {
    const liquor = liquorOf('Mg(OH)2 + 2 HCl -> MgCl2 + 2 H2O', 'Mg(OH)2', 'HCl', 40)!;
    expect(Number(liquor.pH)).toBeCloseTo(14 + Math.log10((2 * 1.5e-11) ** (1 / 3)), 1);
    expect(liquor.words).toContain('at most');
  });
  test('less of it than water takes is told as what it is', () => {
    // 67.5 mmol of Ca(OH)2 and 134 mmol of HCl in 134 mL: 1 mmol of OH⁻ is left, 7 mmol/L, pOH 2.1.
    const liquor = liquorOf('Ca(OH)2 + 2 HCl -> CaCl2 + 2 H2O', 'Ca(OH)2', 'HCl', 134)!;
    expect(liquor.pH).toBe('12');
    expect(liquor.words).not.toContain('at most');
  });
  test('a hydroxide that dissolves is told as before', () => {
    // 125 mmol of NaOH and 25 of HCl in 25 mL: 4 mol/L.
    const liquor = liquorOf('NaOH + HCl -> NaCl + H2O', 'NaOH', 'HCl', 25)!;
    expect(liquor.words).toBe('The liquor ends at about pH 14, by the strong alkali in excess.');
  });
});

describe('a weak acid that takes no part in the reaction', () => {
  const copper = (vinegar: string, role = ''): SampleAmounts =>
    reckon(`
pigment: { name: copper hydroxide, formula: Cu(OH)2 }
reaction: CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4
reagents:
  - { reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: caustic soda, formula: NaOH }, amount: 1.80 g }
  - { reagent: { name: acetic acid, formula: CH3COOH, strength: 1.0 mol/L }, amount: ${vinegar}${role} }
samples: [{ sample: A, obtained: 1.00 g }]`).amounts.samples[0]!;

  // 45.0 mmol of lye less 40.1 for 20.0 mmol of copper: 4.9 mmol are left, 80 mmol of acetic acid stand beside them.
  test('takes up what is left of the alkali, so that no pH is told', () => {
    const { pH, words } = copper('80 mL').acidAndAlkali!;
    expect(pH).toBeUndefined();
    expect(words).toBe(
      'The pH of the liquor is not reckoned: acetic acid would take up all the strong alkali that is left.',
    );
  });
  test('leaves the alkali less where there is not enough of it', () =>
    expect(copper('2 mL').acidAndAlkali!.words).toMatch(/about pH 1[34], by the strong alkali in excess/));
  test('that washes it afterwards does not count', () =>
    expect(copper('80 mL', ', role: wash').acidAndAlkali?.words ?? '').not.toContain('would take up'));
});
