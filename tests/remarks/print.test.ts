// Remarks as they are printed for people and for programs.
import { expect, test } from 'vitest';
import { printRemarks, remark, remarksAsJson } from '../../src/journal/index.js';

const remarks = [
  remark({
    place: { file: 'entries/002-b.md', line: 12, column: 3 },
    severity: 'warning',
    rule: 'heating-of',
    found: 'Second.',
    cure: 'Do that.',
  }),
  remark({
    place: { file: 'entries/001-a.md', line: 120, column: 14 },
    severity: 'error',
    rule: 'unit',
    found: 'Third.',
    cure: 'Write the unit.',
    actual: '1.98',
    expected: ['a mass'],
  }),
  remark({
    place: { file: 'entries/001-a.md', line: 2, column: 1 },
    severity: 'note',
    rule: 'empty-key',
    found: 'First.',
    cure: 'Fill it in.',
  }),
];

test('remarks are grouped by file, in order of place, with what to do below each', () => {
  expect(printRemarks(remarks, 'my/journal/')).toBe(
    [
      'my/journal/entries/001-a.md',
      '     2:1  note     First.  [empty-key]',
      '                   → Fill it in.',
      '  120:14  error    Third.  [unit]',
      '                   → Write the unit.',
      '',
      'my/journal/entries/002-b.md',
      '  12:3  warning  Second.  [heating-of]',
      '                 → Do that.',
      '',
      '1 error, 1 warning, 1 note',
      '',
    ].join('\n'),
  );
});

test('no remarks print nothing', () => expect(printRemarks([], 'x')).toBe(''));

test('control characters in what was found do not reach the terminal', () => {
  const [hostile] = [
    remark({
      place: { file: 'entries/\u001b[2Jx.md', line: 1, column: 1 },
      severity: 'error',
      rule: 'unit',
      found: 'Is \u001b]0;owned\u0007 here.',
      cure: '\u001b[31mred',
    }),
  ];
  expect(printRemarks([hostile!])).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
});

test('as JSON each has place, severity, rule, what was found, what was expected, what to do and its cause', () => {
  expect(JSON.parse(JSON.stringify(remarksAsJson(remarks.slice(1, 2))))).toEqual([
    {
      file: 'entries/001-a.md',
      line: 120,
      column: 14,
      severity: 'error',
      rule: 'unit',
      found: 'Third.',
      actual: '1.98',
      expected: ['a mass'],
      cure: 'Write the unit.',
      cause: 'unit entries/001-a.md:120:14',
    },
  ]);
});
