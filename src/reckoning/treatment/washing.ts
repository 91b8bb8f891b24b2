// What washing leaves in a product: the salts that the reaction frees and what was left over of its reagents.
import {
  dissolves,
  elementMasses,
  elementName,
  exact,
  expandedUncertainty,
  forMachines,
  molarMass,
  plus,
  scaled,
  shareLeftByWashing,
  sum,
  times,
  withoutUncertainty,
  type Decimal,
  type Equation,
  type Formula,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
  type WashesAlike,
} from '../../chemistry/index.js';
import { gases } from '../../hazards/foresee/gases.js';
import { washesWritten, type Entry } from '../../journal/entry.js';
import type { Wash } from '../../journal/schema.js';
import { lastFor } from '../../once.js';
import { bareFigure, type Figure } from '../figures.js';
import { isWaterReagent, type Ingredient } from '../ingredients.js';
import { inReaction, leftOf } from '../amounts/limiting.js';
import { followedIn } from '../amounts/metals.js';
import type { NeutralSalt } from '../amounts/neutral-salts.js';
import { formulaOf, quantityOf } from '../parse-cache.js';
import { spectatorSalts } from '../amounts/spectator-salts.js';
import type { SaltLeft, WashingReckoning } from './treatment-contracts.js';
import { figureWithin, leftUpTo } from '../undecided.js';

/** A dissolved salt in the pot, before any of it is washed out. */
export interface DissolvedSalt {
  readonly formula: string;
  readonly parsed: Formula;
  readonly from: SaltLeft['from'];
  /** g */
  readonly mass: UncertainDecimal;
  /** g at most, where weighing cannot tell whether any of it is left over. */
  readonly most?: Decimal;
}

/** What the pot of one sample is known to hold. */
export interface Pot {
  readonly equation?: Equation;
  readonly product?: Term;
  readonly limitation?: LimitingReagent;
  readonly ingredients: readonly Ingredient[];
  /** What acid and alkali made of each other before the reaction. */
  readonly neutral?: readonly NeutralSalt[];
}

const isGas = ({ label, formula }: Term): boolean =>
  formula.state === 'g' || (gases().has(label) && !gases().get(label)!.dissolves);

/** Salts and acids that the reaction frees. */
function freedSalts({ equation, product, limitation }: Pot): readonly DissolvedSalt[] {
  const extent = limitation?.extent;
  if (!equation || !product || !extent) return [];
  return equation.products
    .filter(({ column, formula }) => column !== product.column && formula.charge === 0)
    .filter((term) => !isGas(term) && dissolves(term.formula))
    .flatMap(({ label, formula, coefficient }) => {
      const perMole = molarMass(formula);
      if (!perMole.ok) return [];
      const mass = times(scaled(extent, coefficient), perMole.value.middle);
      return [{ formula: label, parsed: formula, from: 'freed', mass } as const];
    });
}

/** Salts of acid and alkali, and those that a reaction written in ions leaves, as far as they dissolve. */
function saltsOfIons({ equation, limitation, ingredients, neutral = [] }: Pot): readonly DissolvedSalt[] {
  const spectators = equation && limitation ? spectatorSalts(equation, limitation, ingredients) : [];
  return [...neutral, ...spectators].flatMap(({ formula, moles }) => {
    const parsed = formulaOf(formula);
    const perMole = parsed.ok ? molarMass(parsed.value) : undefined;
    if (!parsed.ok || !perMole?.ok || !dissolves(parsed.value)) return [];
    return [{ formula, parsed: parsed.value, from: 'freed', mass: times(moles, perMole.value.middle) } as const];
  });
}

/** Roles of what never was in the pot, or is the liquor itself. */
const notInTheLiquor = new Set(['wash', 'flux']);

