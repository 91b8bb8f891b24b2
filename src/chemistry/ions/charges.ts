// Whether the charges of a salt add up, as its formula is written.
import { good } from '../../outcome.js';
import { parseFormula, type Formula } from '../formula/index.js';
import { ionsOf } from './dissociation.js';
import type { Dissociation } from './model.js';

/** The ions of a neutral formula that says all; undefined where there are none. */
export function ionsIn(written: string | Formula): Dissociation | undefined {
  const parsed = typeof written === 'string' ? parseFormula(written) : good(written);
  if (!parsed.ok) return undefined;
  const formula = parsed.value;
  if (formula.charge !== 0 || formula.doubts.length > 0) return undefined;
  const ions = ionsOf(formula);
  return ions.ok && ions.value.ions.length > 0 ? ions.value : undefined;
}

/** Nitride, carbide or hydride beside oxide: an oxyanion with a wrong count, taken apart (`PbNO3`). */
const fromApart: ReadonlySet<string> = new Set(['nitride', 'carbide', 'hydride']);
export const isTakenApart = ({ ions }: Dissociation): boolean =>
  ions.some(({ name }) => fromApart.has(name)) && ions.some(({ formula }) => /^O\d?\^/.test(formula));

/**
 * Whether its ions were found and their charges do not add up, or only if an oxyanion is taken apart.
 * @example isUnbalanced('AlSO4') // true
 * @example isUnbalanced('FeSO4') // false
 */
export function isUnbalanced(written: string | Formula): boolean {
  const ions = ionsIn(written);
  return ions !== undefined && (!ions.balanced || isTakenApart(ions));
}
