// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating.
import type { Entry } from '../journal/entry.js';
import type { Remark } from '../journal/remarks.js';
import type { AmountsReckoning } from './amounts.js';
import type { ReckoningContext } from './context.js';

export interface StatementShown {
  readonly code: string;
  readonly text: string;
  /** Names of the substances it comes from. */
  readonly from: readonly string[];
}

export interface HazardBox {
  /** GHS01 … GHS09 in order of display. */
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly statements: readonly StatementShown[];
  readonly precautionary: readonly StatementShown[];
  /** Names of substances of which nothing is known; said loudly. */
  readonly unknown: readonly string[];
}

export interface DangersReckoning {
  readonly box: HazardBox;
}

export function reckonDangers(entry: Entry, context: ReckoningContext, amounts: AmountsReckoning): { dangers: DangersReckoning; remarks: Remark[] } {
  void entry; void context; void amounts;
  return { dangers: { box: { pictograms: [], statements: [], precautionary: [], unknown: [] } }, remarks: [] };
}
