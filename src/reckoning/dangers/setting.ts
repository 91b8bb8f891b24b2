// What the samples of an entry have in common when they are foreseen, and what of them stands in a pot.
import type { MixedReagent, MixtureHeating } from '../../hazards/foresee/contracts.js';
import type { Workspace } from '../../hazards/foresee/workspace.js';
import type { Entry } from '../../journal/entry.js';
import { onceFor } from '../../once.js';
import { resolveNamed } from '../../reagents/index.js';
import type { BroughtIn } from '../told/brought-in.js';
import type { VesselItem } from '../vessels.js';
import type { Pots } from './pots.js';

/** What if: something added to every sample, other heat, another room. */
export interface WhatIf {
  readonly added: readonly MixedReagent[];
  readonly heating: readonly MixtureHeating[];
  readonly roomCubicMetres?: string;
}
export const asItStands: WhatIf = { added: [], heating: [] };

export const ingredientsIn = (items: readonly VesselItem[]): readonly MixedReagent[] =>
  items.map(({ reagent }) => ({ reagent }));

/** The product as it stands in a vessel; nothing where its formula is not known. */
export const productOf = onceFor(({ pigment }: Entry): readonly MixedReagent[] => {
  if (pigment?.formula === undefined) return [];
  return [{ reagent: resolveNamed(pigment.name, pigment.formula), made: 'product' }];
});

/** What the samples of an entry have in common when they are foreseen. */
export interface Setting {
  readonly entry: Entry;
  readonly room: Workspace;
  readonly whatIf: WhatIf;
  readonly pots: Pots;
}

/** Whether something that is brought in stands in the vessels of a sample. */
export const isInPot = ({ how, sample }: BroughtIn, id: string | undefined): boolean =>
  how !== 'waste' && how !== 'spoken-of' && how !== 'aside' && (sample === undefined || sample === id);
