// What `weigh N` says of figures that cannot be read, cannot be, or that nobody measured: as honest as the page.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { command } from '../../src/commands/weigh.js';
import { openJournal } from '../../src/open.js';
import { run, type Said } from './bench.js';

let room = '';
beforeAll(() => {
  room = mkdtempSync(join(tmpdir(), 'masstone-as-written-'));
});
afterAll(() => rmSync(room, { recursive: true, force: true }));

const head = (number: number): string =>
  `number: ${number}\ntitle: Test ${number}\ndate: 2026-03-${String(number).padStart(2, '0')}\nstatus: finished\n`;
const malachite = `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g, intent: excess }
samples: [{ sample: A, obtained: 1.98 g }]
`;

/** A journal of entries by their numbers. */
function journalOf(entries: Readonly<Record<number, string>>, vitriol = 'purity: 98 %', status = 'finished'): string {
  const folder = mkdtempSync(join(room, 'journal-'));
  mkdirSync(join(folder, 'entries'));
  writeFileSync(join(folder, 'journal.yaml'), 'title: T\nauthor: A\naddress: https://test.example/\n');
  writeFileSync(
    join(folder, 'shelf.yaml'),
    `blue-vitriol:\n  name: copper sulfate pentahydrate\n  formula: CuSO4·5H2O\n  ${vitriol}\n` +
      'soda: { name: sodium carbonate, formula: Na2CO3, purity: 99 % }\n',
  );
  for (const [number, matter] of Object.entries(entries)) {
    const file = join(folder, 'entries', `${number.padStart(3, '0')}-test.md`);
    writeFileSync(file, `---\n${head(Number(number)).replace('finished', status)}${matter}---\nWords.\n`);
  }
  return folder;
}
const weigh = (folder: string, ...words: string[]): Promise<Said> => run(command, ...words, '--journal', folder);
const remarksOf = async (folder: string) =>
  (await openJournal(folder)).remarks.map(({ file, line, ruleId, fatal, reason, note }) => {
    return { place: `${file}:${line}`, ruleId, fatal: fatal === true, words: `${reason} ${note}` };
  });

describe('a purity that cannot be', () => {
  // Source: no substance is more than all of itself.
  test.each([
    ['980 %', '98.0 %'],
    ['100,5 %', 'at most 100 %'],
    ['100.5 %', 'at most 100 %'],
    ['101 %', 'at most 100 %'],
    ['~ 120 %', 'at most 100 %'],
    ['0 %', 'more than nothing'],
    ['-5 %', ''],
  ])('%s is an error at its line of the shelf, and is not reckoned with', async (purity, cure) => {
    const folder = journalOf({ 1: malachite }, `purity: "${purity}"`);
    const errors = (await remarksOf(folder)).filter(({ fatal }) => fatal);
    expect(errors).toMatchObject([{ place: 'shelf.yaml:4' }]);
    expect(errors[0]!.words).toContain(cure);
    const { result } = await weigh(folder, '1');
    expect(result).toMatch(/NOT READ, and left out below: shelf.yaml, blue-vitriol, purity: ‘/);
    expect(result).not.toContain('purity was not stated');
    expect(result).toContain('copper sulfate pentahydrate: as if pure; what is written of its purity was not read.');
  });
  test.each(['100 %', '≥ 99.5 %', '99.0-100.5 %', '99.9 ± 0.2 %', 'about 98 %'])('%s can be', async (purity) => {
    const folder = journalOf({ 1: malachite }, `purity: "${purity}"`);
    expect((await remarksOf(folder)).filter(({ fatal }) => fatal)).toEqual([]);
    expect((await weigh(folder, '1')).result).not.toContain('NOT READ');
  });
  test('nor a strength by mass beyond that of fuming sulfuric acid', async () => {
    const errors = async (strength: string) =>
      (await remarksOf(journalOf({ 1: malachite }, `strength: ${strength}`))).filter(({ fatal }) => fatal);
    expect(await errors('370 %')).toMatchObject([{ place: 'shelf.yaml:4' }]);
    // Source: SO3 is 98.08 / 80.06 = 122.5 % of H2SO4.
    expect(await errors('104 %')).toEqual([]);
  });
  test('wherever it is written', async () => {
    const inUse = malachite.replace('amount: 5.00 g', 'amount: 5.00 g, purity: 980 %');
    const named = malachite.replace('reagent: soda', 'reagent: { name: soda, formula: Na2CO3, purity: 105 % }');
    for (const matter of [inUse, named])
      expect((await remarksOf(journalOf({ 1: matter }))).filter(({ fatal }) => fatal)).toHaveLength(1);
  });
});

