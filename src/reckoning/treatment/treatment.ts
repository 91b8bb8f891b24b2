// What was done with a product after it was made, reckoned together, and the yield that washing, drying and fire leave.
import { exact, molarMass, times, withUncertainty, type Term, type UncertainDecimal } from '../../chemistry/index.js';
import { washesWritten, type Entry } from '../../journal/entry.js';
import { onceFor } from '../../once.js';
import type { Fault } from '../../outcome.js';
import { readHeat } from '../../reagents/index.js';
import { assayFigure } from './assays.js';
import type { Balance } from '../balance.js';
import { heldWaterOf, shareOf, type DryingReckoned } from './drying.js';
import { reckonIgnition, type IgnitionReckoned } from './igniting.js';
import type { Figure } from '../figures.js';
import type { HeatedPastTold } from './stands.js';
import type { AssayedFigure, DryBasis, HeatedPast, HeldWater, TreatmentReckoning } from './treatment-contracts.js';
import { hottestOfProduct } from '../told/product-heat.js';
import { treatmentWords } from './treatment-words.js';
import { figureWithin, percentWithin, type Bounds } from '../undecided.js';
import {
  reckonWashing,
  saltInYield,
  type Pot,
  type SaltInYield,
  type SetAgainst,
  type WashingLacks,
  type WashingOdd,
} from './washing.js';

/** A yield as it is known before the product is looked at closer. */
export interface YieldKnown {
  /** g as weighed. */
  readonly obtained?: UncertainDecimal;
  readonly theoretical?: UncertainDecimal;
  readonly percent?: UncertainDecimal;
  /** g of product that are possible, where it is undecided what limits. */
  readonly possible?: Bounds | undefined;
}

/** The treatment of a sample, with what its findings are looked for in. */
export interface Treatment {
  readonly reckoned: TreatmentReckoning;
  readonly washingLacks?: WashingLacks;
  readonly washingOdd?: WashingOdd;
  readonly saltInYield?: SaltInYield;
  readonly notConstant: boolean;
  readonly gained: boolean;
  /** More was ignited than there was of the product. */
  readonly ignitedMore: boolean;
  /** Why its assay is not reckoned. */
  readonly assayFault?: Fault<'assay-not-reckoned'>;
  /** What heat made of the product before it was weighed. */
  readonly heated?: HeatedPastTold;
}

const setAgainst = ({ obtained, theoretical }: YieldKnown): SetAgainst | undefined => {
  if (obtained) return { mass: obtained, of: 'obtained' };
  return theoretical && { mass: theoretical, of: 'theoretical yield' };
};

/** Percent yield of what is left when the water is out. */
function dryBasisOf(
  { obtained, theoretical, possible }: YieldKnown,
  product: Term | undefined,
  drying: DryingReckoned | undefined,
  ignition: IgnitionReckoned | undefined,
): DryBasis | undefined {
  const mass = drying?.mass ?? obtained;
  if (!mass || !theoretical || !product) return undefined;
  const perMole = molarMass(product.formula);
  if (ignition?.productPerGram && perMole.ok) {
    const made = times(times(mass, ignition.productPerGram), perMole.value.middle);
    const percent = shareOf(made, theoretical);
    const within = possible && percentWithin(possible, made);
    return percent && { by: 'ignition', percentYield: figureWithin(percent, within, '%') };
  }
  const percent = drying && shareOf(drying.mass, theoretical);
  const within = possible && drying && percentWithin(possible, drying.mass);
  return percent && { by: 'drying', percentYield: figureWithin(percent, within, '%') };
}

/** Percent yield counted by how pure an assay found the product; undefined where it found mol/L. */
function yieldByAssay({ percent, possible, obtained }: YieldKnown, assayed: AssayedFigure): Figure | undefined {
  if (!percent || assayed.unit !== '%') return undefined;
  const purity = withUncertainty(exact(assayed.value).div(100), Number(assayed.uncertainty) / 200, 'assay');
  const within = possible && obtained && percentWithin(possible, times(obtained, purity));
  return figureWithin(times(percent, purity), within, '%');
}

/** The yield before the product is looked at closer. */
function asWeighedText({ percent, possible, obtained }: YieldKnown): string | undefined {
  const within = possible && obtained && percentWithin(possible, obtained);
  return percent && figureWithin(percent, within, '%').text;
}

/** A sample of an entry, and the balance it was weighed on. */
export interface Treated {
  readonly entry: Entry;
  readonly index: number | undefined;
  readonly balance?: Balance;
  readonly drying?: DryingReckoned;
  readonly heated?: HeatedPastTold | undefined;
}

const sentence = (of: string, said: unknown): readonly string[] =>
  typeof said === 'string' ? [`${of}: ${said.replace(/\.$/, '')}.`] : [];

