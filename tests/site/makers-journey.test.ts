// What a maker with a telephone and a cheap balance is told on the pages: families seen in photographs only, yields
// that are 100 % within their doubt, work that failed.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { yieldRank } from '../../src/crosslinks/best-yield.js';
import { liesAbove100, type Figure } from '../../src/reckoning/figures.js';
import { remarksAsJson } from '../../src/remarks/print.js';
import { publish } from '../../src/site/publish.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

/** Publishes a small journal with these entries, and reads its pages. */
async function published(entries: Readonly<Record<string, string>>) {
  const folder = folderOf(smallJournal(entries));
  const done = await publish(join(folder, 'journal'), { to: join(folder, 'site'), search: false, threads: 0 });
  expect(done.published, done.remarks.map(String).join('\n')).toBe(true);
  const page = (at: string): string => quoted(readFileSync(join(folder, `site/${at}/index.html`), 'utf8'));
  return { page, rules: remarksAsJson(done.remarks).map(({ rule }) => rule) };
}

it('a declared family whose page has none of the samples is no link, and a dead one neither', async () => {
  const of = (family: string): string =>
    `pigment: { name: burnt ochre, family: ${family} }\nsamples: [{ sample: A, colour: { srgb: "#4f8a6b" } }]\n`;
  const { page, rules } = await published({
    'journal/entries/003-red.md': entry(3, of('red')),
    'journal/entries/004-green.md': entry(4, of('green')),
    'journal/entries/005-none.md': entry(5, 'pigment: { name: ultramarine ash, family: blue }\n'),
  });
  expect(rules).not.toContain('dead-link');
  expect(page('3')).not.toContain('href="/base/colours/red/"');
  expect(page('4')).toContain('href="/base/colours/green/"');
  expect(page('5')).not.toContain('href="/base/colours/blue/"');
});

it.each([
  // value, expanded uncertainty, bounds; whether it is above 100 % by more than they explain
  ['100.15', '4', undefined, false],
  ['102.05', '0.03', undefined, true],
  ['101', '1', undefined, false],
  ['101.2', '1.0', undefined, true],
  ['110', '30', { low: '101', high: '140' }, true],
  ['110', '30', { low: '85', high: '140' }, false],
  ['99', undefined, undefined, false],
])('a yield of %s ± %s is judged by its doubt', (value, uncertainty, within, over) => {
  const figure = {
    value,
    unit: '%',
    text: '',
    ...(uncertainty && { uncertainty }),
    ...(within && { within }),
  } as Figure;
  expect(liesAbove100(figure)).toBe(over);
});

it('what is 100 % within its doubt ranks as 100 %, what is truly above ranks last', () => {
  const rank = (percent: number, over: boolean): number => yieldRank({ percent, over });
  expect(rank(100.15, false)).toBe(rank(100, false));
  expect(rank(100.15, false)).toBeGreaterThan(rank(94.6, false));
  expect(rank(102, true)).toBeLessThan(rank(1, false));
});

// 2.0 g FeO(OH) give 1.797 g Fe2O3, by hand; on a balance of 0.1 g, 1.8 g are 100.2 ± 4 %.
it('says "wet or impure" only of what weighing cannot explain', async () => {
  const red = (obtained: string): string => `pigment: { name: Mars red, formula: Fe2O3 }
reaction: 2 FeO(OH) -> Fe2O3 + H2O
reagents: [{ reagent: { name: Mars yellow, formula: FeO(OH) }, amount: 2.0 g }]
samples: [{ sample: A, obtained: ${obtained} }, { sample: B, differs: longer, obtained: 1.7 g }]
`;
  const { page } = await published({
    'journal/entries/003-red.md': entry(3, red('1.8 g')),
    'journal/entries/004-wet.md': entry(4, red('2.0 g')),
  });
  expect(page('3')).toMatch(/Best yield 100 ± \d % \(A\)/);
  expect(page('3')).not.toContain('wet or impure');
  expect(page('4')).toMatch(/Best yield 9\d ± \d % \(B\)/);
  expect(page('results').match(/wet or impure/g)).toHaveLength(1);
});

it('what failed is marked so where a series shows it', async () => {
  const black = 'pigment: { name: Mars black, formula: Fe3O4 }\nsamples: [{ sample: A, obtained: 5.0 g }]\n';
  const { page } = await published({
    'journal/entries/003-black.md': entry(3, `status: failed\nfailed: It stayed brown.\n${black}`),
    'journal/entries/004-again.md': entry(4, black),
  });
  const cells = page('series/Fe');
  expect(cells).toMatch(/No\. 3<strong>, failed<\/strong>/);
  expect(cells).toMatch(/No\. 4(?!<strong>)/);
});