describe('a purity without its sign', () => {
  test.each([
    ['0.98', '98 %'],
    ['.985', '98.5 %'],
    ['1', '100 %'],
    ['98', '98 %'],
    ['99.5', '99.5 %'],
  ])('%s is asked about with %s', async (purity, cure) => {
    const folder = journalOf({ 1: malachite }, `purity: ${purity}`);
    const [error] = (await remarksOf(folder)).filter(({ fatal }) => fatal);
    expect(error!.place).toBe('shelf.yaml:4');
    expect(error!.words).toMatch(new RegExp(`Write (?:the unit: )?${cure.replace('.', '\\.')}`));
    const { result } = await weigh(folder, '1');
    expect(result).toContain('NOT READ');
    expect(result).not.toContain('purity was not stated');
  });
  test('so is a strength, which may be of another kind', async () => {
    const [error] = (await remarksOf(journalOf({ 1: malachite }, 'strength: 0.37'))).filter(({ fatal }) => fatal);
    expect(error!.words).toContain('Write 37 % if it is a share of one');
  });
});

describe('a product that got hotter than it stands', () => {
  const at = (heat: string) => `${malachite.replace('1.98 g', '1.50 g')}heating: [{ of: product, to: ${heat} }]\n`;
  test('is weighed as what that leaves of it', async () => {
    const folder = journalOf({ 1: at('500 °C') });
    const { result } = await weigh(folder, '1');
    // 5.00 g at 98 % give 19.63 mmol CuO (79.545): 1.561 g, of which 1.50 g are 96 %.
    expect(result).toMatch(/Theoretical yield of CuO: 1\.56\d* .* g\nObtained: 1\.500 .* g, which is 96/);
    expect(result).toContain('At 500 °C Cu2CO3(OH)2 has turned into CuO');
    // Scaled for the product that is asked for, the list is of that.
    expect((await weigh(folder, '1', '--for', '10 g')).result).toContain('Theoretical yield of Cu2CO3(OH)2');
  });
  test('has no yield while it turns', async () => {
    const { json } = await weigh(journalOf({ 1: at('250 °C') }), '1', '--json');
    expect(json.product.percentYield).toBeUndefined();
    expect(json.product.noYield).toContain('% if all was CuO');
  });
});

describe('an amount that nobody knows', () => {
  const withAmount = (amount: string) => malachite.replace('amount: 5.00 g', `amount: "${amount}"`);
  test.each(['some', 'five-ish grammes or so', 'a few crystals', '40.0 mL 0.50 mol/L'])(
    '“%s” is not made into what the reaction needs, and no yield is told of it',
    async (amount) => {
      const { result } = await weigh(journalOf({ 1: withAmount(amount) }), '1');
      expect(result).toContain(
        `copper sulfate pentahydrate: “${amount}” does not say how much of it there was; what is listed is what the ` +
          'reaction needs, and was not weighed.',
      );
      expect(result).toContain('Obtained: 1.980 ± 0.006 g\nNo yield is told: how much');
      expect(result).not.toContain('which is');
    },
  );
  test('JSON has no yield of it either', async () => {
    const { json } = await weigh(journalOf({ 1: withAmount('some') }), '1', '--json');
    expect(json.product.percentYield).toBeUndefined();
    expect(json.product.noYield).toContain('“some”');
  });
  test('nor where nothing is written', async () => {
    const { result } = await weigh(journalOf({ 1: malachite.replace(', amount: 5.00 g', '') }), '1');
    expect(result).toContain('copper sulfate pentahydrate: nothing says how much of it there was;');
    expect(result).toContain('No yield is told: nothing says how much');
  });
  test('a lot is told of alike', async () => {
    const second = `pigment: { name: verdigris, formula: Cu(CH3COO)2·H2O }
reaction: Cu2CO3(OH)2 + 4 CH3COOH -> 2 Cu(CH3COO)2 + 3 H2O + CO2
reagents:
  - { lot: 1/A, amount: some }
  - { reagent: { name: acetic acid, formula: CH3COOH, strength: 1.00 mol/L }, amount: 20.0 mL }
samples: [{ sample: A, obtained: 1.50 g }]
`;
    const { result } = await weigh(journalOf({ 1: malachite, 2: second }), '2');
    expect(result).toContain('“some” does not say how much of it there was');
    expect(result).not.toContain('which is');
  });
  test('a planned entry is filled in as before, and a measured one has its yield', async () => {
    const planned = await weigh(journalOf({ 1: withAmount('some') }, 'purity: 98 %', 'planned'), '1');
    expect(planned.result).toContain('as much as is needed');
    expect(planned.result).not.toContain('was not weighed');
    expect((await weigh(journalOf({ 1: malachite }), '1')).result).toContain('which is 91.');
  });
});

