// What the proof has to know of a product's washing, drying, ignition and water.
import { parseTarget } from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Findings, Path } from '../../remarks/findings.js';
import { belowTheDish } from './drying.js';
import { bareFigure } from '../figures.js';
import { dangerIfIgnited } from '../dangers/portion-heat.js';
import type { SampleReckoning } from '../amounts/sample-amounts.js';
import { tellsWashing } from '../told/told-work.js';
import type { HeatedPastTold } from './stands.js';
import type { HeldWater } from './treatment-contracts.js';
import { wordsOfStep } from '../steps.js';

/** Where the washes of a sample are written. */
function washesPath({ samples }: Entry, index: number | undefined): Path {
  return index !== undefined && samples[index]!.washes ? ['samples', index, 'washes'] : ['washes'];
}

/** `10 to 15`, `8` */
const rangeOf = ({ low, high }: Pick<HeldWater, 'low' | 'high'>): string => (low === high ? low! : `${low} to ${high}`);

const sampleIn = ({ samples }: Entry, index: number | undefined): string | undefined =>
  index === undefined || samples.length < 2 ? undefined : samples[index]!.sample;

/** A product that cannot have stood what heat it is said to have got. */
function findHeatedPast({ path, ...heated }: HeatedPastTold, sample: string | undefined, findings: Findings): void {
  findings.add('heated-past-standing', path, { ...heated, ...(sample !== undefined && { sample }), actual: heated.at });
}

/** Looks through what was done with the product of one sample. */
export function findInTreatment(
  entry: Entry,
  index: number | undefined,
  { treatment, amounts }: SampleReckoning,
  findings: Findings,
): void {
  const { washingLacks, washingOdd, saltInYield, notConstant, gained, ignitedMore, reckoned } = treatment;
  if (washingLacks) findings.add('washing-not-reckoned', washesPath(entry, index), { lacks: washingLacks });
  if (washingOdd)
    findings.add('washing-volumes', washesPath(entry, index), { ...washingOdd, actual: washingOdd.volume });
  if (treatment.heated) findHeatedPast(treatment.heated, sampleIn(entry, index), findings);
  if (index === undefined) return;
  const sample = entry.samples[index]!;
  if (saltInYield)
    findings.add('yield-carried-by-salt', ['samples', index, 'obtained'], {
      washed: saltInYield.washed,
      inWords: (entry.steps ?? []).some((step) => tellsWashing(wordsOfStep(step))),
      percentYield: amounts.percentYield!.text,
      salts: saltInYield.salts.join(', '),
      mass: bareFigure(saltInYield.mass, 'g').text,
      without: saltInYield.without.toSignificantDigits(3).toFixed(),
      actual: sample.obtained,
    });
  const below = belowTheDish(sample);
  if (below) {
    const facts = { sample: sample.sample, dish: below.dish, full: below.full, actual: below.full };
    findings.add('lighter-than-its-dish', ['samples', index, 'dried'], facts);
  }
  if (notConstant) findings.add('not-dried-to-constant-mass', ['samples', index, 'dried'], { sample: sample.sample });
  const { ignition } = sample;
  if (gained && typeof ignition === 'object')
    findings.add('gained-on-ignition', ['samples', index, 'ignition'], {
      sample: sample.sample,
      before: ignition.before,
      after: ignition.after,
    });
  if (ignitedMore && typeof ignition === 'object')
    findings.add('ignited-more-than-obtained', ['samples', index, 'ignition'], {
      sample: sample.sample,
      before: ignition.before,
      obtained: amounts.obtained!.text,
      mayBeCharge: reckoned.ignition?.reactionLossPercent !== undefined,
      actual: ignition.before,
    });
  if (treatment.assayFault) findings.addFault(treatment.assayFault, ['samples', index, 'assay']);
  const { heldWater: held } = reckoned;
  const formula = entry.pigment?.formula;
  // What may hold none is told on the page alone.
  if (held && Number(held.low ?? 0) > 0 && formula !== undefined && sample.obtained !== undefined) {
    const { name, condition, source } = held;
    const danger = dangerIfIgnited(formula);
    const ignited = danger && { title: danger.title, consequence: danger.consequence, gas: danger.gas };
    const facts = { formula, name, range: rangeOf(held), condition, source, actual: formula, ignited };
    findings.add('water-not-in-the-formula', ['pigment', 'formula'], facts);
  }
}

/** A target that cannot be read. */
export function findInTarget({ pigment }: Entry, findings: Findings): void {
  const written = pigment?.target;
  const read = written === undefined ? undefined : parseTarget(written);
  if (!read || read.ok) return;
  const { message, cure } = read.fault;
  findings.add('target-not-read', ['pigment', 'target'], {
    message,
    ...(cure !== undefined && { cure }),
    actual: written,
  });
}
