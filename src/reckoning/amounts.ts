// The chemistry of one entry: amounts, limiting reagent, yields, balances, cost, for each sample.
import type { Entry } from '../journal/entry.js';
import type { Remark } from '../journal/remarks.js';
import type { ReckoningContext } from './context.js';
import type { Figure } from './reckoned.js';

/** One reagent as it went into one sample. */
export interface IngredientAmounts {
  /** Shelf id, lot (`9/A`) or name, as the entry refers to it. */
  readonly id: string;
  readonly name: string;
  readonly formula?: string;
  readonly role: string;
  /** The amount as written. */
  readonly written?: string;
  readonly mass?: Figure;
  readonly volume?: Figure;
  readonly amount?: Figure;
  /** Amount divided by the coefficient, relative to the limiting reagent: 1 is just enough. */
  readonly equivalents?: Figure;
  readonly limiting: boolean;
  readonly left?: Figure;
}

export interface SampleAmounts {
  readonly sample: string;
  readonly ingredients: readonly IngredientAmounts[];
  /** Name of what limits. */
  readonly limiting?: string;
  readonly theoreticalYield?: Figure;
  readonly obtained?: Figure;
  readonly percentYield?: Figure;
}

export interface AmountsReckoning {
  readonly reaction?: { readonly written: string; readonly balanced: boolean; readonly fault?: string };
  readonly product?: { readonly formula: string; readonly molarMass?: Figure };
  readonly atomEconomy?: Figure;
  readonly samples: readonly SampleAmounts[];
}

export function reckonAmounts(entry: Entry, context: ReckoningContext): { amounts: AmountsReckoning; remarks: Remark[] } {
  void context;
  return { amounts: { samples: entry.samples.map(({ sample }) => ({ sample, ingredients: [], })) }, remarks: [] };
}
