// A table with a fault says in which line and column, and what is wanted there.
import { describe, expect, it } from 'vitest';
import {
  cas,
  decimal,
  filledList,
  formula,
  hazardCode,
  list,
  number,
  oneOf,
  optional,
  precautionCode,
  source,
  symbol,
  table,
  text,
  urlOrNone,
  wholeNumber,
  yesOrEmpty,
  yesOrNo,
} from '../../src/tables/cells.js';
import { checkTable } from '../../src/tables/check.js';

const metals = table({ symbol, protons: wholeNumber, poisonous: yesOrNo, source });
const good = 'symbol,protons,poisonous,source\nPb,82,yes,"Handbook, page 1"\nFe,26,no,from memory\n';

describe('a table', () => {
  it('is read into what its schema makes of the cells', () => {
    expect(checkTable(good, metals)).toEqual({
      rows: [
        { symbol: 'Pb', protons: 82, poisonous: true, source: 'Handbook, page 1' },
        { symbol: 'Fe', protons: 26, poisonous: false, source: 'from memory' },
      ],
      faults: [],
    });
  });
  it('may have its columns in another order, a byte order mark and lines that end as on Windows', () => {
    const csv = `\ufeff${good.replace('symbol,protons', 'protons,symbol').replaceAll('\n', '\r\n')}`
      .replace('Pb,82', '82,Pb')
      .replace('Fe,26', '26,Fe');
    expect(checkTable(csv, metals)).toEqual(checkTable(good, metals));
  });

  it.each([
    ['a bad number', good.replace('26', 'many'), 3, 4, /protons: .*whole number.*'many'/],
    ['a bad number behind a quoted comma', 'a,n\n"x, ""y"", z",1\n"p,q",one\n', 3, 7, /n: .*number.*'one'/],
    ['a cell behind one that runs over two lines', 'a,n\n"x\ny",one\n', 3, 4, /n: /],
    ['a row after one that runs over two lines', 'a,n\n"x\ny",1\nz,one\n', 4, 3, /n: /],
    ['an empty source', good.replace('from memory', ''), 3, 10, /source: must not be empty/],
    [
      'a word that is not one of the two',
      good.replace('82,yes', '82,perhaps'),
      2,
      7,
      /poisonous: must be 'yes' or 'no'/,
    ],
    ['an empty cell where yes or no is wanted', good.replace('82,yes', '82,'), 2, 7, /poisonous/],
    ['a misnamed column', good.replace('protons', 'proton'), 1, 8, /no column 'proton'/],
    [
      'a column too many',
      good.replace('source\n', 'source,colour\n').replace('page 1"', 'page 1",red').replace('memory', 'memory,red'),
      1,
      33,
      /colour/,
    ],
    ['a column twice', good.replace('poisonous', 'symbol'), 1, 16, /'symbol' stands twice/],
    ['no rows', 'symbol,protons,poisonous,source\n', 1, 1, /no rows/],
    ['nothing at all', '', 1, 1, /no rows/],
    ['a row with a cell too few', good.replace('Fe,26', 'Fe'), 3, 1, /3/],
    ['a quote that never ends', good.replace('"Handbook', '"Hand"book'), 2, 1, /quote/i],
  ])('with %s says where', (_, csv, line, column, message) => {
    const schema = csv.startsWith('a,n') ? table({ a: text, n: number }) : metals;
    const [fault] = checkTable(csv, schema).faults;
    expect(fault).toMatchObject({ line, column, message: expect.stringMatching(message) as string });
  });

  it('names the column that is missing', () => {
    const { faults } = checkTable('symbol,protons,source\nPb,82,x\n', metals);
    expect(faults).toEqual([{ line: 1, column: 22, message: "the column 'poisonous' is missing" }]);
  });
  it('tells of every fault, not of the first alone', () => {
    const { faults } = checkTable(good.replace('82', 'x').replace('26,no', 'y,z'), metals);
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [2, 4],
      [3, 4],
      [3, 6],
    ]);
  });
});

describe('a cell', () => {
  it.each([
    ['decimal', decimal, ['1', '-0.50', '2.89e-7'], ['', '1,5', '.5', '1.', '1 ', 'x', 'Infinity']],
    [
      'formula',
      formula,
      ['CuSO4·5H2O', '2PbCO3.Pb(OH)2', 'K3[Co(NO2)6]', '(Co,Zn)2SiO4'],
      ['', 'water', 'Cu(', 'Cu(]', 'a)b(', 'Cu SO4'],
    ],
    ['symbol', symbol, ['H', 'Pb'], ['h', 'PB', 'Lead', '']],
    // Check digits: caffeine 58-08-2 and water 7732-18-5, the worked examples of the registry's own description; from
    // memory.
    ['cas', cas, ['7732-18-5', '58-08-2'], ['7732-18-6', '7723-18-5', '58-8-2', '']],
    ['hazardCode', hazardCode, ['H302', 'H360FD', 'EUH032', 'H301+H311'], ['302', 'H30', 'H302 + H312', 'P301', '']],
    ['precautionCode', precautionCode, ['P280', 'P370+P380+P375[+P378]'], ['H280', 'P28', '']],
    ['urlOrNone', urlOrNone, ['', 'https://pubs.example/x?y=1'], ['pubs.example', 'ftp://x', 'https://a b']],
    ['text', text, ['a', 'a b'], ['', ' a', 'a ', ' ']],
    ['filledList', filledList('|', text), ['a', 'a|b', 'a | b'], ['', 'a|', '|a', 'a||b']],
    ['list', list('|', text), ['', 'a|b'], ['a|', 'a||b']],
    ['optional', optional(number), ['', '1'], ['x', ' ']],
    ['oneOf', oneOf('a', 'b'), ['a', 'b'], ['', 'c', 'A']],
    ['yesOrEmpty', yesOrEmpty, ['yes', ''], ['no', 'Yes']],
    ['yesOrNo', yesOrNo, ['yes', 'no'], ['', 'No']],
  ] as const)('of the kind %s takes what it should and nothing else', (_, kind, right, wrong) => {
    expect(right.filter((cell) => !kind.safeParse(cell).success)).toEqual([]);
    expect(wrong.filter((cell) => kind.safeParse(cell).success)).toEqual([]);
  });
  it('becomes a number, a truth value, a list, or undefined', () => {
    expect(number.parse('1.50')).toBe(1.5);
    expect(decimal.parse('1.50')).toBe('1.50');
    expect(yesOrEmpty.parse('')).toBe(false);
    expect(list('|', number).parse('1| 2')).toEqual([1, 2]);
    expect(list('|', text).parse('')).toEqual([]);
    expect(optional(number).parse('')).toBeUndefined();
  });
});
