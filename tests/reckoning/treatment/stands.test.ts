// A product that got hotter than it stands before it was weighed: what it is reckoned as, and what is said of it.
import { describe, expect, test } from 'vitest';
import type { SampleAmounts } from '../../../src/reckoning/contracts.js';
import { lotsOf } from '../../../src/reckoning/lots.js';
import { reckon } from '../entries.js';

const malachite = (rest: string): string => `
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4·5H2O + 2 Na2CO3 -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2 + 9 H2O
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g, intent: excess }
  - { reagent: water, amount: 150 mL, role: solvent }
${rest}`;
const lone = '\nsamples: [{ sample: A, obtained: 1.50 g }]';
const first = (matter: string): SampleAmounts => reckon(matter).amounts.samples[0]!;
const toldOf = (matter: string): readonly string[] =>
  reckon(matter)
    .remarks.filter(({ ruleId }) => ruleId === 'heated-past-standing')
    .map(({ reason }) => reason);

describe('what all of it has turned into is what is reckoned', () => {
  test('malachite fired at 500 °C is copper oxide: yield, what was possible and the metal that is left', () => {
    const fired = malachite(`heating: [{ of: product, to: 500 °C }]${lone}`);
    const { theoreticalYield, percentYield, metals, treatment, noYield } = first(fired);
    // 5.00 g CuSO4·5H2O (249.68) gives 20.03 mmol CuO (79.545): 1.593 g; 1.50 g of it are 94.2 %.
    expect(Number(theoreticalYield!.value)).toBeCloseTo(1.593, 3);
    expect(Number(percentYield!.value)).toBeCloseTo(94.16, 1);
    expect(noYield).toBeUndefined();
    expect(Number(metals![0]!.restShare.value)).toBeCloseTo(5.84, 1);
    expect(treatment!.join(' ')).toMatch(/At 500 °C Cu2CO3\(OH\)2 has turned into CuO \(by 400 °C; .*reckoned as CuO/);
    expect(toldOf(fired)).toEqual([
      'Cu2CO3(OH)2 cannot have stood 500 °C: it has turned into CuO by 400 °C, and is reckoned as that.',
    ]);
  });

  test.each([
    ['a step behind a washing', 'steps: [Pour together., Filter and wash., Calcine at 500 °C.]'],
    ['a key of such a step', 'steps: [Pour together., Filter and wash., { do: Into the muffle., heat: 500 °C }]'],
    ['the pigment by its name', 'heating: [{ of: malachite, to: 500 °C }]'],
    ['words for a heat', 'heating: [{ of: product, to: red heat }]'],
  ])('told by %s', (_, heat) => {
    expect(Number(first(malachite(`${heat}${lone}`)).percentYield!.value)).toBeCloseTo(94.16, 1);
  });

  test('each sample by its own heat, and compared by the yield of each', () => {
    const two = malachite(`samples:
  - { sample: A, obtained: 2.00 g, heating: [{ of: product, to: 60 °C }] }
  - { sample: B, differs: fired, obtained: 1.50 g, heating: [{ of: product, to: 500 °C }] }
  - { sample: C, differs: calcined at 520 °C, obtained: 1.48 g }`);
    const yields = reckon(two).amounts.samples.map(({ percentYield }) => Number(percentYield!.value).toFixed(0));
    expect(yields).toEqual(['90', '94', '93']);
    expect(toldOf(two).map((one) => one.slice(0, 9))).toEqual(['Sample B:', 'Sample C:']);
  });

  test('its own formula, where it says that it was fired, is taken without a word', () => {
    const said = malachite(
      'heating: [{ of: product, to: 500 °C }]\nsamples: [{ sample: A, obtained: 1.50 g, formula: CuO }]',
    );
    expect(Number(first(said).percentYield!.value)).toBeCloseTo(94.16, 1);
    expect(toldOf(said)).toEqual([]);
  });

  test('first the water, then the rest: iron vitriol at red heat is red', () => {
    const copperas = `
pigment: { name: copperas, formula: FeSO4·7H2O }
reaction: Fe + H2SO4 + 7 H2O -> FeSO4·7H2O + H2
reagents:
  - { reagent: { name: iron, formula: Fe }, amount: 5.00 g, intent: limiting }
  - { reagent: { name: sulfuric acid, formula: H2SO4 }, amount: 20.00 g, intent: excess }
heating: [{ of: product, to: 850 °C }]
samples: [{ sample: A, obtained: 7.00 g }]`;
    // 5.00 g Fe (55.845) give 44.77 mmol Fe2O3 (159.69): 7.149 g.
    expect(Number(first(copperas).theoreticalYield!.value)).toBeCloseTo(7.149, 2);
  });
});

describe('what may have turned in part has no yield, and between what it lies is said', () => {
  test('malachite at 250 °C', () => {
    const dried = malachite('samples: [{ sample: A, obtained: 1.84 g, dried: "at 250 °C, two hours" }]');
    const { percentYield, metals, noYield } = first(dried);
    expect(percentYield).toBeUndefined();
    expect(metals).toBeUndefined();
    // 1.84 g of 2.214 g, or of 1.593 g.
    expect(noYield).toMatch(/ up to 150 °C, and then turns into CuO, all of it by 400 °C; the yield is 83 % .* 116 % /);
    expect(toldOf(dried)[0]).toMatch(/^Cu2CO3\(OH\)2 may not have stood at 250 °C/);
  });

  test('gypsum in a dish at 200 °C, and what is said of its water elsewhere is left out', () => {
    const gypsum = `
pigment: { name: gypsum, formula: CaSO4·2H2O }
reaction: CaCl2 + Na2SO4 + 2 H2O -> CaSO4·2H2O + 2 NaCl
reagents:
  - { reagent: { name: calcium chloride, formula: CaCl2 }, amount: 5.00 g }
  - { reagent: { name: sodium sulfate, formula: Na2SO4 }, amount: 7.00 g, intent: excess }
samples: [{ sample: A, dried: [{ at: 200 °C, dish: 20.00 g, with-product: 25.90 g }] }]`;
    const { percentYield, dryBasis, heldWater } = first(gypsum);
    expect([percentYield, dryBasis, heldWater]).toEqual([undefined, undefined, undefined]);
    expect(toldOf(gypsum)).toHaveLength(1);
  });

  test('what is left of Prussian blue hangs on air and heat', () => {
    const blue = `
pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }
reaction: 4 FeCl3 + 3 K4[Fe(CN)6] -> Fe4[Fe(CN)6]3 + 12 KCl
reagents:
  - { reagent: { name: iron chloride, formula: FeCl3 }, amount: 3.00 g }
  - { reagent: { name: potassium ferrocyanide, formula: "K4[Fe(CN)6]" }, amount: 6.00 g, intent: excess }
steps: [Pour together., Filter and wash., Dry at 300 °C.]
samples: [{ sample: A, obtained: 2.00 g }]`;
    expect(first(blue).noYield).toMatch(/up to 150 °C; what is left then is not known$/);
    expect(first(blue).heldWater).toBeUndefined();
  });

  test('a water of which no table knows when it goes', () => {
    const salt = `
pigment: { name: chrysocolla, formula: CuSiO3·2H2O }
reaction: CuSO4 + Na2SiO3 + 2 H2O -> CuSiO3·2H2O + Na2SO4
reagents:
  - { reagent: { name: copper sulfate, formula: CuSO4 }, amount: 3.00 g }
  - { reagent: { name: sodium silicate, formula: Na2SiO3 }, amount: 3.00 g, intent: excess }
heating: [{ of: product, to: 180 °C }]
samples: [{ sample: A, obtained: 2.50 g }]`;
    expect(first(salt).noYield).toMatch(/CuSiO3·2H2O is sure to stay as it is only up to 110 °C, .* CuSiO3/);
  });
});

test('what was ignited beside it tells its yield on the dry basis, whatever the heat had begun', () => {
  const ignited = malachite(`heating: [{ of: product, to: 250 °C }]
samples: [{ sample: A, obtained: 1.84 g, ignition: { before: 1.000 g, after: 0.800 g, to: 700 °C, residue: CuO } }]`);
  // 1.84 g · 0.800 = 1.472 g CuO of 1.593 g.
  expect(Number(first(ignited).dryBasis!.percentYield.value)).toBeCloseTo(92.4, 1);
});

describe('silent, with the yield as it is', () => {
  test.each([
    ['dried warm', 'heating: [{ of: product, to: 60 °C }]'],
    ['in an oven of which nothing says how hot', 'steps: [Pour together., Filter and wash., Dry in the oven.]'],
    ['the mixture was hot', 'heating: [{ of: mixture, to: 500 °C }]'],
    ['fired before it was made', 'steps: [Wash the ore., Roast it at 700 °C., Dissolve in acid., Filter and dry.]'],
    ['a pinch of it', 'steps: [Pour together., Filter and wash., Heat a pinch of it at 500 °C.]'],
    ['weighed before', 'steps: [Pour together., Filter and wash., Dry and weigh., Fire at 500 °C for a black.]'],
    ['a step of another sample', 'steps: [Filter and wash., { do: Fire., heat: 500 °C, sample: B }]'],
  ])('%s', (_, rest) => {
    const samples = '\nsamples: [{ sample: A, obtained: 1.98 g }, { sample: B, differs: later, obtained: 1.90 g }]';
    const matter = malachite(`${rest}${samples}`);
    expect(Number(first(matter).percentYield!.value)).toBeCloseTo(89.43, 1);
    expect(toldOf(matter).filter((one) => !one.startsWith('Sample B'))).toEqual([]);
  });

  test('what was fired is what the reaction makes', () => {
    const red = `
pigment: { name: iron oxide red, formula: Fe2O3 }
reaction: 4 FeSO4·7H2O + 8 NaOH + O2 -> 2 Fe2O3 + 4 Na2SO4 + 32 H2O
reagents:
  - { reagent: copperas, amount: 28.00 g }
  - { reagent: { name: sodium hydroxide, formula: NaOH }, amount: 10.00 g, intent: excess }
heating: [{ of: product, to: 700 °C }]
samples: [{ sample: A, obtained: 7.60 g }]`;
    expect(toldOf(red)).toEqual([]);
    expect(first(red).percentYield).toBeDefined();
  });
});

test('a lot that was fired is taken as what the fire left', () => {
  const { entry, amounts } = reckon(malachite(`heating: [{ of: product, to: 500 °C }]${lone}`));
  expect(lotsOf(entry, amounts).map(({ formula }) => formula)).toEqual(['CuO']);
});
