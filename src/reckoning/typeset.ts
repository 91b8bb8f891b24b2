// Formulae set for pages: read once, however often they are shown.
import { parseFormula, typeset, type Typeset } from '../chemistry/index.js';

export type { Typeset } from '../chemistry/index.js';

const known = new Map<string, Typeset>();

/**
 * The typeset form of a formula as written; text that is no formula comes back as it is.
 * @example typesetOf('CuO').spoken // 'C u O'
 */
export function typesetOf(written: string): Typeset {
  let set = known.get(written);
  if (!set) {
    if (known.size > 5000) known.clear();
    known.set(written, (set = typeset(written)));
  }
  return set;
}

/** Whether a text can be read as a formula. @example isFormula('rust') // false */
export const isFormula = (written: string): boolean => parseFormula(written).ok;
