// What the options of weigh say: amounts, products and the step of the balance.
import {
  parseFormula,
  parseQuantity,
  productAsWeighed,
  suppliedBy,
  type Decimal,
  type Equation,
  type Quantity,
  type Term,
} from '../../chemistry/index.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { grAsGrams, readAmountWords, readReagentText, whyGrams, withPlainPoints } from '../../reagents/index.js';
import { WrongUse, type Given } from '../command.js';

/** Smallest step of a balance where none is told. */
export const usualStep = '0.01 g';

/** The quantity of an option; anything else is wrong use. */
export const sure = (outcome: Outcome<Quantity>, option: string): Quantity => {
  if (!outcome.ok) throw new WrongUse(`--${option}: ${outcome.fault.message} ${outcome.fault.cure ?? ''}`.trim());
  return outcome.value;
};
const written = (value: Given['values'][string]): string[] => {
  if (Array.isArray(value)) return value.map(String);
  return typeof value === 'string' ? [value] : [];
};

/** Every value of an option, in order; `gr` is read as grams, as in entries. */
export const texts = (value: Given['values'][string]): string[] => written(value).map(grAsGrams);

/** What is said of values that were read as something else than they say. */
export function asideOn(values: Given['values']): string {
  const told = Object.values(values)
    .flatMap(written)
    .find((text) => grAsGrams(text) !== text);
  return told === undefined ? '' : `'${told}' is read as ${grAsGrams(told)}: ${whyGrams}.\n`;
}

/** A measure of exactly known size in grams or millilitres: `1 oz` is 28.35 g. */
function ofKnownSize(text: string): string | undefined {
  const amount = readAmountWords(text);
  if (amount.kind !== 'rough' || amount.high.minus(amount.low).gt(amount.usual.times('0.25'))) return undefined;
  return `${amount.usual.toSignificantDigits(4).toFixed()} ${amount.unit}`;
}

/** A product and how much of it: `10 g`, `Cu 10 g`, `10 g Cu`. */
export function amountText(written: string): {
  readonly amount: Outcome<Quantity>;
  readonly density?: Quantity;
  readonly purity?: Quantity;
  readonly formula?: string;
} {
  const text = withPlainPoints(written);
  const alone = parseQuantity(text);
  if (alone.ok) return { amount: alone };
  const measure = ofKnownSize(text);
  if (measure !== undefined) return { amount: parseQuantity(measure) };
  const behind = /^(\d.*?\S)\s+(?:of\s+)?(\S+)$/.exec(text.trim());
  const before = behind && parseQuantity(behind[1]!);
  if (before?.ok) return { amount: before, formula: behind![2]! };
  const line = readReagentText(/^[\d.≥>(+-]/.test(text.trim()) ? `product ${text}` : text);
  if (!line.ok) return { amount: alone };
  const { amount, density, purity, name } = line.value;
  if (amount?.kind !== 'measured') return { amount: alone };
  return { amount: good(amount.quantity), density, purity, ...(name !== 'product' && { formula: name }) };
}

/** The product that is wanted, as it is weighed; the first of the reaction where none is named. */
export function productOf(equation: Equation, wanted: string | undefined): Outcome<Term> {
  const named = wanted === undefined ? undefined : parseFormula(wanted);
  if (named === undefined) return good(equation.products[0]!);
  const found = named.ok
    ? equation.products.find(({ formula, label }) => label === wanted || !suppliedBy(named.value, formula).isZero())
    : undefined;
  return found && named.ok
    ? good(productAsWeighed(found, named.value, wanted!))
    : bad({
        code: 'product',
        message: `${wanted} is not among the products: ${equation.products.map(({ label }) => label).join(', ')}.`,
        cure: 'Name one of them with --product.',
      });
}

/** A lot of which nothing says what it is made of. */
export const lotFault = (lot: string): Fault => ({
  code: 'formula-missing',
  message: `Nothing says what lot ${lot} is made of.`,
  expected: 'a formula in the entry that made it',
  cure: `Write pigment: { name: …, formula: … } in entry ${lot.split('/')[0]!}, or formula: in its sample.`,
});

/**
 * What is wrong with a name that is no formula and no reactant: after a formula, what follows was meant as a
 * quantity.
 */
export function nameFault(name: string): Fault {
  const [first, ...rest] = name.split(' ');
  if (rest.length > 0 && /\d|[A-Z].*[A-Z]/.test(first!) && parseFormula(first!).ok)
    return {
      code: 'number',
      column: first!.length + 2,
      message: `'${rest.join(' ')}' is no quantity.`,
      expected: 'a number and a unit',
      cure: `Write e.g. ${first} 5.00 g.`,
    };
  return {
    code: 'formula-missing',
    column: 1,
    message: `'${name}' is not a formula.`,
    expected: 'a formula, or a name and a formula',
    cure: 'Write e.g. acetic acid CH3COOH 10 mL 60 % 1.06 g/mL.',
  };
}

/** Smallest step of the balance, g; a number alone is of grams, which a balance shows. */
export const stepOf = (text: string): Decimal => {
  const quantity = sure(parseQuantity(/^\s*\d*[.,]?\d+\s*$/.test(text) ? `${text} g` : text), 'balance');
  if (quantity.dimension !== 'mass' || quantity.base.isZero())
    throw new WrongUse('--balance takes the smallest step of the balance, like "0.01 g".');
  return quantity.base;
};
