// A jar of the shelf with the strength or purity that its assay came to.
import { parseFormula } from '../chemistry/index.js';
import { bad, type Outcome } from '../outcome.js';
import { assayedText, reckonAssay, type Assayed } from './assay.js';
import type { AssayWritten } from './assay-written.js';
import type { ShelfFacts } from './contracts.js';
import { resolveText } from './resolve.js';

/**
 * The assay of something whose formula is known.
 * Errors: `assay-not-reckoned`, with what is lacking.
 * @example assayOf('MgSO4', { by: 'gravimetric', taken: '0.455 g', weighed: 'BaSO4 0.6168 g' }).value.unit // '%'
 */
export function assayOf(formula: string | undefined, assay: AssayWritten): Outcome<Assayed, 'assay-not-reckoned'> {
  const parsed = formula === undefined ? undefined : parseFormula(formula);
  if (parsed && !parsed.ok)
    return bad({ code: 'assay-not-reckoned', message: parsed.fault.message, cure: 'Correct its formula.' });
  return reckonAssay(assay, { formula: parsed?.value, resolve: (line) => resolveText(line) });
}

/** Which key of a jar an assay fills: that of a solution its strength, that of anything else its purity. */
export function assayedKeys(
  found: Assayed,
  { strength, density }: { readonly strength?: string; readonly density?: string },
): { readonly strength: string } | { readonly purity: string } {
  const solution = found.unit === 'mol/L' || found.by === 'density' || strength !== undefined || density !== undefined;
  return solution ? { strength: assayedText(found) } : { purity: assayedText(found) };
}

const kept = new WeakMap<ShelfFacts, ShelfFacts>();

/** A jar as its assay found it; as it is where it has none, or one that cannot be reckoned. */
export function jarAsAssayed(jar: ShelfFacts): ShelfFacts {
  if (!jar.assay) return jar;
  let assayed = kept.get(jar);
  if (!assayed) {
    const found = assayOf(jar.formula, jar.assay);
    assayed = found.ok ? { ...jar, ...assayedKeys(found.value, jar) } : jar;
    kept.set(jar, assayed);
  }
  return assayed;
}
