// What reckoning hands on: everything computed from one entry, as plain data (no Decimal, no function),
// so that it can be sent to a worker thread, written to data/ and shown by templates that know no chemistry.
import type { Entry } from '../journal/entry.js';
import type { Remark } from '../journal/remarks.js';
import type { AmountsReckoning } from './amounts.js';
import type { AppearanceReckoning } from './appearance.js';
import type { DangersReckoning } from './dangers.js';

/** A number to show: exact decimal text for machines, rounded text for readers. */
export interface Figure {
  /** Decimal as text, unrounded to the reckoning's precision: `4.4286`. */
  readonly value: string;
  /** Expanded uncertainty (k = 2), same unit. */
  readonly uncertainty?: string;
  readonly unit: string;
  /** For readers, rounded to its uncertainty, with unit: `4.43 ± 0.01 g`. */
  readonly text: string;
}

export interface ReckonedEntry {
  readonly entry: Entry;
  readonly amounts: AmountsReckoning;
  readonly dangers: DangersReckoning;
  readonly appearance: AppearanceReckoning;
  /** Symbols of the colour-giving elements: as declared, else the transition and heavy elements of the formula. */
  readonly elements: readonly string[];
  readonly remarks: readonly Remark[];
}
