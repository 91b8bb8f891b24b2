// The amounts of an entry: what each sample takes, what limits, what comes out, what is remarked and where.
import { beforeAll, describe, expect, test } from 'vitest';
import type { Entry } from '../../../src/journal/entry.js';
import { remarksOn } from '../../../src/journal/place.js';
import { overspentLots, stockOfLots } from '../../../src/reckoning/lots.js';
import { entry, reckon, reckonAll, type Reckoned } from '../entries.js';

const malachite = `
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g, intent: excess }
  - { reagent: water, amount: 60 mL, role: solvent }
samples:
  - { sample: A, differs: cold, obtained: 1.98 g }
  - { sample: B, differs: warm, obtained: 2.05 g }
`;
const rules = (matter: string, settings = {}): string[] => reckon(matter, settings).remarks.map(({ ruleId }) => ruleId);

describe('a precipitation', () => {
  let whole: Reckoned;
  beforeAll(() => {
    whole = reckon(malachite, { balance: '0.01 g' });
  });
  const sample = (at: number) => whole.amounts.samples[at]!;

  test('the copper limits, the hydrate is counted with its water, and nothing is remarked', () => {
    expect(whole.remarks.map(({ reason }) => reason)).toEqual([]);
    expect(sample(0).limiting).toBe('copper(II) sulfate pentahydrate');
    // 5.00 / 249.677 mol; half of it times 221.114 g/mol; worked by hand with the abridged weights.
    expect(Number(sample(0).ingredients[0]!.amount!.value)).toBeCloseTo(0.0200259, 7);
    expect(Number(sample(0).theoreticalYield!.value)).toBeCloseTo(2.214, 4);
    expect(Number(sample(0).percentYield!.value)).toBeCloseTo(89.431, 3);
    expect(sample(0).ingredients.map(({ limiting }) => limiting)).toEqual([true, false, false]);
    // 2.50 / 105.988 = 23.588 mmol against 20.026: 1.1779, and 3.562 mmol · 105.988 left.
    expect(Number(sample(0).ingredients[1]!.equivalents!.value)).toBeCloseTo(1.17786, 4);
    expect(Number(sample(0).ingredients[1]!.left!.value)).toBeCloseTo(0.37754, 4);
  });
  test('shown figures are rounded to their uncertainty', () => {
    // u/y: 0.01/√12 g on 1.98 g and on 5.00 g, atomic weights beside; twice 0.157 % of 89.43.
    expect(sample(0).percentYield!.text).toBe('89.43 ± 0.28 %');
    expect(sample(0).obtained!.text).toBe('1.980 ± 0.006 g');
  });
  test('copper: in, in the product, and the rest as a waste line', () => {
    const [copper] = sample(0).metals!;
    // 63.546 · 0.0200259 g in; 2 · 63.546 · 1.98 / 221.114 in the product.
    expect(Number(copper!.in.value)).toBeCloseTo(1.27256, 4);
    expect(Number(copper!.inProduct.value)).toBeCloseTo(1.13807, 4);
    expect(copper!.wasteLine).toMatch(
      /^Filtrate, washings and losses hold 0\.134 g copper \(10\.57 % of what went in\)\.$/,
    );
  });
  test('cost, cost for a gram and mass used for a gram', () => {
    // 5 g at 11.00 a kilogram and 2.5 g at 3.90 a kilogram.
    expect(sample(0).cost!.text).toBe('0.06 EUR');
    expect(Number(sample(0).cost!.value)).toBeCloseTo(0.06475, 5);
    expect(Number(sample(0).massIntensity!.value)).toBeCloseTo((5 + 2.5 + 60 * 0.9982) / 1.98, 3);
  });
  test('two single samples are compared by weighing alone, and that is said', () => {
    expect(whole.amounts.comparisons).toHaveLength(1);
    const [comparison] = whole.amounts.comparisons!;
    expect(comparison!.basis).toBe('weighing');
    // Each sample has weighings of its own: 89.43 · √((0.00289/1.98)² + (0.00289/5.00)²) = 0.140 and, of 92.59, 0.141
    // percentage points; twice the root of their squares is 0.40.
    expect(comparison!.verdict).toBe(
      'Sample B gave 3.16 ± 0.40 percentage points more than sample A, which is more than weighing alone can explain.',
    );
    expect(comparison!.leavesOut).toContain('from one run to the next');
    expect(sample(1).percentYield).toBeDefined();
  });
  test('everything is plain data', () =>
    expect(JSON.parse(JSON.stringify(whole.amounts))).toStrictEqual(whole.amounts));
});

