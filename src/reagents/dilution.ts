// Making up and diluting: how much stock and how much water. The solute is conserved.
import {
  exact,
  ionsOf,
  molarMass,
  waterDensity,
  withoutWater,
  type Decimal,
  type Formula,
} from '../chemistry/index.js';
import { bad, good, type Outcome } from '../outcome.js';
import type { ResolvedStrength, StrengthTerms } from './contracts.js';

/** A strength to dilute from or to. */
export interface DilutionStrength extends StrengthTerms {
  /** It was said in mol/L or g in a volume, so that it is filled up to a mark. */
  readonly byVolume?: boolean;
  /** It was said in mol, so that water in the formula makes no difference. */
  readonly inMoles?: boolean;
}

export interface Portioned {
  /** g */
  readonly mass?: Decimal;
  /** mL */
  readonly volume?: Decimal;
}

export interface Dilution {
  /** Of the stock: g and mL, as far as its density is known. */
  readonly stock: Portioned;
  /** Water to add; by volume it is what is missing to the final volume. */
  readonly water: Portioned;
  readonly made: Portioned;
  /** Strength of what is made, as asked for or as it turns out. */
  readonly strength: StrengthTerms;
  /** What had to be assumed, in words. */
  readonly assumed: readonly string[];
  /** The order in which it is poured, where that matters. */
  readonly order: 'acid-into-water' | 'base-into-water' | 'none';
}

export interface DilutionAsked {
  readonly formula?: Formula;
  readonly stock: DilutionStrength;
  /** How much stock there is: g or mL. */
  readonly have?: Portioned;
  readonly to?: DilutionStrength;
  /** How much is to be made: g or mL. */
  readonly make?: Portioned;
}

/** A resolved strength in bare numbers, for a dilution. */
export function termsOf(strength: ResolvedStrength): DilutionStrength {
  const { massFraction, massConcentration, molarConcentration, density, basis, stated } = strength;
  const byVolume =
    basis === 'stated' && stated !== undefined && !['mass-percent', 'oxygen-volumes'].includes(stated.dimension);
  return {
    ...(massFraction && { massFraction: massFraction.value }),
    ...(massConcentration && { massConcentration: massConcentration.value }),
    ...(molarConcentration && { molarConcentration: molarConcentration.value }),
    ...(density && { density: density.value }),
    ...(byVolume && { byVolume, inMoles: stated.dimension === 'concentration' }),
  };
}

const need = (message: string, cure: string): Outcome<never> => bad({ code: 'dilution', message, cure });
const strongerThanStock = need(
  'That is stronger than the stock.',
  'Ask for a weaker solution, or start from a stronger one.',
);
const noCommonTerm = need(
  'The strengths of stock and made solution cannot be brought together.',
  'Give the density of the stock (and a formula for mol/L), or both strengths in the same unit.',
);

const both = ({ mass, volume }: Portioned, density: Decimal | undefined): Portioned => {
  const grams = mass ?? (volume && density && volume.times(density));
  const millilitres = volume ?? (mass && density && mass.div(density));
  return { ...(grams && { mass: grams }), ...(millilitres && { volume: millilitres }) };
};

/** Sums up: water is the rest by mass, or up to the mark by volume. */
function finish(
  asked: DilutionAsked,
  portion: Portioned,
  made: Portioned,
  strength: StrengthTerms,
  assumed: readonly string[],
): Outcome<Dilution> {
  const stock = both(portion, asked.stock.density);
  const lessVolume = made.volume && stock.volume && made.volume.lt(stock.volume);
  const lessMass = !made.mass || (stock.mass && made.mass.lt(stock.mass));
  if (lessVolume && lessMass) return strongerThanStock;
  const byMass = made.mass && stock.mass ? made.mass.minus(stock.mass) : undefined;
  const missing = made.volume && stock.volume ? made.volume.minus(stock.volume) : undefined;
  const volume = byMass ? byMass.div(waterDensity) : missing;
  const upToMark = !byMass && missing;
  return good({
    stock,
    water: { ...(byMass && { mass: byMass }), ...(volume && { volume }) },
    made,
    strength: bareTerms(strength),
    assumed: [
      ...assumed,
      ...(upToMark ? ['The water is given as the difference of the volumes; fill up to the mark.'] : []),
    ],
    order: orderFor(asked.formula),
  });
}

