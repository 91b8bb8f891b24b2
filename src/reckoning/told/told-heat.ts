// Heat that is only told, in the words of steps, of what samples differ in and of the write-up, beside what `heating:`
// says: the hottest of all of them counts.
import { foreseer } from '../../hazards/foresee/foresee.js';
import { onceFor } from '../../once.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import type { Heating } from '../../journal/schema.js';
import { judgedCelsius } from '../../reagents/index.js';
import type { Findings } from '../../remarks/findings.js';
import { heatsIn, heatWordsOf, meltingIn, type HeatInWords } from './heat-in-words.js';
import { notReadWords, wordsLeftOut } from './left-out.js';
import { asWorked, type WorkedByWords } from './told-work.js';
import type { VesselItem } from '../vessels.js';
import { heatOfStep } from '../steps.js';

export interface Deed {
  readonly words: string;
  readonly celsius: number;
}

/** Heat that words tell and that is judged, as a heating would be. */
export interface ToldHeat extends Deed {
  /** The least that it may be, °C. */
  readonly low: number;
  /** The key under which it is told; empty for the write-up. */
  readonly under: string;
  /** The step, the first is 0. */
  readonly step?: number;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /** `mixture`: the pot as it is then; `product`: what was filtered off or washed before. */
  readonly of: 'mixture' | 'product';
}

interface Said {
  readonly words: string;
  readonly under: string;
  readonly step?: number;
  readonly sample?: string;
  /** What a key of the step says of its heat. */
  readonly heat?: string;
}

/** What stands under keys that no entry has, or could not be read, and is not said to be not judged. */
const saidLeftOut = ({ leftOut = [] }: Entry): readonly Said[] =>
  leftOut
    .filter((one) => notReadWords(one).length === 0)
    .flatMap((one) => wordsLeftOut(one).map(({ words }) => ({ words, under: String(one.path[0]) })));

function saidIn(entry: WorkedByWords): readonly Said[] {
  const { steps = [], samples, worksByWords } = entry;
  const under = worksByWords ? '' : 'steps';
  const ofSteps = steps.map((one, step): Said => {
    if (typeof one === 'string') return { words: one, under, step };
    const { do: words, sample, heat } = one;
    return {
      words,
      under: 'steps',
      step,
      ...(sample !== undefined && { sample }),
      ...(heat !== undefined && { heat }),
    };
  });
  const ofSamples = samples.flatMap(({ sample, differs }): Said[] =>
    differs === undefined ? [] : [{ words: differs, under: 'samples', sample }],
  );
  return [...ofSteps, ...ofSamples, ...saidLeftOut(entry)];
}

const isOfWater = ({ of }: Heating): boolean => /\b(?:water|Wasser|eau|agua)\b/i.test(of);

/** °C of all that keys say of heat. */
const heatsOfKeys = ({ heating, samples, steps = [] }: Entry): readonly number[] => [
  ...[...heating, ...samples.flatMap((one) => one.heating ?? [])]
    .filter((one) => !isOfWater(one))
    .map(({ to }) => judgedCelsius(to)),
  ...steps.flatMap(heatOfStep),
];

const saysHeat = ({ heating, samples, steps = [] }: Entry): boolean =>
  heating.length > 0 ||
  samples.some((sample) => (sample.heating ?? []).length > 0) ||
  steps.some((step) => typeof step === 'object' && step.heat !== undefined);

/** Steps by which what was in the pot is no longer all together. */
const parts =
  /\b(?:filter|filtr|wash|rins|decant|strain|siphon|centrifug|drain|pour[a-zß-ɏ]* off|abfiltr|gewaschen|waschen|dekant|lav[ée]|essor|enjuag)/iu;
/** The first of some steps that parts what was in the pot; Infinity where none does. */
export function partsFrom(steps: readonly string[]): number {
  const first = steps.findIndex((words) => parts.test(words));
  return first < 0 ? Infinity : first;
}
/** A liquor in which something is made. */
const wet =
  /(?<![a-zß-ɏ])(?:solution|solve|dissolv|lye|lauge|precipit|pour|drip|bubbl|liquor|stirr?(?:ed|ing)? in|lös|gelöst|fäll|gefäll|tropf|gieß|gegossen|dissou|vers[ée]|goutte|disol|disuel|viert)/iu;
/** Whether a step tells that something is made in a liquor. */
export const madeWet = (words: string): boolean => wet.test(words);

/** What still has its liquid gets no hotter than it boils, °C. */
export const wettest = 110;

interface Told {
  readonly judged: readonly ToldHeat[];
  /** What was done with no word of how hot, the hottest. */
  readonly deeds: readonly HeatInWords[];
}

