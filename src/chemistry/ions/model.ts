// Ions and what a substance comes apart into, as data.
import type { Decimal } from '../exact.js';
import { composition, countText, formulaOfNodes, type Composition, type FormulaNode } from '../formula/index.js';

/** One kind of ion and how many of it one formula unit supplies. */
export interface Ion {
  /**
   * Short name for rules: `nitrite`, `ferrocyanide`, `silicate`; a metal's name, `copper`; `complex` for an unlisted
   * complex.
   */
  readonly id: string;
  readonly name: string;
  /** `NO2^-`, `Cu^2+`, `[Fe(CN)6]^4-` */
  readonly formula: string;
  /** In elementary charges; 0 where it cannot be told. */
  readonly charge: number;
  readonly count: Decimal;
  /** There may be fewer: the formula leaves the proportion open. */
  readonly atMost?: true;
}

/** A neutral molecule besides water: `ammonia`, `hydrogen peroxide`. */
export interface Molecule {
  readonly id: string;
  readonly formula: string;
  readonly count: Decimal;
}

export interface Dissociation {
  readonly kind: 'salt' | 'acid' | 'hydroxide' | 'oxide' | 'ion' | 'element' | 'molecule' | 'water' | 'unknown';
  readonly ions: readonly Ion[];
  /** Neutral molecules in it besides water. */
  readonly molecules: readonly Molecule[];
  /** Water of crystallisation in one formula unit; the least of it where that is open. */
  readonly water: Decimal;
  /** Charges were found that add up to the charge of the formula. */
  readonly balanced: boolean;
}

/** Order-free name of a composition: `H3 N1`; what is open in it is a part of its name. */
export const compositionKey = (atoms: Composition): string =>
  [...atoms]
    .map(([symbol, count]) => `${symbol}${countText(count) || '1'}`)
    .sort()
    .join(' ');

/** Order-free name of a stretch of a formula. */
export const nodesKey = (nodes: readonly FormulaNode[]): string => compositionKey(composition(formulaOfNodes(nodes)));

export const waterKey = 'H2 O1';
