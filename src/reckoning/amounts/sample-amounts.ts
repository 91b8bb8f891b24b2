// The amounts of one sample: what went in, what limits, what can be hoped for, what was obtained, where the metals go.
import {
  dissolves,
  dividedBy,
  exact,
  expandedUncertainty,
  forMachines,
  minus,
  molarMass,
  percentYield,
  reading,
  scaled,
  times,
  weighingInput,
  withInputsNamed,
  withUncertainty,
  type Decimal,
  type Equation,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { Entry } from '../../journal/entry.js';
import { once } from '../../once.js';
import { wetWordsTable } from '../../tables/compiled/reckoning/treatment/wet-words.js';
import type { Balance } from '../balance.js';
import { patternOfWords } from '../told/words-as-pattern.js';
import type { Result } from './comparison.js';
import type { Figure, JarTaken, LotTaken, MetalAccount, SampleAmounts } from '../contracts.js';
import { moneyFigure } from './cost.js';
import { bareFigure, figure } from '../figures.js';
import { isWaterReagent, type Ingredient } from '../ingredients.js';
import { inReaction, leftOf } from './limiting.js';
import { whyNoYield } from './no-yield.js';
import { writtenQuantity } from '../../reagents/index.js';
import { reckonDrying } from '../treatment/drying.js';
import { lineageOf } from '../lots.js';
import { metalAccounts } from './metals.js';
import { massFigure, type PotAmounts, type SampleSetting } from './pot-amounts.js';
import { figureWithin, percentWithin, undecidedYield, type Bounds } from '../undecided.js';
import { amountsSwapped, type SwappedAmounts } from './swapped.js';
import { potAsFarAsTold, toldOtherwise, type ToldOtherwise } from './told-otherwise.js';
import { heatedPast } from '../treatment/stands.js';
import type { HeatedPast } from '../treatment/treatment-contracts.js';
import { reckonTreatment, type Treatment } from '../treatment/treatment.js';
import { repeatedBy } from '../repeats.js';

/** How a yield above 100 % by more than weighing can explain is judged. */
export interface YieldAbove100 {
  /** More was obtained than all that went in, g. */
  readonly wentIn?: UncertainDecimal;
  readonly percentYield: Figure;
  /** What is left over of solid reagents that no water takes out: `8.211 g of zinc oxide`. */
  readonly leftSolid?: string;
  /** Water would take the product with its salts. */
  readonly soluble?: true;
  /** Two amounts that may have been written the wrong way round. */
  readonly swapped?: SwappedAmounts;
}

/** A sample as it is reckoned, with what its findings are looked for in. */
export interface SampleReckoning {
  readonly pot: PotAmounts;
  readonly yieldAbove100?: YieldAbove100;
  /** What only its words tell of what went in. */
  readonly told?: ToldOtherwise;
  readonly amounts: SampleAmounts;
  readonly result: Result;
  readonly taken: readonly LotTaken[];
  readonly jarsTaken: readonly JarTaken[];
  readonly treatment: Treatment;
}

/** Reckons the sample at `index`, of which the pot is known; the entry's reagents alone where it has no samples. */
export function reckonSample(
  setting: SampleSetting,
  index: number | undefined,
  asWritten: PotAmounts,
): SampleReckoning {
  const { entry, balance, equation } = setting;
  const told = toldOtherwise(entry, index, asWritten);
  const pot = potAsFarAsTold(asWritten, told);
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const id = sample?.sample ?? '';
  const isLone = entry.samples.length < 2;
  const { ingredients, partners, product, limitation, possible } = pot;
  const drying = sample && reckonDrying(sample, balance);
  const obtained = sample && (obtainedMass(sample, balance?.halfWidth) ?? drying?.mass);
  const reckoned = reckonYields(pot, obtained, equation);
  const heated = heatedPast(entry, index, setting.product?.label);
  const isOpen = told?.noYield !== undefined && asWritten.limitation !== undefined && product !== undefined;
  const noYield = isOpen
    ? obtained && told.noYield
    : whyNoYield({
        equation,
        product,
        limitation,
        partners,
        obtained,
        obtainedWritten: sample?.obtained,
        percent: reckoned.percent,
        heated,
      });
  const yields = noYield === undefined ? reckoned : withoutPercent(reckoned, heated);
  const undecided = undecidedYield(possible, obtained);
  const treatment = reckonTreatment({ entry, index, balance, drying, heated }, pot.dissolved, {
    theoretical: yields.theoretical,
    percent: yields.percent,
    obtained,
    possible,
  });
  const replicateOf = index === undefined ? undefined : repeatedBy(entry, index)?.sample;
  const lineage = lineageOf(entry, id, ingredients);
  const isTurning = heated?.going !== undefined;
  const metals = metalsOf(pot, isTurning ? undefined : obtained);
  return {
    pot: asWritten,
    yieldAbove100: yields.above100,
    ...(told && { told }),
    amounts: {
      sample: id,
      ...pot.limits,
      ...(undecided && { undecided }),
      ...pot.besides,
      ...yields.figures,
      ...treatment.reckoned,
      ...obtainedInWords(sample, obtained),
      ...(noYield !== undefined && { noYield }),
      ...wordsOnly(told),
      ...(pot.takenAsEnough !== undefined && { takenAsEnough: pot.takenAsEnough }),
      ...costFigures(pot, obtained),
      ...(metals.length > 0 && { metals }),
      ...(lineage && { lineage }),
      ...(replicateOf !== undefined && { replicateOf }),
    },
    result: {
      sample: id,
      replicateOf,
      ...(yields.percent && { percentYield: isLone ? yields.percent : withOwnReadings(yields.percent, id, pot) }),
      ...(yields.above100 && { above100: true }),
      // Of other amounts another mass comes: the masses tell no more of the preparation than a yield would.
      ...(obtained && !isOpen && !isTurning && { obtained }),
      ...(sample && obtained && lastDigitOf(sample, balance)),
      ...(sample && notDryOf(sample, treatment)),
      weighings: isLone ? nowhere : weighingsOf(id, pot),
    },
    taken: lotsTaken(id, ingredients),
    jarsTaken: jarsTaken(id, ingredients),
    treatment,
  };
}

/** What was obtained, as written, where that is no mass. */
const obtainedInWords = (
  sample: Entry['samples'][number] | undefined,
  obtained: UncertainDecimal | undefined,
): Pick<SampleAmounts, 'obtainedWords'> =>
  sample?.obtained !== undefined && !obtained ? { obtainedWords: sample.obtained } : {};

const wordsOnly = (told: ToldOtherwise | undefined): Pick<SampleAmounts, 'onlyInWords'> =>
  told?.noYield === undefined ? {} : { onlyInWords: told.differs };

/**
 * The same where a percent would pretend to know more than was measured. What heat has begun to turn can still be set
 * against what is possible, by what an ignition says of it.
 */
const withoutPercent = ({ figures, theoretical }: Yields, heated: HeatedPast | undefined): Yields => {
  const { percentYield: _, overHundred: __, cumulativeYield: ___, ...rest } = figures;
  return { figures: rest, ...(heated?.going && { theoretical }) };
};

/** A reading of what went into one sample, under a name of its own: samples that took the same call it alike. */
const ownReading = (sample: string, input: string): string => `${input} of ${sample}`;

/** All readings of one sample. */
const weighingsOf = (sample: string, { readings }: PotAmounts): ReadonlySet<string> =>
  new Set([obtainedInput(sample), ...[...readings].map((input) => ownReading(sample, input))]);
/** What is set against no other sample needs none. */
const nowhere: ReadonlySet<string> = new Set();

/** A value of one sample to set against those of others. */
const withOwnReadings = (value: UncertainDecimal, sample: string, { readings }: PotAmounts): UncertainDecimal =>
  withInputsNamed(value, (input) => (readings.has(input) ? ownReading(sample, input) : input));

/** The weighing of what was obtained. */
const obtainedInput = (sample: string): string => weighingInput(`${sample}/obtained`);

function obtainedMass(sample: Entry['samples'][number], balance: Decimal | undefined): UncertainDecimal | undefined {
  const quantity = sample.obtained === undefined ? undefined : writtenQuantity(sample.obtained);
  return quantity?.dimension === 'mass' ? reading(quantity, obtainedInput(sample.sample), balance) : undefined;
}

/** The last digit that was weighed. */
function lastDigitOf({ obtained }: Entry['samples'][number], balance: Balance | undefined): Pick<Result, 'lastDigit'> {
  const written = obtained === undefined ? undefined : writtenQuantity(obtained);
  const grams =
    written && !written.base.isZero() ? written.resolution.times(written.base.div(written.value)) : undefined;
  const known = [grams, balance?.step].filter((one) => one !== undefined);
  return known.length > 0 ? { lastDigit: known.reduce((one, other) => (one.gt(other) ? one : other)) } : {};
}

/** That a sample was weighed before it was dry, as its weighings show or its words tell. */
function notDryOf({ differs }: Entry['samples'][number], { notConstant }: Treatment): Pick<Result, 'notDry'> {
  if (notConstant) return { notDry: 'it was still losing mass' };
  const tells = differs !== undefined && tellsWet().test(differs);
  return tells ? { notDry: `it was not dry (“${differs}”)` } : {};
}
const tellsWet = once(() => patternOfWords(wetWordsTable().map(({ words }) => words)));

const unlessZero = (value: UncertainDecimal | undefined): UncertainDecimal | undefined =>
  value?.value.isZero() ? undefined : value;

interface Yields {
  readonly theoretical?: UncertainDecimal;
  readonly percent?: UncertainDecimal;
  readonly above100?: YieldAbove100;
  readonly figures: Pick<
    SampleAmounts,
    'theoreticalYield' | 'obtained' | 'percentYield' | 'overHundred' | 'cumulativeYield' | 'massIntensity'
  >;
}

function reckonYields(pot: PotAmounts, obtained: UncertainDecimal | undefined, equation: Equation | undefined): Yields {
  const { limitation, ingredients, possible, theoretical, wentIn: total } = pot;
  const share = obtained && theoretical && percentYield(obtained, theoretical);
  const percent = share?.ok ? share.value : undefined;
  const within = possible && obtained && percentWithin(possible, obtained);
  const above = percent && obtained && judgeAbove100(percent, within, obtained, total);
  const leftSolid = above && leftSolidIn(pot);
  const swapped = above && equation && amountsSwapped(equation, pot, obtained!);
  const soluble = above && pot.product !== undefined && dissolves(pot.product.formula);
  const above100: YieldAbove100 | undefined = above && {
    ...above,
    ...(leftSolid !== undefined && { leftSolid }),
    ...(soluble && { soluble }),
    ...(swapped && { swapped }),
  };
  const cumulative = percent && cumulativeYield(percent, within, limitation!.limiting!.suppliedBy, ingredients);
  const intensity = total && obtained && dividedBy(total, obtained);
  return {
    theoretical,
    percent,
    above100,
    figures: {
      ...(theoretical && { theoreticalYield: figureWithin(theoretical, possible, 'g') }),
      ...(obtained && { obtained: figure(obtained, 'g') }),
      ...(percent && { percentYield: figureWithin(percent, within, '%') }),
      ...(above100 && { overHundred: above100Words(above100) }),
      ...(cumulative && { cumulativeYield: cumulative }),
      ...(intensity && { massIntensity: figure(intensity, 'g/g') }),
    },
  };
}

function judgeAbove100(
  percent: UncertainDecimal,
  within: Bounds | undefined,
  obtained: UncertainDecimal,
  total: UncertainDecimal | undefined,
): YieldAbove100 | undefined {
  if (!within && percent.value.lte(100)) return undefined;
  const low = within ? within.low : percent.value.minus(expandedUncertainty(percent));
  if (low.lte(100)) return undefined;
  const surplus = total && minus(obtained, total);
  const impossible = surplus?.value.gt(expandedUncertainty(surplus));
  return { percentYield: figureWithin(percent, within, '%'), ...(impossible && { wentIn: total }) };
}

/** Solids that do not dissolve, and are in excess or take no part: filtered off, they are weighed with the product. */
function leftSolidIn({ ingredients, limitation }: PotAmounts): string | undefined {
  const left = ingredients.flatMap(({ name, use, reagent, taken }) => {
    const { supplies, shareLeft } = inReaction(taken, limitation);
    const mass = supplies.length > 0 ? leftOf(taken, shareLeft) : staysWhole(use) && taken.mass;
    const isSolid = taken.formula !== undefined && taken.volume === undefined && !dissolves(taken.formula);
    if (!mass || !mass.value.gt(0) || !isSolid || isWaterReagent(reagent)) return [];
    return [`${bareFigure(mass, 'g').text} of ${name}`];
  });
  return left.length > 0 ? [...new Set(left)].join(' and ') : undefined;
}

/** A flux is taken out, and what washes goes with the washings. */
const staysWhole = ({ role }: Ingredient['use']): boolean => role !== 'flux' && role !== 'wash' && role !== 'solvent';

/** What two amounts that were swapped would make of it, with a space before it. */
export const swappedWords = ({ first, second, percent }: SwappedAmounts): string =>
  ` If the amounts of ${first} and ${second} were written the wrong way round, it is ${percent}.`;

function above100Words({ swapped, ...above }: YieldAbove100): string {
  return `${aboveWords(above)}${swapped ? swappedWords(swapped) : ''}`;
}

function aboveWords({ percentYield: percent, wentIn: total, leftSolid }: YieldAbove100): string {
  if (total)
    return `A yield of ${percent.text} is impossible: more ` + `came out than went in. One of the figures is wrong.`;
  if (leftSolid !== undefined)
    return (
      `A yield above 100 % cannot all be the pure pigment: ${leftSolid}, which no water takes out, is left over by ` +
      'this reckoning and is weighed with it, unless it was taken out. The rest may be water or salts.'
    );
  return (
    'A yield above 100 % cannot all be the pure pigment: the product is still wet or holds salts or unspent reagent, ' +
    'or it is not quite what its formula says (a hydrate, for example).'
  );
}

/** A figure as a value with its uncertainty, as if it shared none with anything else. */
function measuredAgain({ value, uncertainty = '0' }: Figure, input: string): UncertainDecimal {
  return withUncertainty(value, Number(uncertainty) / 2, input);
}

/** Bounds of a yield: those it has, else its expanded uncertainty. */
function boundsOf(percent: UncertainDecimal, within: Bounds | undefined): Bounds {
  if (within) return within;
  const half = exact(expandedUncertainty(percent).toFixed());
  return { low: percent.value.minus(half), high: percent.value.plus(half) };
}

/**
 * Percent yield over all steps, where what limits was itself made here and nothing else supplies it. The earlier yield
 * counts the lot as it was weighed, so that a purity by which it was counted here is taken out again: its assay.
 * @param limiting ids of what supplies it
 */
function cumulativeYield(
  percent: UncertainDecimal,
  within: Bounds | undefined,
  limiting: readonly string[],
  ingredients: readonly Ingredient[],
): Figure | undefined {
  const [supplier, ...others] = ingredients.filter(({ taken }) => limiting.includes(taken.id));
  const earlier = supplier?.lotFacts?.cumulativeYield;
  const { pure, mass } = supplier?.taken ?? {};
  const purity = pure && mass && dividedBy(pure, mass);
  if (!earlier || others.length > 0 || !purity) return undefined;
  const before = scaled(measuredAgain(earlier, 'yield of the lot'), exact(1).div(100));
  const counted = times(percent, purity);
  const overAll = times(counted, before);
  if (!within && !earlier.within) return figure(overAll, '%');
  const [here, there] = [
    boundsOf(percent, within),
    earlier.within ?? boundsOf(measuredAgain(earlier, 'earlier yield'), undefined),
  ];
  const share = purity.value.div(100);
  return figureWithin(
    overAll,
    { low: here.low.times(there.low).times(share), high: here.high.times(there.high).times(share) },
    '%',
  );
}

function costFigures(
  { cost, unpriced }: PotAmounts,
  obtained: UncertainDecimal | undefined,
): Pick<SampleAmounts, 'cost' | 'costPerGram' | 'unpriced'> {
  if (unpriced.length > 0) return { unpriced };
  if (!cost) return {};
  const gained = unlessZero(obtained);
  return {
    cost: moneyFigure(cost),
    ...(gained && { costPerGram: moneyFigure({ ...cost, value: cost.value.div(gained.value) }) }),
  };
}

function metalsOf({ product, metals }: PotAmounts, obtained: UncertainDecimal | undefined): readonly MetalAccount[] {
  const gained = unlessZero(obtained);
  if (!gained || !product) return [];
  const { formula } = product;
  const perMole = molarMass(formula);
  const substance = perMole.ok && dividedBy(gained, perMole.value.middle);
  return substance ? metalAccounts(metals, { formula, substance }) : [];
}

const lotsTaken = (sample: string, ingredients: readonly Ingredient[]): readonly LotTaken[] =>
  ingredients.flatMap((ingredient) => {
    const { lot, taken } = ingredient;
    if (lot === undefined) return [];
    return [{ lot, sample, ...(taken.mass && { mass: massFigure(ingredient, taken.mass) }) }];
  });

/** What an amount by the spoon or roughly told may be off by, relative and expanded; undefined of what was weighed. */
function roughness({ taken: { mass, volume }, measure, reagent }: Ingredient): number | undefined {
  const isRough = reagent.strength.densityFrom === 'bulk' || measure.amount?.rough;
  const amount = mass ?? volume;
  if (!isRough || !amount || amount.value.isZero()) return undefined;
  return Number(expandedUncertainty(amount)) / Math.abs(amount.approximateValue);
}

/** Of jars of which it is written how much was bought. */
const jarsTaken = (sample: string, ingredients: readonly Ingredient[]): readonly JarTaken[] =>
  ingredients.flatMap((ingredient) => {
    const { id, shelf, taken } = ingredient;
    if (shelf?.bought === undefined) return [];
    const { mass, volume } = taken;
    const doubt = roughness(ingredient);
    return [
      {
        jar: id,
        sample,
        ...(mass && { mass: forMachines(mass.value) }),
        ...(volume && { volume: forMachines(volume.value) }),
        ...(doubt !== undefined && { doubt }),
      },
    ];
  });
