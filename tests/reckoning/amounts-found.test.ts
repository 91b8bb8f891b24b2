// What reckoning finds of an entry's amounts, as plain data, and the figures of the whole entry.
// Figures by hand from the abridged atomic weights (CIAAW 2021); what must be remarked is common practice, no source.
import { describe, expect, it } from 'vitest';
import type { JournalSettings } from '../../src/journal/schema.js';
import { reckonAmounts } from '../../src/reckoning/amounts.js';
import type { ReckoningContext } from '../../src/reckoning/contracts.js';
import { entry, shelf } from './entries.js';

function look(matter: string, settings: Partial<JournalSettings> = {}, jars: typeof shelf = shelf) {
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
    lot: () => undefined,
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
        actual: '1.50 g',
      },
    ]));
  it('in excess, and within weighing of limiting, is too close', () => {
    expect(meant('2.123', 'excess').found('limits-though-meant-in-excess')).toMatchObject([
      { how: 'too-close', limits: 'copper(II) sulfate pentahydrate' },
    ]);
    expect(meant('2.122', 'excess').found('limits-though-meant-in-excess')).toMatchObject([{ how: 'may-limit' }]);
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
    expect(of('purity: 101 %')).toEqual(['purity-above-100']);
    expect(of('strength: 104 %')).toEqual(['strength-above-100']);
    expect(of('purity: 100 %')).toEqual([]);
    expect(of('strength: 100 %')).toEqual([]);
    expect(of('purity: 98 %')).toEqual([]);
  });
  it('are said as they were written', () =>
    expect(
      look(reagents('reagent: { name: soda, formula: Na2CO3, purity: 101 % }, amount: 1.0 g')).found(
        'purity-above-100',
      ),
    ).toEqual([{ where: ['reagents', 0], purity: '101 %', actual: '101 %' }]));
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
    expect(found('more-than-went-in')[0]!.wentIn).toMatch(/^67\.\d* ± /);
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
});
