// The JSON Schema that editors use: up to date, valid, and of one mind with the reader.
import { readFileSync, readdirSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { jsonSchemaOf, jsonSchemaText, schemaNames } from '../../src/journal/json-schema.js';

const ajv = new Ajv2020({ allErrors: true });
const validators = Object.fromEntries(schemaNames.map((name) => [name, ajv.compile(jsonSchemaOf(name))]));

test.each(schemaNames)('public/schema/%s.schema.json is what the format says (npm run schema)', (name) => {
  expect(readFileSync(`public/schema/${name}.schema.json`, 'utf8')).toBe(jsonSchemaText(name));
});

test('every key is described', () => {
  const bare: string[] = [];
  const look = (schema: unknown, path: string): void => {
    if (typeof schema !== 'object' || schema === null) return;
    const { properties = {} } = schema as { properties?: Record<string, { description?: string }> };
    for (const [key, one] of Object.entries(properties)) if (!one.description) bare.push(`${path}.${key}`);
    for (const [key, one] of Object.entries(schema)) look(one, `${path}.${key}`);
  };
  for (const name of schemaNames) look(jsonSchemaOf(name), name);
  expect(bare).toEqual([]);
});

describe('an independent validator (ajv) agrees with the reader', () => {
  const entries = readdirSync('content/entries').filter((name) => name.endsWith('.md'));
  test.each(entries)('%s fits', (name) => {
    const front = parse(readFileSync(`content/entries/${name}`, 'utf8').split(/^---$/m)[1] ?? '') as unknown;
    const fits = validators['entry']!(front);
    expect(validators['entry']!.errors ?? []).toEqual([]);
    expect(fits).toBe(true);
  });
  test('shelf.yaml and journal.yaml fit', () => {
    for (const name of ['shelf', 'journal'] as const) {
      validators[name]!(parse(readFileSync(`content/${name}.yaml`, 'utf8')));
      expect(validators[name]!.errors ?? []).toEqual([]);
    }
  });
  test('only number, title, date and status are required', () => {
    expect(jsonSchemaOf('entry').required).toEqual(['number', 'title', 'date', 'status']);
    expect(validators['entry']!({ number: 1, title: 'x', date: '2026-01-01', status: 'planned' })).toBe(true);
  });
  test.each<[string, object]>([
    ['an unknown key', { titel: 'x' }],
    ['an amount that is a number', { samples: [{ sample: 'A', obtained: 1.98 }] }],
    ['a status of another kind', { status: 'done' }],
    ['a Colour Index name with a space', { pigment: { name: 'x', 'colour-index': 'PG 39' } }],
    ['two numbers for Lab', { samples: [{ sample: 'A', colour: { lab: [1, 2] } }] }],
    ['number 0', { number: 0 }],
  ])('%s does not fit', (_, wrong) => {
    expect(validators['entry']!({ number: 1, title: 'x', date: '2026-01-01', status: 'planned', ...wrong })).toBe(
      false,
    );
  });
});
