// What a reagent's own page says of its dangers: its hazard box and the foreseen-hazard rules it takes part in.
import { rulesWith, type RuleOf } from '../hazards/foresee/takes-part.js';
import type { ShelfReagent } from '../journal/schema.js';
import type { HazardBox } from '../hazards/ghs/index.js';
import { cupboardOf, resolveJar, type LotProduct } from '../reagents/index.js';
import { reckonReagentBox } from '../hazards/box-of-reagent.js';

export interface ReagentDangers {
  readonly box: HazardBox;
  /** Dangers first; empty says only that no rule of ours names it. */
  readonly rules: readonly RuleOf[];
}

/**
 * The dangers of a reagent as it stands on the shelf.
 * @param lot products of the journal's samples, so that a jar of something made here is what that is
 */
export function reckonReagent(jar: ShelfReagent, lot: (name: string) => LotProduct | undefined): ReagentDangers {
  const reagent = resolveJar(jar, cupboardOf(new Map(), lot));
  return { box: reckonReagentBox(reagent), rules: rulesWith(reagent) };
}
