// masstone formula: its JSON, its words, its exit codes, and how little code it loads.
import { describe, expect, test } from 'vitest';
import { command } from '../../src/commands/formula.js';
import { referenceRows } from '../reference/read.js';
import { roomsLoaded, run, tablesLoaded } from './bench.js';

describe('masstone formula', () => {
  test('--json gives formula, charge, molar mass and elements, decimals as text', async () => {
    const { code, json } = await run(command, '--json', 'CuSO4·5H2O');
    expect(code).toBe(0);
    expect(json).toMatchObject({ formula: 'CuSO4·5H2O', charge: 0, molarMass: { value: '249.677', unit: 'g/mol' } });
    expect(Number(json.molarMass.uncertainty)).toBeGreaterThan(0.005);
    expect(json.elements.map(({ symbol, count: n }: { symbol: string; count: string }) => `${symbol}${n}`)).toEqual([
      'Cu1',
      'S1',
      'O9',
      'H10',
    ]);
    expect(
      json.elements.reduce((sum: number, { massFraction }: { massFraction: string }) => sum + Number(massFraction), 0),
    ).toBeCloseTo(1, 9);
  });
  test.each([
    ['kupfersulfat', 'CuSO4'],
    ['washing soda', 'Na2CO3·10H2O'],
    ['blue vitriol', 'CuSO4·5H2O'],
    ['lead white', '2PbCO3·Pb(OH)2'],
    ['potassium ferrocyanide', 'K4Fe(CN)6·3H2O'],
    ['sulfate de cuivre', 'CuSO4'],
    ['chalk', 'CaCO3'],
    ['CuSO4 5 aq', 'CuSO4·5H2O'],
    ['Na2CO3 + 10 aq.', 'Na2CO3·10H2O'],
    ['FeSO4·7aq', 'FeSO4·7H2O'],
  ])('%s is no formula, and %s is offered', async (written, formula) => {
    const { code, json } = await run(command, '--json', written);
    expect(code).toBe(1);
    expect(json.error.cure).toMatch(new RegExp(`^Write ${formula.replace(/[().]/g, '\\$&')}[ ,]`));
  });
  test('a word that nobody knows is told as before', async () => {
    const { json } = await run(command, '--json', 'zebra');
    expect(json.error.message).toContain('capital');
  });
  test('every row of the table of molar masses, driven from outside', async () => {
    for (const row of referenceRows('chem/molar-masses.csv')) {
      const { code, json } = await run(command, '--json', row.formula!);
      if (row.kind === 'not-computable' || row.kind === 'variable-x') {
        expect([code, typeof json.error.message, typeof json.error.column]).toEqual([1, 'string', 'number']);
      } else if (row.kind === 'range') {
        expect([Number(json.molarMass.low), Number(json.molarMass.high)]).toEqual([962.418, 1072.518]);
      } else expect(Number(json.molarMass.value)).toBeCloseTo(Number(row.molar_mass_abridged_g_mol), 6);
    }
  });
  const spelled = referenceRows('chem/more-formulae.csv');
  test.each(spelled.map((row) => [row.formula!, row] as const))(
    '%s, as labels, books and pages write it',
    async (text, row) => {
      const { code, json } = await run(command, '--json', text);
      expect([code, json.hill, String(json.charge)]).toEqual([0, row.hill_formula, row.charge]);
      expect(json.molarMass.value).toBe(row.molar_mass_abridged_g_mol);
      expect(Number(json.molarMass.uncertainty) / Number(row.u_rectangular_g_mol)).toBeCloseTo(1, 3);
    },
  );
  test('every spelling was run', () => expect(spelled.length).toBe(341));
  test('an ion has a charge', async () => {
    expect((await run(command, '--json', '[Co(NO2)6]^3-')).json).toMatchObject({
      charge: -3,
      formula: '[Co(NO2)6]^3-',
    });
  });
  test('an unknown count can be given', async () => {
    expect((await run(command, '--json', 'KFe[Fe(CN)6]·xH2O', '--count', 'x=5')).json.molarMass.value).toBe('396.971');
    await expect(run(command, 'FexO', '--count', 'five')).rejects.toThrow('x=5');
  });
  test('a formula with ranges gives ranges of its composition too', async () => {
    const { json } = await run(command, '--json', 'Na8-10Al6Si6O24S2-4');
    const share = (symbol: string) =>
      json.elements.find((one: { symbol: string }) => one.symbol === symbol).massFraction as Record<string, string>;
    // By hand: 8 · 22.990 of 1026.55 (with S4) to 10 · 22.990 of 1008.40 (with S2); 2 · 32.06 of 1008.40 to 4 · 32.06 of
    // 1026.55.
    expect(Number(share('Na').low)).toBeCloseTo(183.92 / 1026.54, 3);
    expect(Number(share('Na').high)).toBeCloseTo(229.9 / 1008.4, 3);
    expect(Number(share('S').low)).toBeCloseTo(64.12 / 1008.4, 3);
    expect(Number(share('S').high)).toBeCloseTo(128.24 / 1026.54, 3);
    expect((await run(command, 'Na8-10Al6Si6O24S2-4')).result).toMatch(/Na +sodium +8-10 +17\.9\d to 22\.\d\d %/);
  });
  test('what is left open is asked for, with exit code 1, beside what is known', async () => {
    const hydrate = await run(command, '--json', 'CuSO4·xH2O');
    expect([hydrate.code, hydrate.json.error.code, hydrate.json.error.column]).toEqual([1, 'unknown-count', 7]);
    expect(hydrate.json).toMatchObject({ molarMass: { low: '159.602', unit: 'g/mol' }, elementsOf: 'CuSO4' });
    const shared = await run(command, '--json', '(Zn,Mn)O');
    expect([shared.code, shared.json.error.code, shared.json.error.column]).toEqual([1, 'open-proportion', 4]);
    expect(shared.json.molarMass).toEqual({ low: '70.937', high: '81.379', unit: 'g/mol' });
    expect(shared.json.elements[0]).toEqual({
      symbol: 'Zn',
      count: '0-1',
      massFraction: { low: '0', high: '0.8034013689' },
    });
    const words = await run(command, 'CuSO4·xH2O');
    expect(words.result).toContain('Molar mass  at least 159.602 g/mol');
    expect(words.aside).toContain('Write a number in the place of x.');
  });
  test('an error has code, message and column, and exit code 1', async () => {
    const { code, json } = await run(command, '--json', 'Cu(OH');
    expect(code).toBe(1);
    expect(json.error).toMatchObject({ code: 'bracket', column: 3 });
    const said = await run(command, 'Cu(OH');
    expect(said.result).toBe('');
    expect(said.aside.split('\n').slice(0, 2)).toEqual(['  Cu(OH', '    ^']);
  });
  test('in words: mass with its uncertainty, composition, oxides, and that lead varies', async () => {
    const { result } = await run(command, 'PbO');
    expect(result).toContain('Molar mass  223.2 ± 1.3 g/mol');
    expect(result).toContain('lead varies');
    expect((await run(command, 'CaCuSi4O10')).result).toContain('SiO2      63.93 %');
  });
  test('a doubtful full stop is said aside', async () =>
    expect((await run(command, 'CuCO3.2Cu')).aside).toContain('decimal point'));
  test('without a formula it is wrong use', async () => {
    await expect(run(command)).rejects.toThrow('Give one formula');
  });
  test('loads no table that it does not look into', () =>
    expect(tablesLoaded('formula', 'CuSO4')).toEqual([
      'chemistry/atomic-weights',
      'chemistry/formula/oxides',
      'chemistry/ions/ions',
      'chemistry/ions/molecules',
      'chemistry/ions/oxidation-states',
      'chemistry/ions/oxyanion-families',
    ]));
  test('asks whether two capitals are one symbol, and answers what is written', async () => {
    const { code, result, aside } = await run(command, 'COSO4');
    expect(code).toBe(0);
    expect(result).toContain('124.066');
    expect(aside).toBe(
      'As its capitals stand, COSO4 is carbon, oxygen, sulfur. Write CoSO4 (cobalt sulfate), if that is meant.\n',
    );
    const { json } = await run(command, '--json', 'COSO4');
    expect(json.remarks).toEqual(['As its capitals stand, COSO4 is carbon, oxygen, sulfur.']);
  });

  test.each([
    ['AlSO4', 'Al2(SO4)3'],
    ['KSO4', 'K2SO4'],
    ['CaCl', 'CaCl2'],
    ['MgPO4', 'Mg3(PO4)2'],
    ['ZnNO3·6H2O', 'Zn(NO3)2'],
    ['NaOH2', 'NaOH'],
  ])('asks about charges that do not add up: %s', async (written, meant) => {
    const { code, aside } = await run(command, written);
    expect(code).toBe(0);
    expect(aside).toContain(`The charges of the ions in ${written} do not add up to nothing. Write ${meant}`);
  });
  test.each([
    'FeSO4',
    'KAl(SO4)2·12H2O',
    'Fe4[Fe(CN)6]3',
    'Fe3O4',
    'C6H12O6',
    'PbO2',
    'Cu2O',
    'Cu',
    'SO4^2-',
    'Na2CO3·xH2O',
  ])('asks about no charges where they do: %s', async (written) =>
    expect((await run(command, written)).aside).not.toContain('charges'),
  );

  test.each([
    ['CuSO4 1,250 g', '1,250 g is an amount', '1,250 is 1.250 with a decimal comma and 1250 with thousands'],
    ['CuSO4·5H2O 5 g', '5 g is an amount', 'Write CuSO4·5H2O.'],
    ['CuSO4, 2 mol', '2 mol is an amount', 'masstone weigh'],
  ])('an amount behind a formula is said to be one: %s', async (written, ...words) => {
    const { code, aside } = await run(command, written);
    expect(code).toBe(1);
    for (const one of words) expect(aside).toContain(one);
  });
  test.each(['CuSO4 1,25 g', 'CuSO4 0,250 g'])('one way to read it is no two: %s', async (written) =>
    expect((await run(command, written)).aside).not.toContain('two ways'),
  );
  test('water behind a formula is no amount', async () => expect((await run(command, 'CuSO4 5 H2O')).code).toBe(0));

  test('loads no more than the reckoning needs, so that it answers at once', () =>
    expect(roomsLoaded('formula', '--json', 'Fe4[Fe(CN)6]3')).toEqual([
      'decimal.js',
      'src',
      'src/chemistry',
      'src/commands',
      'src/tables',
    ]));
});
