// Which vessels the steps heat, and what is in them by then.
import type { MixtureHeating } from '../../hazards/foresee/contracts.js';
import type { Entry } from '../../journal/entry.js';
import { heatsTold } from '../told/told-heat.js';
import { byVessel, speaksOfVessel, type VesselItem } from '../vessels.js';
import { stepOfItem, stepsOfIds } from './going-in.js';
import { isOfParted } from './parted.js';
import { heatOfStep } from '../steps.js';

type Step = NonNullable<Entry['steps']>[number];

type Vessels = Pick<ReturnType<typeof byVessel>, 'main' | 'apart'>;

/**
 * The vessels that a step may heat: the main one, those that it speaks of or puts something into; where that is none,
 * all of them.
 */
function vesselsHeated(
  { do: done, with: ids = [] }: Pick<Exclude<Step, string>, 'do' | 'with'>,
  { main, apart }: Vessels,
): readonly (readonly VesselItem[])[] {
  const here = new Map(ids.map((id) => [id.toLowerCase(), 0]));
  const meant = apart.filter(
    (group) => speaksOfVessel(done, group) || group.some((item) => stepOfItem(item, here) !== undefined),
  );
  const heated = main.length > 0 ? [main, ...meant] : meant;
  return heated.length > 0 ? heated : apart;
}

/** Words of heat are of the pot as it is then where steps say what goes in when; else of all of it. */
const heatsByStep = (first: ReadonlyMap<string, number>, { apart }: Vessels): boolean =>
  first.size > 0 || apart.length > 0;

const isFor = (step: Step, sample: string | undefined): boolean =>
  typeof step === 'string' || step.sample === undefined || step.sample === sample;

/** Whether the heat that a key of a step says is that of what was filtered off before, as it is with heat in words. */
const isOfProduct = (entry: Entry, at: number): boolean =>
  heatOfStep(entry.steps![at]!).some((celsius) => isOfParted(entry, at, celsius));

/** Steps that are heated, with what is in the vessel by then; what no step names is there from the first. */
export function heatedSteps(
  entry: Entry,
  sample: string | undefined,
  vessels: Vessels,
): readonly { readonly among: readonly VesselItem[]; readonly toCelsius: number }[] {
  const first = stepsOfIds(entry);
  const told = heatsByStep(first, vessels) ? heatsTold(entry).filter(({ of }) => of === 'mixture') : [];
  return (entry.steps ?? []).flatMap((written, at) => {
    const step = typeof written === 'string' ? { do: written } : written;
    if (step.sample !== undefined && step.sample !== sample) return [];
    const inWords = told.filter((one) => one.step === at).map(({ celsius }) => celsius);
    const heats = [...inWords, ...(isOfProduct(entry, at) ? [] : heatOfStep(step))];
    if (heats.length === 0) return [];
    const toCelsius = Math.max(...heats);
    const isThere = (item: VesselItem): boolean => (stepOfItem(item, first) ?? 0) <= at;
    return vesselsHeated(step, vessels).map((items) => ({ among: items.filter(isThere), toCelsius }));
  });
}

/** Heats that words tell of all that a sample holds, or of its product. */
export function heatsInWords(entry: Entry, sample: string | undefined, vessels: Vessels): readonly MixtureHeating[] {
  const byStep = heatsByStep(stepsOfIds(entry), vessels);
  const told = heatsTold(entry)
    .filter((one) => one.sample === undefined || one.sample === sample)
    .filter(({ of, step }) => !byStep || of === 'product' || step === undefined)
    .map(({ of, celsius }) => ({ of, toCelsius: celsius }));
  const keyed = (entry.steps ?? []).flatMap((step, at) =>
    isFor(step, sample) && isOfProduct(entry, at)
      ? heatOfStep(step).map((toCelsius) => ({ of: 'product', toCelsius }))
      : [],
  );
  return [...told, ...keyed];
}
