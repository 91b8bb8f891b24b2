// Washing, drying and ignition of a sample: figures in the shapes that data/ and weigh have, sentences, findings.
import { describe, expect, test } from 'vitest';
import { exact } from '../../../src/chemistry/index.js';
import { severityOf } from '../../../src/remarks/remark.js';
import type { SampleAmounts } from '../../../src/reckoning/contracts.js';
import { reckon } from '../entries.js';

const malachite = (rest: string): string => `
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
  - { reagent: water, amount: 150 mL, role: solvent }
${rest}`;
const first = (matter: string): SampleAmounts => reckon(matter).amounts.samples[0]!;
const rulesOf = (matter: string): readonly string[] => reckon(matter).remarks.map(({ ruleId }) => ruleId);

describe('washing', () => {
  const washed = malachite(`
liquor: 350 mL
washes: [{ with: water, volume: 200 mL, times: 3, held: 20 mL, by: decanting }]
samples: [{ sample: A, obtained: 1.98 g }]`);

  test('salt · held/liquor · (held/(held + volume))³, of what was freed and what was left over', () => {
    const { salts, volume, share, percentOf } = first(washed).washing!;
    // 20/350 · (20/220)³
    expect(Number(share)).toBeCloseTo((20 / 350) * (20 / 220) ** 3, 15);
    expect(salts.map(({ formula, from }) => `${formula} ${from}`)).toEqual(['Na2SO4 freed', 'Na2CO3 left']);
    // 5.00 g of CuSO4·5H2O (249.68) frees 20.03 mmol of Na2SO4 (142.04): 2.844 g.
    expect(Number(salts[0]!.mass.value)).toBeCloseTo(2.844 * Number(share), 6);
    // 2.50 g of Na2CO3 (105.99) less 20.03 mmol: 0.3776 g.
    expect(Number(salts[1]!.mass.value)).toBeCloseTo(0.3776 * Number(share), 6);
    expect(Number(salts[0]!.percent)).toBeCloseTo((100 * 2.844 * Number(share)) / 1.98, 4);
    expect([volume.value, volume.unit, percentOf]).toEqual(['600', 'mL', 'obtained']);
    expect(salts[0]!.mass.unit).toBe('g');
  });

  test('a reaction written in ions frees what came with them: the same salts, as far as it is the same reaction', () => {
    const inIons = washed.replace(/reaction: .*/, 'reaction: 2 Cu^2+ + 2 CO3^2- + H2O -> Cu2CO3(OH)2 + CO2');
    const [whole, ions] = [first(washed).washing!, first(inIons).washing!];
    expect(ions.salts.map(({ formula, from }) => `${formula} ${from}`)).toEqual(['Na2SO4 freed', 'Na2CO3 left']);
    expect(Number(ions.salts[0]!.mass.value)).toBeCloseTo(Number(whole.salts[0]!.mass.value), 9);
    expect(Number(ions.salts[1]!.mass.value)).toBeCloseTo(Number(whole.salts[1]!.mass.value), 9);
  });

  test('of several counter-ions the whole is right: all the ions that neither side of the product takes', () => {
    const { salts } = first(`
pigment: { name: barium white, formula: BaSO4 }
reaction: Ba^2+ + SO4^2- -> BaSO4
reagents:
  - { reagent: { name: barium nitrate, formula: Ba(NO3)2 }, amount: 2.6134 g }
  - { reagent: { name: potassium alum, formula: KAl(SO4)2·12H2O }, amount: 2.3719 g }
liquor: 100 mL
washes: [{ volume: 0.001 mL, held: 100 mL }]
samples: [{ sample: A, obtained: 2.30 g }]`).washing!;
    // 10.00 mmol of Ba(NO3)2 (261.34) and 5.00 mmol of alum (474.39): 20 mmol nitrate with 5 of aluminium, 5 potassium:
    // 5 · 212.996 + 5 · 101.103 mg, by hand.
    const freed = salts.filter(({ from }) => from === 'freed');
    expect(freed.map(({ formula }) => formula)).toEqual(['Al(NO3)3', 'KNO3']);
    expect(freed.reduce((all, { mass }) => all + Number(mass.value), 0)).toBeCloseTo(1.5705, 3);
  });

  test('a metal that goes into solution for another is freed with the other’s anion', () => {
    const { salts } = first(`
pigment: { name: copper, formula: Cu }
reaction: Fe + Cu^2+ -> Cu + Fe^2+
reagents:
  - { reagent: blue-vitriol, amount: 2.4968 g }
  - { reagent: { name: iron, formula: Fe }, amount: 2.00 g }
liquor: 100 mL
washes: [{ volume: 0.001 mL, held: 100 mL }]
samples: [{ sample: A, obtained: 0.60 g }]`).washing!;
    expect(salts.map(({ formula, from }) => `${formula} ${from}`)).toEqual(['FeSO4 freed']);
    // 10.00 mmol of FeSO4 (151.90), by hand.
    expect(Number(salts[0]!.mass.value)).toBeCloseTo(1.519, 2);
  });

  test('is told to two digits: it is at best, if each wash mixes fully', () => {
    const [told] = first(washed.replace('times: 3', 'times: 1')).treatment!;
    // 2.844 g · 20/350 · 20/220 = 0.01477 g, by hand.
    expect(told).toContain('washing leaves 0.015 g Na2SO4 (freed, 0.75 % of what was obtained)');
  });

  test('below a milligram it is told in milligrams', () => {
    const told = first(washed).treatment![0]!;
    // 2.844 g · 20/350 · (20/220)³ = 0.122 mg, and 0.3776 g likewise 0.0162 mg, by hand.
    expect(told).toContain('0.12 mg Na2SO4');
    expect(told).toContain('0.016 mg Na2CO3');
    expect(first(washed.replace('times: 3', 'times: 5')).treatment![0]).toContain('under 0.01 mg of Na2SO4, Na2CO3');
  });

  test('the liquor is the sum of the liquids where nothing is said of it', () => {
    const { liquor } = first(washed.replace('liquor: 350 mL', '')).washing!;
    expect(liquor.value).toBe('150');
  });

  test('without a weighing of the product the percent is of the theoretical yield', () => {
    const { percentOf, salts } = first(washed.replace(', obtained: 1.98 g', '')).washing!;
    expect(percentOf).toBe('theoretical yield');
    expect(Number(salts[0]!.percent)).toBeGreaterThan(0);
  });

  test('a sample’s own washes go before those of the entry', () => {
    const own = washed.replace(
      'obtained: 1.98 g',
      'obtained: 1.98 g, liquor: 100 mL, washes: [{ volume: 80 mL, held: 20 mL }]',
    );
    expect(Number(first(own).washing!.share)).toBeCloseTo(0.2 * 0.2, 15);
  });

  test('a metal in excess goes off with the wash water', () => {
    const excess = washed.replace('amount: 2.50 g', 'amount: 1.00 g');
    const { metals, salts } = first(excess).washing!;
    expect(salts.map(({ formula }) => formula)).toContain('CuSO4·5H2O');
    const copper = metals!.find(({ symbol }) => symbol === 'Cu')!;
    const left = salts.find(({ formula }) => formula === 'CuSO4·5H2O')!;
    // What the first pouring leaves, less what the washes leave, of the same salt.
    const carriedOff = (20 / 350 - Number(first(excess).washing!.share)) / Number(first(excess).washing!.share);
    expect(Number(copper.mass.value)).toBeCloseTo((Number(left.mass.value) * 63.546 * carriedOff) / 249.68, 6);
  });

  describe('of what weighing cannot tell from nothing', () => {
    const chromate = (barium: string, chromium: string): SampleAmounts =>
      first(`
pigment: { name: barium chromate, formula: BaCrO4 }
reaction: BaCl2 + K2CrO4 -> BaCrO4 + 2 KCl
reagents:
  - { reagent: { name: barium chloride dihydrate, formula: BaCl2·2H2O, purity: 99 % }, amount: ${barium} }
  - { reagent: { name: potassium chromate, formula: K2CrO4, purity: 99 % }, amount: ${chromium} }
liquor: 200 mL
washes: [{ volume: 100 mL, times: 3, held: 10 mL }]
samples: [{ sample: A, obtained: 2.42 g }]`);
    // 2.44 g BaCl2·2H2O (244.26) and 1.94 g K2CrO4 (194.19), both 99 %: 9.890 and 9.890 mmol. By hand: ± 0.01 g/√3 · 2
    // of each is 0.24 and 0.3 %, ± 0.5 % rectangular of each purity 0.58 %: together about 0.9 %, 17 mg of chromate.
    test('is told from nothing to the most that it may be, and which runs out first is nothing to it', () => {
      const { washing, ingredients, treatment } = chromate('2.44 g', '1.94 g');
      for (const symbol of ['Ba', 'Cr']) {
        const { mass } = washing!.metals!.find((one) => one.symbol === symbol)!;
        expect(mass.text).toMatch(/^0 to 0\.000\d\d g$/);
        expect(Number(mass.within!.high)).toBeGreaterThan(0);
        expect(mass.within!.low).toBe('0');
      }
      expect(treatment!.join(' ')).not.toMatch(/0\.0000|\b0 g/);
      const texts = ingredients.map(({ left }) => left!.text);
      for (const text of texts) expect(text).toMatch(/^0 to 0\.0\d+ g$/);
      const [most, ofChromate] = ingredients.map(({ left }) => Number(left!.within!.high));
      expect(most).toBeGreaterThan(0.01);
      expect(ofChromate).toBeGreaterThan(0.01);
      expect(ofChromate).toBeLessThan(0.03);
    });
    test('and is a plain figure where one is plainly in excess', () => {
      const { washing, ingredients } = chromate('2.44 g', '2.40 g');
      expect(washing!.metals!.map(({ symbol }) => symbol)).toEqual(['Cr']);
      expect(washing!.metals![0]!.mass.within).toBeUndefined();
      expect(ingredients[1]!.left!.within).toBeUndefined();
    });
  });

  test('what a cake keeps has to be said', () => {
    expect(rulesOf(washed.replace(', held: 20 mL', ''))).toContain('washing-not-reckoned');
    expect(first(washed.replace(', held: 20 mL', '')).washing).toBeUndefined();
  });

  test.each([
    ['liquor: 350 mL', '200 mL', '20 mL', undefined],
    ['liquor: 15 mL', '200 mL', '20 mL', 'warning The cake cannot keep 20 mL of a liquor of 15 mL'],
    ['liquor: 100 mL', '200 mL', '20 mL', 'note The liquor is 100 mL, and 150 mL of liquid went in.'],
    ['liquor: 130 mL', '200 mL', '20 mL', undefined],
    ['liquor: 350 mL', '50 mL', '60 mL', 'note The cake keeps 60 mL, more than each wash of 50 mL brings'],
  ])('%s, washes of %s, %s held: %s', (liquor, volume, held, told) => {
    const matter = washed
      .replace('liquor: 350 mL', liquor)
      .replace('volume: 200 mL', `volume: ${volume}`)
      .replace('held: 20 mL', `held: ${held}`);
    const found = reckon(matter).remarks.filter(({ ruleId }) => ruleId === 'washing-volumes');
    expect(found.map((one) => `${severityOf(one)} ${one.reason}`)).toEqual(
      told === undefined ? [] : [expect.stringContaining(told)],
    );
  });

  test('mass is conserved: what washing leaves and what it takes are the salt that there was', () => {
    const { washing } = first(washed);
    const { total, share } = washing!;
    expect(exact(total!.value).div(share).toNumber()).toBeCloseTo(2.844 + 0.3776, 3);
  });

  test('a gas, water and what does not dissolve are no salts to wash out', () => {
    const gypsum = first(`
pigment: { name: chrome green, formula: Cu(OH)2 }
reaction: CuSO4 + Ca(OH)2 -> Cu(OH)2 + CaSO4
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: { name: lime, formula: Ca(OH)2 }, amount: 3.00 g }
liquor: 100 mL
washes: [{ volume: 100 mL, held: 20 mL }]
samples: [{ sample: A, obtained: 1.50 g }]`);
    expect(gypsum.washing!.salts).toEqual([]);
  });
});

