// The hazards of one reagent as it stands on the shelf: its box, and the rules of mixing and heating it takes part in.
import type { HazardBox } from '../hazards/hazard-box.js';
import { rulesWith, type RuleOf } from '../hazards/takes-part.js';
import type { ShelfReagent } from '../journal/schema.js';
import { reckonReagentBox } from './hazard-box.js';

export function reagentDangers(_id: string, reagent: ShelfReagent): { readonly box: HazardBox; readonly rules: readonly RuleOf[] } {
  return { box: reckonReagentBox(reagent), rules: rulesWith(reagent) };
}
