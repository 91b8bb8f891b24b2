// What goes in after something else was fired and had cooled: the fire never reaches it.
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import { judgedCelsius, namesInWords } from '../../reagents/index.js';
import { says } from './around-words.js';
import { isNameOf } from './brought-in.js';
import { clausesOf, heatsIn } from './heat-in-words.js';
import { heatsTold, type ToldHeat } from './told-heat.js';
import type { VesselItem } from '../vessels.js';

/** °C from which on it matters whether something was there already: what burns gives off vapour in the warm. */
const fired = 40;
/** °C up to which what was dried is no hotter than a hand bears when it is taken out. */
const driedGently = 110;

const wordsOfSteps = forEntry(({ steps = [] }: Pick<Entry, 'steps'>): readonly string[] =>
  steps.map((step) => (typeof step === 'string' ? step : `${step.do} ${step.heat ?? ''}`)),
);

const hottestIn = (words: string): number => Math.max(-Infinity, ...heatsIn(words).map(({ celsius }) => celsius));

/** Whether words tell that what was hot before them is so no more. */
const coolsIn = (words: string): boolean => says('cools', words) || says('cold', words);

const lastHotOf = (clauses: readonly string[]): number => clauses.findLastIndex((clause) => hottestIn(clause) >= fired);

/** Words behind the last heat that a step tells. */
const afterHeat = (words: string): string => {
  const clauses = clausesOf(words);
  return clauses.slice(Math.max(lastHotOf(clauses), 0)).join(' ');
};

const dries =
  /(?<![a-zß-ɏ])(?:dry|dries|dried|drying|trockn\w*|getrocknet|sécher|séché\w*|sec[ao]d?\w*|asciug\w*)(?![a-zß-ɏ])/i;

/** `Dry at 50 °C, then grind with the alcohol`: it is named only behind the heat of its own step, and that is over. */
function isBehindItsHeat(item: VesselItem, words: string): boolean {
  const clauses = clausesOf(words);
  const last = lastHotOf(clauses);
  const isIn = (some: readonly string[]): boolean => namesInWords(some.join('. ')).some((one) => isNameOf(one, item));
  const [until, behind] = [clauses.slice(0, last + 1), clauses.slice(last + 1)];
  if (last < 0 || isIn(until) || !isIn(behind)) return false;
  return coolsIn(behind.join(' ')) || (dries.test(clauses[last]!) && hottestIn(clauses[last]!) <= driedGently);
}

/**
 * Steps that fire, 0 the first; none where something else tells of heat, which may come after all of them. A key of no
 * more than a step tells is that heat.
 */
function firingSteps(entry: Entry, heats: readonly ToldHeat[], steps: readonly string[]): readonly number[] {
  if (heats.some(({ step }) => step === undefined)) return [];
  const keys = [...entry.heating, ...entry.samples.flatMap(({ heating = [] }) => heating)];
  const hottest = Math.max(-Infinity, ...heats.map(({ celsius }) => celsius));
  if (keys.some(({ to }) => judgedCelsius(to) > hottest)) return [];
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
  if (last === undefined) return found;
  // What only the words of a step bring in was not among `all of it` before.
  const isAllThere = steps.slice(0, last + 1).some((words) => says('all', words));
  const asked = isAllThere ? items.filter((item) => item.step !== undefined) : items;
  if (asked.length === 0) return found;
  const named = steps.map((words) => {
    const names = namesInWords(words);
    return new Set(items.filter((item) => names.some((one) => isNameOf(one, item))));
  });
  for (const item of asked) {
    const step = item.step ?? named.findIndex((those) => those.has(item));
    const isBehind = hot.includes(step) && isBehindItsHeat(item, steps[step]!);
    const before = hot.filter((at) => at < step);
    const isCold = (at: number): boolean =>
      named[at]!.size > 0 && coolsIn([afterHeat(steps[at]!), ...steps.slice(at + 1, step + 1)].join(' '));
    if ((before.length === 0 && !isBehind) || !before.every(isCold)) continue;
    const later = heats.flatMap((one) => ((one.step ?? 0) >= (isBehind ? step + 1 : step) ? [one.celsius] : []));
    found.set(item, { step, celsius: Math.max(-Infinity, ...later) });
  }
  return found;
}
