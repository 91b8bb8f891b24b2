// Assays of samples and of jars: what they came to, and what later uses take of it.
import { showWithUnit } from '../../chemistry/index.js';
import type { Outcome } from '../../outcome.js';
import { assayedFigure, assayOf, type AssayWritten } from '../../reagents/index.js';
import type { AssayedFigure } from './treatment-contracts.js';

/**
 * An assay as a figure.
 * Errors: `assay-not-reckoned`, with what is lacking.
 * @param formula of what is assayed, as it is written
 */
export function assayFigure(
  formula: string | undefined,
  assay: AssayWritten,
): Outcome<AssayedFigure, 'assay-not-reckoned'> {
  const found = assayOf(formula, assay);
  if (!found.ok) return found;
  const { value, unit, by } = found.value;
  const written = typeof assay === 'string' && { written: assay };
  return { ok: true, value: { ...assayedFigure(found.value), by, text: showWithUnit(value, unit), ...written } };
}

/** An assay as a strength or purity that is read again, with its standard uncertainty: `98.3 % u = 0.2 %`. */
export function assayedAs({
  value,
  unit,
  uncertainty,
}: Pick<AssayedFigure, 'value' | 'unit' | 'uncertainty'>): { readonly strength: string } | { readonly purity: string } {
  const standard = Number(uncertainty) / 2;
  const text = standard > 0 ? `${value} ${unit} u = ${standard} ${unit}` : `${value} ${unit}`;
  return unit === 'mol/L' ? { strength: text } : { purity: text };
}