describe('remarks', () => {
  test('a reagent meant in excess that limits, at the place of its amount', () => {
    const { remarks } = reckon(
      malachite.replace('amount: 2.50 g', 'amount: 1.50 g').replaceAll(/obtained: .* g/g, 'obtained: 1.40 g'),
    );
    expect(remarks).toMatchObject([
      {
        ruleId: 'limits-though-meant-in-excess',
        line: 10,
        file: 'entries/014-test.md',
        reason: expect.stringContaining('meant to be in excess'),
      },
    ]);
    expect(remarks[0]!.column).toBeGreaterThan(20);
    expect(remarks[0]!.note).toBeTruthy();
  });
  test('one meant to limit that does not', () => {
    expect(
      rules(
        malachite.replace(
          '{ reagent: blue-vitriol, amount: 5.00 g }',
          '{ reagent: blue-vitriol, amount: 9.00 g, intent: limiting }',
        ),
      ),
    ).toEqual(['does-not-limit', 'limits-though-meant-in-excess']);
  });
  test('a reaction that does not balance is not reckoned, and says what is off and what would balance', () => {
    const { amounts, remarks } = reckon(malachite.replace('2 CuSO4 + 2 Na2CO3 + H2O', 'CuSO4 + 2 Na2CO3 + H2O'));
    expect(remarks).toMatchObject([
      {
        ruleId: 'reaction-unbalanced',
        fatal: true,
        line: 7,
        reason: expect.stringContaining('Copper (Cu) is off by 1: 1 on the left, 2 on the right.'),
      },
    ]);
    expect(remarks[0]!.note).toContain('2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2');
    expect(amounts.samples[0]!.theoreticalYield).toBeUndefined();
    expect(amounts.samples[0]!.obtained!.value).toBe('1.98');
  });
  test('a reaction that cannot be read', () =>
    expect(rules(malachite.replace('2 CuSO4 +', '2 CuSO4x) +'))).toContain('reaction'));
  test('a reactant that nothing supplies stops the reckoning; nothing is guessed', () => {
    const { amounts, remarks } = reckon(
      malachite.replace('  - { reagent: soda, amount: 2.50 g, intent: excess }\n', ''),
    );
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['reactant-without-reagent']);
    expect(amounts.samples[0]!.percentYield).toBeUndefined();
  });
  test('an amount that is not written leaves the yield open without a remark', () => {
    const { amounts, remarks } = reckon(
      malachite.replace('{ reagent: soda, amount: 2.50 g, intent: excess }', '{ reagent: soda }'),
    );
    expect(amounts.samples[0]!.theoreticalYield).toBeUndefined();
    expect(remarks).toEqual([]);
  });
  test('above 100 % is explained, and remarked', () => {
    const { amounts, remarks } = reckon(malachite.replace('obtained: 2.05 g', 'obtained: 2.60 g'));
    expect(amounts.samples[1]!.overHundred).toContain('wet');
    expect(remarks).toMatchObject([{ ruleId: 'above-100-percent', line: 14 }]);
  });
  test('more than all that went in is impossible', () =>
    expect(rules(malachite.replace('obtained: 2.05 g', 'obtained: 205 g'))).toEqual(['more-than-went-in']));
  test('within weighing of 100 % nothing is remarked', () =>
    expect(
      rules(
        malachite
          .replace('obtained: 2.05 g', 'obtained: 2.215 g')
          .replace('samples:', '  - { reagent: water, amount: 2 L, role: wash }\nsamples:'),
      ),
    ).toEqual([]));
  test('a salt usually sold as a hydrate asks, and says when it would change what limits', () => {
    // Source: tests/reference/chem/preparations.csv, PR01: the hydrate of the starting salt changes the limiting
    // reagent.
    const cobalt = `
pigment: { name: cobalt violet, formula: Co3(PO4)2 }
reaction: 3 CoCl2 + 2 Na2HPO4 -> Co3(PO4)2 + 4 NaCl + 2 HCl
reagents:
  - { reagent: { name: cobalt chloride, formula: CoCl2 }, amount: 2.00 g }
  - { reagent: { name: "disodium hydrogen phosphate, anhydrous", formula: Na2HPO4 }, amount: 1.30 g }
samples:
  - { sample: A, obtained: 0.90 g }
`;
    const { remarks: all, amounts } = reckon(cobalt);
    const remarks = all.filter(({ ruleId }) => ruleId === 'hydrate-or-not');
    expect(amounts.samples[0]!.limiting).toBe('disodium hydrogen phosphate, anhydrous');
    expect(remarks).toMatchObject([
      {
        ruleId: 'hydrate-or-not',
        fatal: false,
        line: 9,
        reason: expect.stringContaining('As the hydrate, CoCl2 would limit instead of Na2HPO4.'),
      },
    ]);
    expect(rules(cobalt.replace('cobalt chloride', 'cobalt chloride (anhydrous)'))).toEqual([
      'water-not-in-the-formula',
    ]);
  });
  test('a volume with no density, or drops of no known size, is not turned into moles', () => {
    expect(rules(malachite.replace('blue-vitriol, amount: 5.00 g', 'blue-vitriol, amount: 5.0 mL'))).toEqual([
      'density-missing',
    ]);
    expect(rules(malachite.replace('blue-vitriol, amount: 5.00 g', 'blue-vitriol, amount: 12 drops'))).toEqual([
      'drop-volume-missing',
    ]);
  });
  test('a reading finer than the balance is noted', () =>
    expect(rules(malachite.replace('5.00 g', '5.004 g'), { balance: '0.01 g' })).toEqual(['finer-than-the-balance']));
  test('a reagent that takes no part is noted, unless it has a role that says so', () => {
    const salt = (role: string): string =>
      malachite.replace('samples:', `  - { reagent: { name: salt, formula: NaCl }, amount: 1.0 g${role} }\nsamples:`);
    expect(rules(salt(''))).toEqual(['takes-no-part']);
    expect(rules(salt(', role: additive'))).toEqual([]);
  });
  test('a pigment that the reaction does not make has no yield', () =>
    expect(rules(malachite.replace('formula: Cu2CO3(OH)2', 'formula: CuO'))).toEqual(['product-not-in-reaction']));
  test('a reaction whose pigment is not named has no yield', () =>
    expect(
      rules(malachite.replace('pigment: { name: malachite, formula: Cu2CO3(OH)2 }', 'pigment: { name: malachite }')),
    ).toEqual(['product-not-named']));
  test('a full stop that can be read in two ways is noted', () => {
    expect(
      rules(malachite.replace('reagent: soda,', 'reagent: { name: "odd salt, anhydrous", formula: Na2CO3.2NaCl },')),
    ).toContain('full-stop');
  });
});