/** `Heating: product to 60 °C, 3 h, water bath.`; samples that are heated alike share it. */
const heatingWords = onceFor(({ of, to, for: time, in: where, note }: Entry['heating'][number]): string =>
  [[`Heating: ${of} to ${to}`, time, where].filter((one) => one !== undefined).join(', '), note]
    .flatMap((one) => (one === undefined ? [] : `${one.replace(/\.$/, '')}.`))
    .join(' '),
);

/** What is told in words of heating, washing, drying and ignition. */
const saidOfTreatment = (
  sample: Entry['samples'][number] | undefined,
  heating: Entry['heating'],
  washes: Entry['washes'],
): readonly string[] => [
  ...heating.map(heatingWords),
  ...sentence('Washed', washes),
  ...sentence('Dried', sample?.dried),
  ...sentence('On ignition', sample?.ignition),
];

/** The least that the hottest fire of a sample was, °C, by what keys say. */
function firedTo({ heating, steps = [] }: Entry, sample: Entry['samples'][number]): number {
  const ofSteps = steps.flatMap((step) =>
    typeof step === 'object' && (step.sample === undefined || step.sample === sample.sample) ? (step.heat ?? []) : [],
  );
  const heats = [...(sample.heating ?? heating).map(({ to }) => to), ...ofSteps];
  return Math.max(0, ...heats.map((to) => readHeat(to).low.toNumber()));
}

/** Water that the product of a sample is known to hold. */
function heldBy(
  entry: Entry,
  sample: Entry['samples'][number],
  { product }: Pot,
  { percent }: YieldKnown,
): HeldWater | undefined {
  const perMole = product && molarMass(product.formula);
  const formula = product?.label ?? entry.pigment?.formula;
  const grams = perMole?.ok ? perMole.value.middle.value : undefined;
  const told = (): number => hottestOfProduct(entry, entry.samples.indexOf(sample))?.low ?? 0;
  return heldWaterOf(formula, percent, grams, () => Math.max(told(), firedTo(entry, sample)));
}

const withoutPlace = ({ path: _, ...heated }: HeatedPastTold): HeatedPast => heated;

/** What heat has done to a product, and the water that it may still hold. */
const ofHeat = (
  held: HeldWater | undefined,
  heated: HeatedPastTold | undefined,
): Pick<TreatmentReckoning, 'heldWater' | 'heatedPast'> => ({
  ...(held && { heldWater: held }),
  ...(heated && { heatedPast: withoutPlace(heated) }),
});

/** What an assay came to, where one is written. */
const assayIn = (
  sample: Entry['samples'][number] | undefined,
  formula: string | undefined,
): ReturnType<typeof assayFigure> | undefined =>
  sample?.assay === undefined ? undefined : assayFigure(formula, sample.assay);

/** Reckons what was done with the product of one sample. */
export function reckonTreatment(
  { entry, index, balance, drying, heated }: Treated,
  pot: Pot,
  known: YieldKnown,
): Treatment {
  const { product } = pot;
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const formula = product?.label ?? entry.pigment?.formula;
  const { obtained } = known;
  const ignition =
    sample && reckonIgnition(sample, { product: formula, balance, obtained, equation: pot.equation, made: product });
  const { washing, lacks, odd, saltMass } = reckonWashing(entry, index, pot, setAgainst(known));
  const salt = saltInYield(entry, index, pot, { obtained: known.obtained, percent: known.percent, salt: saltMass });
  const held = sample && !ignition && !heated ? heldBy(entry, sample, pot, known) : undefined;
  const dryBasis = dryBasisOf(known, product, heated?.going ? undefined : drying, ignition);
  const assayed = assayIn(sample, heated?.left ?? sample?.formula ?? formula);
  const assayedYield = assayed?.ok ? yieldByAssay(known, assayed.value) : undefined;
  const reckoned = {
    ...(washing && { washing }),
    ...(drying && { drying: drying.drying }),
    ...(ignition && { ignition: ignition.ignition }),
    ...(dryBasis && { dryBasis }),
    ...ofHeat(held, heated),
    ...(assayed?.ok && { assayed: assayed.value }),
    ...(assayedYield && { assayedYield }),
  };
  const asWeighed = dryBasis && asWeighedText(known);
  const words = [
    ...treatmentWords(reckoned, asWeighed),
    ...saidOfTreatment(sample, sample?.heating ?? entry.heating, washesWritten(entry, index)),
  ];
  return {
    reckoned: { ...reckoned, ...(words.length > 0 && { treatment: words }) },
    ...(lacks && { washingLacks: lacks }),
    ...(odd && { washingOdd: odd }),
    ...(salt && { saltInYield: salt }),
    notConstant: drying !== undefined && drying.drying.weighings.length > 1 && !drying.drying.constant,
    gained: ignition?.gained ?? false,
    ignitedMore: ignition?.moreThanObtained ?? false,
    ...(assayed && !assayed.ok && { assayFault: assayed.fault }),
    ...(heated && { heated }),
  };
}