describe('a yield that salt carries', () => {
  const yieldOf = (obtained: string, rest = ''): string =>
    malachite(`${rest}\nsamples: [{ sample: A, obtained: ${obtained} }]`);
  test('is remarked on above 95 % where nothing was washed', () => {
    expect(rulesOf(yieldOf('2.15 g'))).toContain('yield-carried-by-salt');
    expect(rulesOf(yieldOf('1.98 g'))).not.toContain('yield-carried-by-salt');
  });
  test('and where the washes leave enough of it', () => {
    const washes = (volume: string): string => `washes: [{ volume: ${volume}, held: 60 mL }]`;
    expect(rulesOf(yieldOf('2.20 g', washes('60 mL')))).toContain('yield-carried-by-salt');
    expect(rulesOf(yieldOf('2.20 g', washes('6000 mL')))).not.toContain('yield-carried-by-salt');
  });
  test('but not where a wash is only named', () => {
    const named = yieldOf('2.15 g').replace(
      'role: solvent }',
      'role: solvent }\n  - { reagent: water, amount: 1 L, role: wash }',
    );
    expect(rulesOf(named)).not.toContain('yield-carried-by-salt');
  });
});

describe('drying', () => {
  const dried = (weighings: string): SampleAmounts => first(`samples: [{ sample: A, dried: [${weighings}] }]`);
  test('the last weighing less its dish; constant within two steps of the balance', () => {
    const { drying } = dried(
      '{ dish: 20.10 g, with-product: 24.62 g, after: 4 h }, { with-product: 24.60 g, after: 5 h }',
    );
    expect(drying!.dryMass).toMatchObject({ value: '4.5', unit: 'g' });
    expect(drying!.constant).toBe(true);
  });
  test('not constant beyond two steps, nor with one weighing', () => {
    expect(dried('{ dish: 20.10 g, with-product: 24.63 g }, { with-product: 24.60 g }').drying!.constant).toBe(false);
    expect(dried('{ dish: 20.10 g, with-product: 24.62 g }').drying!.constant).toBe(false);
  });
  test('of what was still losing the yield is said to be at most that, and never that it was dry', () => {
    const weighings = (last: string): SampleAmounts =>
      first(
        malachite(
          `samples: [{ sample: A, dried: [{ dish: 10.00 g, with-product: 12.10 g }, { with-product: ${last} }] }]`,
        ),
      );
    expect(weighings('11.98 g').treatment!.join(' ')).toMatch(/still losing\. On the dry basis the yield is at most /);
    expect(weighings('12.09 g').treatment!.join(' ')).toContain('constant. It was weighed dry');
  });
  test('a dry mass is what was obtained, where nothing else was weighed', () => {
    const sample = first(malachite('samples: [{ sample: A, dried: [{ dish: 10.00 g, with-product: 11.98 g }] }]'));
    expect(Number(sample.percentYield!.value)).toBeCloseTo(89.4, 0);
  });
  test('the yield on the dry basis stands beside the yield as weighed', () => {
    const sample = first(
      malachite('samples: [{ sample: A, obtained: 2.50 g, dried: [{ dish: 10.00 g, with-product: 11.98 g }] }]'),
    );
    expect(Number(sample.percentYield!.value)).toBeGreaterThan(110);
    expect(Number(sample.dryBasis!.percentYield.value)).toBeCloseTo(89.4, 0);
    expect(sample.dryBasis!.by).toBe('drying');
  });
});

