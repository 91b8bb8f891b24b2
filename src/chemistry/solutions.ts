// Solutions: strength of a bought or made one in other terms, and making one up or diluting it.
import { bad, good, type Outcome } from '../outcome.js';
import { exact, type Decimal } from './exact.js';
import { molarMass, type Formula } from './formula/index.js';
import { ionsOf, withoutWater } from './ions/index.js';
import type { Quantity } from './quantity/index.js';

/** A solution or a solid by its content; what is not known is absent. All in base units: %, % w/v, mol/L, g/mL. */
export interface Strength {
  /** Share by mass, 0 to 1; 1 for a pure solid or liquid. */
  readonly massFraction?: Decimal;
  /** g of solute in a mL. */
  readonly massConcentration?: Decimal;
  /** mol in a mL. */
  readonly molarConcentration?: Decimal;
  /** g/mL of the solution. */
  readonly density?: Decimal;
}

/** Density of water at 20 °C, g/mL. Source: IAPWS R7-97, 998.2 kg/m³ at 20 °C and 0.1 MPa. */
export const waterDensity = exact('0.9982');

/**
 * Fills in the other ways of stating a strength as far as density and molar mass allow.
 * Molarity = 1000·w·ρ/M. @example strengthOf({ strength: q('37.2 %'), density: q('1.19 g/mL') }, hcl)
 */
export function strengthOf(
  given: { readonly strength?: Quantity; readonly purity?: Quantity; readonly density?: Quantity },
  formula?: Formula,
): Strength {
  const mass = formula && molarMass(formula);
  const perMole = mass?.ok ? mass.value.middle.value : undefined;
  const density = given.density?.base;
  const purity = given.purity ? given.purity.base.div(100) : exact(1);
  const { strength } = given;
  let massFraction: Decimal | undefined;
  let massConcentration: Decimal | undefined;
  let molarConcentration: Decimal | undefined;
  if (!strength) massFraction = purity;
  else if (strength.dimension === 'mass-percent') massFraction = strength.base.div(100).times(purity);
  else if (strength.dimension === 'mass-volume-percent') massConcentration = strength.base.div(100);
  else if (strength.dimension === 'density') massConcentration = strength.base;
  else if (strength.dimension === 'concentration') molarConcentration = strength.base.div(1000);
  if (molarConcentration && perMole) massConcentration = molarConcentration.times(perMole);
  if (massFraction && density) massConcentration ??= massFraction.times(density);
  if (massConcentration && perMole) molarConcentration ??= massConcentration.div(perMole);
  if (massConcentration && density) massFraction ??= massConcentration.div(density);
  return { massFraction, massConcentration, molarConcentration, density };
}

export interface Dilution {
  /** Of the stock: g and mL, as far as its density is known. */
  readonly stock: { readonly mass?: Decimal; readonly volume?: Decimal };
  /** Water to add; by volume it is what is missing to the final volume. */
  readonly water: { readonly mass?: Decimal; readonly volume?: Decimal };
  readonly made: { readonly mass?: Decimal; readonly volume?: Decimal };
  /** Strength of what is made, as asked for or as it turns out. */
  readonly strength: Strength;
  /** What had to be assumed, in words. */
  readonly assumed: readonly string[];
  /** The order in which it is poured, where that matters. */
  readonly order: 'acid-into-water' | 'base-into-water' | 'none';
}

export interface DilutionAsked {
  readonly formula?: Formula;
  readonly stock: Strength;
  /** How much stock there is: g or mL. */
  readonly have?: { readonly mass?: Decimal; readonly volume?: Decimal };
  readonly to?: Strength;
  /** How much is to be made: g or mL. */
  readonly make?: { readonly mass?: Decimal; readonly volume?: Decimal };
}

const need = (message: string, cure: string): Outcome<never> => bad({ code: 'dilution', message, cure });

/**
 * Stock and water for a dilution. Two of three are given: how much stock, what strength, how much is made.
 * The solute is conserved; water is the rest by mass, or to the mark by volume. Where a volume is asked for with a strength
 * by mass and no density of the made solution, the volumes of stock and water are taken to add up; that is said.
 * @example dilute({ stock: strengthOf(...), to: strengthOf(...), make: { volume: exact(100) } })
 */
