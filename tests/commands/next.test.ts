// What next: gaps of the series against the shelf. The pigments and what they are made of are rows of the table with
// their sources; which reagents a shelf has follows from the test's own shelf.
import { describe, expect, it } from 'vitest';
import { parse } from 'csv-parse/sync';
import { readFileSync } from 'node:fs';
import { imbalances } from '../../src/chemistry/equation/model.js';
import { parseEquation } from '../../src/chemistry/index.js';
import { command } from '../../src/commands/next.js';
import { WrongUse } from '../../src/commands/command.js';
import { entry, folderOf, settings } from '../journal-folder.js';
import { run } from './bench.js';

const journal = (shelf: string, ...entries: readonly string[]): string =>
  folderOf({
    'journal.yaml': settings,
    'shelf.yaml': shelf,
    ...Object.fromEntries(entries.map((text, at) => [`entries/00${at + 1}-entry.md`, text])),
  });

const shelf = [
  'vitriol: { name: blue vitriol, formula: CuSO4·5H2O }',
  'lye: { name: sodium hydroxide solution, formula: NaOH, strength: 2.0 mol/L }',
  'pearls: { name: sodium hydroxide, formula: NaOH }',
  'mystery: { name: powder from the attic }',
].join('\n');
const malachite = (more = '', number = 1): string =>
  entry(number, `pigment: { name: malachite, formula: Cu2CO3(OH)2 }\nsamples: [{ sample: A }]\n${more}`);

const keys = ['pigment', 'formula', 'colourIndex', 'family', 'have', 'lack', 'dangers', 'tried'];

describe('gaps', () => {
  it('have their keys, and are told for the series of the journal', async () => {
    const { json, code } = await run(command, '--journal', journal(shelf, malachite()), '--json');
    expect([code, Object.keys(json)]).toEqual([0, ['gaps']]);
    for (const gap of json.gaps) expect(Object.keys(gap)).toEqual(keys);
    const names = json.gaps.map((gap: { pigment: string }) => gap.pigment);
    expect(names).toContain('azurite');
    expect(names).not.toContain('malachite');
    expect(names).not.toContain('cobalt blue');
  });

  it('name the jars that hold what is needed, whatever their water and strength, and what none holds', async () => {
    const { json } = await run(command, '--journal', journal(shelf, malachite()), '--json');
    const of = (name: string) => json.gaps.find((gap: { pigment: string }) => gap.pigment === name);
    expect(of('Bremen blue/green')).toMatchObject({ have: ['vitriol', 'lye', 'pearls'], lack: [], colourIndex: null });
    expect(of('azurite')).toMatchObject({ have: ['vitriol'], lack: ['sodium carbonate'], family: 'blue' });
  });

  it('come by what stands on the shelf: first what nothing is missing for, last what nothing is there for', async () => {
    const folder = journal(shelf, malachite(), entry(2, 'pigment: { name: mars yellow, formula: FeOOH }\n'));
    const { json } = await run(command, '--journal', folder, '--json');
    const gaps: { have: string[]; lack: string[] }[] = json.gaps;
    const missing = gaps.map(({ have, lack }) => (have.length === 0 ? Infinity : lack.length));
    expect(missing).toEqual(missing.toSorted((a, b) => a - b));
    expect([missing[0], missing.at(-1)]).toEqual([0, Infinity]);
    expect(new Set(missing).size).toBeGreaterThan(2);
  });

  it('say why they come in that order, and no more than there is', async () => {
    const { result: out } = await run(command, '--journal', journal(shelf, malachite()));
    const places = ['First what nothing is missing for', 'Bremen blue/green', 'Then what some of it is', 'azurite'];
    expect(places.map((words) => out.indexOf(words))).toEqual(
      places.map((words) => out.indexOf(words)).toSorted((a, b) => a - b),
    );
    expect(out.indexOf('First what')).toBeGreaterThanOrEqual(0);
    const bare = await run(command, '--journal', journal('{}', malachite()));
    expect(bare.result).toContain('Last what nothing of it is on the shelf for.');
    expect(bare.result).not.toMatch(/First what|Then what/);
  });

  it('--from-shelf leaves those for which nothing is missing', async () => {
    const folder = journal(shelf, malachite());
    const { json } = await run(command, '--journal', folder, '--from-shelf', '--json');
    expect(json.gaps.map((gap: { pigment: string }) => gap.pigment)).toEqual(['Bremen blue/green']);
    const bare = await run(command, '--journal', journal('{}', malachite()), '--from-shelf', '--json');
    expect(bare.json.gaps).toEqual([]);
  });

  it('--element asks for one element, by symbol or name, whether or not the journal has a series of it', async () => {
    for (const element of ['Mn', 'mn', 'manganese']) {
      const { json } = await run(command, '--journal', journal(shelf, malachite()), '--element', element, '--json');
      expect(json.gaps.map((gap: { pigment: string }) => gap.pigment)).toContain('manganese violet');
    }
    const lead = await run(command, '--journal', journal(shelf), '--element', 'Pb', '--json');
    expect(lead.json.gaps.map((gap: { pigment: string }) => gap.pigment)).toContain('white lead');
  });

  it('a journal without series is told of every pigment', async () => {
    const { json } = await run(command, '--journal', journal('{}'), '--json');
    expect(json.gaps.length).toBeGreaterThan(70);
  });

  it('what was tried and did not get there stays a gap, with its number; what is only planned is no try', async () => {
    const withdrawn = malachite('withdrawn: the jar was mislabelled\n').replace('finished', 'withdrawn');
    const running = malachite('', 2).replace('finished', 'running');
    const planned = malachite('', 3).replace('finished', 'planned');
    const folder = journal(shelf, withdrawn, running, planned);
    const { json } = await run(command, '--journal', folder, '--element', 'Cu', '--json');
    const gap = json.gaps.find((one: { pigment: string }) => one.pigment === 'malachite');
    expect(gap.tried).toEqual([1, 2]);
  });
});

