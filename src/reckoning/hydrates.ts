// Salts that are usually sold with water of crystallisation: written without it, they get a question.
import { hillFormula, parseFormula } from '../chemistry/index.js';
import { hydratesTable } from '../tables/compiled/reckoning/hydrates.js';

let soldAs: ReadonlyMap<string, string> | undefined;

/**
 * One spelling for all of a formula: `Cu(C2H3O2)2` is `Cu(CH3COO)2`. Undefined where it already has water, or is
 * none.
 */
function dryKey(formula: string): string | undefined {
  const parsed = parseFormula(formula);
  return parsed.ok && parsed.value.parts.length === 1 ? hillFormula(parsed.value) : undefined;
}

/**
 * The hydrate in which a salt is usually sold, by the formula of the dry salt in any spelling.
 * @example usualHydrate('CuSO4') // 'CuSO4·5H2O'
 */
export function usualHydrate(formula: string): string | undefined {
  soldAs ??= new Map(hydratesTable().map((row) => [dryKey(row.anhydrous) ?? row.anhydrous, row.usually_sold_as]));
  const key = dryKey(formula);
  return key === undefined ? undefined : soldAs.get(key);
}

/** Words with which a maker says that the salt is free of water. */
export const anhydrousWords = /\b(?:anhydrous|calcined|dried|dehydrated|fused|water-free|burnt)\b/i;