describe('samples', () => {
  test('add, omit and change', () => {
    const { amounts } = reckon(`${malachite.trim()}
  - { sample: C, change: [{ reagent: soda, amount: 1.00 g }], omit: [water], add: [{ reagent: vinegar, amount: 3 drops, role: additive }] }
`);
    const c = amounts.samples[2]!;
    expect(c.ingredients.map(({ id, written }) => `${id} ${written}`)).toEqual([
      'blue-vitriol 5.00 g',
      'soda 1.00 g',
      'vinegar 3 drops',
    ]);
    expect(c.limiting).toBe('sodium carbonate, anhydrous');
    // 3 drops of 0.05 mL, 60 % by mass, 1.06 g/mL: 0.15 · 1.06 · 0.6 / 60.052 mol.
    expect(Number(c.ingredients[2]!.amount!.value)).toBeCloseTo(0.00158862, 7);
  });
  test('an entry that is only planned is reckoned once, without a sample', () => {
    const { amounts } = reckon(malachite.slice(0, malachite.indexOf('samples:')));
    expect(amounts.samples.map(({ sample }) => sample)).toEqual(['']);
    expect(amounts.samples[0]!.theoreticalYield).toBeDefined();
  });
  test('reagents that hardly differ from just enough are too close to call', () => {
    // Source: tests/reference/chem/preparations.csv, PR02: within 0.4 % of equimolar, weighing decides.
    const { amounts } = reckon(`
pigment: { name: chrome yellow, formula: PbCrO4 }
reaction: Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3
reagents:
  - { reagent: { name: lead nitrate, formula: Pb(NO3)2 }, amount: 5.1 g }
  - { reagent: { name: potassium chromate, formula: K2CrO4 }, amount: 3.0 g }
samples: [{ sample: A }]
`);
    expect(amounts.samples[0]!.tooCloseToCall).toBe(
      'Too close to call: weighing cannot tell whether lead nitrate or potassium chromate runs out first.',
    );
    expect(amounts.samples[0]!.ingredients.map(({ tooClose }) => tooClose)).toEqual([undefined, true]);
  });
  test('a net ionic reaction finds its reagents through the ions they supply, several of them for one ion', () => {
    const { amounts, remarks } = reckon(`
pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }
reaction: 4 Fe^3+ + 3 [Fe(CN)6]^4- -> Fe4[Fe(CN)6]3
reagents:
  - { reagent: { name: iron chloride hexahydrate, formula: FeCl3·6H2O }, amount: 2.703 g }
  - { reagent: { name: "iron sulfate, anhydrous", formula: Fe2(SO4)3 }, amount: 2.000 g }
  - { reagent: { name: yellow prussiate, formula: "K4[Fe(CN)6]·3H2O" }, amount: excess }
samples: [{ sample: A, obtained: 3.50 g }]
`);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['water-not-in-the-formula']);
    // 2.703/270.285 + 2·2.000/399.858 mol of Fe^3+, a quarter of it times 859.239 g/mol; by hand, abridged weights.
    expect(Number(amounts.samples[0]!.theoreticalYield!.value)).toBeCloseTo(4.29703, 3);
    expect(amounts.samples[0]!.limiting).toBe('iron chloride hexahydrate and iron sulfate, anhydrous');
  });
  test('oxygen of the air and water need no reagent, and the page says they were taken to be ample', () => {
    const { amounts, remarks } = reckon(`
pigment: { name: tenorite, formula: CuO }
reaction: 2 Cu + O2 -> 2 CuO
reagents: [{ reagent: { name: copper, formula: Cu }, amount: 6.355 g }]
samples: [{ sample: A, obtained: 7.5 g }]
`);
    expect(remarks).toEqual([]);
    expect(amounts.assumed).toEqual(['O2']);
    expect(Number(amounts.samples[0]!.theoreticalYield!.value)).toBeCloseTo(7.9551, 3);
  });
});

