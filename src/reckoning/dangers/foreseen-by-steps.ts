// The steps of an entry, each with what is in the pot by then, how hot it is, and which dangers begin there. It only
// says when: what is foreseen of the whole pot stands beside it, and no step takes anything away from that.
import { foresee } from '../../hazards/foresee/foresee.js';
import { isOfDust } from '../../hazards/foresee/rules.js';
import { foreseenOnce } from '../../hazards/foresee/told-once.js';
import type { Foreseen, ForeseenSeverity, MixedReagent } from '../../hazards/foresee/contracts.js';
import type { Entry } from '../../journal/entry.js';
import { judgedCelsius } from '../../reagents/index.js';
import { balanceOf } from '../balance.js';
import type { BroughtIn } from '../told/brought-in.js';
import type { ReckoningContext } from '../contracts.js';
import { dustOfSteps, type DustOfStep } from '../told/dust-of-steps.js';
import { potAround, withAround } from './around-the-pot.js';
import { firstSteps, stepOfItem } from './going-in.js';
import { addedLater, isOfParted } from './parted.js';
import { ingredientsIn, isInPot, productOf } from './setting.js';
import { ingredientsOf } from '../ingredients.js';
import { aroundSteps, type Around } from '../told/told-around.js';
import { heatsOfSteps } from '../told/told-heat.js';
import { byVessel, itemOf, severityRank, type VesselItem } from '../vessels.js';

/** A danger at the step at which it begins. */
export interface BeginsAtStep {
  readonly rule: string;
  readonly title: string;
  readonly severity: ForeseenSeverity;
}

export interface ForeseenAtStep {
  /** The first is 1. */
  readonly step: number;
  readonly do: string;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /** What goes in here, by name. */
  readonly goesIn: readonly string[];
  /**
   * All that is in the pot by then: what went in before, and from the first what no step names. What was filtered off
   * or washed out counts as there: some of it always is.
   */
  readonly inThePot: readonly string[];
  readonly heat?: { readonly written: string; readonly toCelsius: number };
  /** Dangers that were not there at the step before, or are graver now. */
  readonly begins: readonly BeginsAtStep[];
}

type Step = NonNullable<Entry['steps']>[number];

const detailsOf = (step: Step): Exclude<Step, string> => (typeof step === 'string' ? { do: step } : step);
const names = (items: readonly VesselItem[]): string[] => [...new Set(items.map(({ reagent }) => reagent.name))];

/** The gravest of each rule so far. */
class Known {
  private readonly severities = new Map<string, ForeseenSeverity>();

  isNew({ rule, severity }: Foreseen): boolean {
    const before = this.severities.get(rule);
    if (before !== undefined && severityRank[before] <= severityRank[severity]) return false;
    this.severities.set(rule, severity);
    return true;
  }
}

/** The main vessel of each sample, each with its id. */
function potsOf(
  entry: Entry,
  context: ReckoningContext,
  brought: readonly BroughtIn[],
): readonly { readonly sample?: string; readonly main: readonly VesselItem[] }[] {
  const balance = balanceOf(context.settings)?.halfWidth;
  const indices = entry.samples.length > 0 ? entry.samples.map((_, index): number | undefined => index) : [undefined];
  return indices.map((index) => {
    const sample = index === undefined ? undefined : entry.samples[index]?.sample;
    const here = brought.filter((one) => isInPot(one, sample)).map(({ item }) => item);
    const { main } = byVessel([...ingredientsOf(entry, index, context, balance).map(itemOf), ...here]);
    return { ...(sample !== undefined && { sample }), main };
  });
}

function foreseenOfDust(entry: Entry, { of }: DustOfStep, items: readonly VesselItem[]): readonly Foreseen[] {
  const dust = of(items);
  if (!dust) return [];
  const ingredients = [
    ...dust.items.map(({ reagent }) => ({ reagent })),
    ...(dust.withProduct ? productOf(entry) : []),
  ];
  return foresee({ ingredients }).foreseen.filter(({ rule }) => isOfDust(rule));
}

/**
 * What is foreseen at each step of an entry; nothing where it has no steps.
 * @param brought what meets its reagents and is none of them
 * @param added what would be added to every sample, there from the first
 */
export function foreseenBySteps(
  entry: Entry,
  context: ReckoningContext,
  brought: readonly BroughtIn[],
  added: readonly MixedReagent[] = [],
): readonly ForeseenAtStep[] {
  const { steps = [] } = entry;
  if (steps.length === 0) return [];
  const pots = potsOf(entry, context, brought).map((pot) => ({ ...pot, known: new Known() }));
  const all = pots.flatMap(({ main }) => main);
  const first = firstSteps(entry, all);
  return steps.map((written, at): ForeseenAtStep => {
    const step = detailsOf(written);
    const told = heatsOfSteps(entry)[at];
    const inWords = told && { written: told.words, toCelsius: told.celsius };
    const heat = step.heat === undefined ? inWords : { written: step.heat, toCelsius: judgedCelsius(step.heat) };
    const here = pots.filter(({ sample }) => step.sample === undefined || step.sample === sample);
    const aroundHere = aroundSteps(entry).filter((one) => one.step === at);
    const foreseenAround = (items: readonly VesselItem[], around: Around): readonly Foreseen[] =>
      foresee(potAround(withAround(items, around, first), around)).foreseen;
    const dustHere = dustOfSteps(entry).filter((one) => one.step === at);
    const inPots = here.map(({ main, known }) => ({
      known,
      items: main.filter((item) => (stepOfItem(item, first) ?? 0) <= at),
    }));
    const begins = inPots.flatMap(({ known, items }) => {
      const isFired = heat !== undefined && isOfParted(entry, at, heat.toCelsius);
      const hot = isFired ? [...ingredientsIn(addedLater(entry, items)), ...productOf(entry)] : ingredientsIn(items);
      const ingredients = [...hot, ...added];
      const heating = heat ? [{ of: 'mixture', toCelsius: heat.toCelsius }] : [];
      const plain = foresee({ ingredients, heating }).foreseen;
      const around = aroundHere.flatMap((one) => foreseenAround(items, one));
      const dust = dustHere.flatMap((one) => foreseenOfDust(entry, one, items));
      return foreseenOnce([...plain, ...around, ...dust]).filter((one) => known.isNew(one));
    });
    const each = new Map(begins.map(({ rule, title, severity }) => [`${rule} ${severity}`, { rule, title, severity }]));
    const items = inPots.flatMap((pot) => pot.items);
    return {
      step: at + 1,
      do: step.do,
      ...(step.sample !== undefined && { sample: step.sample }),
      goesIn: names(items.filter((item) => (stepOfItem(item, first) ?? 0) === at)),
      inThePot: [...names(items), ...new Set(added.map(({ reagent }) => reagent.name))],
      ...(heat && { heat }),
      begins: [...each.values()].sort((a, b) => severityRank[a.severity] - severityRank[b.severity]),
    };
  });
}
