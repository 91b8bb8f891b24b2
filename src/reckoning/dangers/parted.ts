// What was filtered off and washed before it was fired: what it was made of is gone, what goes in later is not.
import type { Entry } from '../../journal/entry.js';
import { onceFor } from '../../once.js';
import { namesInWords } from '../../reagents/index.js';
import { says } from '../told/around-words.js';
import { isNameOf } from '../told/brought-in.js';
import { heatsIn } from '../told/heat-in-words.js';
import { madeWet, partsFrom, wettest } from '../told/told-heat.js';
import { tellsWashing } from '../told/told-work.js';
import type { VesselItem } from '../vessels.js';
import { firstSteps, stepOfItem } from './going-in.js';
import { heatOfStep, wordsOfStep, type StepWritten } from '../steps.js';

const isFired = (step: StepWritten): boolean =>
  [...heatsIn(wordsOfStep(step)).map(({ celsius }) => celsius), ...heatOfStep(step)].some((one) => one > wettest);

/** `Mix it with the rest`, `grind with borax`: what else there is may come in here. */
const mixesIn =
  /(?<![a-z])(?:mix|blend|combin|rub|stir|gr[io]u?nd|knead|join|charg|misch|vermisch|mélang|mezcl)\w*(?:\s\S+){0,4}?\s(?:with|into|to|mit|avec|con)(?![a-z])/i;

/**
 * The step, 0 the first, by which the product was parted from the rest, where steps tell that it was made in a liquor
 * and washed, and that nothing was fired before; undefined where they do not, or where one behind speaks of all of it.
 */
export const partedAt = onceFor((entry: Entry): number | undefined => {
  const { steps = [], reaction } = entry;
  const words = steps.map(wordsOfStep);
  const at = partsFrom(words);
  if (reaction === undefined || at === Infinity || !words.slice(0, at + 1).some(madeWet)) return undefined;
  if (steps.slice(0, at).some(isFired) || !words.slice(at).some(tellsWashing)) return undefined;
  return words.slice(at + 1).some((one) => says('all', one) || mixesIn.test(one)) ? undefined : at;
});

/**
 * What of a vessel is first spoken of when the product is parted from the rest, or goes in then: it meets it in the
 * fire.
 */
export function addedLater(entry: Entry, items: readonly VesselItem[]): readonly VesselItem[] {
  const at = partedAt(entry);
  if (at === undefined) return [];
  const names = (entry.steps ?? []).map((step) => namesInWords(wordsOfStep(step)));
  const first = firstSteps(entry, items);
  return items.filter((item) => {
    const named = names.findIndex((those) => those.some((one) => isNameOf(one, item)));
    return Math.max(named, stepOfItem(item, first) ?? 0) > at;
  });
}

/** Whether a heat of a step is that of what was filtered off before it. */
export function isOfParted(entry: Entry, step: number, celsius: number): boolean {
  const at = partedAt(entry);
  return at !== undefined && step > at && celsius > wettest;
}
