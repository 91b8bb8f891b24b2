// Every table of the house compiles; one with a fault stops the build with file, line and column.
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { compileTables, ownFolders, type Folders } from '../../src/tables/compile.js';
import { checkTable } from '../../src/tables/check.js';
import { atomicWeights } from '../../src/chemistry/tables.schema.js';
import { substances } from '../../src/hazards/ghs/tables.schema.js';
import { standardTests } from '../../src/colour/tables.schema.js';

const own = (table: string): string => readFileSync(join(ownFolders.source, table), 'utf8');

describe('the compiled tables', () => {
  it('are one module for each CSV of src/, and nothing else', () => {
    const below = (folder: string, ending: RegExp): string[] =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((path) => ending.test(path))
        .map((path) => path.replaceAll('\\', '/').replace(ending, ''))
        .sort();
    expect(below(ownFolders.target, /\.ts$/)).toEqual(below(ownFolders.source, /\.csv$/));
  });
});

describe('a compilation', () => {
  let folders: Folders;
  const put = (table: string, csv: string): void => {
    mkdirSync(dirname(join(folders.source, table)), { recursive: true });
    writeFileSync(join(folders.source, table), csv);
  };
  beforeEach(() => {
    const folder = mkdtempSync(join(tmpdir(), 'masstone-tables-'));
    folders = { source: join(folder, 'src'), target: join(folder, 'out'), schemas: ownFolders.schemas };
    put('chemistry/quantity/units.csv', own('chemistry/quantity/units.csv'));
    put('reckoning/told/heat-deeds.csv', own('reckoning/told/heat-deeds.csv'));
  });
  afterEach(() => rmSync(dirname(folders.source), { recursive: true }));

  it('writes the rows that the code then reads, whatever marks they hold', async () => {
    const awkward = `it's "so" \\n \${x} \u2028 µ`;
    const row = `calcined,deed,850,1000,"${awkward.replaceAll('"', '""')}"`;
    put('reckoning/told/heat-deeds.csv', `words,says,low,celsius,source\n${row}\n`);
    expect(await compileTables(folders)).toEqual([]);
    const code = readFileSync(join(folders.target, 'reckoning/told/heat-deeds.ts'), 'utf8');
    const literal = /JSON\.parse\(\s*('.*'),\s*\)/s.exec(code)![1]!;
    expect(JSON.parse(new Function(`return ${literal}`)() as string)).toEqual([
      { words: 'calcined', says: 'deed', low: 850, celsius: 1000, source: awkward },
    ]);
  });
  it('leaves alone what has not changed, and removes the module of a table that is gone', async () => {
    await compileTables(folders);
    const module = join(folders.target, 'chemistry/quantity/units.ts');
    const { mtimeMs } = statSync(module);
    rmSync(join(folders.source, 'reckoning/told/heat-deeds.csv'));
    expect(await compileTables(folders)).toEqual([]);
    expect(statSync(module).mtimeMs).toBe(mtimeMs);
    expect(readdirSync(join(folders.target, 'reckoning/told'))).toEqual([]);
  });
  it('with a fault names file, line and column, and writes nothing', async () => {
    const units = own('chemistry/quantity/units.csv').replace('mass,1000,g', 'mass,thousand,g');
    put('chemistry/quantity/units.csv', units);
    const column = units.split('\n')[2]!.indexOf('thousand') + 1;
    expect(column).toBeGreaterThan(1);
    expect(await compileTables(folders)).toEqual([
      `src/chemistry/quantity/units.csv:3:${column}: factor: must be a decimal number; it is 'thousand'`,
    ]);
    expect(() => readdirSync(folders.target)).toThrow('ENOENT');
  });
  it('with a misnamed column names it', async () => {
    put('chemistry/quantity/units.csv', own('chemistry/quantity/units.csv').replace('factor', 'faktor'));
    expect((await compileTables(folders))[0]).toMatch(/^src\/chemistry\/quantity\/units\.csv:1:21: .*'faktor'/);
  });
  it('refuses a table without a schema', async () => {
    put('chemistry/moons.csv', 'moon,source\nIo,x\n');
    expect(await compileTables(folders)).toEqual([
      "src/chemistry/moons.csv:1:1: src/chemistry/tables.schema.ts has no schema 'moons' for this table",
    ]);
  });
});

describe('what one cell asks of another', () => {
  it.each([
    [
      'an element with an interval has its bounds',
      'chemistry/atomic-weights.csv',
      atomicWeights,
      '1.00784,1.00811,1.0080',
      ',1.00811,1.0080',
      /interval_low/,
    ],
    [
      'a test with a number has its range',
      'colour/standard-tests.csv',
      standardTests,
      ',0,1000,9,150',
      ',,1000,9,150',
      /from/,
    ],
    [
      'a harmonised classification names its document',
      'hazards/ghs/substances.csv',
      substances,
      /,harmonised,"[^"]*"/,
      ',harmonised,',
      /source_title/,
    ],
  ])('%s', (_, file, schema, from, to, message) => {
    const csv = own(file);
    expect(csv.search(from)).toBeGreaterThan(0);
    expect(checkTable(csv, schema).faults).toEqual([]);
    expect(checkTable(csv.replace(from, to), schema).faults.map((fault) => fault.message)).toEqual([
      expect.stringMatching(message),
    ]);
  });
});
