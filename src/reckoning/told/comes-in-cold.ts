// What goes in after something else was fired and had cooled: the fire never reaches it.
import { onceFor } from '../../once.js';
import type { Entry } from '../../journal/entry.js';
import { namesInWords } from '../../reagents/index.js';
import { says } from './around-words.js';
import { isNameOf } from './brought-in.js';
import { clausesOf, heatsIn } from './heat-in-words.js';
import { heatsTold, type ToldHeat } from './told-heat.js';
import type { VesselItem } from '../vessels.js';

/** °C from which on it matters whether something was there already. */
const fired = 110;

const wordsOfSteps = onceFor(({ steps = [] }: Pick<Entry, 'steps'>): readonly string[] =>
  steps.map((step) => (typeof step === 'string' ? step : `${step.do} ${step.heat ?? ''}`)),
);

const hottestIn = (words: string): number => Math.max(-Infinity, ...heatsIn(words).map(({ celsius }) => celsius));

/** Whether words tell that what was hot before them is so no more. */
const coolsIn = (words: string): boolean => says('cools', words) || says('cold', words);

/** Words behind the last heat that a step tells. */
const afterHeat = (words: string): string => {
  const clauses = clausesOf(words);
  const last = clauses.findLastIndex((clause) => hottestIn(clause) >= fired);
  return clauses.slice(Math.max(last, 0)).join(' ');
};

/** Steps that fire, 0 the first; none where something else tells of heat, which may come after all of them. */
function firingSteps(entry: Entry, heats: readonly ToldHeat[], steps: readonly string[]): readonly number[] {
  if (heats.some(({ step }) => step === undefined)) return [];
  if (entry.heating.length > 0 || entry.samples.some(({ heating = [] }) => heating.length > 0)) return [];
  return steps.flatMap((_, at) => (heats.some(({ step, celsius }) => step === at && celsius >= fired) ? [at] : []));
}

/** What first goes in when the fire is over: the step, 0 the first, and how hot it gets from there on in °C. */
interface Later {
  readonly step: number;
  readonly celsius: number;
}

/**
 * What first goes in, as its words tell, when what was fired before by its own name has cooled.
 * @param items what the entry lists
 */
export function comesInCold(entry: Entry, items: readonly VesselItem[]): ReadonlyMap<VesselItem, Later> {
  const found = new Map<VesselItem, Later>();
  const heats = heatsTold(entry);
  const steps = wordsOfSteps(entry);
  const hot = firingSteps(entry, heats, steps);
  const last = hot.at(-1);
  if (last === undefined || hot[0] === steps.length - 1) return found;
  if (steps.slice(0, last + 1).some((words) => says('all', words))) return found;
  const named = steps.map((words) => {
    const names = namesInWords(words);
    return new Set(items.filter((item) => names.some((one) => isNameOf(one, item))));
  });
  for (const item of items) {
    const step = item.step ?? named.findIndex((those) => those.has(item));
    const before = hot.filter((at) => at < step);
    const isCold = (at: number): boolean =>
      named[at]!.size > 0 && coolsIn([afterHeat(steps[at]!), ...steps.slice(at + 1, step + 1)].join(' '));
    if (before.length === 0 || !before.every(isCold)) continue;
    const later = heats.flatMap((one) => ((one.step ?? 0) >= step ? [one.celsius] : []));
    found.set(item, { step, celsius: Math.max(-Infinity, ...later) });
  }
  return found;
}
