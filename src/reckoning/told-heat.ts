// Heat that is only told: a write-up that calcines, roasts or boils down what no heating: mentions.
import { foresee } from '../hazards/foresee/foresee.js';
import type { Entry } from '../journal/entry.js';
import type { Findings } from '../remarks/findings.js';
import { heatDeedsTable } from '../tables/compiled/reckoning/heat-deeds.js';
import type { VesselItem } from './vessels.js';

interface Deed {
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

/** The hottest deed that the write-up or the steps tell; undefined where they tell of none. */
export function heatTold(entry: Entry): Deed | undefined {
  const { of, celsius } = deeds();
  const text = [entry.body.replace(/\]\([^)]*\)/g, ']'), ...stepWords(entry)].join('\n');
  const found = [...text.matchAll(of)].map(([words]) => ({ words, celsius: celsius.get(words.toLowerCase())! }));
  return found.sort((a, b) => b.celsius - a.celsius)[0];
}

/** Warns where heat is told, no heating: says so, and it would matter for what is in the pot. */
export function findToldHeat(entry: Entry, items: readonly VesselItem[], findings: Findings): void {
  if (items.length === 0 || saysHeat(entry)) return;
  const told = heatTold(entry);
  if (!told) return;
  const ingredients = items.map(({ reagent }) => ({ reagent }));
  const cold = new Set(foresee({ ingredients }).foreseen.map(({ rule }) => rule));
  const hot = foresee({ ingredients, heating: [{ of: 'mixture', toCelsius: told.celsius }] }).foreseen;
  const titles = hot.filter(({ rule, severity }) => severity !== 'note' && !cold.has(rule)).map(({ title }) => title);
  if (titles.length === 0) return;
  findings.add('heat-without-heating', ['reagents'], {
    words: told.words,
    celsius: String(told.celsius),
    titles: [...new Set(titles)],
    actual: told.words,
  });
}
