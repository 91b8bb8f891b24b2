// One substance of an equation: its coefficient and its formula, and where the plus signs between substances are.
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { exact, one, type Decimal } from '../exact.js';
import { composition, parseFormula, unknownCounts, openProportions, type Formula } from '../formula/index.js';
import type { Term } from './model.js';

/** A stretch of an equation, and the position where it begins. */
export interface Stretch {
  readonly text: string;
  readonly at: number;
}

const isPlus = (char: string | undefined): boolean => char === '+' || char === '＋';
const stateFollows = /^\s*\((?:s|l|g|aq)\)/;

/**
 * A plus that ends an ion's formula is that ion's charge: it is raised, or close to the formula with nothing after it.
 */
function isChargeSign(before: string, after: string): boolean {
  if (/\^[{(]?\d*$/.test(before)) return true;
  const attached = before.trim() !== '' && !/\s$/.test(before);
  if (!attached) return false;
  const next = after.trimStart()[0];
  return (
    next === undefined ||
    isPlus(next) ||
    next === ')' ||
    next === '}' ||
    stateFollows.test(after) ||
    /^\d\s*(?:$|\+|\((?:s|l|g|aq)\))/.test(after)
  );
}

/** Splits a side at its plus signs. @example splitAtPlus('Na^+ + Cl^-').length // 2 */
export function splitAtPlus(side: string): readonly Stretch[] {
  const found: Stretch[] = [];
  let start = 0;
  for (let at = 0; at < side.length; at += 1) {
    if (!isPlus(side[at]) || isChargeSign(side.slice(start, at), side.slice(at + 1))) continue;
    found.push({ text: side.slice(start, at), at: start });
    start = at + 1;
  }
  return [...found, { text: side.slice(start), at: start }];
}

/**
 * How a number close to an adduct is read: `2PbCO3·Pb(OH)2` as 2 of its first part, or as the coefficient of it all.
 */
export type GluedNumber = 'adduct' | 'coefficient';

const fractions: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅓': '1/3', '⅔': '2/3' };
const largestCoefficient = 1e9;

/** Undefined for a division by 0. */
function coefficientValue(text: string): Decimal | undefined {
  const [above, below] = (fractions[text] ?? text).split('/');
  if (below === undefined) return exact(above!);
  return /^0+$/.test(below) ? undefined : exact(above!).div(below);
}

interface Parted {
  readonly body: string;
  readonly coefficient?: Decimal | 'impossible';
  /** Length of what stands before the formula. */
  readonly skipped: number;
  /** The number could also be read in the other way. */
  readonly ambiguous: boolean;
}

function partCoefficient(text: string, glued: GluedNumber): Parted {
  const whole = { body: text, skipped: 0, ambiguous: false };
  const number = /^(\d+(?:\.\d+)?(?:\/\d+)?|[½¼¾⅓⅔])(\s*[*·×]\s*|\s*)(?=\S)/u.exec(text);
  if (!number) return whole;
  const body = text.slice(number[0].length);
  const apart = number[2] !== '';
  const ambiguous = !apart && /[·•∙⋅*]|\.\d*[A-Z([]/u.test(body);
  if (ambiguous && glued === 'adduct') return { ...whole, ambiguous };
  const value = coefficientValue(number[1]!);
  const possible = value && !value.isZero() && value.lte(largestCoefficient);
  return { body, coefficient: possible ? value : 'impossible', skipped: number[0].length, ambiguous };
}

/** What stands in an equation for heat or light. */
const energy = /^(?:heat|energy|light|Δ|∆|hν|hv|[+-]?\d+(?:\.\d+)? ?kJ(?:\/mol)?)$/iu;
const withoutState = (text: string): string => text.replace(/\s*(?:\((?:s|l|g|aq|cr)\)|[↑↓])$/, '').trim();

/** Counts that an equation cannot carry, because it could not be balanced. */
function openCounts(formula: Formula, body: string, column: number): Fault | undefined {
  const letters = unknownCounts(formula);
  if (letters.length > 0)
    return {
      code: 'unknown-count',
      column,
      message: `${body} leaves ${letters.join(' and ')} open.`,
      expected: 'a number',
      cure: `Write a number in the place of ${letters.join(' and ')}.`,
    };
  const [shared] = openProportions(formula.parts);
  if (shared !== undefined)
    return {
      code: 'open-proportion',
      column,
      message: `${body} leaves open how much there is of each in ${shared}, which an equation cannot carry.`,
      expected: 'a share for each',
      cure: 'Give each its share, e.g. (Zn0.9Mn0.1)O, or write one reaction for each.',
    };
  return [...composition(formula).values()].every(({ low, high }) => low.eq(high))
    ? undefined
    : {
        code: 'range',
        column,
        message: `${body} has a range of counts, which an equation cannot carry.`,
        expected: 'one number for each count',
        cure: 'Choose one composition inside the range.',
      };
}

export interface ReadTerm {
  readonly term: Term;
  readonly ambiguous: boolean;
}

/**
 * Reads one substance with its coefficient. Errors: `empty-term`, `no-substance`, `coefficient`, and those of formulae.
 */
export function readTerm({ text, at }: Stretch, glued: GluedNumber): Outcome<ReadTerm> {
  const trimmed = text.trim();
  const start = at + text.length - text.trimStart().length;
  if (trimmed === '')
    return bad({
      code: 'empty-term',
      column: start + 1,
      message: 'There is nothing on this side of the plus sign or arrow.',
      expected: 'a formula',
      cure: 'Write the missing formula, or take the sign away.',
    });
  if (energy.test(trimmed))
    return bad({
      code: 'no-substance',
      column: start + 1,
      message: `'${trimmed}' is no substance.`,
      expected: 'a formula',
      cure: 'Leave heat and light out of the equation.',
    });
  const { body, coefficient, skipped, ambiguous } = partCoefficient(trimmed, glued);
  const column = start + skipped + 1;
  if (coefficient === 'impossible')
    return bad({
      code: 'coefficient',
      column,
      message: `${trimmed.slice(0, skipped).trim()} cannot be a coefficient.`,
      expected: 'a number above 0, at most 1000000000',
      cure: 'Correct the coefficient.',
    });
  const formula = parseFormula(body);
  if (!formula.ok) return bad({ ...formula.fault, column: column - 1 + (formula.fault.column ?? 1) });
  const open = openCounts(formula.value, body, column);
  if (open) return bad(open);
  const term: Term = {
    label: withoutState(body),
    formula: formula.value,
    coefficient: coefficient ?? one,
    given: coefficient !== undefined,
    column,
  };
  return good({ term, ambiguous });
}