export function dilute({ formula, stock, have, to, make }: DilutionAsked): Outcome<Dilution> {
  const assumed: string[] = [];
  const order = orderFor(formula);
  if ([stock, to, make, have].some((given) => given && Object.values(given).some((value) => value?.lte(0))))
    return need('A strength or an amount of 0 leaves nothing to dilute.', 'Give numbers above 0.');
  if (formula && withoutWater(formula) && (to?.massFraction || to?.massConcentration) && !to.molarConcentration)
    assumed.push(`The strength counts ${formula.written} as it is, its water included.`);
  const withDensity = (mass?: Decimal, volume?: Decimal, density?: Decimal): { mass?: Decimal; volume?: Decimal } => ({
    mass: mass ?? (volume && density ? volume.times(density) : undefined),
    volume: volume ?? (mass && density ? mass.div(density) : undefined),
  });
  const finish = (
    stockMass: Decimal | undefined,
    stockVolume: Decimal | undefined,
    made: { mass?: Decimal; volume?: Decimal },
    strength: Strength,
  ): Outcome<Dilution> => {
    const taken = withDensity(stockMass, stockVolume, stock.density);
    if (
      made.volume &&
      taken.volume &&
      made.volume.lt(taken.volume) &&
      (!made.mass || (taken.mass && made.mass.lt(taken.mass)))
    )
      return need('That is stronger than the stock.', 'Ask for a weaker solution, or start from a stronger one.');
    const byMass = made.mass && taken.mass ? made.mass.minus(taken.mass) : undefined;
    const water = {
      mass: byMass,
      volume: byMass
        ? byMass.div(waterDensity)
        : made.volume && taken.volume
          ? made.volume.minus(taken.volume)
          : undefined,
    };
    if (!byMass && water.volume)
      assumed.push('The water is given as the difference of the volumes; fill up to the mark.');
    return good({ stock: taken, water, made, strength, assumed, order });
  };

  if (to && make) {
    const target = withDensity(make.mass, make.volume, to.density);
    if (to.massFraction && stock.massFraction) {
      if (to.massFraction.gt(stock.massFraction))
        return need('That is stronger than the stock.', 'Ask for a weaker solution, or start from a stronger one.');
      const ratio = to.massFraction.div(stock.massFraction);
      let { mass } = target;
      if (!mass && make.volume) {
        // Additive volumes: V = m·(ratio/ρ(stock) + (1 − ratio)/ρ(water)).
        const stockDensity = stock.density ?? waterDensity;
        mass = make.volume.div(ratio.div(stockDensity).plus(exact(1).minus(ratio).div(waterDensity)));
        assumed.push(
          stock.density
            ? 'The volumes of stock and water are taken to add up, since the density of the made solution is not given; the mass ratio is exact.'
            : 'The densities of stock and made solution are not given; the stock is reckoned with the density of water.',
        );
      }
      if (!mass) return need('Nothing says how much is to be made.', 'Say how much with --make, in g or mL.');
      return finish(mass.times(ratio), undefined, { mass, volume: make.volume ?? target.volume }, to);
    }
    const perVolume =
      to.molarConcentration && stock.molarConcentration
        ? [to.molarConcentration, stock.molarConcentration]
        : to.massConcentration && stock.massConcentration
          ? [to.massConcentration, stock.massConcentration]
          : undefined;
    if (perVolume && target.volume) {
      if (perVolume[0]!.gt(perVolume[1]!))
        return need('That is stronger than the stock.', 'Ask for a weaker solution, or start from a stronger one.');
      return finish(
        undefined,
        target.volume.times(perVolume[0]!).div(perVolume[1]!),
        { mass: target.mass, volume: target.volume },
        to,
      );
    }
    // A solid or a liquid by mass into a volume of known concentration.
    const solute =
      to.massConcentration && target.volume
        ? to.massConcentration.times(target.volume)
        : to.massFraction && target.mass
          ? to.massFraction.times(target.mass)
          : undefined;
    if (solute && stock.massFraction) return finish(solute.div(stock.massFraction), undefined, target, to);
    if (solute && stock.massConcentration) return finish(undefined, solute.div(stock.massConcentration), target, to);
    return need(
      'The strengths of stock and made solution cannot be brought together.',
      'Give the density of the stock (and a formula for mol/L), or both strengths in the same unit.',
    );
  }
  if (have && (to || make)) {
    const taken = withDensity(have.mass, have.volume, stock.density);
    const solute =
      stock.massFraction && taken.mass
        ? stock.massFraction.times(taken.mass)
        : stock.massConcentration && taken.volume
          ? stock.massConcentration.times(taken.volume)
          : undefined;
    const perMole = formula && molarMass(formula);
    const moles =
      stock.molarConcentration && taken.volume
        ? stock.molarConcentration.times(taken.volume)
        : solute && perMole?.ok
          ? solute.div(perMole.value.middle.value)
          : undefined;
    if (to) {
      if (to.massFraction && solute && !to.massConcentration)
        return finish(taken.mass, taken.volume, withDensity(solute.div(to.massFraction), undefined, to.density), to);
      const volume =
        to.molarConcentration && moles
          ? moles.div(to.molarConcentration)
          : to.massConcentration && solute
            ? solute.div(to.massConcentration)
            : undefined;
      if (volume) return finish(taken.mass, taken.volume, withDensity(undefined, volume, to.density), to);
      if (to.massFraction && solute)
        return finish(taken.mass, taken.volume, withDensity(solute.div(to.massFraction), undefined, to.density), to);
    } else if (make) {
      const strength: Strength = {
        massFraction: make.mass && solute ? solute.div(make.mass) : undefined,
        massConcentration: make.volume && solute ? solute.div(make.volume) : undefined,
        molarConcentration: make.volume && moles ? moles.div(make.volume) : undefined,
      };
      if (strength.massFraction || strength.massConcentration || strength.molarConcentration)
        return finish(taken.mass, taken.volume, make, strength);
    }
    return need(
      'The strengths of stock and made solution cannot be brought together.',
      'Give the density of the stock (and a formula for mol/L), or both strengths in the same unit.',
    );
  }
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
