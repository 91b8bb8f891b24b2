// What an entry's page shows of its amounts, for readers with and without sight.
import { toHtml } from 'hast-util-to-html';
import { describe, expect, test } from 'vitest';
import type { AmountsReckoning } from '../../../src/reckoning/contracts.js';
import { amountsContent, lineageContent, stockContent } from '../../../templates/parts/amounts.js';
import { formula } from '../../../templates/parts/formula.js';
import { typeset } from '../../../src/chemistry/index.js';
import { stockOfLots } from '../../../src/reckoning/lots.js';
import { entry, reckon, reckonAll } from '../entries.js';

const malachite = `
pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4(aq) + 2 Na2CO3(aq) + H2O -> Cu2CO3(OH)2(s) + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
  - { reagent: water, amount: 60 mL, role: solvent }
samples:
  - { sample: A, differs: cold, obtained: 1.98 g }
  - { sample: B, differs: warm, obtained: 2.05 g }
`;

const shown = (amounts: AmountsReckoning, said?: ReadonlySet<string>): string =>
  toHtml({ type: 'root', children: amountsContent(amounts, '/how/', said) });

describe('the section on amounts', () => {
  const { amounts } = reckon(malachite, { balance: '0.01 g' });
  const html = shown(amounts);

  test('names what limits in words, not by colour alone', () => expect(html).toMatch(/<strong>limits<\/strong>/));
  test('what weighing tells apart was made once', () => {
    expect(html).toContain('were made once: that tells these batches apart');
    const alike = reckon(malachite.replace('2.05 g', '1.98 g'), { balance: '0.01 g' }).amounts;
    expect(shown(alike)).not.toContain('were made once');
  });
  test('samples with the same reagents share one table', () =>
    expect(html.match(/<caption>What went in<\/caption>/g)).toHaveLength(1));
  test('what every sample had is said once, and what only one had with its name', () => {
    const two = shown(
      reckon(malachite.replace('obtained: 2.05 g', 'obtained: 2.05 g, change: [{ reagent: soda, amount: 3.00 g }]'))
        .amounts,
    );
    expect(two).toContain('<caption>What went in, every sample</caption>');
    expect(two).toMatch(
      /<p>What went in, sample A: sodium carbonate, anhydrous .*?, 2\.50 g, .*? mmol, .*? equivalents/,
    );
    expect(two).toMatch(
      /<p>What went in, sample B: sodium carbonate, anhydrous .*?, 3\.00 g, .*? mmol, .*? equivalents/,
    );
    expect(two.match(/60 mL/g)).toHaveLength(1);
  });
  test('values that the write-up states are pointed to, not told again', () => {
    const said = new Set(['A.yield', 'B.yield', 'A.obtained', 'B.obtained']);
    const told = shown(amounts, said);
    expect(told).not.toContain('89.43');
    expect(told).toContain('Obtained, yield: in the write-up above.');
    expect(shown(amounts, new Set(['A.yield']))).toContain('89.43');
  });
  test('what nobody weighed has no unit put behind it, and what was weighed keeps its own', () => {
    const solutions = (second: string) => `pigment: { name: copper sulfate solution, formula: CuSO4 }
reagents: [{ reagent: blue-vitriol, amount: 31.21 g }]
samples: [{ sample: A, obtained: 250 mL }${second}]`;
    const only = (obtained: string) => shown(reckon(solutions('').replace('250 mL', obtained)).amounts);
    expect(only('a jam jar full')).toContain('Obtained a jam jar full.');
    expect(only('250 mL')).toContain('Obtained 250 mL.');
    expect(only('1.98 g')).toMatch(/Obtained 1\.980 ± 0\.0\d+ g\./);
    const both = shown(reckon(solutions(', { sample: B, obtained: 1.98 g }')).amounts);
    expect(both).toMatch(/Obtained A 250 mL, B 1\.980 ± 0\.0\d+ g\./);
  });
  test('figures are those of the reckoning', () => {
    for (const text of [
      '89.43 ± 0.28',
      '1.980 ± 0.006',
      '20.026',
      'percentage points more than sample A',
      'Filtrate, washings and losses hold copper: A 0.134',
    ])
      expect(html).toContain(text);
  });
  test('formulae are set and have words for a screen reader; the arrow is read as gives', () => {
    expect(html).toContain(
      '<span role="img" aria-label="C u S O 4 dot 5 H 2 O">CuSO<sub>4</sub>·5H<sub>2</sub>O</span>',
    );
    expect(html).toContain('<span class="hidden-label"> gives </span>');
    expect(html).toContain('aria-label="C u S O 4 in water"');
  });
  test('wide tables scroll inside a region that can be reached by keyboard, and nothing carries a style of its own', () => {
    const tables = html.match(/<table/g)!.length;
    expect(html.match(/<div tabindex="0" role="region" aria-label="[^"]+">/g)!.length).toBe(tables);
    expect(html).not.toMatch(/\sstyle=|<script/);
  });
  test('every table has a caption, and its heads stand only where they head a whole column or row without a scope', () => {
    expect(html.match(/<caption>/g)!.length).toBe(html.match(/<table/g)!.length);
    for (const [table] of html.matchAll(/<table.*?<\/table>/g)) {
      expect(table).toMatch(/<thead><tr>(?:<td><\/td>)?(<th>[^<]+<\/th>)+<\/tr><\/thead>/);
      for (const [, row] of table.replace(/<thead>.*<\/thead>/, '').matchAll(/<tr[^>]*>(.*?)<\/tr>/g))
        expect(row).toMatch(/^<th>.*?<\/th>(<td>.*?<\/td>)+$/);
    }
  });
  test('a reaction that does not balance is shown with the reason', () => {
    const broken = shown(reckon(malachite.replace('2 CuSO4(aq)', 'CuSO4(aq)')).amounts);
    expect(broken).toContain('This reaction is not reckoned. Copper (Cu) is off by 1: 1 on the left, 2 on the right.');
  });
  test('without a reaction there is no column of substance or equivalents to stand empty', () => {
    const mixed = shown(reckon(malachite.replace(/^reaction:.*$/m, '').replace(/, obtained: [\d.]+ g/g, '')).amounts);
    expect(mixed).toContain('<thead><tr><th>Reagent</th><th>Taken</th></tr></thead>');
    expect(mixed).not.toMatch(/What came out/);
  });
  test('what ± holds of all entries stands on a page of its own, what is so of this one here', () => {
    expect(html).toContain('<p><a href="/how/">How yields are reckoned</a></p></details>');
    expect(html).toMatch(/: as if pure; purity was not stated\.<\/p><p><a href="\/how\/">/);
  });
  test('atom economy is given to a tenth of a per cent', () => expect(html).toMatch(/atom economy \d+\.\d %/));
  test('an entry without reaction and reagents has no such section', () =>
    expect(amountsContent(reckon('samples: []').amounts, '/how/')).toEqual([]));
  test('what a sample was made from runs down to it, with links to the entries', () => {
    const [, later] = reckonAll([
      entry(9, malachite),
      entry(
        10,
        `
pigment: { name: tenorite, formula: CuO }
reaction: Cu2CO3(OH)2 -> 2 CuO + CO2 + H2O
reagents: [{ lot: 9/A, amount: 1.00 g }]
samples: [{ sample: A, obtained: 0.70 g }]
`,
      ),
    ]);
    const made = toHtml({ type: 'root', children: lineageContent(later!.amounts) });
    expect(made).toContain('aria-label="What This was made from, earliest first"');
    expect(made).toContain('<a href="../9/#A">9/A malachite</a>');
    expect(made.indexOf('9/A malachite')).toBeLessThan(made.indexOf('This: tenorite'));
    expect(made).toMatch(/from copper\(II\) sulfate pentahydrate, sodium carbonate, anhydrous; yield 89\.4/);
  });
});

test('what is left of a lot stands on its own entry’s page, with who took it', () => {
  const all = reckonAll(
    [
      entry(9, malachite),
      entry(
        10,
        `
pigment: { name: tenorite, formula: CuO }
reaction: Cu2CO3(OH)2 -> 2 CuO + CO2 + H2O
reagents: [{ lot: 9/A, amount: 1.25 g }]
samples: [{ sample: A }]
`,
      ),
    ],
    { balance: '0.01 g' },
  );
  const stock = [...stockOfLots(all).values()];
  const html = toHtml({ type: 'root', children: stockContent({ ...all[0]!.amounts, stock }) });
  expect(html.replace(/<[^>]+>/g, '')).toContain('Lot 9/A: 1.980 g obtained; 1.25 g to no. 10/A; 0.73 g left.');
  expect(html).toContain('<a href="../10/#A">');
});

describe('a formula', () => {
  test('that cannot be read is shown as it was written', () =>
    expect(toHtml(formula(typeset('blue stone')))).toBe('<span class="formula">blue stone</span>'));
  test('with a charge', () =>
    expect(toHtml(formula(typeset('SO4^2-')))).toBe(
      '<span role="img" aria-label="S O 4 2 minus">SO<sub>4</sub><sup>2−</sup></span>',
    ));
});
