// Every cure that can be pasted is pasted, in every journal of a rule's example, in entries that were mutated by chance
// and in entries as untidy as makers write them: the remark is gone, and nothing worse takes its place.
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { exampleEntryText, exampleFiles } from '../../src/remarks/example.js';
import { ruleIds, rules } from '../../src/remarks/registry.js';
import type { Rule } from '../../src/remarks/rule.js';
import { mutated } from './mutations.js';
import { Desk, pasted, type Failure, type Files } from './pasted.js';
import { untidyEntries } from './untidy-entries.js';

const made: string[] = [];
afterAll(() => made.forEach((folder) => rmSync(folder, { recursive: true, force: true })));
const deskOf = (files: Files): Desk => {
  const folder = mkdtempSync(join(tmpdir(), 'masstone-cures-'));
  made.push(folder);
  return new Desk(folder, files);
};

/** Rules whose cures were pasted. */
const triedRules = new Set<string>();
async function tried(files: Files) {
  const all = await deskOf(files).tried();
  for (const id of all.rules) triedRules.add(id);
  return all;
}

const told = (failures: readonly Failure[]): string[] =>
  failures.map(
    ({ remark, why }) =>
      `${remark.file}:${remark.line}:${remark.column} ${remark.ruleId}: ${remark.reason} → ${remark.note}: ${why}`,
  );

describe('pasting', () => {
  const at = (line: number, column: number, instead: string, put: string) => ({
    line,
    column,
    paste: { instead, with: put },
  });
  it('takes the quotes with it', () =>
    expect(pasted('amount: "5,3 g"', at(1, 9, '5,3 g', '5.3 g'))).toBe('amount: 5.3 g'));
  it('does not look for what stands elsewhere', () =>
    expect(pasted('a: 1, b: 5,3 g', at(1, 1, '5,3 g', '5.3 g'))).toBeUndefined());
  it('adds lines at the end of the front matter', () =>
    expect(pasted('---\na: b\n---\nx', { line: 1, column: 1, paste: { with: 'c: d' } })).toBe(
      '---\na: b\nc: d\n---\nx',
    ));
});

it('every cure in the example of a rule holds', async () => {
  const failures: string[] = [];
  let shown = 0;
  for (const id of ruleIds) {
    const { fires }: Rule<never> = rules[id];
    if (typeof fires === 'object' && fires.published) continue;
    const one = await tried(exampleFiles(fires));
    shown += one.shown;
    failures.push(...told(one.failures).map((words) => `${id} ${words}`));
  }
  expect(failures).toEqual([]);
  expect(shown).toBeGreaterThanOrEqual(20);
});

const content = new URL('../../content/', import.meta.url);
const demonstration = (): Files => {
  const entries = readdirSync(new URL('entries/', content)).filter((name) => name.endsWith('.md'));
  return Object.fromEntries(
    ['journal.yaml', 'shelf.yaml', ...entries.map((name) => `entries/${name}`)].map((file) => [
      file,
      readFileSync(new URL(file, content), 'utf8'),
    ]),
  );
};

it('every cure in an entry that was mutated by chance holds', async () => {
  const { 'journal.yaml': settings = '', 'shelf.yaml': shelf = '', ...entries } = demonstration();
  const failures: string[] = [];
  let shown = 0;
  for (const [file, text, how] of mutated(entries as Readonly<Record<string, string>>)) {
    const one = await tried({ 'journal.yaml': settings, 'shelf.yaml': shelf, [file]: text });
    shown += one.shown;
    failures.push(...told(one.failures).map((words) => `${how}: ${words}`));
  }
  expect(failures).toEqual([]);
  expect(shown).toBeGreaterThan(50);
});

it.each(untidyEntries.map((matter, at) => [at + 1, matter] as const))(
  'every cure in untidy entry %i holds',
  async (_, matter) => {
    const files = { ...exampleFiles(''), 'entries/001-example.md': exampleEntryText(matter) };
    const { failures } = await tried(files);
    expect(told(failures)).toEqual([]);
  },
);

it('every rule that has a cure to paste was tried', () => {
  const able = ruleIds.filter((id) => (rules[id] as Rule<never>).paste !== undefined);
  expect(able.filter((id) => !triedRules.has(id))).toEqual([]);
});
