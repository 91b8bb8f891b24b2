// Words at the prompt that are not what they look like: values without their quotes, Colour Index names.
import { expect, it } from 'vitest';
import { isNoFormula } from '../../src/chemistry/formula/colour-index.js';
import { quotesMissing } from '../../src/commands/wrong-words.js';

it.each([
  ['--for 10 g 1', '--for "10 g"'],
  ['1 --for 2,5 g', '--for "2,5 g"'],
  ['1 --size 40 x 20', '--size "40 x 20"'],
  ['--lab 50 2.68 -79.78', '--lab "50 2.68 -79.78"'],
  ['1 --expect 60 %', '--expect "60 %"'],
  ['--dilute vinegar --to 2 % --make 100 ml', '--to "2 %"'],
  ['1 --holds 10 mL --to x.html', '--holds "10 mL"'],
])('%s', (words, cure) => expect(quotesMissing(words.split(' '))).toContain(cure));

it.each(['1 --for 10g', '--length 300 14', '14 --count 12', '--from 9 Next', '1 --video 2'])('%s lacks none', (words) =>
  expect(quotesMissing(words.split(' '))).toBe(''),
);

it.each(['PB27', 'PY43', 'PBk11', 'PR101', 'PW18', 'PB15:3', 'PG 50'])('%s is a Colour Index name', (text) =>
  expect(isNoFormula(text)).toBe(true),
);
it.each(['PO4', 'PBr3', 'PB', 'PBr5', 'PbO2', 'PG', 'PY3'])('%s may be a formula', (text) =>
  expect(isNoFormula(text)).toBe(false),
);
