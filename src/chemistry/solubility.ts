// How much of a substance water takes.
import { solubilityRow, solubilityTable } from '../tables/compiled/chemistry/solubility.js';
import { prepared } from '../tables/prepared.js';
import { exact, type Decimal } from './exact.js';
import { parseFormula, type Formula } from './formula/index.js';
import { speciesKey, withoutWater } from './ions/index.js';

export interface Solubility {
  /** g of the substance without its water of crystallisation in 100 g of water. */
  readonly grams: Decimal;
  /** °C */
  readonly at: 20;
  readonly source: string;
}

/** Rows of the table by what they tell of; of two rows of one substance the later. */
const rowsBySpecies = prepared<readonly (readonly [species: string, row: number])[]>('solubilities', () => [
  ...new Map(
    solubilityTable().flatMap(({ formula }, row) => {
      const read = parseFormula(formula);
      return read.ok ? [[speciesKey(read.value), row] as const] : [];
    }),
  ),
]);
let rows: ReadonlyMap<string, number> | undefined;

/**
 * What water takes at 20 °C of a substance, hydrate or not; undefined where no source says.
 * @example solubilityOf(parseFormula('CuSO4·5H2O').value)?.grams.toNumber() // 20.05
 */
export function solubilityOf(formula: Formula): Solubility | undefined {
  rows ??= new Map(rowsBySpecies());
  const row = rows.get(speciesKey(withoutWater(formula) ?? formula));
  if (row === undefined) return undefined;
  const { at_20: grams, source_title: title, basis } = solubilityRow(row);
  return { grams: exact(grams), at: 20, source: basis === 'memory' ? `${title}, from memory` : title };
}
