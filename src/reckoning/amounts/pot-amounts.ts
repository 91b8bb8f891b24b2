// The amounts of one pot: what went in, what limits, what can be hoped for, what it cost. Samples that took the same
// for the same product have one pot; they differ in what was done with it and in what was obtained.
import {
  composition,
  findLimitingReagent,
  plus,
  productAsWeighed,
  theoreticalYield,
  typeset,
  weighingInput,
  type Equation,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { acidAndAlkali, settle } from './acid-and-alkali.js';
import { aimedAt } from './aimed-at.js';
import type { Balance } from '../balance.js';
import type { Figure, IngredientAmounts, ReckoningContext, SampleAmounts } from '../contracts.js';
import { costOf, moneyFigure, sumOf, type Money } from './cost.js';
import { bareFigure, figureInWords, liesAbove100 } from '../figures.js';
import { ingredientsOf, isWaterReagent, type Ingredient } from '../ingredients.js';
import {
  inReaction,
  isPurityNotStated,
  leftOf,
  roughlyStated,
  roughlyStatedWords,
  supplierNames,
  type InReaction,
} from './limiting.js';
import { metalsTaken, type MetalsTaken } from './metals.js';
import { neutralSalts } from './neutral-salts.js';
import { availableOf } from './neutralise.js';
import { takenAsEnough } from './no-yield.js';
import { formulaOf } from '../parse-cache.js';
import { shortages, shortFigures, type MeantPartner } from './shortage.js';
import { leftUpTo, possibleMasses, type Bounds } from '../undecided.js';
import { formulaAsWeighed } from '../treatment/stands.js';
import type { Pot } from '../treatment/washing.js';
import type { Entry } from '../../journal/entry.js';

const mmol = { unit: 'mmol', factor: 1000 };

/** Roles whose reagents do not react; water as solvent still supplies water. */
const bystanders = new Set<Ingredient['use']['role']>(['wash', 'additive', 'flux']);
export const takesPart = ({ use, reagent }: Ingredient): boolean =>
  !bystanders.has(use.role) && (use.role !== 'solvent' || isWaterReagent(reagent));

/** What the samples of an entry have in common. */
export interface SampleSetting {
  readonly entry: Entry;
  readonly context: ReckoningContext;
  readonly balance?: Balance;
  readonly equation?: Equation;
  readonly product?: Term;
}

/** One pot as it is reckoned. */
export interface PotAmounts {
  readonly ingredients: readonly Ingredient[];
  /** Those that may react. */
  readonly partners: readonly Ingredient[];
  /** The product as it was weighed. */
  readonly product?: Term;
  readonly limitation?: LimitingReagent;
  /** g of product that are possible, where it is undecided what limits. */
  readonly possible?: Bounds;
  /** g; absent where nothing limits, or what limits comes to nothing. */
  readonly theoretical?: UncertainDecimal;
  /** g of everything that went in, where all of it is known. */
  readonly wentIn?: UncertainDecimal;
  /** What of it dissolves stays in the liquor. */
  readonly dissolved: Pot;
  readonly metals: MetalsTaken;
  /** Inputs of uncertainties that are readings of what went in. */
  readonly readings: ReadonlySet<string>;
  readonly takenAsEnough?: string;
  readonly cost?: Money;
  /** Names of what has no price. */
  readonly unpriced: readonly string[];
  /** In the order in which they are shown: what went in and limits, and what is said of that. */
  readonly limits: Pick<SampleAmounts, 'ingredients' | 'limiting' | 'tooCloseToCall'>;
  readonly besides: Pick<SampleAmounts, 'short' | 'target' | 'acidAndAlkali'>;
}

/** Finds the pot of each sample of an entry, each pot reckoned once. */
export function potsOf(setting: SampleSetting): (index: number | undefined) => PotAmounts {
  const { entry, context, balance, product } = setting;
  const pots = new Map<readonly Ingredient[], Map<string | undefined, PotAmounts>>();
  const own = new Map<Ingredient, OwnFigures>();
  return (index) => {
    const ingredients = ingredientsOf(entry, index, context, balance?.halfWidth);
    const formula = formulaAsWeighed(entry, index, product?.label);
    let ofThese = pots.get(ingredients);
    if (!ofThese) pots.set(ingredients, (ofThese = new Map()));
    let pot = ofThese.get(formula);
    if (!pot) ofThese.set(formula, (pot = reckonPot(setting, ingredients, formula, own)));
    return pot;
  };
}

function reckonPot(
  { entry, context, equation, product: made }: SampleSetting,
  ingredients: readonly Ingredient[],
  formula: string | undefined,
  own: Map<Ingredient, OwnFigures>,
): PotAmounts {
  const product = made && productOfSample(made, formula);
  const partners = enoughWhereMeant(ingredients.filter(takesPart));
  const settled = settle(ingredients, partners, equation);
  const { neutralised } = settled;
  const available = partners.map(({ taken }) => availableOf(taken, neutralised));
  const limitation = equation && findLimitingReagent(equation, available);
  // An amount of zero of what limits makes nothing; a share of nothing cannot be told.
  const extent = limitation?.extent?.value.isZero() ? undefined : limitation?.extent;
  const short = shortages(limitation, partners.map(meantPartner), product);
  const target = aimedAt(entry.pigment?.target, ingredients);
  const liquor = acidAndAlkali(settled, limitation);
  const neutral = neutralised && neutralSalts(ingredients, settled.ingredients);
  const figures = ingredients.map((one) => ownFigures(one, context.settings.currency, own));
  const unpriced = new Set(ingredients.flatMap(({ name }, at) => (figures[at]!.money ? [] : name)));
  return {
    ingredients,
    partners,
    product,
    limitation,
    possible: limitation && possibleMasses(product, limitation),
    theoretical: extent && product && theoreticalYield(extent, product).mass,
    wentIn: wentIn(ingredients),
    dissolved: { equation, product, limitation, ingredients: settled.ingredients, neutral },
    metals: metalsTaken(ingredients),
    readings: new Set(ingredients.map(({ taken }) => weighingInput(taken.id))),
    takenAsEnough: takenAsEnough(partners, limitation),
    cost: unpriced.size > 0 ? undefined : sumOf(figures.map(({ money }) => money!)),
    unpriced: [...unpriced],
    limits: {
      ingredients: ingredients.map((one, at) => amountsOf(one, limitation, figures[at]!, settled.ingredients[at]!)),
      ...limitingWords(limitation, ingredients),
    },
    besides: {
      ...(short.length > 0 && { short: short.map(shortFigures) }),
      ...(target && { target }),
      ...(liquor && { acidAndAlkali: liquor }),
    },
  };
}

/** Elements that say nothing of which form of a product a formula is. */
const formless = new Set(['H', 'C', 'N', 'O', 'S', 'P', 'F', 'Cl', 'Br', 'I']);

/**
 * The product as a sample's own formula has it: another hydrate, or what firing leaves of it, reckoned by the element
 * that both hold.
 */
export function productOfSample(product: Term, written: string | undefined): Term {
  if (written === undefined) return product;
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

/**
 * What was not measured and is meant to be in excess, or stands beside what is meant to limit, is taken to have been
 * enough.
 */
function enoughWhereMeant(partners: readonly Ingredient[]): readonly Ingredient[] {
  const limits = partners.some(({ use, taken }) => use.intent === 'limiting' && taken.substance);
  return partners.map((one) => {
    const { reagent, taken, use } = one;
    const isMeant = use.intent === 'excess' || (limits && use.intent !== 'limiting');
    // Where it says `intent: excess` itself, an amount that is missing or could not be read takes nothing from that.
    const isOpen = reagent.amount === 'unknown' || (reagent.amount === 'not-said' && use.intent === 'excess');
    return isOpen && !taken.excess && !taken.substance && isMeant ? { ...one, taken: { ...taken, excess: true } } : one;
  });
}

/** Mass of everything that went in, where all of it is known. */
function wentIn(ingredients: readonly Ingredient[]): UncertainDecimal | undefined {
  const masses = ingredients.flatMap(({ taken }) => taken.mass ?? []);
  return masses.length > 0 && masses.length === ingredients.length ? masses.reduce(plus) : undefined;
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

/** A mass; shown as it was written where it was written in grams. */
export const massFigure = ({ measure, use }: Ingredient, mass: UncertainDecimal): Figure =>
  measure.amount?.unit === 'g' ? figureInWords(mass, 'g', use.amount!) : bareFigure(mass, 'g');

/** A volume, likewise. */
const volumeFigure = ({ measure, use }: Ingredient, volume: UncertainDecimal): Figure =>
  measure.amount?.unit === 'mL' ? figureInWords(volume, 'mL', use.amount!) : bareFigure(volume, 'mL');

/** How many times as much there is as is needed: no more than 1 is said of what limits. */
const equivalentsFigure = (equivalents: UncertainDecimal, limits: boolean): Figure =>
  limits ? figureInWords(equivalents, '', '1') : bareFigure(equivalents, '');

/** Made here, and nothing says how pure it is. */
const isAsIfPure = ({ lot, reagent }: Ingredient): boolean =>
  lot !== undefined && !reagent.written.purity && !reagent.written.strength;

/** How pure a lot can be of which more was obtained than its reaction gives; undefined of any other. */
function atMostPure({ lotFacts }: Ingredient): string | undefined {
  const percent = lotFacts?.percentYield;
  if (!percent || !liesAbove100(percent)) return undefined;
  return `${(10_000 / Number(percent.within?.low ?? percent.value)).toFixed(1)} %`;
}

/** What is told of an ingredient whatever it meets. */
interface OwnFigures extends Pick<IngredientAmounts, 'formulaSet' | 'mass' | 'volume' | 'amount' | 'pure' | 'cost'> {
  readonly money: Money | undefined;
}

/** The same, put into figures once for all pots that hold it. */
function ownFigures(
  ingredient: Ingredient,
  currency: string | undefined,
  known: Map<Ingredient, OwnFigures>,
): OwnFigures {
  let figures = known.get(ingredient);
  if (!figures) known.set(ingredient, (figures = inFigures(ingredient, costOf(ingredient, currency))));
  return figures;
}

function inFigures(ingredient: Ingredient, money: Money | undefined): OwnFigures {
  const { formula, taken } = ingredient;
  return {
    formulaSet: formula === undefined ? undefined : typeset(formula),
    mass: taken.mass && massFigure(ingredient, taken.mass),
    volume: taken.volume && volumeFigure(ingredient, taken.volume),
    amount: taken.substance && bareFigure(taken.substance, 'mol', mmol),
    pure: taken.pure && bareFigure(taken.pure, 'g'),
    cost: money && moneyFigure(money),
    money,
  };
}

type AmountsInTheMaking = { -readonly [Key in keyof IngredientAmounts]: IngredientAmounts[Key] };

/**
 * What is told of one ingredient of a pot, in the order in which it is written. There are more of these than of
 * anything else, and an object that is put together of others takes V8 many times as long.
 */
function amountsOf(
  ingredient: Ingredient,
  limitation: LimitingReagent | undefined,
  own: OwnFigures,
  settled: Ingredient,
): IngredientAmounts {
  const { id, name, formula, lot, use, taken, measure, assayed } = ingredient;
  const role = use.role ?? 'reactant';
  const amounts = (
    formula === undefined ? { id, name, role } : { id, name, formula, formulaSet: own.formulaSet, role }
  ) as AmountsInTheMaking;
  const standing = inReaction(settled.taken, limitation);
  if (lot !== undefined) amounts.lot = lot;
  if (isAsIfPure(ingredient)) {
    amounts.asIfPure = true;
    const most = atMostPure(ingredient);
    if (most !== undefined) amounts.atMostPure = most;
  }
  if (standing.supplies.length > 0) {
    const rough = roughlyStated(measure);
    if (isPurityNotStated(measure, taken)) amounts.purityNotStated = true;
    if (rough !== undefined) amounts.roughlyStated = roughlyStatedWords(name, rough);
  }
  if (assayed) amounts.assayed = assayed;
  if (use.amount !== undefined) amounts.written = use.amount;
  if (taken.excess) amounts.excess = true;
  if (own.mass) amounts.mass = own.mass;
  if (own.volume) amounts.volume = own.volume;
  if (own.amount) amounts.amount = own.amount;
  if (own.pure) amounts.pure = own.pure;
  addReaction(amounts, settled.taken, standing);
  if (own.cost) amounts.cost = own.cost;
  return amounts;
}

/** What the reaction makes of one reagent: how it stands to what limits, and what is left of it. */
function addReaction(
  amounts: AmountsInTheMaking,
  taken: Ingredient['taken'],
  { supplies, scarcest, limiting, tooClose, shareLeft, mostLeft }: InReaction,
): void {
  const left = leftOf(taken, shareLeft);
  const most = mostLeft && taken.pure?.value.times(mostLeft);
  if (scarcest) amounts.equivalents = equivalentsFigure(scarcest.equivalents!, scarcest.limiting);
  amounts.limiting = limiting;
  if (tooClose) amounts.tooClose = true;
  if (left) amounts.left = most ? leftUpTo(left, most, 'g') : bareFigure(left, 'g');
  if (supplies.length > 0) amounts.supplies = supplies.map(({ term }) => term.label);
}