const bareTerms = ({ massFraction, massConcentration, molarConcentration, density }: StrengthTerms): StrengthTerms => ({
  ...(massFraction && { massFraction }),
  ...(massConcentration && { massConcentration }),
  ...(molarConcentration && { molarConcentration }),
  ...(density && { density }),
});

/** Contents of both in the same unit, in what a mL holds. */
function perVolume(to: StrengthTerms, stock: StrengthTerms): readonly [Decimal, Decimal] | undefined {
  if (to.molarConcentration && stock.molarConcentration) return [to.molarConcentration, stock.molarConcentration];
  if (to.massConcentration && stock.massConcentration) return [to.massConcentration, stock.massConcentration];
  return undefined;
}

/** So much of a solution by mass or volume, whose mass follows from adding volumes where its density is not known. */
function massOfMade(asked: DilutionAsked, ratio: Decimal, target: Portioned): { mass?: Decimal; assumed?: string } {
  if (target.mass) return { mass: target.mass };
  if (!target.volume) return {};
  const { density } = asked.stock;
  // Additive volumes: V = m·(ratio/ρ(stock) + (1 − ratio)/ρ(water)).
  const each = ratio.div(density ?? waterDensity).plus(exact(1).minus(ratio).div(waterDensity));
  return {
    mass: target.volume.div(each),
    assumed: density
      ? 'The volumes of stock and water are taken to add up, since the density of the made solution is not given; ' +
        'the mass ratio is exact.'
      : 'The densities of stock and made solution are not given; the stock is reckoned with the density of water.',
  };
}

function byMassRatio(
  asked: DilutionAsked,
  from: Decimal,
  wanted: Decimal,
  assumed: readonly string[],
): Outcome<Dilution> {
  if (wanted.gt(from)) return strongerThanStock;
  const ratio = wanted.div(from);
  const target = both(asked.make!, asked.to!.density);
  const { mass, assumed: additive } = massOfMade(asked, ratio, target);
  if (!mass) return need('Nothing says how much is to be made.', 'Say how much with --make, in g or mL.');
  const volume = asked.make!.volume ?? target.volume;
  const made = { mass, ...(volume && { volume }) };
  return finish(asked, { mass: mass.times(ratio) }, made, asked.to!, additive ? [...assumed, additive] : assumed);
}

/** Solute of a wanted amount, g. */
function soluteOf(to: StrengthTerms, target: Portioned): Decimal | undefined {
  const byVolume = to.massConcentration && target.volume && to.massConcentration.times(target.volume);
  return byVolume ?? (to.massFraction && target.mass && to.massFraction.times(target.mass));
}

/** A wanted volume of so much in a volume, from a stock of more in a volume: C₁V₁ = C₂V₂. */
function byVolumeRatio(
  asked: DilutionAsked,
  [wanted, from]: readonly [Decimal, Decimal],
  target: Portioned & { readonly volume: Decimal },
  assumed: readonly string[],
): Outcome<Dilution> {
  if (wanted.gt(from)) return strongerThanStock;
  const to = asked.to!;
  const made = to.byVolume ? { ...asked.make, volume: target.volume } : target;
  return finish(asked, { volume: target.volume.times(wanted).div(from) }, made, to, assumed);
}

/** A wanted amount of a wanted strength. */
function toMake(asked: DilutionAsked, assumed: readonly string[]): Outcome<Dilution> {
  const { stock, make } = asked;
  const to = asked.to!;
  const pair = perVolume(to, stock);
  const target = both(make!, to.density);
  const bothByMass = to.massFraction && stock.massFraction;
  if (pair && target.volume && (to.byVolume || !bothByMass))
    return byVolumeRatio(asked, pair, { ...target, volume: target.volume }, assumed);
  if (bothByMass) return byMassRatio(asked, stock.massFraction, to.massFraction, assumed);
  // A solid or a liquid by mass into a volume of known concentration.
  const solute = soluteOf(to, target);
  if (solute && stock.massFraction) return finish(asked, { mass: solute.div(stock.massFraction) }, target, to, assumed);
  if (solute && stock.massConcentration)
    return finish(asked, { volume: solute.div(stock.massConcentration) }, target, to, assumed);
  return noCommonTerm;
}

