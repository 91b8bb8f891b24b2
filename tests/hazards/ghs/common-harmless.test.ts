// The common things of the trade that suppliers do not classify: each has a row, each says "not classified" with what
// must be said besides, and none is ever called safe.
import { describe, expect, test } from 'vitest';
import { findSubstance, hazardBox, type SubstanceQuery } from '../../../src/hazards/ghs/index.js';
import { referenceRows } from '../../reference/read.js';

const rows = referenceRows('hazards/common-harmless.csv');
const list = (cell: string | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');

describe('every one', () => {
  test('there are 128', () => {
    expect(rows).toHaveLength(128);
  });
  test.each(rows.map((row) => [row['name']!, row] as const))('%s', (name, row) => {
    // Several names in one cell, with a comma between them: each is a name.
    const names = name.split(', ').filter((part) => !['hydrate', 'dried', 'natural', 'calcined'].includes(part));
    const asked: readonly SubstanceQuery[] = [
      ...(row['cas'] === '' ? names.map((part) => ({ name: part })) : []),
      ...list(row['cas']).map((cas) => ({ cas })),
    ];
    for (const query of asked) {
      const box = hazardBox([{ name: name, ...query }]);
      expect(box.unknown, JSON.stringify(query)).toEqual([]);
      const said = box.notes!.map((note) => note.text.toLowerCase()).join(' ');
      for (const caveat of list(row['caveat'])) expect(said).toContain(caveat.toLowerCase());
      if (row['verdict'] !== 'not classified') expect(box.statements.length, JSON.stringify(query)).toBeGreaterThan(0);
      if (box.statements.length === 0) expect(said).toContain('not the same as harmless');
      expect(said).not.toMatch(/\bsafe\b(?!ty)/);
    }
  });
  test('each name that suppliers print is found', () => {
    for (const row of rows) {
      const printed = [row['name']!, ...list(row['synonyms'])].filter((one) => !/\d{3,}-\d\d-\d|,|\bunder\b/.test(one));
      const lost = printed.filter((one) => findSubstance({ name: one }).found === 'unknown');
      // Words of the table that say what a thing is for or holds, and are no names.
      const noNames = new Set([
        'gesso',
        'lake base',
        'sand dust',
        'calcined diatomite content',
        'tempera',
        'natural iron earths',
        'egg yolk and white',
      ]);
      expect(lost.filter((one) => !noNames.has(one))).toEqual([]);
    }
  });
});