describe('dangers of a gap', () => {
  const gapsOf = async (element: string) => {
    const { json } = await run(command, '--journal', journal(shelf), '--element', element, '--json');
    return json.gaps as { pigment: string; dangers: string[] }[];
  };
  // Of these everybody who handles pigments says that they are poisonous: Annex VI groups of arsenic, lead, mercury,
  // cadmium, chromium(VI) in CLP.
  it.each([
    ['As', 'emerald green'],
    ['As', 'orpiment'],
    ['Pb', 'white lead'],
    ['Pb', 'chrome yellow'],
    ['Hg', 'vermilion'],
    ['Cd', 'cadmium yellow'],
    ['Cr', 'strontium yellow'],
  ])('%s: %s says first that it is poisonous', async (element, pigment) => {
    const gap = (await gapsOf(element)).find((one) => one.pigment === pigment)!;
    expect(gap.dangers[0]).toMatch(/^Poisonous: /);
  });
  it('is never silent, and what is unknown is said to be treated as hazardous', async () => {
    const { json } = await run(command, '--journal', journal('{}'), '--json');
    for (const gap of json.gaps) expect(gap.dangers.length, gap.pigment).toBeGreaterThan(0);
    const yinmn = (await gapsOf('Mn')).find((one) => one.pigment === 'YInMn blue')!;
    expect(yinmn.dangers.join(' ')).toMatch(/No hazard data for YInMn blue.*to be treated as hazardous/);
  });
  it('tells what could go wrong where its reagents meet', async () => {
    const gap = (await gapsOf('Sn')).find((one) => one.pigment === 'mosaic gold')!;
    expect(gap.dangers.join(' ')).toMatch(/Foreseen danger: .*\(SO2\)/);
  });
  // Annex VI of CLP has entries of their own for CuSO4 (7758-98-7) and its pentahydrate (7758-99-8); a sheet is its
  // supplier's word.
  it('are those of the jars that hold it: of the hydrate, of the solution, by the sheet', async () => {
    const jars = [
      'vitriol: { name: copper sulfate pentahydrate, formula: CuSO4·5H2O }',
      'soda: { name: washing soda, formula: Na2CO3·10H2O, sds: { statements: [H302, H335], signal-word: Warning } }',
    ].join('\n');
    const dangersWith = async (text: string): Promise<string> => {
      const { json } = await run(command, '--journal', journal(text), '--element', 'Cu', '--json');
      return json.gaps.find((gap: { pigment: string }) => gap.pigment === 'malachite').dangers.join(' ');
    };
    const [own, bare] = [await dangersWith(jars), await dangersWith('{}')];
    expect(bare).toContain('copper sulphate).');
    expect(own).toContain('copper sulfate pentahydrate).');
    expect(own).not.toContain('copper sulphate');
    expect(own).toMatch(/\(H335: washing soda\)/);
    expect(bare).not.toContain('H335');
  });
  it('of a jar that nothing is known of are those of its substance too', async () => {
    const jars = 'odd: { name: lead acetate, formula: Pb(CH3COO)2·10H2O }\nmystery: { name: Yb2O3, formula: Yb2O3 }';
    for (const element of ['Pb', 'Cu']) {
      const { json } = await run(command, '--journal', journal(jars), '--element', element, '--json');
      for (const gap of json.gaps) expect(gap.dangers.length, gap.pigment).toBeGreaterThan(0);
    }
  });
  it('offers no procedure: no equation, no amount', async () => {
    const { result } = await run(command, '--journal', journal(shelf, malachite()));
    expect(result).not.toMatch(/->|→|\b\d+(?:\.\d+)? (?:g|mL|mol)\b/);
    expect(result).toContain('no procedure');
  });
});