interface Held {
  readonly stock: Portioned;
  /** g and mol of the solute in it. */
  readonly solute?: Decimal;
  readonly moles?: Decimal;
}

function heldIn({ formula, stock, have }: DilutionAsked): Held {
  const taken = both(have!, stock.density);
  const byMass = stock.massFraction && taken.mass && stock.massFraction.times(taken.mass);
  const solute = byMass ?? (stock.massConcentration && taken.volume && stock.massConcentration.times(taken.volume));
  const perMole = formula && molarMass(formula);
  const byVolume = stock.molarConcentration && taken.volume && stock.molarConcentration.times(taken.volume);
  const moles = byVolume ?? (solute && perMole?.ok ? solute.div(perMole.value.middle.value) : undefined);
  return { stock: taken, ...(solute && { solute }), ...(moles && { moles }) };
}

/** All of the stock, brought to a wanted strength. */
function stockTo(asked: DilutionAsked, held: Held, assumed: readonly string[]): Outcome<Dilution> {
  const to = asked.to!;
  const { stock, solute, moles } = held;
  const byMass = to.massFraction && solute && !to.byVolume ? solute.div(to.massFraction) : undefined;
  if (byMass) return finish(asked, stock, both({ mass: byMass }, to.density), to, assumed);
  const molar = to.molarConcentration && moles ? moles.div(to.molarConcentration) : undefined;
  const volume = molar ?? (to.massConcentration && solute ? solute.div(to.massConcentration) : undefined);
  if (!volume) return noCommonTerm;
  return finish(asked, stock, to.byVolume ? { volume } : both({ volume }, to.density), to, assumed);
}

/** All of the stock, made up to a wanted amount. */
function stockInto(asked: DilutionAsked, held: Held, assumed: readonly string[]): Outcome<Dilution> {
  const make = asked.make!;
  const { solute, moles, stock } = held;
  const strength: StrengthTerms = {
    ...(make.mass && solute && { massFraction: solute.div(make.mass) }),
    ...(make.volume && solute && { massConcentration: solute.div(make.volume) }),
    ...(make.volume && moles && { molarConcentration: moles.div(make.volume) }),
  };
  return Object.keys(strength).length > 0 ? finish(asked, stock, make, strength, assumed) : noCommonTerm;
}

const anyIsNothing = (asked: DilutionAsked): boolean =>
  [asked.stock, asked.to, asked.make, asked.have].some(
    (given) => given && Object.values(given).some((value) => typeof value === 'object' && (value as Decimal).lte(0)),
  );

/**
 * Stock and water for a dilution. Two of three are given: how much stock, what strength, how much is made.
 * The solute is conserved; water is the rest by mass, or to the mark by volume. Where a volume is asked for with a
 * strength by mass and no density of the made solution is known, the volumes of stock and water are taken to add up;
 * that is said.
 * Errors: `dilution`, with what is missing.
 * @example dilute({ stock: termsOf(stock), to: termsOf(wanted), make: { volume: exact(100) } })
 */
export function dilute(asked: DilutionAsked): Outcome<Dilution> {
  const { formula, to, make, have } = asked;
  if (anyIsNothing(asked))
    return need('A strength or an amount of 0 leaves nothing to dilute.', 'Give numbers above 0.');
  const hydrate = formula && withoutWater(formula) && to && !to.inMoles;
  const assumed = hydrate ? [`The strength counts ${formula.written} as it is, its water included.`] : [];
  if (to && make) return toMake(asked, assumed);
  if (have && to) return stockTo(asked, heldIn(asked), assumed);
  if (have && make) return stockInto(asked, heldIn(asked), assumed);
  return need(
    'Two of three are needed: how much stock, what strength, how much is made.',
    'Give --to and --make, or an amount of stock with one of them.',
  );
}

/** Acids and strong bases heat up with water and are poured into it, never the other way round. */
function orderFor(formula: Formula | undefined): Dilution['order'] {
  if (!formula) return 'none';
  const ions = ionsOf(formula);
  if (!ions.ok) return 'none';
  if (ions.value.kind === 'acid') return 'acid-into-water';
  return ions.value.kind === 'hydroxide' ? 'base-into-water' : 'none';
}
