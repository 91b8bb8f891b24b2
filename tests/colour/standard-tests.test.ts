// Standard tests of a pigment: units, ranges, standards.
import { describe, expect, it } from 'vitest';
import { readStandardTest, standardTests } from '../../src/colour/standard-tests.js';
import { testsSchema } from '../../src/journal/schema.js';

const read = (test: string, given: number | string) => {
  const found = readStandardTest(test, given);
  return found.ok
    ? `${found.value.text} [${found.value.value} ${found.value.unit ?? '-'}]${found.value.unusual ? ' unusual' : ''}`
    : found.fault.code;
};

describe('standard tests', () => {
  it('every test that an entry may have is in the table, and no other', () => {
    expect([...standardTests()].sort()).toEqual(Object.keys(testsSchema.shape).sort());
  });
  it.each([
    ['oil-absorption', '38 g/100 g', '38 g/100 g [38 g/100 g]'],
    ['oil-absorption', '38.5 ml / 100 g', '38.5 mL/100 g [38.5 mL/100 g]'],
    ['oil-absorption', '38', 'test-unit'],
    ['oil-absorption', 'lots', 'not-a-test-result'],
    ['oil-absorption', '-3 g/100 g', 'impossible-test-result'],
    ['ph', 7.5, '7.5 [7.5 -]'],
    ['ph', 15, 'impossible-test-result'],
    ['ph', 1.5, '1.5 [1.5 -] unusual'],
    ['density', '4.1 g/cm³', '4.1 g/cm³ [4.1 g/cm³]'],
    ['density', '4100 kg/m3', '4100 kg/m³ [4100 kg/m³]'],
    ['density', '41 g/cm3', 'impossible-test-result'],
    ['soluble-matter', '0.4 %, hot', '0.4 %, hot [0.4 %]'],
    ['sieve-residue', '0,1 % on 45 µm', '0.1 %, on 45 µm [0.1 %]'],
    ['tint-strength', '105 %', '105 % [105 %]'],
    ['lightfastness-blue-wool', 7.5, '7.5 of 8 [7.5 -]'],
    ['lightfastness-blue-wool', 9, 'impossible-test-result'],
    ['lightfastness-blue-wool', 6.2, 'impossible-test-result'],
    ['lightfastness-astm', 'II', 'category II [II -]'],
    ['acid-spot', 'dissolved', 'dissolved [dissolved -]'],
  ])('%s %s: %s', (test, given, expected) => {
    expect(read(test, given)).toBe(expected);
  });
  it('a test that the format has not is a programmer’s error', () => {
    expect(() => readStandardTest('taste', 'sweet')).toThrow(RangeError);
  });
  it('what an entry may write of them is what is read: words may follow a comma', () => {
    for (const [test, given] of [
      ['soluble-matter', '0.4 %, hot'],
      ['soluble-matter', '0.4 %'],
      ['sieve-residue', '0.1 %, on 45 µm'],
      ['tint-strength', '95 %, against the bought one'],
    ] as const) {
      expect([testsSchema.safeParse({ [test]: given }).success, read(test, given).startsWith(given)]).toEqual([
        true,
        true,
      ]);
    }
    for (const wrong of ['hot', '0.4', '0.4, hot', '0.4 %,', '0.4 g, hot'])
      expect(testsSchema.safeParse({ 'soluble-matter': wrong }).success).toBe(false);
  });
  it('a result names its standard and range', () => {
    const found = readStandardTest('oil-absorption', '38 g/100 g');
    expect(found.ok && found.value).toMatchObject({
      name: 'Oil absorption',
      standard: 'ISO 787-5, ASTM D281',
      range: 'about 9 to 150',
    });
  });
});
