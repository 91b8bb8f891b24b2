// What a powder weighs as it is poured, for those who measure with spoons.
import { exact, hillFormula, parseFormula, type Decimal, type Formula } from '../chemistry/index.js';
import { bulkDensitiesTable } from '../tables/compiled/reagents/bulk-densities.js';
import { inEnglish } from './other-languages.js';

/** A bulk density with its ends, g/mL: loose to tapped, or as different sources print it. */
export interface BulkDensity {
  readonly substance: string;
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  readonly source: string;
}

interface Tables {
  readonly byFormula: ReadonlyMap<string, BulkDensity>;
  readonly byName: ReadonlyMap<string, BulkDensity>;
}
let tables: Tables | undefined;

function load(): Tables {
  if (tables) return tables;
  const byFormula = new Map<string, BulkDensity>();
  const byName = new Map<string, BulkDensity>();
  for (const { substance, formulae, names, low, usual, high, source_title, basis } of bulkDensitiesTable()) {
    const source = basis === 'memory' ? `from memory: ${source_title}` : source_title;
    const row = { substance, low: exact(low), usual: exact(usual), high: exact(high), source };
    for (const name of [substance, ...names]) byName.set(name.toLowerCase(), row);
    for (const formula of formulae) {
      const read = parseFormula(formula);
      if (read.ok) byFormula.set(hillFormula(read.value), row);
    }
  }
  tables = { byFormula, byName };
  return tables;
}

/**
 * The bulk density of a substance, by its formula or by its name, which may be of another language; undefined
 * where none is published here.
 * @example bulkDensity(undefined, 'starch')?.usual.toNumber() // 0.601
 */
export function bulkDensity(formula: Formula | undefined, name: string): BulkDensity | undefined {
  const { byFormula, byName } = load();
  const named = (one: string): BulkDensity | undefined => byName.get(one.toLowerCase().trim());
  return (formula && byFormula.get(hillFormula(formula))) ?? named(name) ?? named(inEnglish(name) ?? name);
}
