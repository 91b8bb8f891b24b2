// What reckoning finds of an entry's amounts, as plain data, and the figures of the whole entry.
// Figures by hand from the abridged atomic weights (CIAAW 2021); what must be remarked is common practice, no source.
import { describe, expect, it } from 'vitest';
import type { JournalSettings } from '../../../src/journal/schema.js';
import { reckonAmounts } from '../../../src/reckoning/amounts/amounts.js';
import type { LotFacts, ReckoningContext } from '../../../src/reckoning/contracts.js';
import { entry, shelf } from '../entries.js';

function look(matter: string, settings: Partial<JournalSettings> = {}, jars: typeof shelf = shelf, lot?: LotFacts) {
  const context: ReckoningContext = {
    settings: {
      title: 'T',
      address: 'https://t.example/',
      author: 'T',
      language: 'en-GB',
      cautions: [],
      ...settings,
    } as JournalSettings,
    shelf: new Map(Object.entries(jars)),
    lot: (name) => (name === lot?.lot ? lot : undefined),
    reading: () => undefined,
  };
  const { amounts, findings } = reckonAmounts(entry(14, matter), context);
  const found = (rule: string): Record<string, unknown>[] =>
    findings
      .filter((one) => one.rule === rule)
      .map((one) => ({ where: one.where, ...(one.facts as Record<string, unknown>) }));
  return { amounts, found, rules: findings.map(({ rule }) => rule) };
}

const pigment = 'pigment: { name: malachite, formula: Cu2CO3(OH)2 }\n';
const reaction = 'reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2\n';
const reagents = (...lines: string[]): string => `reagents:\n${lines.map((line) => `  - { ${line} }\n`).join('')}`;
const vitriol = 'reagent: blue-vitriol, amount: 5.00 g';
const soda = 'reagent: soda, amount: 2.50 g';
const water = 'reagent: water, amount: 60 mL, role: solvent';
const samples = 'samples: [{ sample: A, obtained: 1.98 g }]\n';
const malachite = (...lines: string[]): string => pigment + reaction + reagents(...lines) + samples;

describe('the whole entry', () => {
  it('has a product with its molar mass, and an atom economy to a tenth of a per cent', () => {
    const { amounts } = look(malachite(vitriol, soda, water));
    expect(amounts.product).toMatchObject({ formula: 'Cu2CO3(OH)2', molarMass: { unit: 'g/mol' } });
    expect(Number(amounts.product!.molarMass!.value)).toBeCloseTo(221.114, 2);
    // 221.114 of 2 · 159.602 + 2 · 105.988 + 18.015 = 549.195.
    expect(amounts.atomEconomy).toMatchObject({ unit: '%', text: '40.3 %' });
    expect(Number(amounts.atomEconomy!.value)).toBeCloseTo(40.262, 2);
    expect(amounts.reaction).toBeDefined();
    for (const key of ['comparisons', 'lotsTaken', 'assumed']) expect(amounts).not.toHaveProperty(key);
  });
  it('without a reaction has the product that the pigment names, and no atom economy', () => {
    const { amounts, rules } = look(pigment + samples);
    expect(amounts.product!.formula).toBe('Cu2CO3(OH)2');
    expect(amounts).not.toHaveProperty('reaction');
    expect(amounts).not.toHaveProperty('atomEconomy');
    expect(rules).toEqual([]);
  });
  it('of which nothing is said has neither product nor sample', () => {
    const { amounts } = look('question: What is it?');
    expect(amounts).toEqual({ samples: [] });
  });
  it('with reagents and no samples is one preparation without a name', () => {
    expect(look(reagents(vitriol)).amounts.samples.map(({ sample }) => sample)).toEqual(['']);
    expect(look('samples: [{ sample: A }, { sample: B }]').amounts.samples.map(({ sample }) => sample)).toEqual([
      'A',
      'B',
    ]);
  });
  it('with a formula that leaves its water open has no molar mass of its own, and is told what to give', () => {
    const { amounts, rules, found } = look(
      `pigment: { name: verdigris salt, formula: "Cu(NO3)2·xH2O" }\nreaction: CuO + 2 HNO3 -> Cu(NO3)2·xH2O + ` +
        `H2O\n${samples}`,
    );
    expect(amounts.product!.formula).toContain('Cu(NO3)2');
    expect(rules.length).toBeGreaterThan(0);
    for (const rule of rules) for (const { where } of found(rule)) expect(Array.isArray(where)).toBe(true);
  });
});

describe('the formula of the pigment', () => {
  const where = ['pigment', 'formula'];
  it('that leaves a proportion open is remarked on at its place, with what was written', () => {
    const { found } = look(`pigment: { name: pink, formula: "(Zn,Mn)O" }\n${samples}`);
    expect(found('open-proportion')).toEqual([expect.objectContaining({ where, actual: '(Zn,Mn)O' })]);
  });
  it('whose water is open asks for it where a reaction makes it, and not where none does', () => {
    const open = 'pigment: { name: verdigris salt, formula: "Cu(NO3)2·xH2O" }\n';
    const made = look(`${open}reaction: CuO + 2 HNO3 -> Cu(NO3)2 + H2O\n${samples}`);
    expect(made.rules.flatMap((rule) => made.found(rule))).toContainEqual(
      expect.objectContaining({ where, actual: 'Cu(NO3)2·xH2O' }),
    );
    expect(look(open + samples).rules).toEqual([]);
  });
});

describe('what the whole entry took', () => {
  it('names the jars of which it is written how much was bought, and what was taken of each', () => {
    const jars = { ...shelf, soda: { ...shelf.soda!, bought: { date: '2026-01-02', amount: '500 g' } } };
    const { amounts } = look(malachite(vitriol, soda, water), {}, jars);
    expect(amounts.jarsTaken).toEqual([{ jar: 'soda', sample: 'A', mass: '2.5' }]);
    expect(look(malachite(vitriol, soda, water)).amounts).not.toHaveProperty('jarsTaken');
  });
  it('names a repeat that lies far from the others, with the figures of the test', () => {
    // Source: NIST/SEMATECH e-Handbook 1.3.5.17.1: G = 2.4688 for these eight; here as grams of product.
    const masses = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    const lines = masses.map(
      (grams, at) => `  - { sample: A${at + 1}, obtained: ${grams} g${at > 0 ? ', replicate-of: A1' : ''} }`,
    );
    const { amounts } = look(`${pigment}samples:\n${lines.join('\n')}`);
    expect(amounts.outliers!.map(({ sample }) => sample)).toEqual(['A8']);
    expect(amounts.outliers![0]!.statistic).toBeCloseTo(2.4688, 4);
    expect(look(malachite(vitriol, soda, water)).amounts).not.toHaveProperty('outliers');
  });
  it('assumes nothing where every reactant is supplied', () => {
    expect(look(malachite(vitriol, soda)).amounts.assumed).toEqual(['H2O']);
    expect(look(malachite(vitriol, soda, water)).amounts).not.toHaveProperty('assumed');
  });
});

