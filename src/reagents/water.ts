// Whether a formula is that of water, however it is spelled.
import { onceFor } from '../once.js';
import { composition, parseFormula, type Formula } from '../chemistry/index.js';

/** @example isWater(parseFormula('H₂O').value) // true */
export const isWater: (formula: Formula) => boolean = onceFor((formula: Formula) => {
  const atoms = composition(formula);
  const hydrogen = atoms.get('H');
  const oxygen = atoms.get('O');
  return formula.charge === 0 && atoms.size === 2 && (hydrogen?.low.eq(2) ?? false) && (oxygen?.low.eq(1) ?? false);
});

/** The same of a formula as it is written; false where it is none. @example isWaterWritten('H₂O') // true */
export function isWaterWritten(formula: string | undefined): boolean {
  if (formula === undefined || formula.length > 12) return false;
  const read = parseFormula(formula);
  return read.ok && isWater(read.value);
}
