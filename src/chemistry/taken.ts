// How much of a substance was taken: from a mass, a volume, an amount or drops, with strength, purity and density, to moles.
import type { Fault } from '../outcome.js';
import { exact, UncertaintyDecimal, type Decimal } from './exact.js';
import { composition, molarMass, type Formula } from './formula/index.js';
import { waterDensity } from './solutions.js';
import {
  dividedBy,
  rectangular,
  scaled,
  times,
  withUncertainty,
  withoutUncertainty,
  type UncertainDecimal,
} from './uncertainty.js';
import type { Quantity } from './quantity/index.js';

/** How much of a reagent, and of what content; what is not said is absent, never guessed. */
export interface Dose {
  /** How much was taken: mass, volume, amount, drops or `excess`. */
  readonly amount?: Quantity;
  /** Content of a solution: % by mass, % w/v, mol/L. */
  readonly strength?: Quantity;
  readonly purity?: Quantity;
  readonly density?: Quantity;
  readonly dropVolume?: Quantity;
}

/** A reagent as it was weighed or measured out. */
export interface Measure extends Dose {
  /** Name that keeps its readings apart from other readings: `A/blue-vitriol`. */
  readonly id: string;
  /** Name of the stuff itself, shared by all uses of it; purity and strength belong to it. Default: `id`. */
  readonly stuff?: string;
  readonly name: string;
  readonly formula?: Formula;
  /** Half-width of a reading of the balance, in g, where the balance is known. */
  readonly balance?: Decimal;
}

/** What a measure comes to; what cannot be told is absent, and `missing` says what would be needed. */
export interface Taken {
  readonly id: string;
  readonly name: string;
  readonly formula?: Formula;
  /** Given as `excess`. */
  readonly excess: boolean;
  /** Amount of the pure substance, mol. */
  readonly substance?: UncertainDecimal;
  /** Mass of the pure substance, g. */
  readonly pure?: UncertainDecimal;
  /** Mass of the stuff as taken, g. */
  readonly mass?: UncertainDecimal;
  /** Volume of the stuff as taken, mL. */
  readonly volume?: UncertainDecimal;
  readonly molarMass?: UncertainDecimal;
  readonly missing: readonly Fault[];
}

/** A quantity in its base unit with the uncertainty of its reading: given as such, `± …`, a range, or half of the last digit. */
export function reading(quantity: Quantity, input: string, balance?: Decimal): UncertainDecimal {
  if (quantity.standardUncertainty) return withUncertainty(quantity.base, quantity.standardUncertainty, input);
  if (quantity.tolerance) return withUncertainty(quantity.base, rectangular(quantity.tolerance), input);
  if (quantity.dimension === 'drops' || quantity.dimension === 'excess') return withoutUncertainty(quantity.base);
  if (balance && quantity.dimension === 'mass') return withUncertainty(quantity.base, rectangular(balance), input);
  const factor = quantity.value.isZero() ? exact(1) : quantity.base.div(quantity.value);
  return withUncertainty(
    quantity.base,
    rectangular(new UncertaintyDecimal(quantity.resolution.times(factor)).div(2)),
    input,
  );
}

/** Water weighs the same everywhere: 0.9991 g/mL at 15 °C to 0.9970 at 25 °C. Source: IAPWS R7-97, as `waterDensity`. */
const ofWater = withUncertainty(waterDensity, rectangular('0.001'), 'density:water');
const isWater = (formula: Formula): boolean => {
  const atoms = composition(formula);
  return (
    formula.charge === 0 &&
    atoms.size === 2 &&
    (atoms.get('H')?.low.eq(2) ?? false) &&
    (atoms.get('O')?.low.eq(1) ?? false)
  );
};

const fault = (code: string, message: string, cure: string): Fault => ({ code, message, cure });

/**
 * Moles, masses and volumes of what was taken. The density of water is known.
 *
 * n = m·w/M from a mass; n = c·V from a volume of known concentration; m = ρ·V with a density; m = V·(g per 100 mL)/100
 * from % w/v; w is purity × strength by mass, 1 where neither is given.
 * @example take({ id: 'a', name: 'HCl', formula, amount, strength }).substance // mol
 */
