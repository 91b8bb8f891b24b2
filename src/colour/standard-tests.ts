// Standard tests of a pigment besides its colour: each with its unit, range and standard (standard-tests.csv).
import { bad, good, type Outcome } from '../outcome.js';
import { readTable, type Row } from '../tables.js';

/** One result of a standard test, ready for readers and machines. */
export interface StandardTest {
  /** Key as in the entry: `oil-absorption`. */
  readonly test: string;
  /** `Oil absorption` */
  readonly name: string;
  /** Number or grade for machines: 4.2, `I`, `unchanged`. */
  readonly value: number | string;
  readonly unit?: string;
  /** Usual or possible range in words: `9 to 150`. */
  readonly range?: string;
  /** `ISO 787-5` */
  readonly standard?: string;
  /** Ready for readers: `38 g/100 g`. */
  readonly text: string;
  /** What the value means or leaves open. */
  readonly note?: string;
  /** The result lies outside the usual range: worth a second look, and no fault. */
  readonly unusual?: boolean;
}

const rowOf = (test: string): Row | undefined =>
  readTable('colour/standard-tests.csv').find((row) => row.test === test);

/** Names of all standard tests, in order. */
export const standardTests = (): readonly string[] => readTable('colour/standard-tests.csv').map((row) => row.test!);

const plainUnit = (text: string): string =>
  text.replace(/\s+/g, '').replace('³', '3').replace(/ml/gi, 'mL').toLowerCase();
const shownUnit = (unit: string): string => unit.replace('cm3', 'cm³').replace('m3', 'm³');

/** Results in kg/m³ are held against ranges in g/cm³. */
const inRangeUnit = (value: number, unit: string | undefined): number => (unit === 'kg/m3' ? value / 1000 : value);

/**
 * Reads one result as written in an entry.
 * @param given a number, a grade, or text with a unit: `38 g/100 g`, `0.1 %, on 45 µm`, `0.4 %, hot`
 * @returns the result, or a fault: not a number, unit missing or wrong, impossible value
 * @example readStandardTest('oil-absorption', '38 g/100 g').value.text // '38 g/100 g'
 */
export function readStandardTest(test: string, given: number | string): Outcome<StandardTest> {
  const row = rowOf(test);
  if (!row)
    return bad({
      code: 'unknown-test',
      message: `'${test}' is no test that is known here.`,
      expected: standardTests().join(', '),
    });
  const shared = {
    test,
    name: row.name!,
    ...(row.range ? { range: row.range } : {}),
    ...(row.standard ? { standard: row.standard } : {}),
    ...(row.note ? { note: row.note } : {}),
  };
  if (row.kind !== 'number')
    return good({ ...shared, value: given, text: test === 'lightfastness-astm' ? `category ${given}` : String(given) });

  const units = row.units ? row.units.split('|') : [];
  const found = /^([+-]?\d+(?:[.,]\d+)?)\s*(.*)$/s.exec(String(given).trim());
  if (!found)
    return bad({
      code: 'not-a-test-result',
      message: `${row.name}: '${String(given).slice(0, 40)}' is not a result.`,
      expected: units.length ? `a number with ${units.map(shownUnit).join(' or ')}` : 'a number',
      cure: `Give it as ${units[0] ? `38 ${shownUnit(units[0])}` : '7.5'}, or leave it out.`,
    });
  const value = Number(found[1]!.replace(',', '.'));
  const rest = found[2]!;
  const unit = [...units]
    .sort((a, b) => b.length - a.length)
    .find((known) => plainUnit(rest).startsWith(plainUnit(known)));
  if (units.length && !unit)
    return bad({
      code: 'test-unit',
      message: rest ? `${row.name}: '${rest.slice(0, 40)}' is not its unit.` : `${row.name}: the unit is missing.`,
      expected: units.map(shownUnit).join(' or '),
      cure: `Write ${value} ${shownUnit(units[0]!)}.`,
    });
  if (!units.length && rest)
    return bad({
      code: 'test-unit',
      message: `${row.name} has no unit, yet '${rest.slice(0, 40)}' follows.`,
      expected: 'a number',
      cure: `Write ${value}.`,
    });
  const compared = inRangeUnit(value, unit);
  const [from, to] = [Number(row.from), Number(row.to)];
  if (compared < from || compared > to)
    return bad({
      code: 'impossible-test-result',
      message: `${row.name} of ${value}${unit ? ` ${shownUnit(unit)}` : ''} cannot be.`,
      expected: row.range!,
      cure: 'Check the number and its unit.',
    });
  if (test === 'lightfastness-blue-wool' && !Number.isInteger(value * 2))
    return bad({
      code: 'impossible-test-result',
      message: `Blue wool grades go in whole or half steps; ${value} does not.`,
      expected: '1 to 8',
      cure: 'Round to the nearest half step.',
    });
  const unusual = compared < Number(row.usual_from) || compared > Number(row.usual_to);
  // What follows the unit is kept: the sieve, hot or cold, the reference.
  const after = unit ? rest.slice(spanOf(rest, unit)).replace(/^[\s,;:]+/, '') : '';
  const number = found[1]!.replace(',', '.');
  const text = `${number}${unit ? ` ${shownUnit(unit)}` : ''}${after ? `, ${after}` : ''}${test === 'lightfastness-blue-wool' ? ' of 8' : ''}`;
  return good({ ...shared, value, ...(unit ? { unit: shownUnit(unit) } : {}), text, ...(unusual ? { unusual } : {}) });
}

/** How many characters of the text the unit takes, white space and case aside. */
function spanOf(text: string, unit: string): number {
  const wanted = plainUnit(unit).length;
  let seen = 0;
  for (let i = 0; i < text.length; i += 1) {
    if (seen === wanted) return i;
    if (!/\s/.test(text[i]!)) seen += 1;
  }
  return text.length;
}
