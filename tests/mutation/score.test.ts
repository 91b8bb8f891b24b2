// The score of a report of mutants, and which files a word on the command line means.
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { askedFor } from './rooms.js';
import { type Equivalent, percent, type Report, scores } from './score.js';

const source = 'const limit = 7;\n  if (pH < limit) warn(\n    pH,\n  );\n';
const mutant = (status: string, replacement: string, line: number, from: number, to: number, endLine = line) => ({
  mutatorName: 'Any',
  replacement,
  status,
  location: { start: { line, column: from }, end: { line: endLine, column: to } },
});
const report: Report = {
  files: {
    'src/hazards/b.ts': { source, mutants: [mutant('Timeout', 'true', 2, 7, 17)] },
    'src/hazards/a.ts': {
      source,
      mutants: [
        mutant('Killed', 'true', 2, 7, 17),
        mutant('Survived', 'pH <= limit', 2, 7, 17),
        mutant('NoCoverage', '', 2, 19, 4, 4),
        mutant('Ignored', '8', 1, 15, 16),
        mutant('CompileError', '9', 1, 15, 16),
      ],
    },
  },
};
const listed: Equivalent = {
  file: 'src/hazards/a.ts',
  line: 'if (pH < limit) warn(',
  change: 'pH < limit → pH <= limit',
  reason: 'a pH is never 7',
};

describe('the score', () => {
  test('counts what was killed of what was tried, file by file', () => {
    expect(scores(report, []).map(({ file, killed, total }) => [file, killed, total])).toEqual([
      ['src/hazards/a.ts', 1, 3],
      ['src/hazards/b.ts', 1, 1],
    ]);
    expect(percent({ killed: 1, total: 3 })).toBe('33.3');
    expect(percent({ killed: 0, total: 0 })).toBe('–');
  });
  test('says of a survivor where it is and what was changed, on one line', () => {
    expect(scores(report, [])[0]!.survivors).toEqual([
      {
        file: 'src/hazards/a.ts',
        place: '2:7',
        line: 'if (pH < limit) warn(',
        change: 'pH < limit → pH <= limit',
        covered: true,
      },
      {
        file: 'src/hazards/a.ts',
        place: '2:19',
        line: 'if (pH < limit) warn(',
        change: 'warn( pH, ) → ',
        covered: false,
      },
    ]);
  });
  test('leaves out a survivor that is listed as changing nothing', () => {
    const [a] = scores(report, [listed]);
    expect(a).toMatchObject({ killed: 1, total: 2, equivalent: 1 });
    expect(a!.survivors.map(({ covered }) => covered)).toEqual([false]);
    expect(a!.outlived).toEqual([]);
  });
  test('names a listed one that no longer survives', () => {
    const gone = { ...listed, change: 'pH < limit → true' };
    expect(scores(report, [gone]).map(({ outlived }) => outlived)).toEqual([[gone], []]);
  });
});

describe('what is asked for', () => {
  test('a file and a folder of one room', () => {
    const { asked, unknown } = askedFor(['src/chemistry/statistics.ts', './src/chemistry/equation/']);
    expect(unknown).toEqual([]);
    expect(asked.map(({ room }) => room)).toEqual(['chemistry']);
    expect(asked[0]!.files[0]).toBe('src/chemistry/statistics.ts');
    expect(asked[0]!.files.length).toBeGreaterThan(2);
    expect(asked[0]!.files.slice(1).every((file) => /^src\/chemistry\/equation\/[^/]+\.ts$/.test(file))).toBe(true);
  });
  test('a room is all of its code, without the schemas of its tables', () => {
    const { files } = askedFor(['colour']).asked[0]!;
    expect(files).toContain('src/colour/instruments/cgats.ts');
    expect(files.filter((file) => !file.startsWith('src/colour/') || file.endsWith('.schema.ts'))).toEqual([]);
  });
  test('nothing said is every room, and another room is not known', () => {
    expect(askedFor([]).asked.map(({ room }) => room)).toContain('reckoning');
    const strange = ['src/site/plan.ts', 'toString', 'src/chemistry/no-such.ts'];
    expect(askedFor(strange)).toEqual({ asked: [], unknown: strange });
  });
});

test('each mutant listed as equivalent has a reason, in a file that is there', () => {
  const project = fileURLToPath(new URL('../..', import.meta.url));
  const rows = parse(readFileSync(`${project}/tests/mutation/equivalent.csv`), { columns: true }) as Equivalent[];
  expect(rows.filter(({ change, reason }) => !change.includes(' → ') || reason.length < 10)).toEqual([]);
  expect(rows.filter(({ file }) => !existsSync(`${project}/${file}`))).toEqual([]);
});
