// Chemical formulae as data: a tree of atoms and groups between the dots of adducts, and the counts that stand in it.
import type { Fault } from '../../outcome.js';
import { one, zero, type Decimal } from '../exact.js';

/**
 * How many: a number (`low` = `high`), a range (`8-10`), or with unknowns (`x`, `1-x`, `2n`): low…high plus each
 * unknown times its factor. An unknown is a letter, or a product of letters where counts multiply (`n·x`).
 */
export interface Count {
  readonly low: Decimal;
  readonly high: Decimal;
  readonly unknown?: Readonly<Record<string, Decimal>>;
  /** A fraction as it was written: `1/3`. */
  readonly fraction?: string;
}

export interface Atom {
  readonly kind: 'atom';
  readonly symbol: string;
  readonly count: Count;
}
export interface Group {
  readonly kind: 'group';
  readonly bracket: Bracket;
  readonly parts: readonly FormulaPart[];
  readonly count: Count;
  /** The parts share one place in proportions that are not stated: `(Zn,Mn)`. */
  readonly alternatives?: true;
}
export type FormulaNode = Atom | Group;
export type Bracket = '(' | '[' | '{';

/** What stands between two dots of an adduct (or two commas of alternatives), with the number before it: `5H2O`. */
export interface FormulaPart {
  readonly multiplier: Count;
  readonly nodes: readonly FormulaNode[];
}

/** Codes of what can be doubted in a formula; each is a rule of the proof. */
export type FormulaDoubtCode =
  | 'charge'
  | 'dash'
  | 'full-stop'
  | 'lost-dot'
  | 'open-proportion'
  | 'unknown-count'
  | 'zero-for-oxygen';
export type FormulaDoubt = Fault<FormulaDoubtCode>;

export interface Formula {
  /** As it was written. */
  readonly written: string;
  readonly parts: readonly FormulaPart[];
  /** In elementary charges: −2 for SO4^2-. */
  readonly charge: number;
  readonly state?: State;
  /** Things that could be read another way, with the reading that was taken, and what the formula leaves open. */
  readonly doubts: readonly FormulaDoubt[];
}
export type State = 's' | 'l' | 'g' | 'aq';

/** How many atoms of each element, in the order in which they are written. */
export type Composition = ReadonlyMap<string, Count>;

export const closingBracket: Readonly<Record<Bracket, string>> = { '(': ')', '[': ']', '{': '}' };

export const exactly = (value: Decimal): Count => ({ low: value, high: value });
export const single: Count = exactly(one);

export const isElectron = (formula: Formula): boolean => formula.parts.length === 0;

/** Nodes as a neutral formula of their own. */
export const formulaOfNodes = (nodes: readonly FormulaNode[]): Formula => ({
  written: '',
  parts: [{ multiplier: single, nodes }],
  charge: 0,
  doubts: [],
});

/** A count above 0, or one that may be: an unknown can be anything. */
export const canBePresent = (count: Count): boolean => count.unknown !== undefined || count.high.gt(zero);