describe('a reading of the balance', () => {
  const obtained = (balance?: string) =>
    look(pigment + samples, balance === undefined ? {} : { balance }).amounts.samples[0]!.obtained!.text;
  it('is what the digits say, or coarser where the balance is', () => {
    // Half of 0.01 g and half of 0.1 g as half-widths: 2 · 0.005/√3 = 0.0058 g, 2 · 0.05/√3 = 0.058 g.
    expect(obtained()).toBe('1.980 ± 0.006 g');
    expect(obtained('0.1 g')).toBe('1.98 ± 0.06 g');
    expect(obtained('100 mg')).toBe('1.98 ± 0.06 g');
  });
  it('does not follow a balance that weighs no masses', () => {
    expect(obtained('0.1 mL')).toBe('1.980 ± 0.006 g');
    expect(obtained('good')).toBe('1.980 ± 0.006 g');
  });
  const finer = (amount: string, balance = '0.01 g') =>
    look(reagents(`reagent: blue-vitriol, amount: ${amount}`), { balance }).found('finer-than-the-balance');
  it('finer than the balance shows is found at the amount', () => {
    expect(finer('5.004 g')).toEqual([{ where: ['reagents', 0, 'amount'], amount: '5.004 g', actual: '5.004 g' }]);
    expect(finer('5004 mg')).toHaveLength(1);
    expect(finer('0.005004 kg')).toHaveLength(1);
    expect(finer('5.5 g', '1 g')).toHaveLength(1);
  });
  it('is not finer by zeros, where it states its own ±, or where it is no mass', () => {
    expect(finer('5.00 g')).toEqual([]);
    expect(finer('5.000 g')).toEqual([]);
    expect(finer('5 g')).toEqual([]);
    expect(finer('5.004 ± 0.002 g')).toEqual([]);
    expect(finer('5.004 mL')).toEqual([]);
    expect(look(reagents('reagent: blue-vitriol, amount: 5.004 g')).rules).not.toContain('finer-than-the-balance');
  });
  it('of nothing is found', () => {
    expect(look(malachite('reagent: blue-vitriol, amount: 0 g', soda, water)).found('nothing-taken')).toEqual([
      { where: ['reagents', 0, 'amount'], amount: '0 g', name: 'copper(II) sulfate pentahydrate', actual: '0 g' },
    ]);
    expect(look(malachite('reagent: blue-vitriol, amount: excess', soda)).rules).not.toContain('nothing-taken');
    expect(look(malachite(vitriol, soda)).rules).not.toContain('nothing-taken');
  });
});

describe('what takes part', () => {
  it('is missed where a reactant has no reagent', () =>
    expect(look(malachite(vitriol, water)).found('reactant-without-reagent')).toEqual([
      { where: ['reaction'], reactant: 'Na2CO3', certain: true, actual: 'Na2CO3' },
    ]));
  it('is not certainly missed where there are no reagents', () =>
    expect(look(pigment + reaction + samples).found('reactant-without-reagent')).toMatchObject([
      { reactant: 'CuSO4', certain: false },
      { reactant: 'Na2CO3', certain: false },
    ]));
  it('is missed at the sample that leaves it out, or at the reaction where all do', () => {
    const missed = (a: string, b: string) =>
      look(
        `${pigment}${reaction}${reagents(vitriol, soda, water)}samples: [{ sample: A${a} }, { sample: B, differs: other${b} }]`,
      )
        .found('reactant-without-reagent')
        .map(({ where, sample }) => [where, sample]);
    const omit = ', omit: [soda]';
    expect(missed('', omit)).toEqual([[['samples', 1, 'omit'], 'B']]);
    expect(missed(omit, '')).toEqual([[['samples', 0, 'omit'], 'A']]);
    expect(new Set(missed(omit, omit).map(String))).toEqual(new Set(['reaction,']));
  });
  const salt = 'reagent: { name: salt, formula: NaCl }, amount: 1.0 g';
  it('is said of a reagent that takes none, with the reactants that there are', () =>
    expect(look(malachite(vitriol, soda, water, salt)).found('takes-no-part')).toEqual([
      {
        where: ['reagents', 3],
        name: 'salt',
        formula: 'NaCl',
        reactants: ['CuSO4', 'Na2CO3', 'H2O'],
        actual: 'salt',
      },
    ]));
  it.each(['base', 'acid', 'additive', 'flux', 'wash', 'solvent'])('is not asked of one whose role is %s', (role) =>
    expect(look(malachite(vitriol, soda, water, `${salt}, role: ${role}`)).rules).not.toContain('takes-no-part'),
  );
  it('is not asked without a reaction', () =>
    expect(look(pigment + reagents(vitriol, salt) + samples).rules).not.toContain('takes-no-part'));
});

describe('what is meant', () => {
  // 5.00 g of vitriol are 20.03 mmol; the soda that just suffices is 2.1225 g.
  const meant = (grams: string, intent: string) =>
    look(malachite(vitriol, `reagent: soda, amount: ${grams} g, intent: ${intent}`, water));
  it('in excess, and limits, is found at its amount', () =>
    expect(meant('1.50', 'excess').found('limits-though-meant-in-excess')).toMatchObject([
      {
        where: ['reagents', 1, 'amount'],
        name: 'sodium carbonate, anhydrous',
        how: 'limits',
        limits: 'sodium carbonate, anhydrous',
        // 1.50 g of the 2.1225 that would be needed.
        short: expect.stringContaining('29 % short') as unknown,
        actual: '1.50 g',
      },
    ]));
  it('in excess, and within weighing of limiting, is too close', () => {
    expect(meant('2.123', 'excess').found('limits-though-meant-in-excess')).toMatchObject([
      { how: 'too-close', limits: 'copper(II) sulfate pentahydrate' },
    ]);
    expect(meant('2.122', 'excess').found('limits-though-meant-in-excess')).toMatchObject([{ how: 'may-limit' }]);
    expect(meant('2.123', 'excess').found('limits-though-meant-in-excess')[0]).not.toHaveProperty('short');
  });
  it('in excess, and is short beside another that is, is found each with its own words', () => {
    // 10.00 g of vitriol need 4.245 g of soda and 0.361 g of water; 2.12 and 0.180 g are as short, by half.
    const found = look(
      malachite(
        'reagent: blue-vitriol, amount: 10.00 g, intent: limiting',
        'reagent: soda, amount: 2.12 g, intent: excess',
        'reagent: water, amount: 0.180 g, intent: excess',
      ),
    ).found('limits-though-meant-in-excess');
    expect(found.map(({ name, how }) => [name, how])).toEqual([
      ['sodium carbonate, anhydrous', 'too-close'],
      ['water', 'may-limit'],
    ]);
    for (const { name, short } of found) expect(short).toContain(`The ${String(name)} is 50 % short: `);
  });
  it('in excess, and is, is not found', () =>
    expect(meant('2.50', 'excess').rules).not.toContain('limits-though-meant-in-excess'));
  it('to limit, and does not, is found with what does', () => {
    expect(meant('2.50', 'limiting').found('does-not-limit')).toEqual([
      {
        where: ['reagents', 1, 'amount'],
        name: 'sodium carbonate, anhydrous',
        limits: 'copper(II) sulfate pentahydrate',
        actual: '2.50 g',
      },
    ]);
    expect(meant('1.50', 'limiting').rules).not.toContain('does-not-limit');
    expect(meant('2.123', 'limiting').rules).not.toContain('does-not-limit');
  });
  it('nothing is found of what is not meant', () =>
    expect(look(pigment + reaction + reagents(vitriol, 'reagent: soda, amount: 1.50 g', water)).rules).toEqual([]));
});

