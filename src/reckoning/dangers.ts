// The hazards of one entry: the hazard box of what is used and made, and what can be foreseen of mixing and heating.
import type { Entry } from '../journal/entry.js';
import type { Foreseen } from '../hazards/foreseen.js';
import type { HazardBox } from '../hazards/hazard-box.js';
import type { Remark } from '../journal/remarks.js';
import type { AmountsReckoning } from './amounts.js';
import type { ReckoningContext } from './context.js';
import { reckonHazardBox } from './hazard-box.js';

export type { HazardBox, StatementShown } from '../hazards/hazard-box.js';

/** A hazard foreseen in this entry: in which samples, and how the entry answers it. */
export interface ForeseenInEntry extends Foreseen {
  /** Ids of the samples in which it arises; empty where the entry has none. */
  readonly samples: readonly string[];
  /** The precautions that name it. */
  readonly answered: readonly { readonly against: string; readonly do: string }[];
}

export interface DangersReckoning {
  readonly box: HazardBox;
  /** Dangers first, then warnings, then notes. */
  readonly foreseen?: readonly ForeseenInEntry[];
  /** Names that no rule could judge; said loudly. */
  readonly notJudged?: readonly string[];
  readonly cautions?: readonly string[];
  /** The room reckoned with. */
  readonly room?: { readonly cubicMetres: string; readonly stated: boolean; readonly extraction: boolean };
}

export function reckonDangers(entry: Entry, context: ReckoningContext, amounts: AmountsReckoning): { dangers: DangersReckoning; remarks: Remark[] } {
  void amounts;
  const { box, remarks } = reckonHazardBox(entry, context);
  return { dangers: { box }, remarks: [...remarks] };
}