/** What was taken and not used up, as far as it dissolves. */
function saltsLeftOver({ limitation, ingredients }: Pot): readonly DissolvedSalt[] {
  return ingredients.flatMap(({ use, reagent, taken, formula }) => {
    const parsed = taken.formula;
    if (!parsed || formula === undefined || isWaterReagent(reagent) || notInTheLiquor.has(use.role ?? '')) return [];
    if (!dissolves(parsed)) return [];
    const { supplies, limiting, shareLeft, mostLeft } = inReaction(taken, limitation);
    const mass = supplies.length === 0 ? taken.pure : leftOf(taken, shareLeft);
    const most = mostLeft && taken.pure?.value.times(mostLeft);
    if (mass && most?.gt(0)) return [{ formula, parsed, from: 'left', mass, most } as const];
    return limiting || !mass?.value.gt(0) ? [] : [{ formula, parsed, from: 'left', mass } as const];
  });
}

function togetherWith(before: DissolvedSalt, salt: DissolvedSalt): DissolvedSalt {
  const mass = sum([before.mass, salt.mass]);
  if (!before.most && !salt.most) return { ...before, mass };
  const most = (before.most ?? before.mass.value).plus(salt.most ?? salt.mass.value);
  return { ...before, mass, most };
}

/** Every dissolved salt of a sample; the same one from the same source is one. */
export const dissolvedSalts = lastFor((pot: Pot): readonly DissolvedSalt[] => {
  if (!pot.limitation?.extent) return [];
  const together = new Map<string, DissolvedSalt>();
  for (const salt of [...freedSalts(pot), ...saltsOfIons(pot), ...saltsLeftOver(pot)]) {
    const key = `${salt.from} ${salt.formula}`;
    const before = together.get(key);
    together.set(key, before ? togetherWith(before, salt) : salt);
  }
  return [...together.values()];
});

/** mL of what was liquid in the pot; undefined where nothing was. */
export const liquidsOf = lastFor((ingredients: readonly Ingredient[]): Decimal | undefined => {
  const volumes = ingredients
    .filter(({ use }) => use.role !== 'wash')
    .filter(({ reagent, measure }) => {
      const byVolume = measure.amount?.dimension === 'volume' || measure.amount?.dimension === 'drops';
      const { basis } = reagent.strength;
      return byVolume || isWaterReagent(reagent) || (basis !== 'undiluted' && basis !== 'not-given');
    })
    .flatMap(({ taken }) => taken.volume?.value ?? []);
  return volumes.length > 0 ? volumes.reduce((total, one) => total.plus(one)) : undefined;
});

const millilitres = (written: string | undefined): Decimal | undefined => {
  const read = written === undefined ? undefined : quantityOf(written);
  return read?.ok && read.value.dimension === 'volume' ? read.value.base : undefined;
};

/** The washes of a sample that can be reckoned: its own, else those of the entry. */
export function washesOf(entry: Entry, index: number | undefined): readonly Wash[] {
  const washes = washesWritten(entry, index);
  return typeof washes === 'string' || washes === undefined ? [] : washes;
}

function alike({ volume, held, times: count }: Wash): WashesAlike | undefined {
  const [each, kept] = [millilitres(volume), millilitres(held)];
  return each && kept && { volume: each, held: kept, times: count };
}

/** What keeps washing from being reckoned. */
export type WashingLacks = 'held' | 'liquor';

/** Volumes that do not go together, mL. */
export interface WashingOdd {
  readonly odd: 'held-beyond-liquor' | 'held-beyond-wash' | 'liquor-below-liquids';
  readonly volume: string;
  readonly of: string;
}

/** Liquor that is less than this share of the liquids that went in is asked after: some boils or dries away. */
const plainlyLess = exact('0.75');

/** The first two volumes of a washing that do not go together. */
function oddVolumes(
  liquor: Decimal,
  liquids: Decimal | undefined,
  washes: readonly WashesAlike[],
): WashingOdd | undefined {
  const odd = (kind: WashingOdd['odd'], volume: Decimal, of: Decimal): WashingOdd => ({
    odd: kind,
    volume: `${volume.toFixed()} mL`,
    of: `${of.toFixed()} mL`,
  });
  const beyondLiquor = washes.find(({ held }) => held.gt(liquor));
  if (beyondLiquor) return odd('held-beyond-liquor', beyondLiquor.held, liquor);
  if (liquids && liquor.lt(liquids.times(plainlyLess))) return odd('liquor-below-liquids', liquor, liquids);
  const beyondWash = washes.find(({ held, volume }) => held.gt(volume));
  return beyondWash && odd('held-beyond-wash', beyondWash.held, beyondWash.volume);
}