describe('purity and strength', () => {
  const of = (facts: string) =>
    look(reagents(`reagent: { name: oil, formula: H2SO4, ${facts} }, amount: 1.0 g`)).rules.filter((rule) =>
      /above-100/.test(rule),
    );
  it('above a hundred per cent are found, at a hundred not', () => {
    expect(of('strength: 104 %')).toEqual(['strength-above-100']);
    expect(of('purity: 100 %')).toEqual([]);
    expect(of('strength: 100 %')).toEqual([]);
    expect(of('purity: 98 %')).toEqual([]);
  });
  it('of which the strength is above a hundred is said as it was written', () =>
    expect(
      look(reagents('reagent: { name: oil, formula: H2SO4, strength: 104 % }, amount: 1.0 g')).found(
        'strength-above-100',
      ),
    ).toEqual([{ where: ['reagents', 0], strength: '104 %', actual: '104 %' }]));
  it('by volume may be more than a hundred in figures', () => expect(of('strength: 18 mol/L')).toEqual([]));
});

describe('a salt that is usually sold as a hydrate', () => {
  const asked = (reagent: string) => look(reagents(reagent)).found('hydrate-or-not');
  it('is asked about where it is written without its water', () =>
    expect(asked('reagent: { name: copper sulfate, formula: CuSO4 }, amount: 1.0 g')).toEqual([
      { where: ['reagents', 0], name: 'copper sulfate', formula: 'CuSO4', hydrate: 'CuSO4·5H2O', actual: 'CuSO4' },
    ]));
  it.each([
    'reagent: { name: "copper sulfate, anhydrous", formula: CuSO4 }, amount: 1.0 g',
    'reagent: { name: copper sulfate, formula: CuSO4 }, amount: 1.0 g, note: dried to the anhydrous salt',
    'reagent: { name: copper sulfate, formula: CuSO4, strength: 10 % }, amount: 1.0 g',
    'reagent: { name: copper sulfate, formula: CuSO4, density: 1.1 g/mL }, amount: 1.0 mL',
    'reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 1.0 g',
    'reagent: { name: copper sulfate, formula: CuSO4 }',
  ])('is not asked about as %s', (reagent) => expect(asked(reagent)).toEqual([]));
  it.each([
    { grade: 'anhydrous' },
    { note: 'fused, in sticks' },
    { 'also-called': ['white vitriol', 'anhydrous copper sulfate'] },
  ])('is not asked about where its jar says that it is dry: %j', (said) => {
    const of = (jar: object) =>
      look(reagents('reagent: white, amount: 1.0 g'), {}, {
        white: { name: 'copper sulfate', formula: 'CuSO4', ...jar },
      } as unknown as typeof shelf).rules;
    expect(of(said)).not.toContain('hydrate-or-not');
    expect(of({})).toContain('hydrate-or-not');
  });
  it('is not asked about where it was made here', () => {
    const facts = { lot: '9/A', entry: 9, sample: 'A', name: 'home-made white vitriol', formula: 'CuSO4' } as LotFacts;
    const of = (use: string) => look(reagents(`${use}, amount: 1.0 g`), {}, shelf, facts);
    expect(of('lot: 9/A').amounts.samples[0]!.ingredients[0]!.formula).toBe('CuSO4');
    expect(of('lot: 9/A').rules).not.toContain('hydrate-or-not');
    expect(of('reagent: { name: white vitriol of copper, formula: CuSO4 }').rules).toContain('hydrate-or-not');
  });
  // 249.685 g of the pentahydrate hold 159.609 g of the salt (abridged weights, CIAAW 2021).
  it('is told how much the hydrate holds, where nothing but its name says what it is', () => {
    const byName = 'reagent: copper sulphate, amount: 10.0 g';
    expect(asked(byName)).toMatchObject([{ byName: '10.0 g of that hold as much as 6.39 g' }]);
    expect(asked(byName)[0]).not.toHaveProperty('counts');
    expect(look(malachite(byName, soda)).found('hydrate-or-not')).toMatchObject([{ counts: true }]);
  });
  // 2.00 g of CoCl2 are 15.4 mmol, of the hexahydrate 8.4 mmol; the phosphate, 9.16 mmol, would need 13.7 mmol.
  it('says where its water would change what limits, and only there', () => {
    const violet = (phosphate: string) =>
      look(`pigment: { name: cobalt violet, formula: Co3(PO4)2 }
reaction: 3 CoCl2 + 2 Na2HPO4 -> Co3(PO4)2 + 4 NaCl + 2 HCl
${reagents('reagent: { name: cobalt chloride, formula: CoCl2 }, amount: 2.00 g', `reagent: { name: "phosphate, anhydrous", formula: Na2HPO4 }, amount: ${phosphate}`)}`).found(
        'hydrate-or-not',
      );
    expect(violet('1.30 g')).toMatchObject([{ limits: 'Na2HPO4', limitsAsHydrate: 'CoCl2' }]);
    expect(violet('9.00 g')).toHaveLength(1);
    expect(violet('9.00 g')[0]).not.toHaveProperty('limits');
    expect(violet('0.10 g')[0]).not.toHaveProperty('limitsAsHydrate');
  });
});

