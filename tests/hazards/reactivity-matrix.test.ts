// A published matrix of reactive groups, cell by cell: each has rules that are told when members of the two groups meet
// (cold or at 160 °C; some of them are told of one member alone), or a reason why none is, with where it is known from.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';

interface Cell {
  readonly chart: string;
  readonly row_name: string;
  readonly col_name: string;
  readonly codes: string;
  readonly account: string;
  readonly rules: string;
  readonly reason: string;
  readonly reason_source: string;
  readonly source_title: string;
}
const file = join(import.meta.dirname, '../reference/mixing/reactivity-matrix.csv');
const cells = parse(readFileSync(file), { columns: true }) as Cell[];
const called = ({ chart, row_name, col_name }: Cell): string => `${chart}: ${row_name} × ${col_name}`;

describe('the cells of the matrix', () => {
  it('are all there, each with a source', () => {
    expect(cells.length).toBe(501);
    expect(cells.filter(({ source_title }) => source_title === '').map(called)).toEqual([]);
  });
  it('have a rule that exists, or a reason', () => {
    const known = new Set([...pairRules(), ...heatRules()].map(({ id }) => id));
    const unaccounted = cells.filter(({ account, rules, reason }) => {
      const ids = rules.split(' ').filter(Boolean);
      return account === 'rule' ? ids.length === 0 || !ids.every((id) => known.has(id)) : reason === '';
    });
    expect(unaccounted.map(called)).toEqual([]);
  });
  it('have no reason of our own alone: it says where it is known from', () => {
    const bare = cells.filter(({ account, reason_source }) => account !== 'rule' && reason_source === '');
    expect(bare.map(called)).toEqual([]);
  });
  it('are none of them open', () => {
    expect([...new Set(cells.map(({ account }) => account))].sort()).toEqual(['blank', 'none', 'rule']);
    // A blank cell is one in which the chart itself says nothing.
    expect(cells.filter(({ account, codes }) => account === 'blank' && codes !== '').map(called)).toEqual([]);
  });
});
