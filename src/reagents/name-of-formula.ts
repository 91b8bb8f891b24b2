// What a formula is called, where it is to be spoken of in words.
import { dryComposition } from './constituents.js';
import { knownSubstances } from './known-substances.js';

let names: ReadonlyMap<string, string> | undefined;

/** Names by dry composition; the first of the table that has it. */
function namesByFormula(): ReadonlyMap<string, string> {
  if (names) return names;
  const found = new Map<string, string>();
  for (const { name, formulae, group } of knownSubstances())
    for (const formula of group ? [] : formulae) {
      const key = dryComposition(formula);
      if (!found.has(key)) found.set(key, name.split(';')[0]!.trim());
    }
  return (names = found);
}

/**
 * The published name of a substance by its formula, its water apart; undefined where no table has it.
 * @example nameOfFormula('CuSO4') // 'copper sulphate'
 */
export const nameOfFormula = (formula: string): string | undefined => namesByFormula().get(dryComposition(formula));