/** The washing of a sample, its salts before and after, or what is lacking. */
export interface WashingReckoned {
  readonly washing?: WashingReckoning;
  readonly lacks?: WashingLacks;
  readonly odd?: WashingOdd;
  /** g of salt in the product; undefined where the washing cannot be reckoned. */
  readonly saltMass?: UncertainDecimal;
}

/** What the salts are set against. */
export interface SetAgainst {
  readonly mass: UncertainDecimal;
  readonly of: NonNullable<WashingReckoning['percentOf']>;
}

const percentOf = (mass: UncertainDecimal, against: SetAgainst | undefined): string | undefined =>
  against && !against.mass.value.isZero() ? forMachines(mass.value.div(against.mass.value).times(100)) : undefined;

/**
 * A mass, g; by its bounds where it may be more than it is by name.
 * @param beyond g by which it may be more, where weighing cannot tell it
 */
function figureUpTo(mass: UncertainDecimal, beyond: Decimal | undefined): Figure {
  if (!beyond) return bareFigure(mass, 'g');
  const high = mass.value.plus(beyond);
  // Where most of it is there for certain, the rest is its uncertainty.
  if (mass.value.gt(beyond)) return figureWithin(mass, { low: mass.value.minus(beyond), high }, 'g');
  return leftUpTo(mass, high, 'g');
}

/** Metals that the wash liquid carries off: what came through the first pouring, less what is left. */
function metalsWashedOut(salts: readonly DissolvedSalt[], carriedOff: Decimal): WashingReckoning['metals'] {
  const masses = new Map<string, UncertainDecimal>();
  const beyond = new Map<string, Decimal>();
  for (const { parsed, mass, most } of salts) {
    const followed = followedIn(parsed);
    const perMole = followed.length > 0 ? molarMass(parsed) : undefined;
    if (!perMole?.ok) continue;
    const perGram = withoutUncertainty(exact(1).div(perMole.value.middle.value));
    for (const symbol of followed) {
      const share = elementMasses(perGram, parsed, symbol);
      if (!share) continue;
      const carried = scaled(times(mass, share), carriedOff);
      const before = masses.get(symbol);
      masses.set(symbol, before ? plus(before, carried) : carried);
      if (most) {
        const more = most.minus(mass.value).times(share.value).times(carriedOff);
        beyond.set(symbol, more.plus(beyond.get(symbol) ?? 0));
      }
    }
  }
  const metals = [...masses].map(([symbol, mass]) => ({
    symbol,
    name: elementName(symbol),
    mass: figureUpTo(mass, beyond.get(symbol)),
  }));
  return metals.length > 0 ? metals : undefined;
}

/** What washing leaves of one pot, whatever that is set against. */
interface WashedPot {
  readonly salts: readonly (Pick<SaltLeft, 'formula' | 'from' | 'mass'> & { readonly left: UncertainDecimal })[];
  /** g of all of them. */
  readonly total: UncertainDecimal;
  readonly figures: Pick<WashingReckoning, 'total'>;
  readonly liquids: Pick<WashingReckoning, 'share' | 'volume' | 'liquor' | 'metals'>;
}

/** Samples of one pot are mostly washed alike, one after the other. */
const washedLast = new WeakMap<
  Pot,
  { readonly washes: readonly Wash[]; readonly liquor: Decimal; readonly washed: WashedPot | undefined }
>();

function washedPot(
  pot: Pot,
  washes: readonly Wash[],
  known: readonly WashesAlike[],
  liquor: Decimal,
): WashedPot | undefined {
  const before = washedLast.get(pot);
  if (before?.washes === washes && before.liquor === liquor) return before.washed;
  const share = shareLeftByWashing(liquor, known);
  const washed = share && washPot(pot, known, liquor, share);
  washedLast.set(pot, { washes, liquor, washed });
  return washed;
}

