// Salts that are usually sold with water of crystallisation: written without it, they get a question.
import { hydratesTable } from '../tables/compiled/reckoning/hydrates.js';

let soldAs: ReadonlyMap<string, string> | undefined;

/**
 * The hydrate in which a salt is usually sold, by the formula of the dry salt.
 * @example usualHydrate('CuSO4') // 'CuSO4·5H2O'
 */
export function usualHydrate(formula: string): string | undefined {
  soldAs ??= new Map(hydratesTable().map((row) => [row.anhydrous, row.usually_sold_as]));
  return soldAs.get(formula);
}

/** Words with which a maker says that the salt is free of water. */
export const anhydrousWords = /\b(?:anhydrous|calcined|dried|dehydrated|fused|water-free|burnt)\b/i;