describe('what was obtained', () => {
  const of = (grams: string) => look(malachite(vitriol, soda, water).replace('1.98 g', grams));
  it('above a hundred per cent by more than weighing is found at its amount', () => {
    expect(of('2.60 g').found('above-100-percent')).toMatchObject([
      { where: ['samples', 0, 'obtained'], actual: '2.60 g' },
    ]);
    // 2.60 / 2.21400 g.
    expect(of('2.60 g').found('above-100-percent')[0]!.percentYield).toMatch(/^117\.4\d? ± 0\.\d+ %$/);
    // Nothing was washed: salt could carry it, and that is another rule's to say.
    expect(of('2.215 g').rules).toEqual(['yield-carried-by-salt']);
  });
  it('more than all that went in is impossible, and that is said instead', () => {
    const { found, rules } = of('205 g');
    expect(rules).toEqual(['more-than-went-in']);
    // 5.00 + 2.50 g and 60 mL of water at 0.9982 g/mL.
    expect(found('more-than-went-in')).toMatchObject([
      { where: ['samples', 0, 'obtained'], obtained: '205 g', actual: '205 g' },
    ]);
    expect(found('more-than-went-in')[0]!.wentIn).toMatch(/^67\.\d* ± \S+ g$/);
  });
  it('is found at its drying, where nothing else says how much it was', () => {
    const dried = (withProduct: string) =>
      look(
        pigment +
          reaction +
          reagents(vitriol, soda) +
          `samples: [{ sample: A, dried: [{ dish: 20.00 g, with-product: ${withProduct}, after: 4 h }] }]\n`,
      );
    expect(dried('22.60 g').found('above-100-percent')).toMatchObject([
      { where: ['samples', 0, 'dried'], actual: expect.stringMatching(/^2\.600? ± /) as unknown },
    ]);
    expect(dried('225.00 g').found('more-than-went-in')).toMatchObject([{ where: ['samples', 0, 'dried'] }]);
    expect(dried('21.98 g').rules).not.toContain('above-100-percent');
  });
});

describe('what keeps an amount from being known', () => {
  it('is found at the amount of what takes part, and nowhere else', () => {
    const volume = 'reagent: blue-vitriol, amount: 5.0 mL';
    expect(look(malachite(volume, soda, water)).found('density-missing')).toMatchObject([
      { where: ['reagents', 0, 'amount'], actual: '5.0 mL' },
    ]);
    expect(look(malachite(vitriol, soda, water, `${volume}, role: additive`)).rules).not.toContain('density-missing');
    expect(look(pigment + reagents(volume) + samples).rules).not.toContain('density-missing');
  });
  it('is not asked of the solvent, of which nobody counts the drops', () => {
    const drops = 'reagent: { name: water, formula: H2O }, amount: 12 drops';
    expect(look(malachite(vitriol, soda, `${drops}, role: solvent`)).rules).not.toContain('drop-volume-missing');
    expect(look(malachite(vitriol, soda, drops)).rules).toContain('drop-volume-missing');
  });
});

describe('what had to be assumed', () => {
  it('of a strength is said once at the reagent, under its name', () =>
    expect(look(reagents('reagent: { name: battery acid }, amount: 5.0 mL')).found('strength-from-name')).toEqual([
      expect.objectContaining({
        where: ['reagents', 0],
        about: 'battery acid',
        message: expect.stringMatching(/%/) as unknown,
      }),
    ]));
  it('without a rule of its own is not', () => {
    const doubts = ['strength-from-name', 'density-does-not-fit', 'density-fits-two-strengths', 'beyond-table'];
    const { rules } = look(reagents('reagent: { name: acid, formula: H2SO4, strength: 96 % }, amount: 5.0 mL'));
    expect(rules.filter((rule) => doubts.includes(rule))).toEqual([]);
  });
  it('of a formula that can be read in two ways is said with the formula', () =>
    expect(
      look(reagents('reagent: { name: "odd salt, anhydrous", formula: Na2CO3.2NaCl }, amount: 1 g')).found('full-stop'),
    ).toEqual([expect.objectContaining({ where: ['reagents', 0], actual: 'Na2CO3.2NaCl' })]));
});

describe('what a sample took', () => {
  const of = (matter: string, at = 0, jars: typeof shelf = shelf) =>
    look(matter, {}, jars).amounts.samples[0]!.ingredients[at]!;
  const lye = (amount: string): string =>
    `${pigment}reaction: CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4\n`.replace(/Cu2CO3\(OH\)2/, 'Cu(OH)2') +
    reagents(vitriol, `reagent: caustic-soda, amount: ${amount}, role: base`);

  it('stands as it was written, with what it comes to and what the reaction makes of it', () => {
    expect(of(malachite(vitriol, soda, water))).toEqual({
      id: 'blue-vitriol',
      name: 'copper(II) sulfate pentahydrate',
      formula: 'CuSO4·5H2O',
      formulaSet: expect.anything() as unknown,
      role: 'reactant',
      purityNotStated: true,
      written: '5.00 g',
      mass: { value: '5', uncertainty: '0.00577', unit: 'g', text: '5.00 g' },
      // 5.00 / 249.68 mol.
      amount: expect.objectContaining({ unit: 'mol', text: '20.026 mmol' }) as unknown,
      pure: expect.objectContaining({ value: '5', unit: 'g' }) as unknown,
      equivalents: { value: '1', unit: '', text: '1' },
      limiting: true,
      left: expect.objectContaining({ value: '0', unit: 'g', text: '0 g' }) as unknown,
      supplies: ['CuSO4'],
      // 5.00 g at 11.00 EUR a kilogram: 5.5 cents.
      cost: { value: '0.055', unit: 'EUR', text: '0.06 EUR' },
    });
  });
  it('in excess has its equivalents and what is left of it', () => {
    // 23.588 mmol against 20.026; 0.3775 g are left.
    expect(of(malachite(vitriol, soda, water), 1)).toMatchObject({
      equivalents: { unit: '', text: '1.178' },
      left: { unit: 'g', text: expect.stringMatching(/^0\.37[78]\d? g$/) as unknown },
      limiting: false,
      supplies: ['Na2CO3'],
    });
  });
  it('by volume is shown in its own millilitres, as a mass by its density, and as what is dissolved', () => {
    // 10.0 mL at 1.08 g/mL; 2.0 mol/L make 20.0 mmol, 0.800 g of NaOH (39.997 g/mol).
    const one = of(lye('10.0 mL'), 1);
    expect(one).toMatchObject({
      role: 'base',
      written: '10.0 mL',
      volume: { value: '10', unit: 'mL', text: '10.0 mL' },
      amount: { value: '0.02', unit: 'mol' },
      pure: { unit: 'g' },
    });
    expect(Number(one.mass!.value)).toBeCloseTo(10.8, 8);
    expect(Number(one.pure!.value)).toBeCloseTo(0.79994, 4);
  });
  it.each([
    ['mass', '5000 mg', '5 g'],
    ['mass', '0.005000 kg', '5.000000 g'],
  ])('a %s of %s is shown in grams too', (_, amount) => {
    const { mass, written } = of(malachite(`reagent: blue-vitriol, amount: ${amount}`, soda));
    expect(written).toBe(amount);
    expect(mass!.value).toBe('5');
    expect(mass!.text).toMatch(/^5\.00\d* g$/);
  });
  it('a volume in litres is shown in millilitres too', () =>
    expect(of(lye('0.0100 L'), 1).volume!.text).toMatch(/^10\.0\d* mL$/));
  it('has no key without a value', () => {
    const { amounts } = look(malachite(vitriol, 'reagent: soda', water, 'reagent: { name: odd }'));
    expect(amounts).toStrictEqual(JSON.parse(JSON.stringify(amounts)));
    const [, bare, , odd] = amounts.samples[0]!.ingredients;
    for (const key of [
      'written',
      'mass',
      'volume',
      'amount',
      'pure',
      'left',
      'equivalents',
      'lot',
      'excess',
      'asIfPure',
    ])
      expect([key, key in bare!]).toEqual([key, false]);
    for (const key of ['formula', 'supplies', 'purityNotStated', 'cost', 'assayed'])
      expect([key, key in odd!]).toEqual([key, false]);
  });
  it('in excess without an amount is said to be', () => {
    expect(of(malachite(vitriol, 'reagent: soda, amount: excess'), 1)).toMatchObject({ excess: true, limiting: false });
    expect(of(malachite(vitriol, soda), 1)).not.toHaveProperty('excess');
  });
  it('of stated purity or strength, or that takes no part, is not said to be as if pure', () => {
    const salt = 'reagent: { name: salt, formula: NaCl }, amount: 1.0 g, role: additive';
    const stated = 'reagent: { name: soda, formula: Na2CO3, purity: 98 % }, amount: 2.50 g';
    expect(of(malachite(vitriol, stated, salt), 1)).not.toHaveProperty('purityNotStated');
    expect(of(malachite(vitriol, stated, salt), 2)).not.toHaveProperty('purityNotStated');
    expect(of(malachite(vitriol, soda), 1).purityNotStated).toBe(true);
  });
  it('from a jar that was assayed says what the assay came to', () => {
    // Source: Talbot, Introductory course of quantitative chemical analysis: 0.0530 g for 10 mL of tenth normal acid.
    const assay = {
      by: 'titration',
      taken: '0.0530 g',
      titrant: 'HCl 0.1 mol/L',
      used: '10.00 mL',
      indicator: 'methyl orange',
    };
    const jars = { ...shelf, soda: { ...shelf.soda!, assay } } as typeof shelf;
    const { assayed } = of(malachite(vitriol, soda), 1, jars);
    expect(assayed).toMatchObject({ by: 'titration', unit: '%' });
    expect(Number(assayed!.value)).toBeCloseTo(100, 0);
    expect(of(malachite(vitriol, soda), 1)).not.toHaveProperty('assayed');
  });
  it.each([
    ['', true],
    [', role: reactant', true],
    [', role: base', true],
    [', role: acid', true],
    [', role: solvent', false],
    [', role: additive', false],
    [', role: flux', false],
    [', role: wash', false],
  ])('reacts or stands by, as its role is: soda%s', (role, reacts) => {
    const { amounts, rules } = look(malachite(vitriol, `${soda}${role}`));
    expect(amounts.samples[0]!.percentYield !== undefined).toBe(reacts);
    expect(rules.includes('reactant-without-reagent')).toBe(!reacts);
  });
});