describe('ignition', () => {
  test('a loss, and the water that it would be', () => {
    const { ignition } = first(
      'samples: [{ sample: A, ignition: { before: 2.497 g, after: 1.596 g, to: 250 °C, residue: CuSO4 } }]',
    );
    expect(Number(ignition!.lossPercent)).toBeCloseTo(36.083, 3);
    expect(Number(ignition!.waterPerFormula!.value)).toBeCloseTo(5.0, 2);
    expect(Number(ignition!.waterPerFormula!.uncertainty)).toBeGreaterThan(0);
    expect(ignition!.asIf).toBe('water');
  });
  test('what is left is the product’s dry formula where nothing is said of it', () => {
    const { ignition } = first(`
pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3·xH2O" }
samples: [{ sample: A, ignition: { before: 1.116 g, after: 0.859 g } }]`);
    // 859.2 g/mol of the dry blue: 0.257 g of water for a thousandth of a mole.
    expect(ignition!.residue).toBe('Fe4[Fe(CN)6]3');
    expect(Number(ignition!.waterPerFormula!.value)).toBeCloseTo(14.27, 1);
  });
  test('the yield is counted by what was left', () => {
    const sample = first(
      malachite(
        'samples: [{ sample: A, obtained: 2.50 g, ignition: { before: 1.000 g, after: 0.600 g, residue: CuO } }]',
      ),
    );
    // 2.50 g · 0.6 = 1.50 g CuO (79.545): 18.86 mmol of Cu of the 20.03 that went in.
    expect(Number(sample.dryBasis!.percentYield.value)).toBeCloseTo((100 * 18.857) / 20.026, 1);
    expect(sample.dryBasis!.by).toBe('ignition');
  });
  describe('of what loses more than water', () => {
    const fired = (ignition: string): SampleAmounts =>
      first(malachite(`samples: [{ sample: A, obtained: 2.00 g, ignition: { ${ignition} } }]`));
    // Cu2CO3(OH)2 221.11, 2 CuO 159.09: 28.05 % go off as carbon dioxide and water of the compound itself.
    test.each([
      ['before: 1.000 g, after: 0.7195 g, to: 500 °C', 0],
      ['before: 1.000 g, after: 0.7195 g', 0],
      ['before: 1.000 g, after: 0.7195 g, to: 300 °C, residue: CuO', 0],
      // 0.5 H2O more: 230.12 g leave 159.09 g.
      ['before: 1.000 g, after: 0.6913 g, to: red heat', 0.5],
    ])('%s: the water beside its own is %s for each', (written, water) => {
      const { ignition, dryBasis, treatment } = fired(written);
      expect(ignition!.residue).toBe('CuO');
      expect(ignition).not.toHaveProperty('waterPerFormula');
      expect(ignition).not.toHaveProperty('asIf');
      expect(Number(ignition!.ownLossPercent)).toBeCloseTo(28.05, 1);
      expect(Number(ignition!.waterHeld!.value)).toBeCloseTo(water, 1);
      // 2.00 g of 2.214 g; less the water of half a molecule, 221.11/230.12.
      expect(Number(dryBasis!.percentYield.value)).toBeCloseTo((200 / 2.214) * (221.11 / (221.11 + water * 18.015)), 0);
      const told = treatment!.join(' ');
      expect(told).toContain('Cu2CO3(OH)2 loses 28.1 % of its own when CuO is left.');
      expect(told).toContain(water === 0 ? 'had held 0 to 0.' : 'had held 0.5');
    });
    test.each([
      ['malachite', 'Cu2CO3(OH)2', '300 °C', 0.8],
      ['Prussian blue', 'Fe4[Fe(CN)6]3', '500 °C', 0.55],
      ['cobalt oxalate', 'CoC2O4', '400 °C', 0.5],
      ['copper acetate', 'Cu(CH3COO)2', '300 °C', 0.4],
    ])('%s, %s at %s: nothing is known of what is left, and no water is made of it', (name, formula, to, after) => {
      const { ignition, dryBasis, treatment } = first(`
pigment: { name: ${name}, formula: "${formula}" }
samples: [{ sample: A, obtained: 2.00 g, ignition: { before: 1.00 g, after: ${after} g, to: ${to} } }]`);
      expect(ignition!.notKnownOf).toBe(formula);
      for (const key of ['residue', 'waterPerFormula', 'waterHeld']) expect(ignition).not.toHaveProperty(key);
      expect(dryBasis).toBeUndefined();
      expect(treatment!.join(' ')).toContain(`Nothing here says what that leaves of ${formula}`);
      expect(treatment!.join(' ')).not.toContain('H2O');
    });
    test.each([
      // 0.17/18.015 : 0.83/859.2
      ['Prussian blue', 'Fe4[Fe(CN)6]3', '120 °C', 0.83, 9.77],
      // 0.02/18.015 : 0.98/221.11
      ['malachite', 'Cu2CO3(OH)2', '100 °C', 0.98, 0.25],
    ])('%s, %s at %s is still there: all that went off was water', (name, formula, to, after, water) => {
      const { ignition } = first(`
pigment: { name: ${name}, formula: "${formula}" }
samples: [{ sample: A, obtained: 2.00 g, ignition: { before: 1.00 g, after: ${after} g, to: ${to} } }]`);
      expect(ignition!.residue).toBe(formula);
      expect(Number(ignition!.waterPerFormula!.value)).toBeCloseTo(water, 1);
    });
  });
  describe('of more than was obtained', () => {
    const cobalt = `
pigment: { name: cobalt blue, formula: CoAl2O4 }
reaction: CoCO3 + 2 Al(OH)3 -> CoAl2O4 + CO2 + 3 H2O
reagents:
  - { reagent: { name: cobalt carbonate, formula: CoCO3 }, amount: 2.38 g }
  - { reagent: { name: alumina hydrate, formula: Al(OH)3 }, amount: 3.15 g }
samples: [{ sample: A, obtained: 3.41 g, ignition: { before: 5.53 g, after: 3.41 g, to: 1200 °C, residue: CoAl2O4 } }]`;
    test('is remarked on, and is set against what the reaction takes of a charge', () => {
      const { ignition, dryBasis, treatment } = first(cobalt);
      expect(Number(ignition!.lossPercent)).toBeCloseTo(38.34, 2);
      // 118.94 + 2 · 78.00 = 274.95, less 176.89 of CoAl2O4: 35.66 %.
      expect(Number(ignition!.reactionLossPercent)).toBeCloseTo(35.66, 1);
      expect(dryBasis).toBeUndefined();
      expect(treatment!.join(' ')).toContain('took 38.3 % of what went in; the reaction takes 35.7 % of it.');
      expect(rulesOf(cobalt)).toContain('ignited-more-than-obtained');
      expect(rulesOf(cobalt.replaceAll('5.53 g', '3.41 g').replace('after: 3.41', 'after: 3.30'))).not.toContain(
        'ignited-more-than-obtained',
      );
    });
  });
  test('a gain is remarked on', () => {
    expect(rulesOf('samples: [{ sample: A, ignition: { before: 1.00 g, after: 1.10 g, residue: CuO } }]')).toContain(
      'gained-on-ignition',
    );
  });
});

