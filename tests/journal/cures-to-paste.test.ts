// What is written otherwise and can only mean one thing, and what a remark says to write where it may mean several.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/journal/index.js';
import { columnAsWritten, textAsWritten } from '../../src/journal/as-written.js';
import { decimalsInBrackets } from '../../src/journal/mending/decimals-in-brackets.js';
import { listWritten } from '../../src/journal/list-written.js';

const read = (lines: string) =>
  readEntry(
    'entries/001-x.md',
    `---\nnumber: 1\ntitle: T\ndate: 2026-03-14\nstatus: finished\n${lines}\n---\nWords.\n`,
  );
const remarkOf = (lines: string, rule: string) => read(lines).remarks.find(({ ruleId }) => ruleId === rule);

describe('a decimal comma in square brackets', () => {
  it.each([
    ['[quartz 20,5 g, chalk 8,3 g]', '[quartz 20.5 g, chalk 8.3 g]'],
    ['[0,125 mol, 12,25 ml]', '[0.125 mol, 12.25 ml]'],
    ['[{ a: b }, 1,5 °C]', '[{ a: b }, 1.5 °C]'],
    // What may be thousands, two items, or no list stays as it is.
    ['[quartz 1,500 g]', '[quartz 1,500 g]'],
    ['[45,2,-30]', '[45,2,-30]'],
    ['["a 20,5 g", b]', '["a 20,5 g", b]'],
    ['[{ amount: 20,5 g }]', '[{ amount: 20,5 g }]'],
    ['about [1,5 g]', 'about [1,5 g]'],
  ])('%s is read as %s', (written, meant) => expect(decimalsInBrackets(`x: ${written}`)).toBe(`x: ${meant}`));

  it('loses no decimal and no reagent', () =>
    expect(read('reagents: [quartz 20,5 g, chalk 8,3 g]').entry?.reagents).toEqual([
      { reagent: 'quartz', amount: '20.5 g' },
      { reagent: 'chalk', amount: '8.3 g' },
    ]));
});

describe('places are those of the file', () => {
  it('behind a key in another language', () =>
    expect(remarkOf('reagents:\n  - { réactif: eau, quantité: "1,5 L" }', 'read-as')).toMatchObject({
      line: 7,
      column: 31,
      paste: { instead: '1,5 L', with: '1.5 L' },
    }));
  it('behind an item that was left out', () =>
    expect(
      remarkOf('reagents: [{ lot: 1, amount: 2 g }, { reagent: soda, amount: 3 gg }]', 'amount-not-read')?.column,
    ).toBe(62));
  it.each([
    ['a: "x y", b: c', 'a: x y, b: c', 10, 8],
    ['réactif: eau'.replace('réactif', 'reagent'), 'réactif: eau', 9, 9],
    ['colour-index: PV16', 'Colour  Index: PV16', 14, 15],
  ])('%s was %s', (mended, written, column, there) => expect(columnAsWritten(mended, written, column)).toBe(there));
  it('what stands there is told as it was written', () =>
    expect(textAsWritten('[a 2.5 g, b]', '[a 2,5 g, b]', 'a 2.5 g', 1)).toBe('a 2,5 g'));
});

describe('what to write instead', () => {
  it.each([
    ['reagents: [{ reagent: soda, amount: 12.00 gg }]', 'amount-not-read', '12.00 g'],
    ['reagents: [{ reagent: soda, amount: 3,2 }]', 'quantity', '3.2 g'],
    ['reagents: [{ reagent: soda, amount: 5 g, purity: 99,5 }]', 'quantity', '99.5 %'],
    ['samples: [{ sample: A, obtained: "4,0 a 4,2 g" }]', 'read-as', '4.0-4.2 g'],
    ['reagents: [{ reagent: vinegar, amount: 5 mL, strength: 3 mol }]', 'dimension', '3 mol/L'],
    ['pigment: { name: azurite, formula: Cu3(C03)2(OH)2 }', 'formula', 'Cu3(CO3)2(OH)2'],
    ['pigment: { name: x, formula: \u0421uCO3 }', 'read-as', 'CuCO3'],
    ['samples: [{ sample: \u0410 }]', 'read-as', 'A'],
    ['heating: [{ of: mixture, to: 60 °C, for: 2 h: 30 }]', 'yaml', '"2 h: 30"'],
  ])('%s', (lines, rule, meant) => expect(remarkOf(lines, rule)?.paste?.with).toBe(meant));

  it('is no key that stands there already', () => {
    const one = remarkOf('reagents: [{ reagent: soda, ammount: 7 g, amount: 7.5 g }]', 'unknown-key');
    expect(one?.paste).toBeUndefined();
    expect(one?.note).toContain('which stands there too');
  });
  it('is no figure of another', () => {
    expect(remarkOf('heating: [{ of: mixture, for: 2 h }]', 'missing-key')?.note).not.toMatch(/^Add to: \d/);
    expect(
      read('date: last sunday')
        .remarks.map(({ note }) => note)
        .join(),
    ).not.toContain('2026-03-14');
  });
  it.each(['note: it smelled', 'Notiz: es roch'])('%s goes into the write-up', (line) =>
    expect(remarkOf(line, 'unknown-key')?.note).toContain('write-up'),
  );
});

it('one finding is made of a text with several commas in braces', () => {
  const all = read('samples: [{ sample: A, obtained: 14,2 g ± 0,1 }]').remarks.filter(
    ({ ruleId }) => ruleId === 'comma-in-braces',
  );
  expect(all.map(({ paste }) => paste?.with)).toEqual(['"14,2 g ± 0,1"']);
});

it('a second colon is told on its own line', () =>
  expect(remarkOf('reagents:\n  - reagent: soda\n    note: and\n      so: on', 'yaml')?.line).toBe(9));

it('where two keys tell what was done, both count', () => {
  const { inPart } = read('heating: { of: mixture, to: 1000 °C }\nheating: { of: mixture, to: 1100 °C }');
  expect(inPart?.heating.map(({ to }) => to)).toEqual(['1000 °C', '1100 °C']);
});

it('a precaution and a heating are read in other languages', () => {
  const { entry } = read(
    'precautions: [{ contre: chlore, faire: "dehors, loin de tous" }]\nheating: [{ à: 60 °C, pendant: 2 h }]',
  );
  expect(entry?.precautions).toEqual([{ against: 'chlore', do: 'dehors, loin de tous' }]);
  expect(entry?.heating[0]).toMatchObject({ to: '60 °C', for: '2 h' });
});

it.each([
  ['title: x', { how: 'not' }],
  ['precautions:\n- against: dust', { how: 'lines', indent: 0 }],
  ['precautions:\n    - against: dust', { how: 'lines', indent: 4 }],
  ['precautions: [{ against: dust }]', { how: 'brackets' }],
  ['precautions: a mask', { how: 'text' }],
])('%s', (matter, how) => expect(listWritten(matter, 'precautions')).toEqual(how));