describe('a sample with a formula of its own', () => {
  const yieldOf = (matter: string): number => Number(look(matter).amounts.samples[0]!.theoreticalYield!.value);
  const own = (formula: string): string =>
    pigment +
    reaction +
    reagents(vitriol, soda) +
    `samples: [{ sample: A, formula: "${formula}", obtained: 1.50 g }]\n`;
  // 20.026 mmol of copper in 10.013 mmol of malachite (221.114 g/mol).
  it('is reckoned as what firing leaves of the product, by the metal that both hold', () => {
    // 20.026 mmol of CuO, 79.545 g/mol; of Cu2O, 143.091 g/mol, half as many.
    expect(yieldOf(own('CuO'))).toBeCloseTo(1.59296, 3);
    expect(yieldOf(own('Cu2O'))).toBeCloseTo(1.43276, 3);
  });
  it('is reckoned as another hydrate of it', () => {
    const violet = (formula: string): string => `pigment: { name: cobalt violet, formula: Co3(PO4)2 }
reaction: 3 CoCl2 + 2 Na2HPO4 -> Co3(PO4)2 + 4 NaCl + 2 HCl
${reagents('reagent: { name: cobalt chloride hexahydrate, formula: CoCl2·6H2O }, amount: 2.379 g', 'reagent: { name: phosphate, formula: Na2HPO4 }, amount: excess')}samples: [{ sample: A${formula} }]`;
    // 2.379 / 237.93 = 9.999 mmol of cobalt, a third of it times 366.74 and 510.86 g/mol.
    expect(yieldOf(violet(''))).toBeCloseTo(1.2223, 3);
    expect(yieldOf(violet(', formula: Co3(PO4)2·8H2O'))).toBeCloseTo(1.7026, 3);
  });
  it('that cannot be read, or that shares no metal with the product, is reckoned as the product', () => {
    expect(yieldOf(own('Cu(('))).toBeCloseTo(2.214, 3);
    expect(yieldOf(own('CuXx'))).toBeCloseTo(2.214, 3);
    expect(yieldOf(own('Fe2O3'))).toBeCloseTo(2.214, 3);
  });
  it('is nothing where no reaction makes anything', () =>
    expect(
      look(`${pigment}samples: [{ sample: A, formula: CuO, obtained: 1 g }]`).amounts.samples[0]!,
    ).not.toHaveProperty('theoreticalYield'));
  // What every other salt holds too says nothing of what became of the product: 6.355 g of copper are 0.1000 mol.
  it.each([
    ['H', 'Cu + H2 -> CuH2', 'CuH2', 'MgH2', 65.562],
    ['C', 'Cu + C -> CuC', 'CuC', 'SiC', 75.557],
    ['N', '3 Cu + N2 -> Cu3N2', 'Cu3N2', 'BN', 218.652 / 3],
    ['O', '2 Cu + O2 -> 2 CuO', 'CuO', 'MgO', 79.545],
    ['S', 'Cu + S -> CuS', 'CuS', 'ZnS', 95.61],
    ['P', '3 Cu + P -> Cu3P', 'Cu3P', 'AlP', 221.612 / 3],
    ['F', 'Cu + F2 -> CuF2', 'CuF2', 'CaF2', 101.543],
    ['Cl', 'Cu + Cl2 -> CuCl2', 'CuCl2', 'NaCl', 134.45],
    ['Br', 'Cu + Br2 -> CuBr2', 'CuBr2', 'KBr', 223.354],
    ['I', 'Cu + I2 -> CuI2', 'CuI2', 'KI', 317.355],
  ])('is not taken for the product by the %s of both', (_, equation, product, formula, perCopper) => {
    const other = equation.split(' + ')[1]!.split(' ->')[0]!;
    const matter = `pigment: { name: made, formula: ${product} }
reaction: ${equation}
${reagents('reagent: { name: copper, formula: Cu }, amount: 6.3546 g', `reagent: { name: other, formula: ${other} }, amount: excess`)}`;
    expect(yieldOf(`${matter}samples: [{ sample: A, formula: ${formula} }]`)).toBeCloseTo(perCopper / 10, 2);
  });
});

