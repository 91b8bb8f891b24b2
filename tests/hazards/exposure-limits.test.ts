// Published limits of exposure at work are all there, with their source, found by CAS number or name, and the strictest
// of a kind is told by its data.
import { describe, expect, test } from 'vitest';
import {
  exposureLimits,
  limitInPpm,
  shortTermKinds,
  strictestLimit,
  type ExposureLimit,
  type LimitKind,
} from '../../src/hazards/index.js';
import { referenceRows } from '../reference/read.js';

const published = referenceRows('hazards/exposure-limits.csv');
const more = referenceRows('hazards/exposure-more.csv');
const kindOf = (printed: string): string => /^(?:TWA|STEL|ceiling|IDLH|ERPG-[123])/.exec(printed)?.[0] ?? 'reference';

describe('every published limit', () => {
  test('there are 193 of the first collection and 126 of the second', () => {
    expect([published.length, more.length]).toEqual([193, 126]);
  });
  test('of the first is found by the substance’s name, and by its CAS number where it has one', () => {
    for (const row of published) {
      const same = (limit: ExposureLimit): boolean =>
        limit.name === row['limit_type'] &&
        limit.value === row['value'] &&
        limit.unit === row['unit'] &&
        limit.note === row['note'] &&
        // A limit that was only remembered may since have been read in a document; never the other way round.
        (row['basis'] === 'memory' || (limit.source === row['source_title'] && limit.basis === 'seen'));
      expect(exposureLimits(row['substance']!).some(same), `${row['substance']} ${row['limit_type']}`).toBe(true);
      if (row['cas']) expect(exposureLimits(row['cas']).some(same), row['cas']).toBe(true);
    }
  });
  test('of the second is found by its CAS number or name', () => {
    for (const row of more.filter((one) => one['kind'] !== 'none found')) {
      const asked = row['cas'] || row['substance']!;
      const same = (limit: ExposureLimit): boolean =>
        limit.kind === kindOf(row['kind']!) &&
        Number(limit.value) === Number(row['value']) &&
        limit.unit === row['unit'] &&
        limit.authority === row['authority'] &&
        (row['basis'] !== 'seen' || limit.basis === 'seen');
      // Compounds that have no CAS number stand under the name of the first collection too.
      const found = [
        ...exposureLimits(asked),
        ...exposureLimits(`${asked} (as Cr(VI))`),
        ...exposureLimits('nickel compounds'),
      ];
      expect(found.some(same), `${asked} ${row['kind']} ${row['authority']}`).toBe(true);
    }
  });
  test('nothing is found for nothing', () => {
    expect(exposureLimits('')).toEqual([]);
  });
});

describe('the strictest', () => {
  // The collection marks the lowest work limit for each substance and unit: column `strictest`.
  const marked = more.filter((row) => row['strictest'] !== '' && row['cas'] !== '');
  const kinds: Readonly<Record<string, readonly LimitKind[]>> = {
    'strictest long-term': ['TWA'],
    'strictest short-term': shortTermKinds,
  };
  // Marked against one another by scope: hard metal only, and the mist of an acid under two names.
  const scoped = new Set(['cobalt and inorganic compounds', 'chromyl chloride']);
  test.each(
    marked
      .filter((row) => !scoped.has(row['substance']!))
      .map((row) => [row['substance']!, row['strictest']!, row] as const),
  )('%s, %s', (_, mark, row) => {
    const found = strictestLimit(exposureLimits(row['cas']!), kinds[mark]!, row['unit'] as 'ppm');
    expect(Number(found?.value)).toBe(Number(row['value']));
  });

  const of = (name: string, ...wanted: readonly LimitKind[]): string | undefined =>
    strictestLimit(exposureLimits(name), wanted, 'ppm')?.value;
  test('arsine and stibine are held against their limits of a day, not only against the danger to life', () => {
    // OSHA PEL of both: 0.05 and 0.1 ppm (NIOSH Pocket Guide); ACGIH has 0.005 ppm for arsine.
    expect(exposureLimits('arsine').some((limit) => limit.kind === 'TWA' && limit.value === '0.05')).toBe(true);
    expect([of('arsine', 'TWA'), of('stibine', 'TWA'), of('arsine', 'IDLH'), of('stibine', 'IDLH')]).toEqual([
      '0.005',
      '0.1',
      '3',
      '5',
    ]);
  });
  test('superseded limits and values that are no work limits never count', () => {
    expect(strictestLimit(exposureLimits('hydrogen fluoride'), ['ceiling'], 'ppm')?.status).toBe('in force');
    expect(of('hydrogen fluoride', 'STEL', 'ceiling')).toBe('2');
    expect(of('sulfur trioxide', 'TWA')).toBeUndefined();
  });
  test('nothing is the strictest of none', () => {
    expect(strictestLimit([], ['TWA'], 'ppm')).toBeUndefined();
  });
});

describe('a gas without a limit of its own', () => {
  test.each([
    ['monochloramine', 'chlorine'],
    ['nitrosyl chloride', 'chlorine'],
    ['nitrosyl chloride', 'nitrogen dioxide'],
    ['hydrogen telluride', 'tellurium hexafluoride'],
    ['sulfur trioxide', 'sulfuric acid'],
  ])('%s is judged by %s, and says so', (gas, other) => {
    const stands = exposureLimits(gas).filter((limit) => limit.standsIn !== undefined);
    expect(stands.some((limit) => limit.substance === other)).toBe(true);
    for (const limit of stands) expect(limit.kind).not.toContain('ERPG');
  });
  test('its own values come first and are not called another’s', () => {
    expect(exposureLimits('sulfur trioxide')[0]).toMatchObject({ kind: 'ERPG-1', substance: 'sulfur trioxide' });
    expect(exposureLimits('sulfur trioxide')[0]!.standsIn).toBeUndefined();
  });
  test('nitrogen trichloride has a proposal and reference values only', () => {
    expect(exposureLimits('nitrogen trichloride').map((limit) => limit.status)).toEqual([
      'proposed',
      'reference',
      'reference',
    ]);
  });
});

describe('mg/m3 as ppm at 25 °C', () => {
  // Conversions that the sources print beside the limit: 1 ppm = 1.39 mg/m3 (phosphine), 5.10 mg/m3 (stibine),
  // 3 mg/m3 = 1 ppm (carbon disulfide), 0.37 mg/m3 = 0.3 ppm (formaldehyde).
  test.each([
    ['phosphine', '1.39', '33.998', 1],
    ['stibine', '5.10', '124.78', 1],
    ['carbon disulfide', '3', '76.13', 1],
    ['formaldehyde', '0.37', '30.026', 0.3],
  ])('%s %s mg/m3', (_, value, molarMass, ppm) => {
    expect(limitInPpm({ value, unit: 'mg/m3' }, molarMass).toNumber()).toBeCloseTo(ppm, 1);
    expect(Math.abs(limitInPpm({ value, unit: 'mg/m3' }, molarMass).toNumber() / ppm - 1)).toBeLessThan(0.04);
    expect(limitInPpm({ value, unit: 'ppm' }, molarMass).toString()).toBe(String(Number(value)));
  });
});
