// How much of a substance water takes.
import { solubilityTable } from '../tables/compiled/chemistry/solubility.js';
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

let known: ReadonlyMap<string, Solubility> | undefined;

/**
 * What water takes at 20 °C of a substance, hydrate or not; undefined where no source says.
 * @example solubilityOf(parseFormula('CuSO4·5H2O').value)?.grams.toNumber() // 20.05
 */
export function solubilityOf(formula: Formula): Solubility | undefined {
  known ??= new Map(
    solubilityTable().flatMap(({ formula: written, at_20: grams, source_title: title, basis }) => {
      const read = parseFormula(written);
      const source = basis === 'memory' ? `${title}, from memory` : title;
      return read.ok ? [[speciesKey(read.value), { grams: exact(grams), at: 20, source }] as const] : [];
    }),
  );
  return known.get(speciesKey(withoutWater(formula) ?? formula));
}