describe('the yield of a sample', () => {
  const sample = (matter: string) => look(matter).amounts.samples[0]!;
  it('has its units, and the mass of all that was used', () => {
    const { theoreticalYield, percentYield, obtained, massIntensity } = sample(malachite(vitriol, soda, water));
    expect([theoreticalYield, percentYield, obtained, massIntensity].map((one) => one!.unit)).toEqual([
      'g',
      '%',
      'g',
      'g/g',
    ]);
    expect(sample(malachite(vitriol, soda, water))).not.toHaveProperty('noYield');
  });
  it('has no mass of all that was used where one of the masses is not known', () =>
    expect(sample(malachite(vitriol, soda, 'reagent: vinegar, amount: some, role: acid'))).not.toHaveProperty(
      'massIntensity',
    ));
  it('that was not weighed is told in the words of the maker, and why no yield follows', () => {
    const { obtainedWords, noYield, ...rest } = sample(malachite(vitriol, soda).replace('1.98 g', 'a jam jar full'));
    expect(obtainedWords).toBe('a jam jar full');
    expect(noYield).toBe('what was obtained was not weighed (“a jam jar full”)');
    for (const key of ['obtained', 'percentYield']) expect(rest).not.toHaveProperty(key);
    expect(sample(malachite(vitriol, soda))).not.toHaveProperty('obtainedWords');
  });
  it('that is told with a stop has none inside the sentence that says why', () => {
    const told = (obtained: string) => sample(malachite(vitriol, soda).replace('1.98 g', obtained)).noYield;
    expect(told('a jam jar full.')).toBe('what was obtained was not weighed (“a jam jar full”)');
    expect(told('"nothing!"')).toBe('nothing was obtained (“nothing”), which is 0 %');
  });
  it('that rests on something too rough has no per cent, and keeps what was obtained and could be had', () => {
    const { theoreticalYield, obtained, noYield, ...rest } = sample(
      malachite('reagent: blue-vitriol, amount: 5 g ± 4 g', 'reagent: soda, amount: excess').replace(
        '1.98 g',
        '4.50 g',
      ),
    );
    expect(Number(theoreticalYield!.value)).toBeCloseTo(2.214, 3);
    expect(obtained!.value).toBe('4.5');
    expect(noYield).toMatch(/^the amounts are too rough for one/);
    for (const key of ['percentYield', 'overHundred', 'cumulativeYield']) expect(rest).not.toHaveProperty(key);
  });
  it('of a salt of unknown water is told between its ends', () => {
    // 5.00 g of CuSO4 (159.60) are 31.33 mmol, of CuSO4·5H2O 20.03; half of it is malachite: 3.46 g and 2.21 g.
    const { noYield } = sample(
      malachite(
        'reagent: { name: copper sulfate, formula: CuSO4·xH2O }, amount: 5.00 g',
        'reagent: soda, amount: excess',
      ),
    );
    expect(noYield).toContain('to 3.46 g could be had');
  });
  it('lies between bounds where weighing cannot tell what limits', () => {
    // 5.1 ± 0.0577 g of lead nitrate, 331.2 ± 1.27 g/mol (lead is 207.2 ± 1.1 in nature, a rectangle): 15.399 ± 0.184
    // mmol; 3.0 ± 0.0577 g of chromate (194.19): 15.449 ± 0.297. The least of the lower ends, 15.152, and of the upper,
    // 15.583, times 323.19 g/mol.
    const yellow = (grams: string): string => `pigment: { name: chrome yellow, formula: PbCrO4 }
reaction: Pb(NO3)2 + K2CrO4 -> PbCrO4 + 2 KNO3
${reagents('reagent: { name: lead nitrate, formula: Pb(NO3)2 }, amount: 5.1 g', `reagent: { name: potassium chromate, formula: K2CrO4 }, amount: ${grams}`)}samples: [{ sample: A }]`;
    expect(sample(yellow('3.0 g')).undecided).toMatchObject({
      theoreticalYield: { low: { value: '4.897' }, high: { value: '5.036' } },
    });
    expect(sample(yellow('6.0 g'))).not.toHaveProperty('undecided');
  });
  it('is told by these bounds wherever it is told, and its ± reaches to the farther one', () => {
    // 3 ± 0.577 g of CuSO4·5H2O (249.68): 9.70 to 14.33 mmol, of which two make one; 2.5 ± 0.0577 g of the ferrocyanide
    // (422.39): 5.782 to 6.055 mmol. The least of the lower ends, 4.852, and of the upper, 6.055, times 339.03 g/mol;
    // 2.4 ± 0.0577 g of these are 114.1 to 149.4 %.
    const brown = `pigment: { name: Hatchett's brown, formula: Cu2Fe(CN)6 }
reaction: 2 CuSO4 + K4Fe(CN)6 -> Cu2Fe(CN)6 + 2 K2SO4
${reagents('reagent: { name: blue vitriol, formula: CuSO4·5H2O }, amount: 3 g', 'reagent: { name: prussiate, formula: K4Fe(CN)6·3H2O }, amount: 2.5 g')}samples: [{ sample: A, obtained: 2.4 g }]`;
    const { theoreticalYield, percentYield, overHundred } = sample(brown);
    expect(theoreticalYield).toMatchObject({ text: '1.64 to 2.06 g', within: { low: '1.6449', high: '2.05305' } });
    expect(percentYield).toMatchObject({ text: '114 to 150 %', uncertainty: '29.8' });
    expect(Number(percentYield!.within!.low)).toBeCloseTo(114.1, 1);
    expect(Number(percentYield!.within!.high)).toBeCloseTo(149.4, 1);
    expect(overHundred).toBeDefined();
    // Of 2.0 g the lower bound is 94.6 %: it need not be above 100 %.
    expect(sample(brown.replace('2.4 g', '2.0 g'))).not.toHaveProperty('overHundred');
  });
  it('above a hundred per cent is explained, and more than went in is called impossible', () => {
    const of = (grams: string) => sample(malachite(vitriol, soda, water).replace('1.98 g', grams)).overHundred;
    expect(of('1.98 g')).toBeUndefined();
    expect(of('2.60 g')).toBe(
      'A yield above 100 % cannot all be the pure pigment: the product is still wet or holds salts or unspent reagent, ' +
        'or it is not quite what its formula says (a hydrate, for example).',
    );
    const unweighed = malachite(vitriol, soda, 'reagent: vinegar, amount: some, role: acid');
    expect(sample(unweighed.replace('1.98 g', '205 g')).overHundred).toBe(of('2.60 g'));
    expect(of('205 g')).toMatch(/^A yield of \d+ ± \d+ % is impossible: more came out than went in\. /);
  });
  it('above a hundred per cent names two amounts that explain it the wrong way round', () => {
    // 3.00 g of BaCl2·2H2O (244.26) could give 2.87 g of BaSO4 (233.39), 5.00 g of Na2SO4 are ample; swapped, 5.00 g
    // are 20.47 mmol beside 21.12 of Na2SO4 (142.04): 4.78 g, of which 4.50 g are 94 %.
    const white = (one: string, other: string, grams: string) =>
      look(`pigment: { name: blanc fixe, formula: BaSO4 }
reaction: BaCl2 + Na2SO4 -> BaSO4 + 2 NaCl
${reagents(`reagent: { name: barium chloride, formula: BaCl2·2H2O }, amount: ${one}`, `reagent: { name: sodium sulfate, formula: Na2SO4 }, amount: ${other}`, water)}samples: [{ sample: A, obtained: ${grams} }]`);
    const { amounts, found } = white('3.00 g', '5.00 g', '4.50 g');
    const said =
      ' If the amounts of barium chloride and sodium sulfate were written the wrong way round, it is about 94 %.';
    expect(found('above-100-percent')[0]).toMatchObject({ swapped: said });
    expect(amounts.samples[0]!.overHundred).toContain(said);
    // The right way round, and wet: 5.20 g of 4.78 g; swapped it would be 181 %.
    expect(white('5.00 g', '3.00 g', '5.20 g').found('above-100-percent')[0]).not.toHaveProperty('swapped');
    expect(white('3.00 g', '5.00 g', '2.70 g').found('above-100-percent')).toEqual([]);
  });
  it.each(['0 g', '0.00 g', '0', 'nothing', 'Nothing.', 'none', 'nichts'])(
    'of %s is that nothing was obtained',
    (words) => {
      const { noYield, ...rest } = sample(malachite(vitriol, soda).replace('1.98 g', words));
      expect(noYield).toMatch(/^nothing was obtained \(“.+”\), which is 0 %$/);
      expect(rest).not.toHaveProperty('percentYield');
    },
  );
  it.each(['not weighed', 'some'])('of %s is none that was weighed', (words) =>
    expect(sample(malachite(vitriol, soda).replace('1.98 g', words)).noYield).toContain('not weighed'),
  );
  it('of a reaction that has its sides the wrong way round is told with them changed', () => {
    const turned = malachite(vitriol, soda).replace(
      reaction,
      'reaction: Cu2CO3(OH)2 + 2 Na2SO4 + CO2 -> 2 CuSO4 + 2 Na2CO3 + H2O\n',
    );
    expect(look(turned).found('product-not-in-reaction')[0]).toMatchObject({
      turned: '2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2',
    });
    const other = malachite(vitriol, soda).replace('Cu2CO3(OH)2 }', 'ZnO }');
    expect(look(other).found('product-not-in-reaction')[0]).not.toHaveProperty('turned');
  });
  it('above a hundred per cent is put down to a solid that is left over', () => {
    // 10.00 g of ZnO, 122.88 mmol, beside 1.00 mL of acid that takes 21.99 mmol: 8.21 g stay.
    const { overHundred, metals } = sample(
      'pigment: { name: zinc phosphate, formula: Zn3(PO4)2·4H2O }\n' +
        'reaction: 3 ZnO + 2 H3PO4 + H2O -> Zn3(PO4)2·4H2O\n' +
        'reagents:\n  - { reagent: { name: zinc oxide, formula: ZnO }, amount: 10.00 g }\n' +
        '  - { reagent: { name: phosphoric acid, formula: H3PO4, strength: 85 %, density: 1.69 g/mL }, amount: 1.00 mL }\n' +
        '  - { reagent: { name: water, formula: H2O }, amount: 50 mL }\nsamples: [{ sample: A, obtained: 11.4 g }]',
    );
    expect(overHundred).toMatch(/8\.21\d? g of zinc oxide, which no water takes out, is left over/);
    expect(metals?.[0]).toMatchObject({ symbol: 'Zn' });
  });
  it('above a hundred per cent is set against another as a mass only', () => {
    const two = (grams: string): string =>
      pigment +
      reaction +
      reagents(vitriol, soda) +
      `samples: [{ sample: A, obtained: 1.98 g }, { sample: B, obtained: ${grams} }]`;
    const measured = (grams: string) => look(two(grams)).amounts.comparisons!.map(({ measure }) => measure);
    expect(measured('2.05 g')).toEqual(['percent yield']);
    expect(measured('2.60 g')).toEqual(['mass obtained']);
  });
});