describe('replicates', () => {
  test('are compared by mean, scatter and Welch’s test', () => {
    const { amounts } = reckon(
      malachite.slice(0, malachite.indexOf('samples:')) +
        `samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, obtained: 2.00 g, replicate-of: A }
  - { sample: C, obtained: 1.96 g, replicate-of: A }
  - { sample: D, obtained: 2.08 g }
  - { sample: E, obtained: 2.10 g, replicate-of: D }
  - { sample: F, obtained: 2.12 g, replicate-of: E }
`,
    );
    expect(amounts.comparisons).toHaveLength(1);
    const [comparison] = amounts.comparisons!;
    expect(comparison).toMatchObject({
      basis: 'replicates',
      differs: true,
      a: { samples: ['A', 'B', 'C'], n: 3 },
      b: { samples: ['D', 'E', 'F'], n: 3 },
    });
    // Equal scatter s on both sides: t = −0.12/(0.02·√(2/3)) = −7.348, ν = 4; by hand.
    expect(Number(comparison!.t)).toBeCloseTo(-7.348, 2);
    expect(Number(comparison!.degreesOfFreedom)).toBeCloseTo(4, 6);
    expect(comparison!.verdict).toContain('p = 0.00');
  });
  test('repeats that overlap show no difference, and that is not called sameness', () => {
    const { amounts } = reckon(
      malachite.slice(0, malachite.indexOf('samples:')) +
        `samples:
  - { sample: A, obtained: 1.90 g }
  - { sample: B, obtained: 2.08 g, replicate-of: A }
  - { sample: C, obtained: 1.95 g }
  - { sample: D, obtained: 2.05 g, replicate-of: C }
`,
    );
    expect(amounts.comparisons![0]).toMatchObject({
      differs: false,
      verdict: expect.stringContaining('with so few repeats a small one could still be there'),
    });
  });
});