describe('water that a formula does not say', () => {
  const blue = (formula: string): SampleAmounts =>
    first(`
pigment: { name: Prussian blue, formula: "${formula}" }
reaction: 4 FeCl3 + 3 K4[Fe(CN)6] -> Fe4[Fe(CN)6]3 + 12 KCl
reagents:
  - { reagent: { name: ferric chloride, formula: FeCl3·6H2O }, amount: 5.40 g }
  - { reagent: { name: prussiate, formula: "K4[Fe(CN)6]·3H2O" }, amount: 7.00 g }
samples: [{ sample: A, obtained: 4.00 g }]`);
  test('is offered with its source, and what the yield would be', () => {
    const { heldWater } = blue('Fe4[Fe(CN)6]3');
    expect(heldWater).toMatchObject({ low: '10', high: '16' });
    expect(heldWater!.source).toContain('Ishizaki');
    // 859.2/(859.2 + 16 · 18.015) and with 10
    const percent = Number(blue('Fe4[Fe(CN)6]3').percentYield!.value);
    expect(Number(heldWater!.yieldIfSo!.low)).toBeCloseTo((percent * 859.2) / (859.2 + 16 * 18.015), 0);
    expect(Number(heldWater!.yieldIfSo!.high)).toBeCloseTo((percent * 859.2) / (859.2 + 10 * 18.015), 0);
  });
  test('is not asked of what was fired above where it holds any', () => {
    const oxide = (heat: string): string =>
      `pigment: { name: chromium oxide green, formula: Cr2O3 }\n${heat}\nsamples: [{ sample: A, obtained: 2.71 g }]`;
    const rule = 'water-not-in-the-formula';
    for (const heat of ['', 'heating: [{ of: product, to: 60 °C }]', 'heating: [{ of: product, to: hot }]']) {
      expect(first(oxide(heat)).heldWater, heat).toBeDefined();
      expect(rulesOf(oxide(heat))).toContain(rule);
    }
    for (const heat of [
      'heating: [{ of: product, to: 1650 °F, for: 1 h }]',
      'steps: [{ do: Fire it., heat: 900 °C }]',
      'heating: [{ of: mixture, to: red heat }]',
    ]) {
      expect(first(oxide(heat)).heldWater, heat).toBeUndefined();
      expect(rulesOf(oxide(heat))).not.toContain(rule);
    }
  });
  test('is told of all samples in one sentence', () => {
    const two = reckon(`
pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }
reaction: 4 FeCl3 + 3 K4[Fe(CN)6] -> Fe4[Fe(CN)6]3 + 12 KCl
reagents:
  - { reagent: { name: ferric chloride, formula: FeCl3·6H2O }, amount: 5.40 g }
  - { reagent: { name: prussiate, formula: "K4[Fe(CN)6]·3H2O" }, amount: 7.00 g }
samples: [{ sample: A, obtained: 4.00 g }, { sample: B, obtained: 3.80 g }]`).amounts;
    expect(two.heldWaterYields).toEqual([
      expect.stringMatching(/^With that water the yield would be about A \d+ to \d+ %, B \d+ to \d+ %\.$/),
    ]);
    for (const { treatment } of two.samples) expect(treatment!.join(' ')).not.toContain('With that water');
  });
  test('is not where the formula says it', () => {
    expect(blue('Fe4[Fe(CN)6]3·14H2O').heldWater).toBeUndefined();
  });
});

