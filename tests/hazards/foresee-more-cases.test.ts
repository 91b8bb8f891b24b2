// Further scenarios with other substances than the published list has; each row names its source.
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { referenceRows } from '../reference/read.js';
import { reading } from './ingredients.js';

const rank = ['note', 'warning', 'danger'];
const look = (row: Record<string, string>) =>
  foresee({
    ingredients: row.reagents!.split('; ').map(reading),
    ...(row.celsius && { heating: [{ of: 'mixture', toCelsius: Number(row.celsius) }] }),
  });
// outside-cases.csv was written down before anything was run on it, from the published pairs and not from the rules'
// own tables.
const rows = [...referenceRows('mixing/more-cases.csv'), ...referenceRows('mixing/outside-cases.csv')];

describe('what is foreseen', () => {
  it.each(
    rows.filter((row) => rank.includes(row.expected!)).map((row) => [`${row.case_id} ${row.reagents}`, row] as const),
  )('%s', (_title, row) => {
    const { foreseen, unknown } = look(row);
    expect(unknown).toEqual([]);
    expect(Math.max(-1, ...foreseen.map(({ severity }) => rank.indexOf(severity)))).toBeGreaterThanOrEqual(
      rank.indexOf(row.expected!),
    );
    const told = foreseen
      .filter(({ severity }) => rank.indexOf(severity) >= Math.min(rank.indexOf(row.expected!), 1))
      .flatMap(({ gas }) => (gas ?? '').split(/ \+ |; ?/));
    if (row.expected_gases) expect(told).toContain(row.expected_gases);
  });
});

describe('no alarm', () => {
  it.each(rows.filter((row) => row.expected === 'none').map((row) => [`${row.case_id} ${row.reagents}`, row] as const))(
    '%s',
    (_title, row) => {
      const { foreseen, unknown } = look(row);
      expect(unknown).toEqual([]);
      expect(
        foreseen.filter(({ severity }) => severity !== 'note').map(({ rule, severity }) => `${rule} ${severity}`),
      ).toEqual([]);
    },
  );
});

describe('what cannot be judged', () => {
  it.each(
    rows.filter((row) => row.expected === 'unknown').map((row) => [`${row.case_id} ${row.reagents}`, row] as const),
  )('%s', (_title, row) => {
    expect(look(row).unknown.length).toBeGreaterThan(0);
  });
});