describe('what nobody measured', () => {
  const enough = (...lines: string[]) => look(malachite(...lines)).amounts.samples[0]!;
  const some = 'reagent: soda, amount: some';
  it('is taken to have been enough where it is meant to be in excess, or where the other is meant to limit', () => {
    for (const one of [
      enough(vitriol, `${some}, intent: excess`),
      enough(`${vitriol}, intent: limiting`, some),
      enough(`${vitriol}, intent: limiting`, `${some}, intent: excess`),
    ]) {
      expect(one.takenAsEnough).toBe('sodium carbonate, anhydrous (“some”)');
      expect(Number(one.percentYield!.value)).toBeCloseTo(89.431, 2);
    }
  });
  it('is so too where its amount is not said or could not be read', () => {
    const one = enough(vitriol, 'reagent: soda, intent: excess');
    expect(one.takenAsEnough).toBe('sodium carbonate, anhydrous (not said)');
    expect(Number(one.percentYield!.value)).toBeCloseTo(89.431, 2);
    expect(enough(vitriol, 'reagent: soda')).not.toHaveProperty('percentYield');
    for (const spoons of ['3 EL', '2 cuillères à soupe', '2 c. à s.', '3 càs', '2 cdas', '2 tbsp'])
      expect(
        Number(enough(vitriol, `reagent: soda, amount: ${spoons}, intent: excess`).percentYield!.value),
      ).toBeCloseTo(89.4, 1);
  });
  it('is not where nothing is meant, where it is itself meant to limit, or what is meant to is not known either', () => {
    for (const one of [
      enough('reagent: blue-vitriol, amount: some', `${some}, intent: limiting`),
      enough('reagent: blue-vitriol, amount: some, intent: limiting', some),
      enough(vitriol, `${some}, intent: limiting`),
      enough(`${vitriol}, intent: limiting`, `${some}, intent: limiting`),
      enough(`${vitriol}, intent: excess`, some),
    ]) {
      expect(one).not.toHaveProperty('takenAsEnough');
      expect(one).not.toHaveProperty('percentYield');
      expect(one.noYield).toContain('is not known');
    }
  });
});