describe('a lot of which a finished entry took', () => {
  const taking = (amount: string) => `pigment: { name: verdigris, formula: Cu(CH3COO)2·H2O }
reaction: Cu2CO3(OH)2 + 4 CH3COOH -> 2 Cu(CH3COO)2 + 3 H2O + CO2
reagents:
  - { lot: 1/A, amount: ${amount} }
  - { reagent: { name: acetic acid, formula: CH3COOH, strength: 1.00 mol/L }, amount: 20.0 mL }
samples: [{ sample: A, obtained: 1.50 g }]
`;
  test.each(['1.00 g', '1.50 g', '1.98 g'])('had %s of 1.98 g: it is not taken off twice', async (amount) => {
    const folder = journalOf({ 1: malachite, 2: taking(amount) });
    expect((await weigh(folder, '2')).result).not.toContain('are needed');
  });
  test('more than there was is said', async () => {
    const { result } = await weigh(journalOf({ 1: malachite, 2: taking('2.50 g') }), '2');
    expect(result).toContain('Lot 1/A: 2.5 g are needed and 1.98 g are left.');
  });
  test('another batch of it asks for what is left', async () => {
    const folder = journalOf({ 1: malachite, 2: taking('1.00 g') });
    expect((await weigh(folder, '2', '--for', '10 g')).result).toMatch(/Lot 1\/A: .* needed and 0.98 g are left/);
  });
  test('what another took is gone', async () => {
    const folder = journalOf({ 1: malachite, 2: taking('1.00 g'), 3: taking('1.50 g') });
    expect((await weigh(folder, '3')).result).toContain('Lot 1/A: 1.5 g are needed and 0.98 g are left.');
  });
});

describe('what is asked for is no measurement', () => {
  const uncertain = async (...words: string[]): Promise<number> =>
    Number((await run(command, ...words, '--json')).json.makes.strengthUncertaintyPercent);
  test.each([
    [['--dilute', 'H2SO4 98 %', '--to', '37 %', '--make', '1 L'], 1],
    [['--dilute', 'CuSO4·5H2O 1 mol/L', '--to', '0.1 mol/L', '--make', '250 mL'], 1],
    [['--dilute', 'NaOH 1 mol/L', '--to', '0.5 mol/L', '--make', '1 L'], 1],
    [['--dilute', 'HCl 37 %', '--to', '1 mol/L', '--make', '2 L'], 2],
  ] as const)('%j', async (words, most) => {
    expect(await uncertain(...words)).toBeLessThan(most);
  });
  test('a ± of its own counts', async () => {
    // Source: ± 0.05 of 1 mol/L as a rectangle, k = 2: 100 % · 0.05 · 2/√3 = 5.8 %.
    const stock = 'CuSO4·5H2O 1.00 mol/L ± 0.05 mol/L';
    expect(await uncertain('--dilute', stock, '--to', '0.1 mol/L', '--make', '250 mL')).toBeCloseTo(5.8, 1);
    // ± 10 mL of 250 mL: 4.6 %.
    const mark = await uncertain('--dilute', 'NaCl 1.000 mol/L', '--to', '0.1 mol/L', '--make', '250 mL ± 10 mL');
    expect(mark).toBeCloseTo(4.6, 1);
  });
  test('it is said', async () => {
    const { result } = await run(command, '--dilute', 'NaOH 1 mol/L', '--to', '0.5 mol/L', '--make', '1 L');
    expect(result).toContain('The stock’s 1 mol/L is taken as what it was made to be; its digits count as no ±.');
  });
});

