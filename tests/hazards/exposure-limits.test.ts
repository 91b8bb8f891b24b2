// Published limits of exposure at work are all there, with their source, and found by CAS number or name.
import { describe, expect, test } from 'vitest';
import { exposureLimits } from '../../src/hazards/index.js';
import { referenceRows } from '../reference/read.js';

const published = referenceRows('hazards/exposure-limits.csv');

describe('every published limit', () => {
  test('there are 193', () => {
    expect(published.length).toBe(193);
  });
  test('is found by the substance’s name, and by its CAS number where it has one', () => {
    for (const row of published) {
      const same = (limit: ReturnType<typeof exposureLimits>[number]): boolean =>
        limit.kind === row['limit_type'] &&
        limit.value === row['value'] &&
        limit.unit === row['unit'] &&
        limit.note === row['note'] &&
        limit.source === row['source_title'] &&
        limit.basis === row['basis'];
      expect(exposureLimits(row['substance']!).some(same), `${row['substance']} ${row['limit_type']}`).toBe(true);
      if (row['cas']) expect(exposureLimits(row['cas']).some(same), row['cas']).toBe(true);
    }
  });
  test('nothing is found for nothing', () => {
    expect(exposureLimits('')).toEqual([]);
  });
});
