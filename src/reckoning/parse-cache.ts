// Texts that stand in many entries (formulae, amounts, reactions) are read once.
import {
  parseEquation,
  parseFormula,
  parseQuantity,
  type Equation,
  type Formula,
  type Quantity,
} from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import type { Outcome } from '../outcome.js';

const cached = <T>(read: (text: string) => T): ((text: string) => T) => memoise((text: string) => text, read, 4000);

export const formulaOf: (text: string) => Outcome<Formula> = cached(parseFormula);
export const quantityOf: (text: string) => Outcome<Quantity> = cached(parseQuantity);
export const equationOf: (text: string) => Outcome<Equation> = cached(parseEquation);
