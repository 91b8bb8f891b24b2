// The rules of the house: which room may use which, no `utils`, data tables with a source in every row, no secrets of
// the machine.
import { readFileSync, readdirSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { alone } from '../.config/alone.ts';

const project = fileURLToPath(new URL('..', import.meta.url));
const filesIn = (folder: string, ending: RegExp): string[] =>
  readdirSync(join(project, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => ending.test(path))
    .map((path) => join(folder, path).replaceAll('\\', '/'));
const code = [...filesIn('src', /\.tsx?$/), ...filesIn('templates', /\.tsx?$/)];

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}
const imports: Import[] = code.flatMap((from) =>
  [
    ...readFileSync(join(project, from), 'utf8').matchAll(
      /^(?:import|export)\s+(type\s)?[^'"]*?from\s+'(\.[^']+)'|import\('(\.[^']+)'\)/gm,
    ),
  ].map((match) => ({
    from,
    to: relative(project, resolve(project, dirname(from), (match[2] ?? match[3])!))
      .replaceAll('\\', '/')
      .replace(/\.js$/, ''),
    typeOnly: match[1] !== undefined,
  })),
);
const room = (path: string): string =>
  path.startsWith('templates/') ? 'templates' : (/^src\/([^/]+)\//.exec(path)?.[1] ?? 'floor');

/** Rooms that each room may use; types included. */
const may: Readonly<Record<string, readonly string[]>> = {
  chemistry: ['floor', 'tables'],
  reagents: ['floor', 'tables', 'chemistry'],
  pictures: ['floor', 'colour', 'journal'],
  colour: ['floor', 'tables'],
  hazards: ['floor', 'tables', 'chemistry', 'reagents'],
  remarks: ['floor'],
  journal: ['floor', 'tables', 'kept', 'chemistry', 'reagents', 'colour', 'remarks'],
  kept: ['floor'],
  reckoning: ['floor', 'tables', 'kept', 'chemistry', 'reagents', 'hazards', 'colour', 'remarks', 'journal'],
  crosslinks: ['floor', 'tables', 'kept', 'chemistry', 'journal', 'reckoning'],
  site: ['floor', 'kept', 'remarks', 'journal', 'reckoning', 'crosslinks', 'templates'],
  reading: [
    'floor',
    'kept',
    'remarks',
    'journal',
    'reckoning',
    'crosslinks',
    'colour',
    'pictures',
    'site',
    'templates',
  ],
};

/** Files that come back to themselves by what they use. */
function inCircles(all: readonly Import[]): readonly string[] {
  const named = (path: string): string => path.replace(/\.tsx?$/, '');
  const uses = new Map<string, string[]>();
  for (const { from, to } of all) uses.set(named(from), [...(uses.get(named(from)) ?? []), named(to)]);
  const comesBack = (start: string): boolean => {
    const seen = new Set<string>();
    const open = [...(uses.get(start) ?? [])];
    for (let file = open.pop(); file !== undefined; file = open.pop()) {
      if (file === start) return true;
      if (seen.has(file)) continue;
      seen.add(file);
      open.push(...(uses.get(file) ?? []));
    }
    return false;
  };
  return [...uses.keys()].filter(comesBack).sort();
}

describe('the rooms', () => {
  it.each(Object.keys(may))('%s uses only what it may', (name) => {
    const wrong = imports.filter(
      ({ from, to }) => room(from) === name && room(to) !== name && !may[name]!.includes(room(to)),
    );
    expect(wrong.map(({ from, to }) => `${from} → ${to}`)).toEqual([]);
  });
  it('nothing uses the commands', () => {
    expect(imports.filter(({ from, to }) => room(from) !== 'commands' && room(to) === 'commands')).toEqual([]);
  });
  it('templates take types from the rooms, and no code', () => {
    const wrong = imports.filter(
      ({ from, to, typeOnly }) => room(from) === 'templates' && room(to) !== 'templates' && !typeOnly,
    );
    expect(wrong.map(({ from, to }) => `${from} → ${to}`)).toEqual([]);
  });
  it('no files of the rooms or templates form a circle, types included', () => {
    expect(inCircles(imports)).toEqual([]);
  });
  it('takes one thought a line: 120 columns, but for patterns and drawn paths', () => {
    const whole = /^\s*(?:\/(?!\*).*\/[a-z]*\.?(?:exec\()?[,;]?|(?:<path )?d="[^"]*"(?: \/>)?)$/;
    const long = code
      .filter((path) => !path.startsWith('src/tables/compiled/'))
      .flatMap((path) =>
        readFileSync(join(project, path), 'utf8')
          .split('\n')
          .flatMap((line, at) => (line.length > 120 && !whole.test(line) ? [`${path}:${at + 1}`] : [])),
      );
    expect(long).toEqual([]);
  });
  it('has no room for oddments', () => {
    expect(
      [...code, ...filesIn('tests', /\.ts$/)]
        .map((path) => basename(path))
        .filter((name) => /^(utils?|helpers?|misc|common)\./.test(name)),
    ).toEqual([]);
  });
});

describe('a test file that changes what others of its process would see', () => {
  const changes = /\bvi\.(?:do)?mock\(|\bvi\.(?:resetModules|stub)|\bprocess\.(?:chdir\(|env\S* = )/;
  const tests = filesIn('tests', /\.test\.tsx?$/);
  const text = (path: string): string => readFileSync(join(project, path), 'utf8');

  it('has a process of its own', () => {
    const changing = tests.filter((path) => changes.test(text(path)));
    expect(changing.length).toBeGreaterThan(3);
    expect(Object.keys(alone)).toEqual(expect.arrayContaining(changing));
  });
  it('is there', () => expect(tests).toEqual(expect.arrayContaining(Object.keys(alone))));
  it('sets the clock right again', () => {
    const clocks = tests.filter((path) => text(path).includes('vi.useFakeTimers('));
    expect(clocks.filter((path) => !text(path).includes('afterEach(() => vi.useRealTimers())'))).toEqual([]);
  });
});

describe('a data table', () => {
  it.each(filesIn('src', /\.csv$/))('%s names a source in every row', (table) => {
    const rows = parse(readFileSync(join(project, table)), { columns: true, bom: true }) as Record<string, string>[];
    expect(rows.length).toBeGreaterThan(0);
    const columns = Object.keys(rows[0]!).filter((name) => /source|basis/.test(name));
    expect(columns).not.toEqual([]);
    expect(rows.filter((row) => columns.every((name) => row[name] === '')).map((row) => Object.values(row)[0])).toEqual(
      [],
    );
  });
});

describe('check values', () => {
  // heat.csv only says which case of cases.csv is warmed, and why that follows from the case's own words.
  it.each(filesIn('tests/reference', /^(?!.*(SOURCES|heat)\.csv$).*\.csv$/))('%s name a source', (table) => {
    const head = readFileSync(join(project, table), 'utf8').split('\n', 1)[0]!;
    if (/source|basis|place/.test(head)) return;
    const beside = readFileSync(join(project, 'tests/reference/colour/SOURCES.csv'), 'utf8');
    const folder = basename(dirname(table));
    expect(beside.includes(basename(table)) || beside.includes(`${folder}/*.csv`)).toBe(true);
  });
});
