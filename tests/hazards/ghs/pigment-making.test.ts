// The substances most used in pigment making all have a row or a group entry: those of the balanced preparation
// reactions of a reference table of 77 pigments, and what the trade calls by name.
import { describe, expect, test } from 'vitest';
import { hazardBox, type HazardBox } from '../../../src/hazards/ghs/index.js';
import { referenceRows } from '../../reference/read.js';

const rows = referenceRows('hazards/pigment-making-substances.csv');
// Rare in the trade, in one preparation each, and in no document here: they are said to be unknown.
const unknown = new Set(['Mn2O3', 'In2O3', 'Y2O3', 'FeTiO3', 'Al2Si2O7']);
const boxOf = ({ name, formula }: Readonly<Record<string, string>>): HazardBox =>
  hazardBox([{ name: name || formula!, ...(formula && { formula }) }]);

describe('what pigments are made of', () => {
  test('there are many more than sixty', () => {
    expect(rows.length).toBeGreaterThan(180);
  });
  test('the sixty reagents used in most preparations are all known', () => {
    const most = rows
      .filter((row) => row['preparations'] !== '')
      .sort((a, b) => Number(b['preparations']) - Number(a['preparations']))
      .slice(0, 60);
    expect(most).toHaveLength(60);
    expect(most.filter((row) => boxOf(row).unknown.length > 0).map((row) => row['formula'])).toEqual(
      most.filter((row) => unknown.has(row['formula']!)).map((row) => row['formula']),
    );
    expect(most.filter((row) => unknown.has(row['formula']!))).toHaveLength(0);
  });
  test.each(rows.map((row) => [row['name'] || row['formula']!, row] as const))('%s', (_, row) => {
    expect(boxOf(row).unknown).toHaveLength(unknown.has(row['formula']!) ? 1 : 0);
  });
});
