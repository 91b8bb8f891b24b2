// What flies about when the words of a step grind, sieve, sand or sweep something dry: what of the pot is dry by then.
import { once } from '../../once.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import { namesInWords, type NameInWords } from '../../reagents/index.js';
import { says } from './around-words.js';
import { isNameOf } from './brought-in.js';
import { mayDust, workedIn } from './dust-words.js';
import { clausesOf, heatsIn } from './heat-in-words.js';
import { isWaterReagent } from '../ingredients.js';
import { isDriedByKeys, itemsFor, staysInCake } from './told-around.js';
import { bringsWater, type VesselItem } from '../vessels.js';

/** Something dry that a step works. */
export interface DustOfStep {
  /** The first is 0. */
  readonly step: number;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /** What of a pot flies; undefined where nothing of it does. */
  readonly of: (items: readonly VesselItem[]) => Dust | undefined;
}

export interface Dust {
  /** With what stands for its flying. */
  readonly items: readonly VesselItem[];
  /** What is made may be there, and is worked too. */
  readonly withProduct: boolean;
}

/** What is done next with what was ground. */
const next =
  /,?\s+(?:and|und|et|y|e)\s+(?=(?:wash|rinse|stir|add|mix|put in|pour|wasch|spül|lav|enjuag|mezcl|ajout|aggiung)[a-zß-ɏ]*)/iu;

const partsOf = (words: string): readonly string[] => clausesOf(words).flatMap((clause) => clause.split(next));

interface Step {
  readonly do: string;
  readonly sample?: string | undefined;
}
const stepsOf = ({ steps = [] }: Pick<Entry, 'steps'>): readonly Step[] =>
  steps.map((one) => (typeof one === 'string' ? { do: one } : one));

const standsFor = { grinds: 'rubbed', dusts: 'airborne', sweeps: 'swept' } as const;

/** °C from which whatever was wet is dry. */
const dries = 150;
/** Words by which a step dries what it holds, or wets it. */
function isDryAfter(words: string, before: boolean): boolean {
  if ((says('dry', words) && !says('wet', words)) || heatsIn(words).some(({ celsius }) => celsius >= dries))
    return true;
  return says('wetly', words) || says('parts', words) ? false : before;
}

const oil = /(?<![a-zß-ɏ])(?:[a-zß-ɏ]*oil|[a-zß-ɏ]*öl|huile|aceite|olio)(?![a-zß-ɏ])/iu;
const wets = (item: VesselItem): boolean => bringsWater(item) || oil.test(item.reagent.name);

/** It is dry where nothing wet was listed or told, or where it was dried before. */
function isDry(entry: Entry, before: readonly string[], items: readonly VesselItem[]): boolean {
  const told = before.reduce<boolean | undefined>(
    (dry, words) => isDryAfter(words, dry ?? true) ?? dry,
    items.some(wets) ? false : undefined,
  );
  return (told ?? true) || (before.some((words) => says('parts', words)) && isDriedByKeys(entry));
}

const isSolid = ({ reagent }: VesselItem): boolean =>
  !isWaterReagent(reagent) && ['undiluted', 'not-given'].includes(reagent.strength.basis);

/** Words that mean all that is there. */
const meansAll =
  /(?<![a-zß-ɏ])(?:all|both|everything|mixture|together|rest|cake|product|pigment|precipitate|powder|it|them|zusammen|alles|beide|ensemble|tout|mélange|todo|juntos|mezcla|tutto|insieme|miscela)(?![a-zß-ɏ])/iu;

/** Those that the words name; all where they name none, or all. */
function meant(names: readonly NameInWords[], words: string, items: readonly VesselItem[]): readonly VesselItem[] {
  if (meansAll.test(words)) return items;
  const named = items.filter((item) => names.some((one) => isNameOf(one, item)));
  return named.length > 0 ? named : items;
}

/** What steps work dry, of whatever pot they are done with. */
export const dustOfSteps = forEntry((entry: Entry): readonly DustOfStep[] => {
  const steps = stepsOf(entry);
  return steps.flatMap((step, at): readonly DustOfStep[] => (!mayDust(step.do) ? [] : dustIn(entry, steps, step, at)));
});

function dustIn(entry: Entry, steps: readonly Step[], step: Step, at: number): readonly DustOfStep[] {
  const clauses = partsOf(step.do);
  const earlier = steps.slice(0, at).flatMap((one) => partsOf(one.do));
  return clauses.flatMap((clause, nth): readonly DustOfStep[] => {
    const told = workedIn(clause);
    if (told.length === 0) return [];
    const before = [...earlier, ...clauses.slice(0, nth)];
    const parted = before.some((words) => says('parts', words));
    const names = once(() => namesInWords(clause));
    const stand = told.flatMap((one) => itemsFor(standsFor[one], ['steps', at], at));
    // What is made of nothing that is listed was there before.
    const isMade = entry.pigment?.formula !== undefined && (at > 0 || entry.reagents.length === 0);
    const dustOf = (items: readonly VesselItem[]): Dust | undefined => {
      if (!says('drily', clause) && !says('dry', clause) && !isDry(entry, before, items)) return undefined;
      const there = items.filter((item) => isSolid(item) && (!parted || !isMade || staysInCake(item)));
      const dusty = meant(names(), clause, there);
      const withProduct = isMade && dusty.length === there.length;
      return dusty.length > 0 || withProduct ? { items: [...dusty, ...stand], withProduct } : undefined;
    };
    const { sample } = step;
    return [{ step: at, of: dustOf, ...(sample !== undefined && { sample }) }];
  });
}
