// Formulae set for pages, each only once however often it is shown.
import type { ElementContent } from 'hast';
import { typeset, type Typeset } from '../chemistry/index.js';
import { formula } from '../../templates/parts/formula.js';

const known = new Map<string, Typeset>();

/** The typeset form of a formula as written; text that is no formula comes back as it is. */
export function typesetOnce(written: string): Typeset {
  let set = known.get(written);
  if (!set) {
    if (known.size > 5000) known.clear();
    known.set(written, (set = typeset(written)));
  }
  return set;
}

export const formulaElement = (written: string): ElementContent => formula(typesetOnce(written));