export function take(measure: Measure): Taken {
  const { id, stuff = id, name, formula, amount, strength, purity, density, dropVolume, balance } = measure;
  const missing: Fault[] = [];
  const none = { id, name, formula, excess: false, missing };
  if (!amount) return none;
  let perMole: UncertainDecimal | undefined;
  if (formula) {
    const mass = molarMass(formula);
    if (mass.ok) perMole = mass.value.middle;
    else missing.push(mass.fault);
  }
  if (amount.dimension === 'excess') return { ...none, excess: true, molarMass: perMole };
  const rho = density
    ? reading(density, `density:${stuff}`)
    : formula && !strength && isWater(formula)
      ? ofWater
      : undefined;
  const purityShare = purity && scaled(reading(purity, `purity:${stuff}`), '0.01');
  const strengthShare =
    strength?.dimension === 'mass-percent' ? scaled(reading(strength, `strength:${stuff}`), '0.01') : undefined;
  const share = purityShare && strengthShare ? times(purityShare, strengthShare) : (purityShare ?? strengthShare);
  const concentration =
    strength?.dimension === 'concentration' ? scaled(reading(strength, `strength:${stuff}`), '0.001') : undefined;
  const perVolume =
    strength?.dimension === 'mass-volume-percent'
      ? scaled(reading(strength, `strength:${stuff}`), '0.01')
      : strength?.dimension === 'density'
        ? reading(strength, `strength:${stuff}`)
        : undefined;

  let mass: UncertainDecimal | undefined;
  let volume: UncertainDecimal | undefined;
  let substance: UncertainDecimal | undefined;
  let pure: UncertainDecimal | undefined;
  const read = reading(amount, `reading:${id}`, balance);
  if (amount.dimension === 'amount') {
    substance = read;
    if (perMole) pure = times(read, perMole);
  } else {
    if (amount.dimension === 'mass') mass = read;
    else if (amount.dimension === 'volume') volume = read;
    else if (amount.dimension === 'drops') {
      if (dropVolume) volume = times(read, reading(dropVolume, `drop:${stuff}`));
      else
        missing.push(
          fault(
            'drop-volume-missing',
            `Nothing says how large a drop of ${name} is.`,
            'Give the drop’s volume, e.g. drop-volume: 0.05 mL.',
          ),
        );
    }
    if (mass && rho) volume = dividedBy(mass, rho);
    else if (volume && rho) mass = times(volume, rho);
    if (concentration || perVolume) {
      if (!volume) {
        if (mass)
          missing.push(
            fault(
              'density-missing',
              `${name} was weighed, but its strength is by volume.`,
              'Give the density of the solution.',
            ),
          );
      } else if (concentration)
        substance = times(volume, purityShare ? times(concentration, purityShare) : concentration);
      else pure = times(volume, purityShare ? times(perVolume!, purityShare) : perVolume!);
    } else if (mass) pure = share ? times(mass, share) : mass;
    else if (volume)
      missing.push(
        fault(
          'density-missing',
          `${name} was measured by volume, and nothing says what it weighs.`,
          'Give its density, or its strength in mol/L or % w/v.',
        ),
      );
    if (perMole) {
      if (pure && !substance) substance = dividedBy(pure, perMole);
      else if (substance && !pure) pure = times(substance, perMole);
    }
  }
  if (amount.dimension === 'amount' && pure) {
    if (concentration) volume = dividedBy(substance!, concentration);
    else if (perVolume) volume = dividedBy(pure, perVolume);
    else {
      mass = share ? dividedBy(pure, share) : pure;
      if (mass && rho) volume = dividedBy(mass, rho);
    }
    if (volume && rho && !mass) mass = times(volume, rho);
  }
  if (!formula) missing.push(fault('formula-missing', `Nothing says what ${name} is made of.`, 'Give its formula.'));
  return { id, name, formula, excess: false, substance, pure, mass, volume, molarMass: perMole, missing };
}

/**
 * How much stuff holds a given amount of the pure substance: the way back from moles to grams and millilitres.
 * @example stuffFor(exact('0.05'), { id: 'acid', name: 'HCl', formula, strength }) // volume 25 mL at 2 mol/L
 */
export function stuffFor(
  substance: Decimal,
  measure: Omit<Measure, 'amount'>,
): Pick<Taken, 'mass' | 'volume' | 'pure' | 'missing'> {
  const amount: Quantity = {
    written: `${substance} mol`,
    dimension: 'amount',
    value: substance,
    unit: 'mol',
    base: substance,
    baseUnit: 'mol',
    resolution: exact('1e-30'),
  };
  const { mass, volume, pure, missing } = take({ ...measure, amount });
  return { mass, volume, pure, missing };
}