/** All that words tell of heat, beside what keys say. */
const toldIn = forEntry((entry: Entry): Told => {
  const ofKeys = heatsOfKeys(entry);
  const judged: ToldHeat[] = [];
  const deeds: HeatInWords[] = [];
  let parted = false;
  for (const { words, under, step, sample, heat } of saidIn(entry)) {
    parted ||= step === undefined || parts.test(words);
    const melting = meltingIn(words).filter(({ celsius }) => !ofKeys.some((known) => known >= celsius));
    for (const one of [...heatsIn(words), ...melting]) {
      if (one.says === 'deed') {
        deeds.push(one);
        continue;
      }
      // An oven, where a key says how hot an oven was, is that oven.
      const same = ofKeys.filter((celsius) => one.says === 'device' && celsius >= one.low && celsius <= one.celsius);
      if (heat !== undefined && judgedCelsius(heat) >= one.low) continue;
      const celsius = same.length > 0 ? Math.max(...same) : one.celsius;
      judged.push({
        words: one.words,
        under,
        low: one.low,
        celsius,
        of: parted && celsius > wettest ? 'product' : 'mixture',
        ...(step !== undefined && { step }),
        ...(sample !== undefined && { sample }),
      });
    }
  }
  const sure = [...ofKeys, ...judged.map(({ celsius }) => celsius)];
  return { judged, deeds: deeds.filter(({ low }) => !sure.some((celsius) => celsius >= low)) };
});

const hottestOf = <One extends Deed>(list: readonly One[]): One | undefined =>
  [...list].sort((a, b) => b.celsius - a.celsius)[0];

/** Heats that words tell and that are judged, as heatings would be. */
export const heatsTold = (entry: Entry): readonly ToldHeat[] => toldIn(entry).judged;

/** How hot the words of each step say that it is; undefined where a step tells of none. */
export const heatsOfSteps = forEntry((entry: Entry): readonly (ToldHeat | undefined)[] =>
  (entry.steps ?? []).map((_, at) => hottestOf(heatsTold(entry).filter(({ step }) => step === at))),
);

/** The hottest that the write-up tells; undefined where it tells of none, or, only in words, beside what keys say. */
export const heatTold = onceFor((entry: Entry): Deed | undefined => {
  const hottest = hottestOf(heatWordsOf(entry.body.replace(/\]\([^)]*\)/g, ']')));
  if (!hottest || (hottest.says !== 'degrees' && saysHeat(entry))) return undefined;
  return { words: hottest.words, celsius: hottest.celsius };
});

/** Heat that is told and was not judged, with what it would do. */
export interface HeatNotJudged extends Deed {
  readonly titles: readonly string[];
}

/**
 * A deed of the steps that nothing tells the heat of, or what only the write-up tells (in degrees, or where no key says
 * any heat in words too), hotter than any that was judged, where it matters for what is in the pot.
 */
export function heatNotJudged(entry: Entry, items: readonly VesselItem[]): HeatNotJudged | undefined {
  if (items.length === 0) return undefined;
  const ofBody = heatTold(entry);
  const told = hottestOf([...toldIn(entry).deeds, ...(ofBody ? [ofBody] : [])]);
  const judged = Math.max(0, ...heatsOfKeys(entry), ...heatsTold(entry).map(({ celsius }) => celsius));
  if (!told || told.celsius <= judged) return undefined;
  const ingredients = items.map(({ reagent }) => ({ reagent }));
  const milder = judged > 0 ? [{ of: 'mixture', toCelsius: judged }] : [];
  const { foresee, foreseeOnly } = foreseer();
  const known = new Set(foresee({ ingredients, heating: milder }).foreseen.map(({ rule }) => rule));
  const hot = foreseeOnly(
    { ingredients, heating: [{ of: 'mixture', toCelsius: told.celsius }] },
    (rule) => !known.has(rule),
  );
  const titles = hot.filter(({ severity }) => severity !== 'note').map(({ title }) => title);
  return titles.length === 0 ? undefined : { words: told.words, celsius: told.celsius, titles: [...new Set(titles)] };
}

/** Warns of heat that was not judged, and tells what heat in words was taken for where no key tells of as much. */
export function findToldHeat(entry: Entry, notJudged: HeatNotJudged | undefined, findings: Findings): void {
  const judged = hottestOf(heatsTold(asWorked(entry)));
  if (judged && judged.celsius > Math.max(wettest, ...heatsOfKeys(entry)))
    findings.add('heat-of-steps', judged.under === '' ? [] : [judged.under], {
      words: judged.words,
      celsius: String(judged.celsius),
      actual: judged.words,
    });
  if (!notJudged) return;
  const { words, celsius, titles } = notJudged;
  findings.add('heat-without-heating', ['reagents'], { words, celsius: String(celsius), titles, actual: words });
}
