// The amounts of one sample: what went in, what limits, what can be hoped for, what was obtained, where the metals go.
import {
  composition,
  dividedBy,
  exact,
  expandedUncertainty,
  findLimitingReagent,
  forMachines,
  minus,
  molarMass,
  percentYield,
  plus,
  productAsWeighed,
  reading,
  scaled,
  theoreticalYield,
  typeset,
  weighingInput,
  type Decimal,
  type Equation,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import type { Result } from './comparison.js';
import type {
  Figure,
  IngredientAmounts,
  JarTaken,
  LotTaken,
  MetalAccount,
  ReckoningContext,
  SampleAmounts,
} from './contracts.js';
import { costOf, moneyFigure, sumOf, type Money } from './cost.js';
import { bareFigure, figure, figureInWords } from './figures.js';
import { inReaction, leftOf, supplierNames, isPurityNotStated } from './limiting.js';
import { ingredientsOf, isWaterReagent, type Ingredient } from './ingredients.js';
import { takenAsEnough, whyNoYield } from './no-yield.js';
import { formulaOf } from './parse-cache.js';
import { writtenQuantity } from '../reagents/index.js';
import { shortages, shortageWords, type MeantPartner, type Shortage } from './shortage.js';
import type { Balance } from './balance.js';
import { reckonDrying } from './drying.js';
import { lineageOf } from './lots.js';
import { metalAccounts } from './metals.js';
import { acidAndAlkali, settle } from './acid-and-alkali.js';
import { neutralSalts } from './neutral-salts.js';
import { availableOf } from './neutralise.js';
import { aimedAt } from './aimed-at.js';
import { figureWithin, percentWithin, possibleMasses, undecidedYield, type Bounds } from './undecided.js';
import { reckonTreatment, type Treatment } from './treatment.js';
import { repeatedBy } from './repeats.js';

const mmol = { unit: 'mmol', factor: 1000 };

/** Roles whose reagents do not react; water as solvent still supplies water. */
const bystanders = new Set<Ingredient['use']['role']>(['wash', 'additive', 'flux']);
export const takesPart = ({ use, reagent }: Ingredient): boolean =>
  !bystanders.has(use.role) && (use.role !== 'solvent' || isWaterReagent(reagent));

/** How a yield above 100 % by more than weighing can explain is judged. */
export interface YieldAbove100 {
  /** More was obtained than all that went in, g. */
  readonly wentIn?: UncertainDecimal;
  readonly percentYield: Figure;
}

/** A sample as it is reckoned, with what its findings are looked for in. */
export interface SampleReckoning {
  readonly ingredients: readonly Ingredient[];
  /** Those that may react. */
  readonly partners: readonly Ingredient[];
  readonly limitation?: LimitingReagent;
  readonly yieldAbove100?: YieldAbove100;
  readonly amounts: SampleAmounts;
  readonly result: Result;
  readonly taken: readonly LotTaken[];
  readonly jarsTaken: readonly JarTaken[];
  readonly treatment: Treatment;
}

/** What the samples of an entry have in common. */
export interface SampleSetting {
  readonly entry: Entry;
  readonly context: ReckoningContext;
  readonly balance?: Balance;
  readonly equation?: Equation;
  readonly product?: Term;
}

/** Reckons the sample at `index`; the entry's reagents alone where it has no samples. */
export function reckonSample(setting: SampleSetting, index: number | undefined): SampleReckoning {
  const { entry, context, balance, equation } = setting;
  const sample = index === undefined ? undefined : entry.samples[index]!;
  const product = productOfSample(setting.product, sample?.formula);
  const id = sample?.sample ?? '';
  const ingredients = ingredientsOf(entry, index, context, balance?.halfWidth);
  const partners = enoughWhereMeant(ingredients.filter(takesPart));
  const settled = settle(ingredients, partners, equation);
  const limitation =
    equation &&
    findLimitingReagent(
      equation,
      partners.map(({ taken }) => availableOf(taken, settled.neutralised)),
    );
  const drying = sample && reckonDrying(sample, balance);
  const obtained = sample && (obtainedMass(sample, balance?.halfWidth) ?? drying?.mass);
  const possible = limitation && possibleMasses(product, limitation);
  const reckoned = reckonYields({ product, limitation, obtained, ingredients, possible });
  const noYield = whyNoYield({
    equation,
    product,
    limitation,
    partners,
    obtained,
    obtainedWritten: sample?.obtained,
    percent: reckoned.percent,
  });
  const yields = noYield === undefined ? reckoned : withoutPercent(reckoned);
  const enough = takenAsEnough(partners, limitation);
  const target = aimedAt(entry.pigment?.target, ingredients);
  const undecided = undecidedYield(possible, obtained);
  const short = shortages(limitation, partners.map(meantPartner), product);
  const neutral = settled.neutralised && neutralSalts(ingredients, settled.ingredients);
  const pot = { equation, product, limitation, ingredients: settled.ingredients, neutral };
  const liquor = acidAndAlkali(settled, limitation);
  const treatment = reckonTreatment({ entry, index, balance, drying }, pot, {
    theoretical: yields.theoretical,
    percent: yields.percent,
    obtained,
    possible,
  });
  const replicateOf = index === undefined ? undefined : repeatedBy(entry, index)?.sample;
  const lineage = lineageOf(entry, id, ingredients);
  const metals = metalsOf(product, obtained, ingredients);
  const costs = ingredients.map((one) => costOf(one, context.settings.currency));
  return {
    ingredients,
    partners,
    limitation,
    yieldAbove100: yields.above100,
    amounts: {
      sample: id,
      ingredients: ingredients.map((one, at) => amountsOf(one, limitation, costs[at], settled.ingredients[at]!)),
      ...limitingWords(limitation, ingredients),
      ...(undecided && { undecided }),
      ...(short.length > 0 && { short: short.map(shortFigures) }),
      ...(target && { target }),
      ...(liquor && { acidAndAlkali: liquor }),
      ...yields.figures,
      ...treatment.reckoned,
      ...(sample?.obtained !== undefined && !obtained && { obtainedWords: sample.obtained }),
      ...(noYield !== undefined && { noYield }),
      ...(enough !== undefined && { takenAsEnough: enough }),
      ...costFigures(ingredients, costs, obtained),
      ...(metals.length > 0 && { metals }),
      ...(lineage && { lineage }),
      ...(replicateOf !== undefined && { replicateOf }),
    },
    result: {
      sample: id,
      replicateOf,
      ...(yields.percent && { percentYield: yields.percent }),
      ...(yields.above100 && { above100: true }),
      ...(obtained && { obtained }),
      weighings: new Set([obtainedInput(id), ...ingredients.map(({ taken }) => weighingInput(taken.id))]),
    },
    taken: lotsTaken(id, ingredients),
    jarsTaken: jarsTaken(id, ingredients),
    treatment,
  };
}

/** Elements that say nothing of which form of a product a formula is. */
const formless = new Set(['H', 'C', 'N', 'O', 'S', 'P', 'F', 'Cl', 'Br', 'I']);

/**
 * The product as a sample's own formula has it: another hydrate, or what firing leaves of it, reckoned by the element
 * that both hold.
 */
function productOfSample(product: Term | undefined, written: string | undefined): Term | undefined {
  if (!product || written === undefined) return product;
  const own = formulaOf(written);
  if (!own.ok) return product;
  const weighed = productAsWeighed(product, own.value, written);
  if (weighed !== product) return weighed;
  const [made, left] = [composition(product.formula), composition(own.value)];
  const shared = [...made.keys()].find((symbol) => !formless.has(symbol) && left.has(symbol));
  if (shared === undefined) return product;
  const each = left.get(shared)!.low.div(made.get(shared)!.low);
  return { ...product, label: written, formula: own.value, coefficient: product.coefficient.div(each) };
}

/** A partner with what it is meant to be. */
export const meantPartner = ({ taken, use, measure }: Ingredient): MeantPartner => ({
  taken,
  ...(use.intent && { intent: use.intent }),
  byVolume: measure.amount?.dimension === 'volume',
});

const shortFigures = (shortage: Shortage): NonNullable<SampleAmounts['short']>[number] => {
  const { name, percent, needed, yieldThen } = shortage;
  const value = forMachines(percent);
  return {
    reagent: name,
    percent: { value, unit: '%', text: `${percent.toSignificantDigits(2).toFixed()} %` },
    needed: bareFigure(needed.amount, needed.unit),
    ...(yieldThen && { theoreticalYieldThen: bareFigure(yieldThen, 'g') }),
    words: shortageWords(shortage),
  };
};

/** The same where a percent would pretend to know more than was measured. */
const withoutPercent = ({ figures }: Yields): Yields => {
  const { percentYield: _, overHundred: __, cumulativeYield: ___, ...rest } = figures;
  return { figures: rest };
};

/**
 * What was not measured and is meant to be in excess, or stands beside what is meant to limit, is taken to have been
 * enough.
 */
function enoughWhereMeant(partners: readonly Ingredient[]): readonly Ingredient[] {
  const limits = partners.some(({ use, taken }) => use.intent === 'limiting' && taken.substance);
  return partners.map((one) => {
    const { reagent, taken, use } = one;
    const isMeant = use.intent === 'excess' || (limits && use.intent !== 'limiting');
    return reagent.amount === 'unknown' && !taken.excess && isMeant
      ? { ...one, taken: { ...taken, excess: true } }
      : one;
  });
}

/** The weighing of what was obtained. */
const obtainedInput = (sample: string): string => weighingInput(`${sample}/obtained`);

function obtainedMass(sample: Entry['samples'][number], balance: Decimal | undefined): UncertainDecimal | undefined {
  const quantity = sample.obtained === undefined ? undefined : writtenQuantity(sample.obtained);
  return quantity?.dimension === 'mass' ? reading(quantity, obtainedInput(sample.sample), balance) : undefined;
}

/** Mass of everything that went in, where all of it is known. */
function wentIn(ingredients: readonly Ingredient[]): UncertainDecimal | undefined {
  const masses = ingredients.flatMap(({ taken }) => taken.mass ?? []);
  return masses.length > 0 && masses.length === ingredients.length ? masses.reduce(plus) : undefined;
}

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

interface YieldOf {
  readonly product: Term | undefined;
  readonly limitation: LimitingReagent | undefined;
  readonly obtained: UncertainDecimal | undefined;
  readonly ingredients: readonly Ingredient[];
  /** g of product, where it is undecided what limits. */
  readonly possible: Bounds | undefined;
}

function reckonYields({ product, limitation, obtained, ingredients, possible }: YieldOf): Yields {
  // An amount of zero of what limits makes nothing; a share of nothing cannot be told.
  const extent = unlessZero(limitation?.extent);
  const theoretical = extent && product && theoreticalYield(extent, product).mass;
  const share = obtained && theoretical && percentYield(obtained, theoretical);
  const percent = share?.ok ? share.value : undefined;
  const total = wentIn(ingredients);
  const within = possible && obtained && percentWithin(possible, obtained);
  const above100 = percent && obtained && judgeAbove100(percent, within, obtained, total);
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

function above100Words({ percentYield: percent, wentIn: total }: YieldAbove100): string {
  if (total)
    return `A yield of ${percent.text} is impossible: more ` + `came out than went in. One of the figures is wrong.`;
  return (
    'A yield above 100 % cannot all be the pure pigment: the product is still wet or holds salts or unspent reagent, ' +
    'or it is not quite what its formula says (a hydrate, for example).'
  );
}

/**
 * Percent yield over all steps, where what limits was itself made here.
 * @param limiting ids of what supplies it
 */
function cumulativeYield(
  percent: UncertainDecimal,
  within: Bounds | undefined,
  limiting: readonly string[],
  ingredients: readonly Ingredient[],
): Figure | undefined {
  const [earlier] = ingredients.flatMap(({ taken, lotFacts }) =>
    limiting.includes(taken.id) ? (lotFacts?.cumulativeYield ?? []) : [],
  );
  if (!earlier) return undefined;
  const share = exact(earlier.value).div(100);
  const scaledBounds = within && { low: within.low.times(share), high: within.high.times(share) };
  return figureWithin(scaled(percent, share), scaledBounds, '%');
}

function limitingWords(
  limitation: LimitingReagent | undefined,
  ingredients: readonly Ingredient[],
): Pick<SampleAmounts, 'limiting' | 'tooCloseToCall'> {
  if (!limitation?.limiting) return {};
  const takens = ingredients.map(({ taken }) => taken);
  const close = [limitation.limiting, ...limitation.possiblyLimiting].map((one) => supplierNames(one, takens));
  return {
    limiting: close[0]!,
    ...(close.length > 1 && {
      tooCloseToCall: `Too close to call: weighing cannot tell whether ${close.join(' or ')} runs out first.`,
    }),
  };
}

function costFigures(
  ingredients: readonly Ingredient[],
  costs: readonly (Money | undefined)[],
  obtained: UncertainDecimal | undefined,
): Pick<SampleAmounts, 'cost' | 'costPerGram' | 'unpriced'> {
  const unpriced = new Set(ingredients.flatMap(({ name }, at) => (costs[at] ? [] : name)));
  if (unpriced.size > 0) return { unpriced: [...unpriced] };
  const cost = sumOf(costs.map((one) => one!));
  if (!cost) return {};
  const gained = unlessZero(obtained);
  return {
    cost: moneyFigure(cost),
    ...(gained && { costPerGram: moneyFigure({ ...cost, value: cost.value.div(gained.value) }) }),
  };
}

function metalsOf(
  product: Term | undefined,
  obtained: UncertainDecimal | undefined,
  ingredients: readonly Ingredient[],
): readonly MetalAccount[] {
  const gained = unlessZero(obtained);
  if (!gained || !product) return [];
  const { formula } = product;
  const perMole = molarMass(formula);
  const substance = perMole.ok && dividedBy(gained, perMole.value.middle);
  const wet = ingredients.some(({ use, taken }) => use.role === 'solvent' || taken.volume !== undefined);
  return substance ? metalAccounts(ingredients, { formula, substance }, wet) : [];
}

/** A mass; shown as it was written where it was written in grams. */
const massFigure = ({ measure, use }: Ingredient, mass: UncertainDecimal): Figure =>
  measure.amount?.unit === 'g' ? figureInWords(mass, 'g', use.amount!) : bareFigure(mass, 'g');

/** A volume, likewise. */
const volumeFigure = ({ measure, use }: Ingredient, volume: UncertainDecimal): Figure =>
  measure.amount?.unit === 'mL' ? figureInWords(volume, 'mL', use.amount!) : bareFigure(volume, 'mL');

/** How many times as much there is as is needed: no more than 1 is said of what limits. */
const equivalentsFigure = (equivalents: UncertainDecimal, limits: boolean): Figure =>
  limits ? figureInWords(equivalents, '', '1') : bareFigure(equivalents, '');

const lotsTaken = (sample: string, ingredients: readonly Ingredient[]): readonly LotTaken[] =>
  ingredients.flatMap((ingredient) => {
    const { lot, taken } = ingredient;
    if (lot === undefined) return [];
    return [{ lot, sample, ...(taken.mass && { mass: massFigure(ingredient, taken.mass) }) }];
  });

/** Of jars of which it is written how much was bought. */
const jarsTaken = (sample: string, ingredients: readonly Ingredient[]): readonly JarTaken[] =>
  ingredients.flatMap(({ id, shelf, taken }) => {
    if (shelf?.bought === undefined) return [];
    const { mass, volume } = taken;
    return [
      {
        jar: id,
        sample,
        ...(mass && { mass: forMachines(mass.value) }),
        ...(volume && { volume: forMachines(volume.value) }),
      },
    ];
  });

/** What the reaction makes of one reagent: how it stands to what limits, and what is left of it. */
function reactionFigures(
  { taken }: Ingredient,
  limitation: LimitingReagent | undefined,
): Pick<IngredientAmounts, 'equivalents' | 'limiting' | 'tooClose' | 'left' | 'supplies'> {
  const { supplies, scarcest, limiting, tooClose, shareLeft } = inReaction(taken, limitation);
  const left = leftOf(taken, shareLeft);
  return {
    ...(scarcest && { equivalents: equivalentsFigure(scarcest.equivalents!, scarcest.limiting) }),
    limiting,
    ...(tooClose && { tooClose: true }),
    ...(left && { left: bareFigure(left, 'g') }),
    ...(supplies.length > 0 && { supplies: supplies.map(({ term }) => term.label) }),
  };
}

/** Made here, and nothing says how pure it is. */
const isAsIfPure = ({ lot, reagent }: Ingredient): boolean =>
  lot !== undefined && !reagent.written.purity && !reagent.written.strength;

function amountsOf(
  ingredient: Ingredient,
  limitation: LimitingReagent | undefined,
  money: Money | undefined,
  settled: Ingredient,
): IngredientAmounts {
  const { id, name, formula, lot, use, taken, measure } = ingredient;
  const inTheReaction = reactionFigures(settled, limitation);
  const { supplies } = inTheReaction;
  return {
    id,
    name,
    ...(formula !== undefined && { formula, formulaSet: typeset(formula) }),
    role: use.role ?? 'reactant',
    ...(lot !== undefined && { lot }),
    ...(isAsIfPure(ingredient) && { asIfPure: true }),
    ...(supplies !== undefined && isPurityNotStated({ taken, purity: measure.purity }) && { purityNotStated: true }),
    ...(ingredient.assayed && { assayed: ingredient.assayed }),
    ...(use.amount !== undefined && { written: use.amount }),
    ...(taken.excess && { excess: true }),
    ...(taken.mass && { mass: massFigure(ingredient, taken.mass) }),
    ...(taken.volume && { volume: volumeFigure(ingredient, taken.volume) }),
    ...(taken.substance && { amount: bareFigure(taken.substance, 'mol', mmol) }),
    ...(taken.pure && { pure: bareFigure(taken.pure, 'g') }),
    ...inTheReaction,
    ...(money && { cost: moneyFigure(money) }),
  };
}
