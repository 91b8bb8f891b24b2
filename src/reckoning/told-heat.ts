// Heat that is only told: a write-up that calcines, roasts or boils down what no heating: mentions.
import { foresee } from '../hazards/foresee/foresee.js';
import { onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import { readHeat } from '../reagents/index.js';
import type { Findings } from '../remarks/findings.js';
import { heatDeedsTable } from '../tables/compiled/reckoning/heat-deeds.js';
import type { VesselItem } from './vessels.js';

export interface Deed {
  readonly words: string;
  readonly celsius: number;
}
let pattern: { readonly of: RegExp; readonly celsius: ReadonlyMap<string, number> } | undefined;

function deeds(): NonNullable<typeof pattern> {
  if (!pattern) {
    const rows = [...heatDeedsTable()].sort((a, b) => b.words.length - a.words.length);
    pattern = {
      // What was not done is no heat: never boiled down, without firing.
      of: new RegExp(
        String.raw`(?<!\b(?:not|never|without|no)\W{1,2})\b(${rows.map((row) => row.words).join('|')})\b`,
        'gi',
      ),
      celsius: new Map(rows.map((row) => [row.words, row.celsius])),
    };
  }
  return pattern;
}

const stepWords = ({ steps = [] }: Entry): readonly string[] =>
  steps.map((step) => (typeof step === 'string' ? step : step.do));

const saysHeat = ({ heating, samples, steps = [] }: Entry): boolean =>
  heating.length > 0 ||
  samples.some((sample) => (sample.heating ?? []).length > 0) ||
  steps.some((step) => typeof step === 'object' && step.heat !== undefined);

/** The deeds that some words tell, the hottest first. */
function deedsIn(text: string): readonly Deed[] {
  const { of, celsius } = deeds();
  const found = [...text.matchAll(of)].map(([words]) => ({ words, celsius: celsius.get(words.toLowerCase())! }));
  return found.sort((a, b) => b.celsius - a.celsius);
}

/** Words that say how hot (`red heat`), and not only what was done (`roasted`). */
const isTemperature = ({ words }: Deed): boolean => readHeat(words).known !== 'not-known';

/**
 * How hot the words of each step say that it is, where no key of the entry says any heat: it is judged as a heating
 * would be. Undefined where a step tells of none.
 */
export const heatsOfSteps = onceFor((entry: Entry): readonly (Deed | undefined)[] =>
  saysHeat(entry) ? [] : stepWords(entry).map((words) => deedsIn(words).find(isTemperature)),
);

/** The hottest of them. */
export const hottestStep = (entry: Entry): Deed | undefined =>
  heatsOfSteps(entry)
    .flatMap((deed) => deed ?? [])
    .sort((a, b) => b.celsius - a.celsius)[0];

/** The hottest deed that the write-up or the steps tell; undefined where they tell of none. */
export function heatTold(entry: Entry): Deed | undefined {
  return deedsIn([entry.body.replace(/\]\([^)]*\)/g, ']'), ...stepWords(entry)].join('\n'))[0];
}

/** Heat that is told and was not judged, with what it would do. */
export interface HeatNotJudged extends Deed {
  readonly titles: readonly string[];
}

/**
 * Heat that only the write-up tells, or that a step does not tell as a temperature, hotter than any that was judged,
 * where it matters for what is in the pot.
 */
export function heatNotJudged(entry: Entry, items: readonly VesselItem[]): HeatNotJudged | undefined {
  if (items.length === 0 || saysHeat(entry)) return undefined;
  const told = heatTold(entry);
  if (!told || told.celsius <= (hottestStep(entry)?.celsius ?? 0)) return undefined;
  const ingredients = items.map(({ reagent }) => ({ reagent }));
  const cold = new Set(foresee({ ingredients }).foreseen.map(({ rule }) => rule));
  const hot = foresee({ ingredients, heating: [{ of: 'mixture', toCelsius: told.celsius }] }).foreseen;
  const titles = hot.filter(({ rule, severity }) => severity !== 'note' && !cold.has(rule)).map(({ title }) => title);
  return titles.length === 0 ? undefined : { ...told, titles: [...new Set(titles)] };
}

/** Warns of heat that was not judged, and tells what heat in the words of steps was taken for. */
export function findToldHeat(entry: Entry, notJudged: HeatNotJudged | undefined, findings: Findings): void {
  const judged = hottestStep(entry);
  if (judged)
    findings.add('heat-of-steps', ['steps'], {
      words: judged.words,
      celsius: String(judged.celsius),
      actual: judged.words,
    });
  if (!notJudged) return;
  const { words, celsius, titles } = notJudged;
  findings.add('heat-without-heating', ['reagents'], { words, celsius: String(celsius), titles, actual: words });
}