describe('ounces and pounds', () => {
  const reaction = 'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4';
  test.each(['1 oz', '1.00 oz', '1 lb', '2 ounces', '1 lb 4 oz'])('%s was weighed', async (amount) => {
    const words = ['--reaction', reaction, '--reagent', `CuSO4·5H2O ${amount}`, '--reagent', 'Na2CO3 100 g'];
    const { result } = await run(command, ...words);
    expect(result).not.toContain('measured by volume');
    expect(result).not.toContain('g/mL');
  });
  test('a spoon was measured by volume', async () => {
    const words = ['--reaction', reaction, '--reagent', 'CuSO4·5H2O 2 tsp', '--reagent', 'Na2CO3 100 g'];
    expect((await run(command, ...words)).result).toContain('it was measured by volume; 1.52 g/mL');
  });
});

describe('a comma and a stock of one’s own', () => {
  test.each(['5,00 g', '5,0 g', '0,50 mol/L 40,0 mL'])(
    '%s on the command line is read as entries read it',
    async (amount) => {
      const words = [
        '--reaction',
        'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
        '--reagent',
        'Na2CO3 2.50 g',
        '--json',
        '--reagent',
      ];
      const [comma, point] = [amount, amount.replaceAll(',', '.')].map((text) =>
        run(command, ...words, `CuSO4·5H2O ${text}`),
      );
      expect((await comma)!.json.reagents).toEqual((await point)!.json.reagents);
    },
  );
  test('a comma that may mean two things is asked about', async () => {
    const words = ['--reaction', 'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4', '--reagent', 'CuSO4·5H2O 5,000 g'];
    expect((await run(command, ...words)).code).toBe(1);
  });
  const solution = `pigment: { name: copper sulfate solution, formula: CuSO4 }
reagents: [{ reagent: blue-vitriol, amount: 31.21 g }]
samples: [{ sample: A, obtained: 250 mL }]
`;
  const taken = (strength: string) =>
    malachite.replace('reagent: blue-vitriol, amount: 5.00 g', `lot: 1/A, ${strength}`);
  test('its strength stands beside its amount, and the message says so', async () => {
    const without = await weigh(journalOf({ 1: solution, 2: taken('amount: 40.0 mL') }), '2');
    expect(`${without.result}${without.aside}`).toContain('strength: 0.50 mol/L, amount: 40.0 mL');
    const { json } = await weigh(
      journalOf({ 1: solution, 2: taken('strength: 0.50 mol/L, amount: 40.0 mL') }),
      '2',
      '--json',
    );
    // 40.0 mL of 0.50 mol/L hold 20 mmol of CuSO4, half as much malachite (221.11 g/mol).
    expect(Number(json.product.theoreticalYield.value)).toBeCloseTo(2.211, 2);
  });
});

test('more gas than a room holds fills it, and is no impossible concentration', async () => {
  const words = [
    '--reaction',
    'CaCO3 + 2 HCl -> CaCl2 + CO2 + H2O',
    '--reagent',
    'CaCO3 5000 t',
    '--reagent',
    'HCl 36 % 99999 t',
  ];
  const { result } = await run(command, ...words);
  const figures = [...result.matchAll(/(\d[\d.]*) ppm/g)].map(([, figure]) => Number(figure));
  expect(Math.max(...figures, 0)).toBeLessThanOrEqual(1e6);
});

describe('gr and oz on the line', () => {
  const asked = ['--reaction', 'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4', '--reagent'];
  test('gr is grams, and that is said', async () => {
    const { result, aside } = await run(
      command,
      ...asked,
      'CuSO4·5H2O 5.00 gr',
      '--reagent',
      'Na2CO3 excess',
      '--json',
    );
    expect(JSON.parse(result).reagents[0].mass.value).toBe('5');
    expect(aside).toContain('gr mostly stands for grams');
  });
  // 1 oz is 28.35 g (international avoirdupois ounce, 28.349523125 g by definition); M(CuCO3) 123.55, M(CuSO4) 159.60.
  test('an ounce is wanted', async () => {
    const { result } = await run(
      command,
      ...asked,
      'CuSO4 5.00 g',
      '--reagent',
      'Na2CO3 excess',
      '--for',
      '1 oz',
      '--json',
    );
    expect(Number(JSON.parse(result).reagents[0].mass.value)).toBeCloseTo((28.35 * 159.6) / 123.55, 1);
  });
});
