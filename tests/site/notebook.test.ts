// Ten entries as people write them: they publish without an error, with useful remarks, and nothing is pushed into an
// invented digit. source: tests/reference/notebook/EXPECTED.md, written before the code could read them.
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';
import { severityOf, type Remark } from '../../src/remarks/remark.js';
import { proof } from '../../src/site/proof.js';
import { publish } from '../../src/site/publish.js';

const kept = join(import.meta.dirname, '../reference/notebook');
const folder = mkdtempSync(join(tmpdir(), 'notebook-'));
const journal = join(folder, 'journal');
let remarks: readonly Remark[] = [];
let entries: ReadonlyMap<number, ReckonedEntry> = new Map();

beforeAll(async () => {
  cpSync(kept, journal, { recursive: true });
  ({ remarks } = await proof(journal, { drafts: true }));
  const { model } = await openJournal(journal, { drafts: true });
  entries = new Map(model!.entries.map((one) => [one.entry.number, one]));
  await publish(journal, { to: join(folder, 'site'), drafts: true, search: false, sharePictures: false });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const page = (number: number): string => readFileSync(join(folder, `site/${number}/index.html`), 'utf8');
const words = (number: number): string =>
  page(number)
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
const sample = (number: number, id: string) => entries.get(number)!.amounts.samples.find((one) => one.sample === id)!;
const gasesIn = (number: number, id: string): readonly string[] =>
  (entries.get(number)!.dangers.foreseen ?? [])
    .filter(({ samples }) => samples.includes(id))
    .flatMap(({ gas = '' }) => gas.split(/\s*[+;/,]\s*/));

it('gives no error, and all ten have a page', () => {
  expect(remarks.filter((one) => severityOf(one) === 'error').map(({ reason }) => reason)).toEqual([]);
  for (let number = 1; number <= 10; number += 1) expect(page(number)).toContain('<h1>');
});
it('asks no maker twice in an entry for what he says he does not know', () => {
  const asked = remarks.map(({ file, ruleId, line, reason }) => `${file}:${line} ${ruleId} ${reason}`);
  expect(asked.filter((one, at) => asked.indexOf(one) !== at)).toEqual([]);
});

describe('every amount is shown as typed', () => {
  it.each([
    [1, '2 tsp'],
    [1, 'plenty'],
    [1, 'a jam jar full'],
    [2, '~30 g'],
    [2, 'to pH 8'],
    [5, 'until it stops fizzing'],
    [6, 'a handful'],
    [7, 'knife point'],
    [8, '1/2 cup'],
    [9, 'a splash'],
    [10, 'enough to make a paste'],
  ])('%i: %s', (number, typed) => expect(words(number)).toContain(typed));
});

describe('no percent yield is invented', () => {
  it.each([
    [1, 'A'],
    [1, 'B'],
    [4, 'A'],
    [5, 'A'],
    [6, 'A'],
    [9, 'A'],
    [9, 'B'],
  ])('%i %s', (number, id) => expect(sample(number, id)).not.toHaveProperty('percentYield'));
  it('and where a reader looks for one, it is said why there is none', () => {
    expect(sample(1, 'A').noYield).toBe('what was obtained was not weighed (“a jam jar full”)');
    expect(sample(1, 'B').noYield).toMatch(/^the amounts are too rough for one/);
    expect(words(1)).toContain('No yield of sample A: what was obtained was not weighed');
  });
});

describe('what can be reckoned is', () => {
  // ~30 g · 0.9 / 278.01 g/mol of iron, 88.85 g/mol of FeO(OH): 8.63 g; 7.4 g of it are 86 %, ± 10 or more.
  it('2: iron oxide hydroxide from the iron alone, as if there had been enough ammonia', () => {
    const { theoreticalYield, percentYield, takenAsEnough } = sample(2, 'A');
    expect(Number(theoreticalYield!.value)).toBeCloseTo(8.63, 1);
    expect(Number(percentYield!.value)).toBeCloseTo(86, 0);
    expect(Number(percentYield!.uncertainty)).toBeGreaterThan(8);
    expect(takenAsEnough).toBe('household ammonia (“to pH 8”)');
  });
  // 3 g · 159.69/(2 · 88.85) = 2.70 g; 2.5 g are 93 %, 2.9 g are 108 %.
  it('3: what is left of about 3 g on burning', () => {
    expect(Number(sample(3, 'A').percentYield!.value)).toBeCloseTo(93, 0);
    expect(Number(sample(3, 'B').percentYield!.value)).toBeCloseTo(108, 0);
  });
  // 5 g / 221.11 g/mol · 2 · 199.65 g/mol = 9.03 g where the green limits.
  it('8: verdigris, and that the vinegar may be what ran out', () => {
    expect(Number(sample(8, 'A').theoreticalYield!.value)).toBeCloseTo(9.03, 1);
    expect(sample(8, 'A').tooCloseToCall).toContain('white vinegar');
  });
});

describe('dangers', () => {
  it('hydrogen cyanide and chlorine in 9 A, none of hydrochloric acid’s in 9 B', () => {
    expect(gasesIn(9, 'A')).toEqual(expect.arrayContaining(['HCN', 'H2', 'Cl2']));
    expect(gasesIn(9, 'B')).not.toContain('Cl2');
  });
  it('ammonia in 10 A and not in 10 B', () => {
    expect(gasesIn(10, 'A')).toContain('NH3');
    expect(gasesIn(10, 'B')).not.toContain('NH3');
  });
  it('a stone of unknown make is said to be unknown', () => {
    expect(entries.get(6)!.dangers.notJudged).toContain('green stone from the quarry, ground');
  });
});

describe('what became of it', () => {
  it('6 failed and 7 was not done, on the page and in the list', () => {
    expect(words(6)).toContain('Failed: this did not give what it was meant to give');
    expect(words(7)).toContain('Not done: this was given up');
    const newest = readFileSync(join(folder, 'site/index.html'), 'utf8');
    expect(newest).toContain('not done: given up');
    expect(page(7)).not.toContain('/7/bench/');
  });
  it('what was put right, the steps and the looks stand on the page', () => {
    expect(words(2)).toContain('B was first written down as 18 g. It was 8.');
    expect(words(1)).toContain('Baking soda in by the half spoon, waiting each time until it stops fizzing.');
    expect(words(2)).toContain('mustard');
    expect(words(1)).toContain('greener and duller (by eye)');
  });
});
