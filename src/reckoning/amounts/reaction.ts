// The reaction of an entry: its equation, whether it balances, and which of its products is the pigment.
import {
  balancedOrAfresh,
  composition,
  imbalances,
  imbalanceSentence,
  isOne,
  printEquation,
  productAsWeighed,
  suppliedBy,
  typeset,
  withoutWater,
  type Equation,
  type Formula,
  type Term,
  type Typeset,
} from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Findings } from '../../remarks/findings.js';
import { likelyFormula } from '../../reagents/index.js';
import type { AmountsReckoning } from '../contracts.js';
import { equationOf, formulaOf } from '../parse-cache.js';

export interface ReactionReckoning {
  readonly reaction?: AmountsReckoning['reaction'];
  /** Only where it can be read and balances. */
  readonly equation?: Equation;
  /** The product that the entry calls its pigment. */
  readonly product?: Term;
}

const coefficientText = ({ coefficient }: Term): string => (isOne(coefficient) ? '' : coefficient.toString());
const setSide = (side: readonly Term[]): { coefficient: string; formula: Typeset }[] =>
  side.map((term) => ({
    coefficient: coefficientText(term),
    formula: typeset(term.formula.state ? `${term.label}(${term.formula.state})` : term.label),
  }));

/** Names in words (`kaolin + Na2CO3`), or a side that is not written yet: it was never meant to be reckoned with. */
const isInWords = (written: string): boolean =>
  /(?:^|[\s+])\p{Ll}{3,}/u.test(written) || /^\s*(?:->|→)|(?:->|→)\s*$/.test(written);

/** Reads the reaction as it is written; one that does not balance is shown, and not reckoned with. */
export function reckonReaction(entry: Entry, findings: Findings): ReactionReckoning {
  const written = entry.reaction;
  if (written === undefined) return {};
  const parsed = equationOf(written);
  if (!parsed.ok) {
    const { message, column, cure } = parsed.fault;
    const inWords = isInWords(written);
    findings.add('reaction', ['reaction'], { message, column, cure, actual: written, ...(inWords && { inWords }) });
    return { reaction: { written, balanced: false, fault: message } };
  }
  const equation = parsed.value;
  for (const doubt of equation.doubts) findings.addFault(doubt, ['reaction'], { actual: written });
  for (const { label } of [...equation.reactants, ...equation.products]) {
    const unlikely = likelyFormula(label);
    if (unlikely) findings.addFault(unlikely, ['reaction'], { actual: label });
  }
  const sides = { reactants: setSide(equation.reactants), products: setSide(equation.products) };
  const off = imbalances(equation);
  if (off.length === 0) {
    const reaction = { written, balanced: true, ...sides };
    return { reaction, equation, product: findProduct(entry, equation, findings) };
  }
  const sentence = imbalanceSentence(off);
  const afresh = balancedOrAfresh(equation);
  findings.add('reaction-unbalanced', ['reaction'], {
    sentence,
    actual: written,
    ...(afresh.ok
      ? { balanced: printEquation(afresh.value.equation) }
      : { fault: `${afresh.fault.message} ${afresh.fault.cure ?? ''}`.trim() }),
  });
  return { reaction: { written, balanced: false, fault: sentence, ...sides } };
}

const labelsOf = (terms: readonly Term[]): string[] => terms.map(({ label }) => label);

/** The product of the equation that the entry calls its pigment. */
function findProduct(entry: Entry, equation: Equation, findings: Findings): Term | undefined {
  const text = entry.pigment?.formula;
  if (text === undefined) {
    if (equation.products.length === 1) return equation.products[0];
    findings.add('product-not-named', ['reaction'], {
      products: labelsOf(equation.products),
      ...(entry.pigment && { pigment: entry.pigment.name }),
    });
    return undefined;
  }
  const pigment = formulaOf(text);
  if (!pigment.ok) return undefined;
  const same = equation.products.find(({ formula }) => !suppliedBy(pigment.value, formula).isZero());
  if (same) {
    const weighed = productAsWeighed(same, pigment.value, text);
    if (weighed !== same)
      findings.add('product-hydrate', ['pigment', 'formula'], { made: same.label, reckonedAs: text, actual: text });
    return weighed;
  }
  const alike = productOfSameElements(equation, pigment.value);
  const isReactant = equation.reactants.some(({ formula }) => !suppliedBy(pigment.value, formula).isZero());
  if (!alike)
    findings.add('product-not-in-reaction', ['pigment', 'formula'], {
      formula: text,
      products: labelsOf(equation.products),
      ...(isReactant && { turned: printEquation(turnedRound(equation)) }),
      actual: text,
    });
  return alike;
}

const turnedRound = (equation: Equation): Equation => ({
  ...equation,
  reactants: equation.products,
  products: equation.reactants,
});

const symbolsOf = (formula: Formula): string => [...composition(formula).keys()].sort().join(' ');

/** A pigment of changing composition (`FeO(OH)·nH2O`, a range) is found by its elements. */
function productOfSameElements(equation: Equation, pigment: Formula): Term | undefined {
  const dry = withoutWater(pigment) ?? pigment;
  const open = [...composition(dry).values()].some(({ low, high, unknown }) => unknown || !low.eq(high));
  if (!open) return undefined;
  const symbols = symbolsOf(dry);
  return equation.products.find(({ formula }) => symbolsOf(formula) === symbols);
}
