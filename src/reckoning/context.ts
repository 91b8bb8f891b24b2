// What one entry's reckoning may know of the rest of the journal: settings, shelf, data files and earlier lots.
import type { JournalSettings, ShelfReagent } from '../journal/schema.js';
import type { LineageNode } from './lots.js';
import type { Figure } from './reckoned.js';

/** A sample of an earlier entry, as something that can be weighed out again. */
export interface LotFacts {
  /** `9/A` */
  readonly lot: string;
  readonly entry: number;
  readonly sample: string;
  readonly name: string;
  readonly formula?: string;
  readonly obtained?: Figure;
  /** Percent yield of the step that made it. */
  readonly percentYield?: Figure;
  /** Cost of the whole lot from bought reagents, where every price is known. */
  readonly cost?: Figure;
  /** Percent yield over all steps from bought reagents. */
  readonly cumulativeYield?: Figure;
  /** What it was made from, a few steps back. */
  readonly lineage?: LineageNode;
}

export interface ReckoningContext {
  readonly settings: JournalSettings;
  readonly shelf: ReadonlyMap<string, ShelfReagent>;
  /** Facts of a lot already reckoned, or undefined if there is none of that name. */
  readonly lot: (name: string) => LotFacts | undefined;
  /** Text of a file below the journal that entries name (spectra), or undefined. */
  readonly reading: (path: string) => string | undefined;
}
