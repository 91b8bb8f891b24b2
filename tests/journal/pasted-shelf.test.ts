// A shelf as it comes from a spreadsheet or another page, and jars of one name.
import { describe, expect, it } from 'vitest';
import { takeShelf } from '../../src/journal/take-shelf.js';
import { readShelf } from '../../src/journal/yaml-file.js';
import { journalOf } from './folder.js';
import { readJournal } from '../../src/journal/index.js';

const empty = { file: 'shelf.yaml', text: '', reagents: new Map() };
const table = '| name | formula | purity |\n|------|---------|-----|\n| alum | KAl(SO4)2·12H2O | 99 % |\n';

describe('a table where jars should stand', () => {
  it.each([table, 'name,formula,purity\nalum,KAl(SO4)2,99 %\n', 'Bezeichnung;CAS\nAlaun;7784-24-9\n'])('%s', (text) =>
    expect(readShelf('shelf.yaml', text).remarks.map(({ ruleId }) => ruleId)).toEqual(['shelf-as-table']),
  );
  it.each(['alum: { name: alum }\n', '# name, formula\nalum:\n  name: alum, potash\n'])('%s is none', (text) =>
    expect(readShelf('shelf.yaml', text).remarks).toEqual([]),
  );
  it('is taken in as the remark says', () => {
    const taken = takeShelf(table, empty);
    expect(taken.ok && taken.value.reagents.map(({ id, fields }) => [id, fields.formula, fields.purity])).toEqual([
      ['alum', 'KAl(SO4)2·12H2O', '99 %'],
    ]);
  });
});

describe('a list that is taken in', () => {
  it.each(['Summe', 'Total', 'Gesamt:', 'subtotal', 'Somme'])('%s is no reagent', (word) => {
    const taken = takeShelf(`name,formula,price\nalum,KAl(SO4)2,4 EUR / kg\n${word},,4 EUR\n`, empty);
    expect(taken.ok && taken.value.reagents.map(({ id }) => id)).toEqual(['alum']);
  });
  it('knows a jar by its id too', () => {
    const reagents = new Map([['alum', { name: 'potassium alum' }]]);
    const taken = takeShelf('name,formula\nalum,KAl(SO4)2\n', { ...empty, reagents });
    expect(taken.ok && taken.value.reagents[0]?.already).toBe('alum');
  });
  it.each([
    ['copper(II) oxide', 'cupric oxide,'],
    ['copper(II) oxide', 'black stuff,CuO'],
    ['copper sulfate pentahydrate', 'Kupfersulfat-Pentahydrat,'],
  ])('says that %s and %s are one substance, and adds it all the same', (name, row) => {
    const reagents = new Map([['there', { name }]]);
    const taken = takeShelf(`name,formula\n${row}\n`, { ...empty, reagents });
    expect(taken.ok && taken.value.notes.map(({ message }) => message).join()).toContain('same substance as there');
    expect(taken.ok && taken.value.yaml).not.toBe('');
  });
  it.each([
    ['copper sulfate pentahydrate', 'copper sulfate anhydrous,CuSO4'],
    ['copper(II) oxide', 'copper(I) oxide,'],
  ])('says nothing of %s and %s', (name, row) => {
    const taken = takeShelf(`name,formula\n${row}\n`, { ...empty, reagents: new Map([['there', { name }]]) });
    expect(taken.ok && taken.value.notes).toEqual([]);
  });
});

it('asks which of two jars of one name was used', async () => {
  const { remarks } = await readJournal(
    journalOf({
      'shelf.yaml':
        'one: { name: cobalt chloride, formula: CoCl2·6H2O, purity: 98 % }\n' +
        'two: { name: Cobalt chloride, formula: CoCl2·6H2O, purity: 99.5 % }\n',
      'entries/001-x.md':
        '---\nnumber: 1\ntitle: T\ndate: 2026-03-14\nstatus: finished\n' +
        'reagents: [{ reagent: cobalt chloride, amount: 4.76 g }]\n---\nx\n',
    }),
  );
  const one = remarks.find(({ ruleId }) => ruleId === 'unknown-reagent');
  expect(one?.reason).toContain('may be two');
  expect(one?.note).toContain('one or two');
});
