// The bench sheet: what the hand needs on sheet one, in order; what the eye needs later on sheet two.
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { planSite } from '../../src/site/plan.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const malachite = `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
question: Is it green?
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 2.50 g }
heating: [{ of: product, to: 60 °C, for: 3 h }]
samples:
  - { sample: A, differs: cold }
  - { sample: B, differs: warm, add: [{ reagent: { name: water, formula: H2O }, amount: 60 mL, role: solvent }] }
precautions: [{ against: carbon dioxide froth, do: A large jug. }]
if-it-goes-wrong: Step back.
waste: Kept in the tin.
`;
const words = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

async function sheetsOf(matter: string, body = '1. Dissolve.\n2. Pour.\n', status = 'planned'): Promise<string[]> {
  const text = entry(14, matter, body).replace('status: finished', `status: ${status}`);
  const folder = folderOf(smallJournal({ 'journal/entries/014-malachite.md': text }));
  const { model, remarks } = await openJournal(join(folder, 'journal'), { drafts: true });
  expect(remarks.filter((one) => one.fatal).map(String)).toEqual([]);
  const { html } = planSite(model!).pages.get('/14/bench/')!.render();
  return quoted(html).split('<div class="sheet">').slice(1).map(words);
}

const inOrder = (text: string, parts: readonly string[]): void => {
  const places = parts.map((part) => text.indexOf(part));
  expect(places.map((place, at) => (place < 0 ? parts[at] : ''))).toEqual(parts.map(() => ''));
  expect(places).toEqual([...places].sort((x, y) => x - y));
};

describe('a bench sheet', () => {
  it('is two sheets, each with the number, the title and which of two it is', async () => {
    const sheets = await sheetsOf(malachite);
    expect(sheets.length).toBe(2);
    sheets.forEach((text, at) => {
      expect(text).toMatch(/^14 Entry 14 test\.example\/base\/14\//);
      expect(text).toContain(`sheet ${at + 1} of 2`);
    });
  });

  it('has on sheet one, in order: dangers with answers, what if, equation, possible yield, weighing, steps', async () => {
    const sheets = await sheetsOf(malachite);
    inOrder(sheets[0]!, [
      'Danger',
      'Carbon dioxide froth. A large jug.',
      'If it goes wrong. Step back.',
      'Weigh out',
      'CuSO 4',
      'Possible: 2.2140',
      '5.00 g',
      'Steps',
      'Dissolve.',
      'Pour.',
    ]);
  });

  it('sets samples side by side, and says what a sample goes without', async () => {
    const sheets = await sheetsOf(malachite);
    expect(sheets[0]).toContain('A cold B warm');
    expect(sheets[0]!.match(/5\.00 g/g)).toHaveLength(2);
    expect(sheets[0]).toMatch(/water solvent none 60 mL/);
  });

  it('has on sheet two, in order: heating, what to look for, room to write, waste, hazard statements', async () => {
    const sheets = await sheetsOf(malachite);
    inOrder(sheets[1]!, [
      'Heating',
      'Product to 60 °C for 3 h',
      'What to look for',
      'Is it green?',
      'Seen and done',
      'Washing',
      'What the balance showed',
      'Kept in the tin.',
      'Hazard statements',
      'H302',
    ]);
  });

  it('has boxes and lines where no steps are written down', async () => {
    const [first] = await sheetsOf(malachite, 'Only prose.\n');
    expect(first).toMatch(/Steps$/);
  });

  it('tells how each sample is to be washed, its own washes before those of the entry', async () => {
    const [, second] = await sheetsOf(
      malachite
        .replace('samples:', 'washes: [{ volume: 200 mL, times: 3, by: decanting }]\nsamples:')
        .replace('differs: cold }', 'differs: cold, washes: [{ with: rain water, volume: 50 mL }] }'),
    );
    inOrder(second!, [
      'planned: once 50 mL of rain water. A: washed with',
      'planned: 3 times 200 mL of water, by decanting. B: washed with',
    ]);
  });

  it('says each amount once where many samples have the same', async () => {
    const six = malachite.replace(
      /samples:[\s\S]*?precautions/,
      'samples: [{ sample: A }, { sample: B }, { sample: C }, { sample: D }]\nprecautions',
    );
    const [first] = await sheetsOf(six);
    expect(first!.match(/5\.00 g/g)).toHaveLength(1);
    expect(first).toContain('Each A B C D');
  });
});
