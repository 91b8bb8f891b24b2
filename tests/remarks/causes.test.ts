// One cause is one remark, and what a maker accepts is silent, but never a danger.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { byCause, summaryOf } from '../../src/remarks/causes.js';
import { exampleEntryText, exampleFiles } from '../../src/remarks/example.js';
import { proof } from '../../src/site/proof.js';
import { chosenRemarks, type Choice } from '../../src/site/proof-choice.js';
import { publish } from '../../src/site/publish.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'causes-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const shelf = 'powder: { name: grandmother’s powder }\nwater: { name: water, formula: H2O }\n';
const using = (number: number, more = ''): string =>
  exampleEntryText(`number: ${number}\ntitle: Entry ${number}\n${more}reagents: [{ reagent: powder, amount: 1.00 g }]`);

/** Writes a journal of these entries. */
function journal(entries: readonly string[], settings = ''): string {
  const files = exampleFiles({ files: { 'shelf.yaml': shelf } });
  mkdirSync(join(folder, 'entries'), { recursive: true });
  writeFileSync(join(folder, 'journal.yaml'), `${String(files['journal.yaml'])}${settings}`);
  writeFileSync(join(folder, 'shelf.yaml'), shelf);
  entries.forEach((text, at) => writeFileSync(join(folder, `entries/00${at + 1}-entry.md`), text));
  return folder;
}
const all: Choice = { numbers: [], onlyNew: false };
const chosen = async (choice = all) => chosenRemarks(await proof(folder), folder, choice);
const ofRule = async (rule: string, choice = all) =>
  (await chosen(choice)).causes.filter(({ remark }) => remark.ruleId === rule);

describe('a jar without hazard data that three entries use', () => {
  it('is one remark, at its line of the shelf, with how often and where first', async () => {
    journal([1, 2, 3].map((number) => using(number)));
    const [one, ...more] = await ofRule('no-hazard-data');
    expect(more).toEqual([]);
    expect(one).toMatchObject({ count: 3, first: { file: 'entries/001-entry.md' } });
    expect(one!.remark).toMatchObject({ file: 'shelf.yaml', line: 1 });
    expect(one!.remark.reason).toMatch(/\(3 uses, first in entries\/001-entry\.md:\d+\)\.$/);
  });
  it('concerns the entry that is asked for, as one use', async () => {
    journal([1, 2, 3].map((number) => using(number)));
    const [one] = await ofRule('no-hazard-data', { numbers: [2], onlyNew: false });
    expect(one).toMatchObject({ count: 1, first: { file: 'entries/002-entry.md' } });
  });
  it('is summed up by cause', async () => {
    journal([1, 2, 3].map((number) => using(number)));
    const { causes } = await chosen();
    expect(summaryOf(causes)).toContain('3 × no-hazard-data: grandmother’s powder');
  });
  it('is accepted for one entry, or for the journal, with the reason', async () => {
    const accept = 'accept: [{ warning: no-hazard-data, because: No sheet came with it. }]\n';
    journal([using(1, accept), using(2)]);
    expect(await ofRule('no-hazard-data')).toMatchObject([{ count: 1, first: { file: 'entries/002-entry.md' } }]);
    const { accepted } = await chosen();
    expect(accepted).toMatchObject([{ warning: 'no-hazard-data', because: 'No sheet came with it.', count: 1 }]);
    journal([using(1), using(2)], accept);
    expect(await ofRule('no-hazard-data')).toEqual([]);
  });
});

describe('what cannot be accepted', () => {
  it.each(['danger-unanswered', 'not-judged', 'warning-unanswered'])('%s stays, and that is said', async (warning) => {
    journal([using(1, `accept: [{ warning: ${warning}, because: It is always so. }]\n`)]);
    const [said] = await ofRule('not-accepted');
    expect(said!.remark.reason).toContain('answered and never accepted');
    expect(await ofRule('not-judged')).toHaveLength(1);
  });
  it('an error stays an error', async () => {
    const accept = 'accept: [{ warning: reaction-unbalanced, because: Nearly. }]\nreaction: H2 + O2 -> H2O\n';
    journal([using(1, accept)]);
    expect(await ofRule('reaction-unbalanced')).toHaveLength(1);
  });
});

it('what is new since the last publication is what was not there', async () => {
  journal([using(1)]);
  expect((await chosen({ numbers: [], onlyNew: true })).unpublished).toBe(true);
  await publish(folder, { to: join(folder, '../', `${folder.split('/').at(-1)}-site`), search: false });
  expect((await chosen({ numbers: [], onlyNew: true })).causes).toEqual([]);
  journal([using(1), using(2, 'heating: [{ to: cherry red }]\n')]);
  const { causes } = await chosen({ numbers: [], onlyNew: true });
  expect(causes.map(({ remark }) => remark.ruleId)).toEqual(['heat-in-words']);
  rmSync(`${folder}-site`, { recursive: true, force: true });
});

it('remarks of one rule on one value are one remark, however they are worded', async () => {
  const matter = `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: { name: vitriol, formula: CuSO4·5H2O }, amount: 5.00 g }
  - { reagent: { name: soda, formula: Na2CO3 }, amount: 1.00 g, intent: excess }
samples: [{ sample: A }, { sample: B, omit: [vitriol], add: [{ reagent: { name: other, formula: CuSO4 }, amount: 3 g }] }]`;
  journal([exampleEntryText(matter)]);
  const { remarks } = await proof(folder);
  const raw = remarks.filter(({ ruleId }) => ruleId === 'limits-though-meant-in-excess');
  expect(raw.length).toBeGreaterThan(1);
  expect(byCause(raw)).toHaveLength(1);
});