function washPot(pot: Pot, known: readonly WashesAlike[], liquor: Decimal, share: Decimal): WashedPot {
  const dissolved = dissolvedSalts(pot);
  const salts = dissolved.map(({ formula, from, mass, most }) => {
    const left = scaled(mass, share);
    return { formula, from, mass: figureUpTo(left, most?.times(share).minus(left.value)), left };
  });
  const total = sum(salts.map(({ left }) => left));
  const volume = known.reduce((all, { volume: each, times: count }) => all.plus(each.times(count)), exact(0));
  const afterPouring = shareLeftByWashing(liquor, [{ ...known[0]!, times: 0 }])!;
  const metals = metalsWashedOut(dissolved, afterPouring.minus(share));
  return {
    salts,
    total,
    figures: salts.length > 0 ? { total: bareFigure(total, 'g') } : {},
    liquids: {
      share: forMachines(share),
      volume: bareFigure(withoutUncertainty(volume), 'mL'),
      liquor: bareFigure(withoutUncertainty(liquor), 'mL'),
      ...(metals && { metals }),
    },
  };
}

/**
 * Reckons what washing leaves in a sample, at best.
 * @param against what was obtained, else the theoretical yield
 */
export function reckonWashing(
  entry: Entry,
  index: number | undefined,
  pot: Pot,
  against: SetAgainst | undefined,
): WashingReckoned {
  const washes = washesOf(entry, index);
  const [first] = washes;
  if (!first) return {};
  const like = washes.map(alike);
  const known = like.flatMap((one) => one ?? []);
  if (known.length < like.length) return { lacks: 'held' };
  const sample = index === undefined ? undefined : entry.samples[index];
  const wentIn = liquidsOf(pot.ingredients);
  const liquor = millilitres(sample?.liquor ?? entry.liquor) ?? wentIn;
  const washed = liquor && washedPot(pot, washes, known, liquor);
  if (!washed) return { lacks: 'liquor' };
  const { salts, total, figures, liquids } = washed;
  return {
    saltMass: total,
    odd: oddVolumes(liquor, wentIn, known),
    washing: {
      salts: salts.map(({ formula, from, mass, left }) => {
        const percent = percentOf(left, against);
        return { formula, from, mass, ...(percent !== undefined && { percent }) };
      }),
      ...figures,
      ...(against && { percentOf: against.of }),
      ...liquids,
    },
  };
}

/** How a yield stands without the salt that was never washed out of it. */
export interface SaltInYield {
  readonly washed: boolean;
  readonly salts: readonly string[];
  /** g */
  readonly mass: UncertainDecimal;
  /** Percent yield without it. */
  readonly without: Decimal;
}

/** A yield above this is looked at for salt. */
const suspicious = 95;

/**
 * A yield above 95 % that falls below that without the salt which washing left, or which nobody washed out; undefined
 * where there is nothing to say. A wash that is only named (`role: wash`) is not reckoned and not doubted.
 */
export function saltInYield(
  entry: Entry,
  index: number | undefined,
  pot: Pot,
  result: {
    readonly obtained?: UncertainDecimal;
    readonly percent?: UncertainDecimal;
    readonly salt?: UncertainDecimal;
  },
): SaltInYield | undefined {
  const { obtained, percent, salt } = result;
  if (!obtained || !percent || obtained.value.isZero() || percent.value.lte(suspicious)) return undefined;
  // Of a yield beyond what weighing can explain another rule speaks.
  if (percent.value.minus(expandedUncertainty(percent)).gt(100)) return undefined;
  const washed = washesOf(entry, index).length > 0;
  if (typeof washesWritten(entry, index) === 'string') return undefined;
  if (!washed && pot.ingredients.some(({ use }) => use.role === 'wash')) return undefined;
  if (washed && !salt) return undefined;
  const salts = dissolvedSalts(pot);
  const mass = salt ?? sum(salts.map((one) => one.mass));
  const without = percent.value.times(obtained.value.minus(mass.value)).div(obtained.value);
  const matters = mass.value.gt(expandedUncertainty(obtained)) && without.lte(suspicious);
  return matters ? { washed, salts: salts.map(({ formula }) => formula), mass, without } : undefined;
}