describe('ideas', () => {
  const first = entry(1, 'ideas: [Try it cold., Try it warm.]\n');
  it('that are open are listed by number, with who has taken them up', async () => {
    const planned = entry(2, 'takes-up: [1/2]\n').replace('finished', 'planned');
    const { result } = await run(command, '--journal', journal('{}', first, planned));
    expect(result).toContain('1  Try it cold. (entry 1)');
    expect(result).toContain('2  Try it warm. (entry 1, taken up in 2)');
  });
  it('that a finished entry takes up are closed', async () => {
    const { result } = await run(command, '--journal', journal('{}', first, entry(2, 'takes-up: [1/2]\n')));
    expect(result).toContain('Try it cold.');
    expect(result).not.toContain('Try it warm.');
  });
});

describe('wrong use', () => {
  it.each([
    [['--element', 'Xx'], /'Xx'/],
    [['--element', ''], /symbol/],
    [['14'], /no further words/],
  ])('%j', async (words, said) => {
    await expect(run(command, ...words)).rejects.toThrow(said);
    await expect(run(command, ...words)).rejects.toBeInstanceOf(WrongUse);
  });
  it('a folder without a journal is said, as JSON where that was asked for', async () => {
    const { code, json } = await run(command, '--journal', folderOf({}), '--json');
    expect([code, json.error.code]).toEqual([1, 'no-journal']);
  });
});

describe('the equations of the table', () => {
  const rows = parse(readFileSync(new URL('../../src/crosslinks/known-pigments.csv', import.meta.url)), {
    columns: true,
  }) as Record<string, string>[];
  const equations = rows.flatMap(({ id, reactions = '' }) =>
    reactions.split(';').flatMap((part) => (part.trim() === '' ? [] : [[id!, part.trim()] as const])),
  );
  it.each(equations)('%s: %s balances as it is written', (_, written) => {
    const read = parseEquation(written);
    expect(read.ok && imbalances(read.value)).toEqual([]);
  });
});
