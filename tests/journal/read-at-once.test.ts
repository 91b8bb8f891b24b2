// What short commands read the journal's format with: whatever fits is read as zod reads it, and the rest is zod's.
import { readFileSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { jsonSchemaOf, schemaNames } from '../../src/journal/json-schema.js';
import * as inZod from '../../src/journal/schema.js';
import { split } from '../../src/journal/split.js';
import { readYaml } from '../../src/journal/yaml.js';

/** The format made of what short commands have in the place of zod, and how often zod was asked. */
async function atOnce() {
  vi.resetModules();
  const zod = await vi.importActual<typeof import('zod')>('zod');
  const asked = vi.fn(() => zod);
  const reader = await import('../../src/journal/read-at-once.js');
  reader.takeZodFrom(asked);
  vi.doMock('zod', () => reader);
  const format = await import('../../src/journal/schema.js');
  const forEditors = await import('../../src/journal/json-schema.js');
  vi.doUnmock('zod');
  return { format, forEditors, asked };
}
const { format, forEditors, asked } = await atOnce();

const folders = ['content', 'tests/reference/notebook', 'tests/reference/notebook-2'];
const valueOf = (yaml: ReturnType<typeof readYaml>): unknown => (yaml.ok ? yaml.value : undefined);

/** Front matter and YAML files of journals, with the schema of each. */
const written = folders.flatMap((folder) => [
  ...readdirSync(`${folder}/entries`).flatMap((name) => {
    const parts = split(readFileSync(`${folder}/entries/${name}`, 'utf8'));
    const data = parts.ok ? valueOf(parts.split.yaml) : undefined;
    return data === undefined ? [] : [{ name: `${folder}/${name}`, schema: 'entrySchema' as const, data }];
  }),
  ...(['journal', 'shelf'] as const).map((name) => ({
    name: `${folder}/${name}.yaml`,
    schema: `${name}Schema` as const,
    data: valueOf(readYaml(readFileSync(`${folder}/${name}.yaml`, 'utf8'))),
  })),
]);
type Written = (typeof written)[number];

/** Data as text, in which the order of keys counts and what is undefined can be seen. */
const shown = (data: unknown): string =>
  JSON.stringify(data, (_, value: unknown) => (value === undefined ? '(undefined)' : value), 1);

function expectSame({ name, schema }: Pick<Written, 'name' | 'schema'>, data: unknown): void {
  const [read, known] = [format[schema].safeParse(data), inZod[schema].safeParse(data)];
  expect(read.success, name).toBe(known.success);
  if (known.success) expect(shown(read.data), name).toBe(shown(known.data));
  else expect(shown(read.error?.issues), name).toBe(shown(known.error.issues));
}

test('the journals there are, and what is read of them without zod', () => {
  expect(written.length).toBeGreaterThan(50);
  for (const one of written.filter(({ name }) => name.startsWith('content/'))) {
    expect(format[one.schema].safeParse(one.data).success, one.name).toBe(true);
    expect(asked, one.name).not.toHaveBeenCalled();
  }
  for (const one of written) expectSame(one, one.data);
});

/** Ways to every value in data. */
const waysIn = (data: unknown): (readonly (string | number)[])[] =>
  typeof data !== 'object' || data === null
    ? []
    : Object.entries(data).flatMap(([key, value]) => {
        const step = Array.isArray(data) ? Number(key) : key;
        return [[step], ...waysIn(value).map((rest) => [step, ...rest])];
      });

function changedAt(data: unknown, way: readonly (string | number)[], change: (parent: never, key: never) => void) {
  const copy: unknown = structuredClone(data);
  const parent = way.slice(0, -1).reduce<unknown>((at, step) => (at as Record<string | number, unknown>)[step], copy);
  change(parent as never, way.at(-1) as never);
  return copy;
}

const oddValue = fc.constantFrom<unknown>(
  ...[
    '',
    ' ',
    '0',
    '-1',
    '7',
    '1e3',
    '12.5',
    '1e999',
    'NaN',
    'yes',
    'OFF',
    '2026-3-4',
    '2026-03',
    'March 2026',
    'A',
    '9/A',
  ],
  ...['red heat', '5 g', '5 grms', '60 %', '1,5 g', 'CuSO4·5H20', 'Cu', 'cu', 'PG 39', '#4f8a6b', '3:40', 'none'],
  ...['http://x.example/', 'spectra/../x', 'H302', 'finished', 'Finished', 'M0', '45/0', 'excess', 'GHS07', 'P-17'],
  ...[null, undefined, true, false, 0, 7, 2.5, Number.NaN, Number.POSITIVE_INFINITY, [], {}, ['5 g'], [1, 2, 3]],
  ...[{ name: 'x' }, { name: 'x', 'no such key': 1 }, { step: '0.01 g' }, new Map(), new Date(0)],
);

const change = fc.oneof(
  oddValue.map((value) => (parent: Record<string, unknown>, key: string) => void (parent[key] = value)),
  fc.constant((parent: Record<string, unknown>, key: string) => void delete parent[key]),
  oddValue.map((value) => (parent: Record<string, unknown>, key: string) => {
    parent[`${key}s`] = value;
  }),
);

test('whatever else stands there is read, or refused, as zod does', () => {
  fc.assert(
    fc.property(fc.constantFrom(...written), fc.nat(), change, (one, nth, alter) => {
      const ways = waysIn(one.data);
      if (ways.length > 0) expectSame(one, changedAt(one.data, ways[nth % ways.length]!, alter as never));
    }),
    { numRuns: 400 },
  );
});

test.each<[string, unknown]>([
  ['a fourth number in Lab', { colour: { lab: [1, 2, 3, 4] } }],
  ['two numbers in Lab', { colour: { lab: [1, 2] } }],
  ['a number without end', { tests: { ph: Number.POSITIVE_INFINITY } }],
  ['what is no number', { opacity: { 'over-black': Number.NaN, 'over-white': '3' } }],
  ['a number that may be a file', { opacity: { 'over-black': 'spectra/1.csv', 'over-white': '3' } }],
])('%s', (name, sample) => {
  const data = { number: '1', title: 'x', date: '2026-01-02', status: 'planned' };
  expectSame({ name, schema: 'entrySchema' }, { ...data, samples: [{ sample: 'A', ...(sample as object) }] });
});

test('a key that would change what all objects are is left to zod', () => {
  const own = JSON.parse('{ "__proto__": { "name": "x" }, "soda": { "name": "soda" } }') as unknown;
  expectSame({ name: 'shelf', schema: 'shelfSchema' }, own);
  expectSame({ name: 'entry', schema: 'entrySchema' }, own);
  expect(Object.getPrototypeOf(format.shelfSchema.safeParse(own).data)).toBe(Object.prototype);
});

test('what keys are for is told without zod, as zod tells it', () => {
  const before = asked.mock.calls.length;
  const told = ({ shape }: typeof inZod.testsSchema): unknown =>
    Object.entries(shape).map(([key, { description }]) => [key, description]);
  expect(told(format.testsSchema)).toEqual(told(inZod.testsSchema));
  expect(asked.mock.calls.length).toBe(before);
});

test.each(schemaNames)('editors are told the same of %s', (name) =>
  expect(JSON.stringify(forEditors.jsonSchemaOf(name))).toBe(JSON.stringify(jsonSchemaOf(name))),
);
