// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating.
import type { Entry } from '../journal/entry.js';
import type { HazardBox } from '../hazards/hazard-box.js';
import type { Remark } from '../journal/remarks.js';
import type { AmountsReckoning } from './amounts.js';
import type { ReckoningContext } from './context.js';

export type { HazardBox, StatementShown } from '../hazards/hazard-box.js';

export interface DangersReckoning {
  readonly box: HazardBox;
}

export function reckonDangers(entry: Entry, context: ReckoningContext, amounts: AmountsReckoning): { dangers: DangersReckoning; remarks: Remark[] } {
  void entry; void context; void amounts;
  return { dangers: { box: { pictograms: [], statements: [], precautionary: [], unknown: [] } }, remarks: [] };
}
