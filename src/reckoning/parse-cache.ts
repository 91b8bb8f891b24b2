// Texts that stand in many entries (formulae, amounts, reactions) are read once.
import {
  parseEquation,
  parseFormula,
  parseQuantity,
  type Equation,
  type Formula,
  type Quantity,
} from '../chemistry/index.js';
import type { Outcome } from '../outcome.js';

function cached<T>(read: (text: string) => T, most = 4000): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    let found = known.get(text);
    if (found === undefined) {
      if (known.size >= most) known.clear();
      known.set(text, (found = read(text)));
    }
    return found;
  };
}

export const formulaOf: (text: string) => Outcome<Formula> = cached(parseFormula);
export const quantityOf: (text: string) => Outcome<Quantity> = cached(parseQuantity);
export const equationOf: (text: string) => Outcome<Equation> = cached(parseEquation);
