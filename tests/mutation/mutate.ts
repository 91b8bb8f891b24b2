// `npm run mutate [room, file or folder …]`: changes the code in one place at a time, runs the tests that reach the
// place, and prints how many of the changes they noticed. What was run before and has not changed is not run again.
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { parse } from 'csv-parse/sync';
import { type Asked, askedFor, testsOfRoom } from './rooms.js';
import { type Equivalent, type FileScore, percent, type Report, scores } from './score.js';

type LogLevel = NonNullable<ConstructorParameters<typeof Stryker>[0]['logLevel']>;

const folder = '.cache/mutation';

const usage = `npm run mutate -- [room, file or folder …]

  no word           every room: ${Object.keys(testsOfRoom).join(', ')}
  --again           forget what was run before
  --static          also what runs once when a file is loaded (each such change runs all tests of the room: slow)
  --processes N     how many at a time (1)
  --tests A,B       only these tests answer (files or folders in tests/): quicker, and never kills more
  --scores          run nothing; print the scores of the last runs
`;

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    again: { type: 'boolean', default: false },
    static: { type: 'boolean', default: false },
    processes: { type: 'string', default: '1' },
    tests: { type: 'string' },
    scores: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});

const reportOf = (file: string): string => join(folder, 'reports', `${file.replaceAll('/', '.')}.json`);

async function mutate(room: string, file: string): Promise<void> {
  process.env.MUTATED_TESTS = options.tests ?? testsOfRoom[room]!.join(',');
  await new Stryker({
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: '.config/mutation.ts', related: false },
    mutate: [file],
    // Few tests are all run against each change, so that what a file of tests reckons once, for several tests, counts
    // too.
    coverageAnalysis: options.tests ? 'all' : 'perTest',
    ignoreStatic: !options.static && !options.tests,
    concurrency: Number(options.processes),
    incremental: true,
    incrementalFile: reportOf(file),
    force: options.again,
    // Its reader of tsconfig.json wants an older compiler; the tests need none.
    tsconfigFile: '.config/none.json',
    disableTypeChecks: false,
    // Generous, so that a busy machine kills no mutant: what never ends is found by counting how often a place is
    // passed.
    timeoutMS: 30_000,
    timeoutFactor: 4,
    tempDirName: join(folder, 'copies'),
    ignorePatterns: ['/dist', '/site', '/.pictures', '/.cache'],
    reporters: ['progress-append-only'],
    allowConsoleColors: false,
    logLevel: 'warn' as LogLevel,
  }).runMutationTest();
}

function readEquivalents(): Equivalent[] {
  return parse(readFileSync('tests/mutation/equivalent.csv'), { columns: true, bom: true }) as Equivalent[];
}

const row = (name: string, score: { killed: number; total: number; equivalent: number }): string =>
  [
    name.padEnd(52),
    `${score.killed}/${score.total}`.padStart(11),
    `${percent(score)} %`.padStart(9),
    score.equivalent > 0 ? `   ${score.equivalent} equivalent` : '',
  ].join('');

function sum(files: readonly FileScore[]): { killed: number; total: number; equivalent: number } {
  const of = (key: 'killed' | 'total' | 'equivalent') => files.reduce((total, file) => total + file[key], 0);
  return { killed: of('killed'), total: of('total'), equivalent: of('equivalent') };
}

function survivorsOf(file: FileScore): string[] {
  return file.survivors.map(
    ({ place, line, change, covered }) =>
      `${file.file}:${place}  ${covered ? 'survives' : 'no test comes here'}\n    ${line}\n    ${change}`,
  );
}

/** The scores of a room's files that were run, now or before. */
function scoresOf(room: string): FileScore[] {
  const equivalents = readEquivalents();
  return askedFor([room])
    .asked.flatMap(({ files }) => files)
    .filter((file) => existsSync(reportOf(file)))
    .flatMap((file) => scores(JSON.parse(readFileSync(reportOf(file), 'utf8')) as Report, equivalents));
}

function print({ room, files }: Asked): void {
  const run = scoresOf(room);
  const lines = [
    ...run.filter(({ file }) => files.includes(file)).flatMap(survivorsOf),
    ...run.flatMap(({ outlived }) =>
      outlived.map(({ file, line, change }) => `${file}: in equivalent.csv, and does not survive: ${line}: ${change}`),
    ),
    ...run.map((file) => row(file.file, file)),
    row(`${room}: ${run.length} of ${askedFor([room]).asked[0]!.files.length} files`, sum(run)),
  ];
  process.stdout.write(`\n${lines.join('\n')}\n`);
}

/** Each file is a run of its own, so that a run that is stopped, or whose tests fail, loses one file at most. */
async function mutateAndPrint(one: Asked): Promise<void> {
  for (const file of options.scores ? [] : one.files) {
    process.stdout.write(`${file}\n`);
    try {
      await mutate(one.room, file);
    } catch (error) {
      process.stderr.write(`${file} was not run: ${error instanceof Error ? error.message : String(error)}\n`);
      process.exitCode = 1;
    }
  }
  print(one);
}

const { asked, unknown } = askedFor(positionals);
if (options.help || unknown.length > 0) {
  process.stderr.write(
    unknown.length > 0 ? `Neither a room nor a path in one: ${unknown.join(', ')}\n\n${usage}` : usage,
  );
  process.exitCode = options.help ? 0 : 2;
} else {
  mkdirSync(folder, { recursive: true });
  for (const one of asked) await mutateAndPrint(one);
}