describe('what is advised where water is not in the formula', () => {
  const advice = (name: string, formula: string): string =>
    reckon(
      `pigment: { name: ${name}, formula: "${formula}" }\nsamples: [{ sample: A, obtained: 2.00 g }]`,
    ).remarks.find(({ ruleId }) => ruleId === 'water-not-in-the-formula')!.note!;
  // thermal.csv: metal ferrocyanide gives off hydrogen cyanide, oxalate carbon monoxide.
  test.each([
    ['Prussian blue', 'Fe4[Fe(CN)6]3', 'HCN', 'Fe4[Fe(CN)6]3·10-16H2O'],
    ['copper ferrocyanide', 'Cu2[Fe(CN)6]', 'HCN', 'Cu2[Fe(CN)6]·5.8-7.8H2O'],
    ['nickel oxalate', 'NiC2O4', 'CO', 'NiC2O4·2H2O'],
  ])('%s is not to be ignited, and the danger is said', (name, formula, gas, hydrate) => {
    const note = advice(name, formula);
    expect(note).toContain('Do not ignite it (danger: ');
    expect(note).toMatch(new RegExp(`\\(.*${gas}\\b`));
    expect(note).toContain(hydrate);
  });
  test('what fire does no harm to may be ignited', () => {
    expect(advice('zinc phosphate', 'Zn3(PO4)2')).toContain('ignite a weighed portion');
  });
});

describe('the balance', () => {
  const obtained = (balance: unknown): number =>
    Number(
      reckon('samples: [{ sample: A, obtained: 2.00 g }]', { balance } as never).amounts.samples[0]!.obtained!
        .uncertainty,
    );
  test('a step alone is a rectangle: U = 2 · 0.005/√3', () => {
    expect(obtained('0.01 g')).toBeCloseTo((2 * 0.005) / Math.sqrt(3), 5);
  });
  test('repeatability enters, and twice where the tare is weighed', () => {
    const rounding = 0.005 ** 2 / 3;
    expect(obtained({ step: '0.01 g', repeatability: '0.01 g' })).toBeCloseTo(2 * Math.sqrt(rounding + 0.0001), 4);
    expect(obtained({ step: '0.01 g', repeatability: '0.01 g', tare: 'weighed' })).toBeCloseTo(
      2 * Math.sqrt(2 * (rounding + 0.0001)),
      4,
    );
    expect(obtained({ step: '0.01 g', tare: 'weighed' })).toBeCloseTo(2 * Math.sqrt(2 * rounding), 4);
  });
});
