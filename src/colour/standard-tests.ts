// Standard tests of a pigment besides its colour: each with its unit, range and standard (standard-tests.csv).
import { once, onceFor } from '../once.js';
import { bad, good, type Fault, type Outcome } from './faults.js';
import { standardTestsTable, type StandardTestsRow } from '../tables/compiled/colour/standard-tests.js';

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

const rowsByTest = once(() => new Map(standardTestsTable().map((row) => [row.test, row])));
const rowOf = (test: string): StandardTestsRow | undefined => rowsByTest().get(test);

/** Names of all standard tests, in order. */
export const standardTests = (): readonly string[] => standardTestsTable().map((row) => row.test);

const plainUnit = (text: string): string =>
  text.replace(/\s+/g, '').replace('³', '3').replace(/ml/gi, 'mL').toLowerCase();
const printedUnit = (unit: string): string => unit.replace('cm3', 'cm³').replace('m3', 'm³');

/** Results in kg/m³ are held against ranges in g/cm³. */
const inRangeUnit = (value: number, unit: string | undefined): number => (unit === 'kg/m3' ? value / 1000 : value);

/** A result taken apart: `38`, `g/100 g`, and what follows. */
interface Result {
  readonly number: string;
  readonly value: number;
  readonly unit: string | undefined;
  /** What stands behind the unit: the sieve, hot or cold, the reference. */
  readonly after: string;
}

function unitFault(row: StandardTestsRow, value: number, rest: string): Fault {
  const units = row.units;
  const found = quoted(rest);
  if (units.length === 0)
    return {
      code: 'test-unit',
      message: `${row.name} has no unit, yet ${found} follows.`,
      expected: 'a number',
      cure: `Write ${value}.`,
    };
  return {
    code: 'test-unit',
    message: rest ? `${row.name}: ${found} is not its unit.` : `${row.name}: the unit is missing.`,
    expected: units.map(printedUnit).join(' or '),
    cure: `Write ${value} ${printedUnit(units[0]!)}.`,
  };
}

const quoted = (text: string): string => `'${text.slice(0, 40)}'`;

function resultFault(row: StandardTestsRow, given: string): Fault {
  const units = row.units.map(printedUnit);
  return {
    code: 'not-a-test-result',
    message: `${row.name}: ${quoted(given)} is not a result.`,
    expected: units.length > 0 ? `a number with ${units.join(' or ')}` : 'a number',
    cure: `Give it as ${units[0] ? `38 ${units[0]}` : '7.5'}, or leave it out.`,
  };
}

/** Units of a test, the longest first, beside how they are compared. */
const unitsOf = onceFor(({ units }: StandardTestsRow) =>
  [...units].sort((a, b) => b.length - a.length).map((unit) => [unit, plainUnit(unit)] as const),
);

function takeApart(row: StandardTestsRow, given: string): Outcome<Result> {
  const found = /^([+-]?\d+(?:[.,]\d+)?)\s*(.*)$/s.exec(given.trim());
  if (!found) return bad(resultFault(row, given));
  const number = found[1]!.replace(',', '.');
  const value = Number(number);
  const rest = found[2]!;
  const compared = plainUnit(rest);
  const unit = unitsOf(row).find(([, plain]) => compared.startsWith(plain))?.[0];
  if (row.units.length > 0 ? !unit : rest) return bad(unitFault(row, value, rest));
  const after = unit ? rest.slice(lengthOfUnit(rest, unit)).replace(/^[\s,;:]+/, '') : '';
  return good({ number, value, unit, after });
}

const bluewool = 'lightfastness-blue-wool';

function rangeFault(row: StandardTestsRow, { value, unit }: Result): Fault | undefined {
  const compared = inRangeUnit(value, unit);
  if (compared < row.from! || compared > row.to!)
    return {
      code: 'impossible-test-result',
      message: `${row.name} of ${value}${unit ? ` ${printedUnit(unit)}` : ''} cannot be.`,
      expected: row.range,
      cure: 'Check the number and its unit.',
    };
  if (row.test === bluewool && !Number.isInteger(value * 2))
    return {
      code: 'impossible-test-result',
      message: `Blue wool grades go in whole or half steps; ${value} does not.`,
      expected: '1 to 8',
      cure: 'Round to the nearest half step.',
    };
  return undefined;
}

function printed({ test }: StandardTestsRow, { number, unit, after }: Result): string {
  const withUnit = unit ? `${number} ${printedUnit(unit)}` : number;
  const withWords = after ? `${withUnit}, ${after}` : withUnit;
  return test === bluewool ? `${withWords} of 8` : withWords;
}

/**
 * Reads one result as written in an entry.
 * @param given a number, a grade, or text with a unit: `38 g/100 g`, `0.1 %, on 45 µm`, `0.4 %, hot`
 * @param test a row of the table, which is a key of the format; another is a programmer's error
 * @returns the result, or a fault: not a number, unit missing or wrong, impossible value
 * @example readStandardTest('oil-absorption', '38 g/100 g').value.text // '38 g/100 g'
 */
export function readStandardTest(test: string, given: number | string): Outcome<StandardTest> {
  const row = rowOf(test);
  if (!row) throw new RangeError(`there is no standard test ${test}`);
  const shared = {
    test,
    name: row.name,
    range: row.range,
    ...(row.standard ? { standard: row.standard } : {}),
    ...(row.note ? { note: row.note } : {}),
  };
  if (row.kind !== 'number')
    return good({ ...shared, value: given, text: test === 'lightfastness-astm' ? `category ${given}` : String(given) });
  const result = takeApart(row, String(given));
  if (!result.ok) return result;
  const fault = rangeFault(row, result.value);
  if (fault) return bad(fault);
  const { value, unit } = result.value;
  const compared = inRangeUnit(value, unit);
  const unusual = compared < row.usual_from! || compared > row.usual_to!;
  return good({
    ...shared,
    value,
    ...(unit ? { unit: printedUnit(unit) } : {}),
    text: printed(row, result.value),
    ...(unusual ? { unusual } : {}),
  });
}

/** How many characters of the text the unit takes, white space and case aside. */
function lengthOfUnit(text: string, unit: string): number {
  const wanted = plainUnit(unit).length;
  let seen = 0;
  for (let i = 0; i < text.length; i += 1) {
    if (seen === wanted) return i;
    if (!/\s/.test(text[i]!)) seen += 1;
  }
  return text.length;
}
