// What can be foreseen in each sample of an entry, gathered over all of them.
import type { Decimal } from '../../chemistry/index.js';
import type { ContentsTaken } from '../../hazards/foresee/contracts.js';
import { workspaceOf } from '../../hazards/foresee/workspace.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import { once, onceFor } from '../../once.js';
import { scaledReagent } from '../amounts/scaling.js';
import { balanceOf } from '../balance.js';
import type { ReckoningContext } from '../contracts.js';
import { ingredientsOf, type Ingredient } from '../ingredients.js';
import { broughtIn, leftOutWords, type BroughtIn } from '../told/brought-in.js';
import { notReadWords } from '../told/left-out.js';
import { heatNotJudged } from '../told/told-heat.js';
import { asWorked } from '../told/told-work.js';
import { freeAcidIn, itemOf, type VesselItem } from '../vessels.js';
import { foreseeAside, foreseeBesides, toldBesides, type ToldBesides } from './beside-the-work.js';
import { foreseeSample } from './foreseen-in-sample.js';
import { Gathering, type ForeseenSomewhere } from './gathering.js';
import { Pots } from './pots.js';
import { asItStands, isInPot, type Setting, type WhatIf } from './setting.js';

export interface EntryForesight {
  readonly hazards: readonly ForeseenSomewhere[];
  readonly unknown: readonly { readonly name: string; readonly path: Path }[];
  readonly taken: readonly ContentsTaken[];
  /** Every use in every sample. */
  readonly items: readonly VesselItem[];
  /** What meets them by keys and the words of the work, and is none of them. */
  readonly brought: readonly BroughtIn[];
  /** What of the entry could not be read, in sentences: what this leaves out of the judging. */
  readonly notRead: readonly string[];
  /** What is told with the hazards; the words beside the work are read when it is asked for. */
  readonly besides: () => ToldBesides;
}

/**
 * Foresees every sample of an entry; its reagents alone where it has no samples.
 * @param factor so many times as much of everything
 */
export function foreseeEntry(
  written: Entry,
  context: ReckoningContext,
  factor?: Decimal,
  whatIf: WhatIf = asItStands,
): EntryForesight {
  const entry = asWorked(written);
  const gathering = new Gathering();
  const all: VesselItem[] = [];
  const { roomCubicMetres } = whatIf;
  const room = {
    ...workspaceOf(context.settings.workspace),
    ...(roomCubicMetres !== undefined && { roomCubicMetres }),
  };
  const setting: Setting = { entry, room, whatIf, pots: new Pots() };
  const balance = balanceOf(context.settings)?.halfWidth;
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  // What several samples take alike is one ingredient, and one thing in their vessels.
  const itemsFor = onceFor((one: Ingredient): readonly VesselItem[] => {
    const acid = freeAcidIn(one);
    const item = itemOf(factor ? { ...one, reagent: scaledReagent(one.reagent, factor) } : one);
    return acid ? [item, acid] : [item];
  });
  const used = indices.map((index) => ingredientsOf(entry, index, context, balance).flatMap(itemsFor));
  const brought = broughtIn(entry, [...new Set(used.flat())], context);
  for (const [at, index] of indices.entries()) {
    const id = index === undefined ? undefined : entry.samples[index]!.sample;
    const here = brought.atWork.filter((one) => isInPot(one, id)).map(({ item }) => item);
    const items = here.length > 0 ? [...used[at]!, ...here] : used[at]!;
    all.push(...items);
    foreseeSample(setting, index, items, gathering);
  }
  foreseeAside(setting, all, brought.atWork, gathering);
  const spokenOf = foreseeBesides(setting, all, brought, gathering);
  const { hazards, unknown, taken } = gathering;
  return {
    hazards: [...hazards.values()],
    unknown: [...unknown].map(([name, path]) => ({ name, path })),
    taken: [...taken.values()],
    items: all,
    brought: brought.atWork,
    notRead: [...brought.atWork.flatMap(leftOutWords), ...(entry.leftOut ?? []).flatMap(notReadWords)],
    besides: once(() => toldBesides(gathering, brought, spokenOf(), heatNotJudged(entry, all))),
  };
}
