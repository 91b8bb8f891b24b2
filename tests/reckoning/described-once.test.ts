// A reagent that an entry describes is that wherever a sample names it again, and needs to be described once.
import { expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { entry, folderOf, settings } from '../journal-folder.js';

const matter = (sample: string): string =>
  'pigment: { name: lake, formula: Al(OH)3 }\n' +
  'reaction: 2 KAl(SO4)2 + 3 Na2CO3 + 3 H2O -> 2 Al(OH)3 + K2SO4 + 3 Na2SO4 + 3 CO2\n' +
  'reagents:\n' +
  '  - { reagent: { name: alum of the blue tin, formula: KAl(SO4)2·12H2O }, amount: 10.00 g }\n' +
  '  - { reagent: { name: soda of the red tin, formula: Na2CO3 }, amount: 9.00 g }\n' +
  `samples:\n  - { sample: A, obtained: 1.20 g }\n  - { sample: B, differs: its alum, ${sample}, obtained: 0.60 g }\n`;

async function opened(sample: string) {
  const folder = folderOf({
    'journal.yaml': settings,
    'shelf.yaml': '{}',
    'entries/001-one.md': entry(1, matter(sample)),
  });
  const { model, remarks } = await openJournal(folder, { drafts: true });
  const [, second] = model!.entries[0]!.amounts!.samples;
  return { second: second!, rules: remarksAsJson(remarks).map(({ rule }) => rule) };
}

it('in a change', async () => {
  const { second, rules } = await opened('change: [{ reagent: alum of the blue tin, amount: 5.00 g }]');
  expect(rules).not.toContain('unknown-reagent');
  const alum = second.ingredients.find(({ name }) => name === 'alum of the blue tin')!;
  expect(alum.formula).toBe('KAl(SO4)2·12H2O');
  // 5.00 g of 474.39 g/mol are 10.54 mmol, and so much of 78.00 g/mol is 0.822 g: 0.60 g of it are 73 %.
  expect(Number(second.percentYield!.value)).toBeCloseTo(73, 0);
});

it('in an addition', async () => {
  const { second, rules } = await opened('add: [{ reagent: soda of the red tin, amount: 1.00 g }]');
  expect(rules).not.toContain('unknown-reagent');
  const sodas = second.ingredients.filter(({ name }) => name === 'soda of the red tin');
  expect(sodas.map(({ formula }) => formula)).toEqual(['Na2CO3', 'Na2CO3']);
});
