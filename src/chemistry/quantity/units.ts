// Units by every spelling they are written with.
import { bad, good, type Outcome } from '../../outcome.js';
import { unitsTable } from '../../tables/compiled/chemistry/quantity/units.js';
import { exact, type Decimal } from '../exact.js';
import type { Dimension } from './model.js';
import { withPlainDigits } from './numeral.js';

export interface Unit {
  readonly name: string;
  readonly dimension: Dimension;
  readonly base: string;
  /** Size in the base unit. */
  readonly factor: Decimal;
  /** Where its zero lies, in the base unit: −273.15 °C for the kelvin. */
  readonly zeroAt: Decimal;
}

let units: ReadonlyMap<string, Unit> | undefined;

function knownUnits(): ReadonlyMap<string, Unit> {
  units ??= new Map(
    unitsTable().flatMap((row) => {
      const unit: Unit = {
        name: row.unit,
        dimension: row.dimension,
        base: row.base,
        factor: exact(row.factor),
        zeroAt: exact(row.zero_at ?? 0),
      };
      return [unit.name, ...row.also].map((spelling): [string, Unit] => [spelling, unit]);
    }),
  );
  return units;
}

export const isUnit = (spelling: string): boolean => knownUnits().has(spelling);

/** A value in the base unit of its dimension. @example inBase(unit('K'), exact(300)) // 26.85 */
export const inBase = ({ factor, zeroAt }: Unit, value: Decimal): Decimal => value.times(factor).plus(zeroAt);

const plainSpelling = (text: string): string =>
  text
    .trim()
    .replace(/μ/g, 'µ')
    .replace(/\s+/g, ' ')
    .replace(/(?<=^[A-Za-zµ]{1,5})\.$/, '')
    .replace(/ per (?=[a-z])/i, '/')
    .replace(/\/lit(?:re|er)$/, '/L')
    .replace(/^([%A-Za-zµ]+) \/ ([A-Za-z0-9³]+)$/, '$1/$2');

/**
 * The unit that a text names. Errors: `unit-missing`, `unit`.
 * @param column where the text stands, for the fault
 */
export function unitOf(text: string, column: number): Outcome<Unit> {
  const known = knownUnits();
  const spelled = plainSpelling(text);
  const powers = withPlainDigits(spelled)
    .replaceAll('^', '')
    .replace(/ ?[·⋅] ?/g, ' ');
  const unit = known.get(spelled) ?? known.get(powers);
  if (unit) return good(unit);
  if (spelled === '')
    return bad({
      code: 'unit-missing',
      column,
      message: 'The number has no unit.',
      expected: 'a unit such as g, mL or mol',
      cure: 'Write the unit after the number.',
    });
  if (/^(?:N|n|normal)$/.test(spelled))
    return bad({
      code: 'unit',
      column,
      message: 'Normality (N) depends on the reaction.',
      expected: 'mol/L',
      cure: 'Write the strength in mol/L; for an acid of one proton it is the same number.',
    });
  const near = [...known.keys()].find((name) => name.toLowerCase() === spelled.toLowerCase());
  return bad({
    code: 'unit',
    column,
    message: `'${spelled}' is no unit known here.`,
    expected: 'a unit such as g, mg, mL, mol, mol/L, %, g/mL, °C, h',
    ...(near === undefined
      ? { cure: 'Write a unit such as g, mg, mL, L, mol, mol/L, %, °C or h.' }
      : { cure: `Write ${near}, if that is meant.`, nearest: near }),
  });
}