describe('lots', () => {
  const made = entry(9, malachite.replace(/  - \{ sample: B.*\n/, ''));
  const burntOf = (number: number, lot: string, amount: string) =>
    entry(
      number,
      `
pigment: { name: tenorite, formula: CuO }
reaction: Cu2CO3(OH)2 -> 2 CuO + CO2 + H2O
reagents: [{ lot: ${lot}, amount: ${amount} }]
samples: [{ sample: A, obtained: 0.70 g }]
`,
    );
  const burnt = (number: number, amount: string) => burntOf(number, '9/A', amount);
  let all: readonly Reckoned[];
  beforeAll(() => {
    all = reckonAll([made, burnt(10, '1.00 g'), burnt(11, '1.20 g')], { balance: '0.01 g' });
  });

  test('a lot has the formula, cost share and lineage of its sample', () => {
    const [sample] = all[1]!.amounts.samples;
    expect(sample!.limiting).toBe('malachite');
    expect(sample!.ingredients[0]).toMatchObject({ lot: '9/A', formula: 'Cu2CO3(OH)2' });
    // 0.06475 EUR for 1.98 g, of which 1.00 g.
    expect(Number(sample!.cost!.value)).toBeCloseTo(0.032702, 5);
    expect(sample!.lineage).toMatchObject({
      lot: '10/A',
      from: [
        {
          lot: '9/A',
          taken: '1.00 g',
          from: [{ name: 'copper(II) sulfate pentahydrate' }, { name: 'sodium carbonate, anhydrous' }],
        },
      ],
    });
  });
  test('a lot is reckoned as if it were pure, unless its use says how pure or how strong it is', () => {
    const [, ...uses] = reckonAll([
      made,
      burnt(10, '1.00 g'),
      burntOf(11, '9/A, purity: 95 %', '1.00 g'),
      burntOf(12, '9/A, strength: 95 %', '1.00 g'),
    ]);
    expect(uses.map(({ amounts }) => amounts.samples[0]!.ingredients[0]!.asIfPure)).toEqual([
      true,
      undefined,
      undefined,
    ]);
    expect(all[0]!.amounts.samples[0]!.ingredients[0]).not.toHaveProperty('asIfPure');
  });
  test('what was taken of a lot is handed on as it was weighed', () =>
    expect(all[1]!.amounts.lotsTaken).toMatchObject([
      { lot: '9/A', sample: 'A', mass: { value: '1', unit: 'g', text: '1.00 g' } },
    ]));
  test('yield over all steps is the product of the steps', () => {
    const [first] = all[0]!.amounts.samples;
    const [second] = all[1]!.amounts.samples;
    expect(second!.cumulativeYield!.unit).toBe('%');
    expect(Number(second!.cumulativeYield!.value)).toBeCloseTo(
      (Number(first!.percentYield!.value) * Number(second!.percentYield!.value)) / 100,
      6,
    );
  });
  describe('over all steps, of a lot that is no pure substance', () => {
    const assay = 'assay: "90.0 ± 0.5 %"';
    const assayed = entry(
      9,
      malachite.replace(/  - \{ sample: B.*\n/, '').replace('obtained: 1.98 g', `obtained: 1.98 g, ${assay}`),
    );
    const overAll = (first: Entry, second: Entry) => reckonAll([first, second])[1]!.amounts.samples[0]!.cumulativeYield;
    const plain = () => overAll(made, burnt(10, '1.00 g'))!;
    test('is that from all the copper that went in, whether its purity is known or not', () => {
      // 1.98 g of 2.214 g, then 0.70 g CuO of the 0.7195 g that 1.00 g of malachite gives: 87.0 %, by hand.
      expect(Number(plain().value)).toBeCloseTo(87.0, 1);
      expect(Number(overAll(assayed, burnt(10, '1.00 g'))!.value)).toBeCloseTo(Number(plain().value), 6);
      const used = overAll(made, burntOf(10, '9/A, purity: 90 %', '1.00 g'))!;
      expect(Number(used.value)).toBeCloseTo(Number(plain().value), 6);
    });
    test('has a ± that contains that of each step', () => {
      const [first, second] = reckonAll([made, burnt(10, '1.00 g')]).map(({ amounts }) => amounts.samples[0]!);
      const relative = ({ value, uncertainty }: { value: string; uncertainty?: string }): number =>
        Number(uncertainty) / Number(value);
      const [one, two] = [relative(first!.percentYield!), relative(second!.percentYield!)];
      expect(relative(second!.cumulativeYield!)).toBeCloseTo(Math.hypot(one, two), 3);
    });
    test('is not told where something bought supplies it too', () => {
      const more = `reagents: [{ lot: 9/A, amount: 1.00 g }, { reagent: { name: malachite, formula: Cu2CO3(OH)2 }, amount: 1 g }]`;
      const both = entry(
        10,
        `pigment: { name: tenorite, formula: CuO }\nreaction: Cu2CO3(OH)2 -> 2 CuO + CO2 + H2O\n${more}\n` +
          'samples: [{ sample: A, obtained: 1.40 g }]',
      );
      expect(overAll(made, both)).toBeUndefined();
    });
    test('the yield counted by the assay stands beside that as weighed', () => {
      const [{ amounts }] = reckonAll([assayed]) as [Reckoned];
      const { percentYield, assayedYield, treatment } = amounts.samples[0]!;
      expect(Number(assayedYield!.value)).toBeCloseTo(Number(percentYield!.value) * 0.9, 6);
      expect(treatment!.join(' ')).toContain(`Counted by its assay the yield is ${assayedYield!.text}.`);
    });
  });
  test('a lot of which only the reaction tells what it is gets the question about its water', () => {
    const made = (more: string) =>
      entry(9, `reaction: CuO + H2SO4 -> CuSO4 + H2O\n${more}samples: [{ sample: A, obtained: 5.00 g }]`);
    const used = entry(
      10,
      'pigment: { name: malachite, formula: Cu2CO3(OH)2 }\n' +
        'reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2\n' +
        'reagents: [{ lot: 9/A, amount: 3.00 g }]\nsamples: [{ sample: A }]',
    );
    const asked = (more: string): readonly string[] =>
      reckonAll([made(more), used])[1]!.remarks.flatMap(({ ruleId, reason }) =>
        ruleId === 'hydrate-or-not' ? [reason] : [],
      );
    expect(asked('')).toEqual([expect.stringMatching(/^Lot 9\/A is taken as CuSO4, .*crystallises as CuSO4·5H2O/)]);
    expect(asked('pigment: { name: blue vitriol, formula: CuSO4 }\n')).toEqual([]);
    expect(asked('heating: [{ to: 300 °C }]\n')).toEqual([]);
  });
  test('what is left of a lot is known, and taking too much is remarked at the use that went beyond', () => {
    const stock = stockOfLots(all).get('9/A')!;
    expect(stock).toMatchObject({ overspent: true, left: { text: '−0.22 g' } });
    const overspent = overspentLots(all);
    expect([...overspent.keys()]).toEqual([11]);
    expect(remarksOn(all[2]!.entry, overspent.get(11)!)).toMatchObject([
      {
        ruleId: 'lot-overspent',
        file: 'entries/011-test.md',
        line: 8,
        subject: '9/A',
        reason: expect.stringMatching(/Of it took too: entry 10\/A \(\d\.\d+ g\)\.$/) as unknown,
      },
    ]);
    expect(overspentLots(all.slice(0, 2)).size).toBe(0);
  });
  test('what was sent away is counted too, with to whom as a code', () => {
    const sent = entry(
      12,
      `
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
samples:
  - sample: A
    obtained: 2.00 g
    sent: [{ date: 2026-02-01, amount: 0.50 g, to: P-17 }, { date: 2026-02-03, amount: 250 mg, to: 18 }]
`,
    );
    const reckoned = reckonAll([sent, burntOf(13, '12/A', '1.00 g')], { balance: '0.01 g' });
    expect(stockOfLots(reckoned).get('12/A')).toMatchObject({
      taken: [{ entry: 13 }],
      sent: [
        { date: '2026-02-01', to: 'P-17', mass: { value: '0.5' } },
        { to: '18', mass: { value: '0.25' } },
      ],
      left: { text: '0.25 g' },
    });
    const beyond = reckonAll([sent, burntOf(13, '12/A', '1.50 g')], { balance: '0.01 g' });
    expect(stockOfLots(beyond).get('12/A')!.overspent).toBe(true);
    expect(remarksOn(beyond[0]!.entry, overspentLots(beyond).get(12)!)).toMatchObject([{ ruleId: 'lot-sent-beyond' }]);
  });
  test('a long lineage is cut, so that no entry carries its whole past', () => {
    const chain = [
      entry(1, malachite),
      ...Array.from({ length: 20 }, (_, index) =>
        entry(
          index + 2,
          `
pigment: { name: malachite again, formula: Cu2CO3(OH)2 }
reagents: [{ lot: ${index + 1}/A, amount: 1.00 g }]
samples: [{ sample: A, obtained: 1.00 g }]
`,
        ),
      ),
    ];
    const last = reckonAll(chain).at(-1)!.amounts.samples[0]!;
    expect(JSON.stringify(last.lineage).length).toBeLessThan(1200);
    expect(JSON.stringify(last.lineage)).toContain('"further":true');
  });
});
