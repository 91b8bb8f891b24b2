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
function journalOf(entries: Readonly<Record<number, string>>, vitriol = 'purity: 98 %'): string {
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
    writeFileSync(file, `---\n${head(Number(number))}${matter}---\nWords.\n`);
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