describe('a reagent that is short of what was meant', () => {
  const short = (...lines: string[]) => look(malachite(...lines)).amounts.samples[0]!.short;
  it('has figures with their units, in two digits', () => {
    // 2.1225 g of soda would be needed: 1.50 g are 29.3 % short.
    expect(short(vitriol, 'reagent: soda, amount: 1.50 g, intent: excess')).toMatchObject([
      { percent: { unit: '%', text: '29 %' }, needed: { unit: 'g' }, theoreticalYieldThen: { unit: 'g' } },
    ]);
    expect(look(malachite(vitriol, soda)).amounts.samples[0]!).not.toHaveProperty('short');
  });
  it('that was measured by volume is needed by volume, by mass by mass', () => {
    const lye = `pigment: { name: copper hydroxide, formula: Cu(OH)2 }\nreaction: CuSO4 + 2 NaOH -> Cu(OH)2 + Na2SO4\n`;
    const needed = (amount: string) =>
      look(lye + reagents(vitriol, `reagent: caustic-soda, amount: ${amount}, intent: excess`) + samples).amounts
        .samples[0]!.short![0]!.needed;
    // 40.05 mmol at 2.0 mol/L and 1.08 g/mL.
    expect(needed('10.0 mL').unit).toBe('mL');
    expect(Number(needed('10.0 mL').value)).toBeCloseTo(20.026, 2);
    expect(needed('10.8 g').unit).toBe('g');
    expect(Number(needed('10.8 g').value)).toBeCloseTo(21.628, 2);
  });
});

describe('what a sample cost', () => {
  const of = (...lines: string[]) => look(malachite(...lines)).amounts.samples[0]!;
  it('is told for a gram of what was obtained', () => {
    // 5.00 g at 11.00 EUR and 2.50 g at 3.90 EUR a kilogram: 0.06475 EUR for 1.98 g.
    const { costPerGram } = of(vitriol, soda);
    expect(costPerGram!.unit).toBe('EUR');
    expect(Number(costPerGram!.value)).toBeCloseTo(0.0327, 5);
    expect(of(vitriol, soda)).not.toHaveProperty('unpriced');
  });
  it('is not told where something has no price; that is named, once', () => {
    const salt = 'reagent: { name: salt, formula: NaCl }, amount: 1.0 g, role: additive';
    const one = of(vitriol, soda, salt, salt);
    expect(one.unpriced).toEqual(['salt']);
    for (const key of ['cost', 'costPerGram']) expect(one).not.toHaveProperty(key);
  });
  it('has no share of nothing', () => {
    const nothing = look(malachite(vitriol, soda).replace('1.98 g', '0 g')).amounts.samples[0]!;
    expect(nothing.cost!.text).toBe('0.06 EUR');
    for (const key of ['costPerGram', 'metals']) expect(nothing).not.toHaveProperty(key);
  });
});

describe('the rest of a metal', () => {
  const wasteLine = (...lines: string[]) => look(malachite(...lines)).amounts.samples[0]!.metals![0]!.wasteLine!;
  it('is in the filtrate where there was a liquid, and lost where there was none', () => {
    expect(wasteLine(vitriol, soda)).toMatch(/^Not in the product, lost or left in the vessel: /);
    expect(wasteLine(vitriol, soda, 'reagent: water, amount: 60 g, role: solvent')).toMatch(/^Filtrate, /);
    const spirit = 'reagent: { name: spirit, formula: C3H8O }, amount: 20 g, role: solvent';
    expect(wasteLine(vitriol, soda, spirit)).toMatch(/^Filtrate, /);
    expect(wasteLine(vitriol, soda, 'reagent: vinegar, amount: 2.0 mL, role: acid')).toMatch(/^Filtrate, /);
  });
  it('is told from nothing to the most that it may be where weighing cannot tell: as waste, of a hazardous metal', () => {
    // 5.000 g of vitriol (249.68) can give 2.214 g of malachite; 2.213 g hold 1.2720 of 1.2726 g of copper.
    const account = look(malachite(vitriol, soda).replace('1.98 g', '2.21 g')).amounts.samples[0]!.metals![0]!;
    expect(account.rest.text).toMatch(/^0 to 0\.0\d+ g$/);
    expect(Number(account.rest.within!.high)).toBeGreaterThan(Number(account.rest.value));
    expect(account.restShare.text).toMatch(/^0 to \d\.\d+ %$/);
    expect(account.wasteLine).toBe(
      account.hazardous
        ? `Not in the product, lost or left in the vessel: ${account.rest.text} copper (${account.restShare.text} of what went in).`
        : undefined,
    );
    expect(account.hazardous).toBe(true);
  });
  it('is not told where the product cannot be weighed out', () => {
    const open = look(
      `pigment: { name: green, formula: "Cu2CO3(OH)2·xH2O" }\n` + reaction + reagents(vitriol, soda) + samples,
    );
    expect(open.amounts.samples[0]!).not.toHaveProperty('metals');
  });
});

describe('what is aimed at', () => {
  it('is set against what was taken', () => {
    const aimed = (target: string): string =>
      `pigment: { name: pink${target} }\n` +
      reagents(
        'reagent: { name: zinc oxide, formula: ZnO }, amount: 8.138 g',
        'reagent: { name: manganese oxide, formula: MnO }, amount: 7.094 g',
      );
    // 8.138 / 81.38 and 7.094 / 70.937: a tenth of a mole of each.
    expect(look(aimed(', target: Mn0.3Zn0.7O')).amounts.samples[0]!.target).toMatchObject({
      written: 'Mn0.3Zn0.7O',
      elements: expect.arrayContaining([{ symbol: 'Mn', target: '0.3', taken: '0.5' }]) as unknown,
    });
    expect(look(aimed('')).amounts.samples[0]!).not.toHaveProperty('target');
    // A tenth of a mole of each: zinc does for 0.1/0.7 units of 0.3 · 54.938 + 0.7 · 65.38 + 15.999 = 78.246 g.
    const { most, words } = look(aimed(', target: Mn0.3Zn0.7O')).amounts.samples[0]!.target!;
    expect(Number(most!.value)).toBeCloseTo(11.178, 2);
    expect(words).toContain(`That can give at most ${most!.text} of it.`);
  });
});

describe('samples of which the same is said', () => {
  const two = (a: string, b: string) =>
    look(`${pigment}samples: [{ sample: A, ${a} }, { sample: B, ${b} }]`).found('taken-as-repeat');
  it('are taken for repeats, at the words of the later', () => {
    expect(two('differs: cold', 'differs: Cold')).toEqual([
      { where: ['samples', 1, 'differs'], sample: 'B', repeats: 'A', differs: 'Cold', actual: 'Cold' },
    ]);
    expect(two('differs: cold', 'differs: warm')).toEqual([]);
    expect(two('differs: cold', 'differs: cold, replicate-of: A')).toEqual([]);
  });
});
