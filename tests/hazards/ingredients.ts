// Ingredients of mixtures for tests, from a line at the bench or from facts.
import { parseQuantity } from '../../src/chemistry/index.js';
import type { MixedReagent } from '../../src/hazards/foresee/contracts.js';
import { resolveReagent, resolveText } from '../../src/reagents/index.js';

/** A line as it is said at the bench. */
export function reading(line: string): MixedReagent {
  const read = resolveText(line);
  if (!read.ok) throw new Error(`${line}: ${read.fault.message}`);
  return { reagent: read.value };
}

export interface Facts {
  readonly name: string;
  readonly formula?: string;
  readonly amount?: string;
  readonly strength?: string;
  readonly density?: string;
  readonly state?: readonly string[];
  readonly made?: MixedReagent['made'];
}

const quantity = (text: string) => {
  const read = parseQuantity(text);
  if (!read.ok) throw new Error(`${text}: ${read.fault.message}`);
  return read.value;
};

/** The same from its facts. */
export const ingredientOf = ({ name, formula, amount, strength, density, state, made }: Facts): MixedReagent => ({
  reagent: resolveReagent({
    written: name,
    name,
    ...(formula !== undefined && { formula }),
    ...(amount && { amount: { kind: 'measured', quantity: quantity(amount) } }),
    ...(strength && { strength: quantity(strength) }),
    ...(density && { density: quantity(density) }),
    ...(state && { state }),
  }),
  ...(made && { made }),
});
