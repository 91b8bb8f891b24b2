// How much of a substance was taken: from a mass, a volume, an amount or drops, with the strength of the stuff, to mol.
import {
  dividedBy,
  exact,
  isPositive,
  molarMass,
  molarMassBounds,
  reading,
  rectangular,
  times,
  weighingInput,
  withUncertainty,
  type Decimal,
  type Formula,
  type Quantity,
  type UncertainDecimal,
  type MissingFault,
} from '../chemistry/index.js';
import { dropsTable } from '../tables/compiled/reagents/drops.js';
import type { Doubt, Portion, ResolvedStrength, TakenPortion } from './contracts.js';
import { waterEnds } from './hydrates.js';
import { resolveStrength } from './strength.js';

interface Drop {
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  readonly source: string;
}
let drop: Drop | undefined;
/** A drop of unstated size, mL. */
function usualDrop(): Drop {
  if (!drop) {
    const [row] = dropsTable();
    if (!row) throw new Error('drops.csv has no row');
    drop = { low: exact(row.low), usual: exact(row.usual), high: exact(row.high), source: row.source_title };
  }
  return drop;
}

const fault = <Code extends MissingFault['code']>(code: Code, message: string, cure: string) => ({
  code,
  message,
  cure,
});

interface Measured {
  readonly mass?: UncertainDecimal;
  readonly volume?: UncertainDecimal;
  readonly substance?: UncertainDecimal;
  readonly doubts: readonly Doubt[];
}

/** What stands on the balance or in the vessel, in g, mL or mol. */
function asMeasured(amount: Quantity, { id, stuff = id, name, dropVolume, balance }: Portion): Measured {
  const read = reading(amount, weighingInput(id), balance);
  switch (amount.dimension) {
    case 'mass':
      return { mass: read, doubts: [] };
    case 'volume':
      return { volume: read, doubts: [] };
    case 'amount':
      return { substance: read, doubts: [] };
    case 'drops': {
      if (dropVolume) return { volume: times(read, reading(dropVolume, `drop:${stuff}`)), doubts: [] };
      const { usual, low, high, source } = usualDrop();
      const widest = [usual.minus(low), high.minus(usual)].reduce((a, b) => (a.gt(b) ? a : b));
      const facts = { name, drop: usual.toFixed(), low: low.toFixed(), high: high.toFixed(), source };
      return {
        volume: times(read, withUncertainty(usual, rectangular(widest), `drop:${stuff}`)),
        doubts: [{ code: 'drop-volume-assumed', facts }],
      };
    }
    default:
      return { doubts: [] };
  }
}

interface Held {
  readonly mass?: UncertainDecimal;
  readonly volume?: UncertainDecimal;
  readonly substance?: UncertainDecimal;
  readonly pure?: UncertainDecimal;
}

/** Whether a strength was stated for a volume: what is stated by volume is measured by volume, by mass weighed. */
const isStatedByVolume = ({ basis, stated }: ResolvedStrength): boolean =>
  basis === 'stated' && stated !== undefined && stated.dimension !== 'mass-percent';

/** What a mass or a volume of stuff of this strength holds. */
function contents({ mass, volume }: Measured, strength: ResolvedStrength): Held {
  const { density } = strength;
  return heldIn(
    mass ?? (volume && density && times(volume, density)),
    volume ?? (mass && density && dividedBy(mass, density)),
    strength,
  );
}

function heldIn(
  mass: UncertainDecimal | undefined,
  volume: UncertainDecimal | undefined,
  strength: ResolvedStrength,
): Held {
  const { massFraction, massConcentration, molarConcentration, stated } = strength;
  const byMass = (): UncertainDecimal | undefined => mass && massFraction && times(mass, massFraction);
  const byVolume = (): UncertainDecimal | undefined => volume && massConcentration && times(volume, massConcentration);
  if (!isStatedByVolume(strength)) return { mass, volume, pure: byMass() ?? byVolume() };
  if (volume && molarConcentration && stated?.dimension === 'concentration')
    return { mass, volume, substance: times(volume, molarConcentration) };
  return { mass, volume, pure: byVolume() ?? byMass() };
}

/** The way back: how much stuff holds so much of the substance. */
function stuffOf(substance: UncertainDecimal, pure: UncertainDecimal | undefined, strength: ResolvedStrength): Held {
  const { density, massFraction, massConcentration, molarConcentration } = strength;
  const byMass = strength.basis !== 'stated' || strength.stated?.dimension === 'mass-percent';
  const mass = byMass && pure && massFraction ? dividedBy(pure, massFraction) : undefined;
  if (mass) return { mass, volume: density && dividedBy(mass, density) };
  const ofMoles = molarConcentration && dividedBy(substance, molarConcentration);
  const volume = ofMoles ?? (pure && massConcentration && dividedBy(pure, massConcentration));
  return { volume, mass: volume && density && times(volume, density) };
}

/** Molar mass at the least, whatever the formula leaves open: that of the dry salt for `CaCl2·xH2O`. */
function leastMolarMass(formula: Formula | undefined): Decimal | undefined {
  const bounds = formula && molarMassBounds(formula);
  return bounds?.ok && isPositive(bounds.value.low) ? bounds.value.low : undefined;
}

const greaterOf = (a: Decimal | undefined, b: Decimal | undefined): Decimal | undefined =>
  a && b && b.gt(a) ? b : (a ?? b);

/** mol in a gram and in a millilitre of the strongest that it can be. */
function strongest(strength: ResolvedStrength, leastPerMole: Decimal | undefined): MostInIt {
  const before = strongestOf.get(strength);
  if (before && before.leastPerMole === leastPerMole) return before.most;
  const most = findStrongest(strength, leastPerMole);
  strongestOf.set(strength, { leastPerMole, most });
  return most;
}

/** All portions of one strength ask for it. */
const strongestOf = new WeakMap<
  ResolvedStrength,
  { readonly leastPerMole: Decimal | undefined; readonly most: MostInIt }
>();

function findStrongest({ atMost }: ResolvedStrength, leastPerMole: Decimal | undefined): MostInIt {
  const { massFraction, molarConcentration, massConcentration, density } = atMost;
  const ofShare = massFraction && leastPerMole && massFraction.div(leastPerMole);
  const ofContent = massConcentration && leastPerMole && massConcentration.div(leastPerMole);
  const perMillilitre = molarConcentration ?? ofContent ?? (ofShare && density && ofShare.times(density));
  const byVolume = density && isPositive(density) ? perMillilitre?.div(density) : undefined;
  return { perGram: ofShare ?? byVolume, perMillilitre };
}

interface MostInIt {
  readonly perGram?: Decimal;
  readonly perMillilitre?: Decimal;
}

const product = (a: Decimal | undefined, b: Decimal | undefined): Decimal | undefined => a && b && a.times(b);

/** mol at most in what was measured. */
function molAtMost(amount: Quantity, portion: Portion, { perGram, perMillilitre }: MostInIt): Decimal | undefined {
  const most = amount.high ?? (amount.tolerance ? amount.base.plus(amount.tolerance) : amount.base);
  switch (amount.dimension) {
    case 'amount':
      return most;
    case 'mass':
      return product(most, perGram);
    case 'volume':
      return product(most, perMillilitre);
    default:
      return product(dropsAtMost(amount, portion), perMillilitre);
  }
}

const dropsAtMost = (amount: Quantity, { dropVolume }: Portion): Decimal | undefined =>
  amount.dimension === 'drops'
    ? amount.base.times(dropVolume ? (dropVolume.high ?? dropVolume.base) : usualDrop().high)
    : undefined;

const strengthMissing = (name: string): MissingFault =>
  fault(
    'strength-missing',
    `${name} is sold at many strengths, and nothing says which this is.`,
    'Give its strength in %, % w/v or mol/L, or its density; in an entry beside its amount, of a lot too: ' +
      '{ lot: 80/A, strength: 0.50 mol/L, amount: 40.0 mL }.',
  );

const densityMissing = (name: string, weighed: boolean): MissingFault =>
  weighed
    ? fault(
        'density-missing',
        `${name} was weighed, but its strength is by volume.`,
        'Give the density of the solution.',
      )
    : fault(
        'density-missing',
        `${name} was measured by volume, and nothing says what it weighs.`,
        'Give its density (of a powder by the spoon its bulk density, as it lies), or its strength in mol/L or % w/v.',
      );

const dropVolumeMissing = (name: string): MissingFault =>
  fault(
    'drop-volume-missing',
    `Nothing says how large a drop of ${name} is.`,
    'Give the drop’s volume, e.g. drop-volume: 0.05 mL.',
  );

/** What would be needed to tell an amount of substance, or to tell it well. */
function missingFor(portion: Portion, held: Held, strength: ResolvedStrength): readonly MissingFault[] {
  const { name, formula, amount, dropVolume } = portion;
  const unknownFormula = formula
    ? []
    : [fault('formula-missing', `Nothing says what ${name} is made of.`, 'Give its formula.')];
  if (amount?.dimension === 'drops' && !dropVolume) return [dropVolumeMissing(name), ...unknownFormula];
  const told = held.pure ?? held.substance;
  if (told || amount?.dimension === 'amount') return unknownFormula;
  const notGiven = strength.basis === 'not-given';
  return [notGiven ? strengthMissing(name) : densityMissing(name, amount?.dimension === 'mass'), ...unknownFormula];
}

/** What was measured out in every unit that can be told. */
function inEveryUnit(measured: Measured, strength: ResolvedStrength, perMole: UncertainDecimal | undefined): Held {
  if (measured.substance) {
    const pure = perMole && times(measured.substance, perMole);
    return { substance: measured.substance, pure, ...stuffOf(measured.substance, pure, strength) };
  }
  const held = contents(measured, strength);
  const { mass, volume, pure, substance } = held;
  return {
    mass,
    volume,
    substance: substance ?? (pure && perMole && dividedBy(pure, perMole)),
    pure: pure ?? (substance && perMole && times(substance, perMole)),
  };
}

/** The strength of what was measured out. */
export function strengthOf({ id, name, stuff = id, amount, ...said }: Portion): ResolvedStrength {
  const { formula, strength, purity, density, named, dissolved, asPoured } = said;
  const byVolume = amount?.dimension === 'volume' || amount?.dimension === 'drops';
  return resolveStrength({
    stuff,
    formula,
    strength,
    purity,
    density,
    named,
    dissolved,
    byVolume,
    asPoured,
    called: name,
  });
}

/**
 * What asks for the water of a hydrate says between what the amount lies: from the dry salt to the highest that is
 * known.
 */
function withItsEnds<F extends MissingFault>(fault: F, formula: Formula | undefined, amount: Quantity | undefined): F {
  const ends = formula && amount?.dimension === 'mass' ? waterEnds(formula) : undefined;
  const [dry, hydrate] = [ends && molarMass(ends.dry), ends && molarMass(ends.hydrate)];
  if (!ends || !dry?.ok || !hydrate?.ok) return fault;
  const millimoles = (perMole: Decimal): string =>
    amount!.base.div(perMole).times(1000).toSignificantDigits(3).toFixed();
  const [most, least] = [dry, hydrate].map(({ value }) => millimoles(value.middle.value));
  return {
    ...fault,
    message: `${fault.message} With none to ${ends.most} H2O, ${amount!.written} of it are ${least} to ${most} mmol.`,
  };
}

/**
 * Moles, masses and volumes of a portion. n = m·w/M from a mass, n = c·V from a volume; the strength is that of
 * `resolveStrength`. A drop of unstated size is taken as 0.05 mL, with all the doubt that drops have.
 * @param strength of the portion, where it is known
 * @example takePortion({ id: 'a', name: 'HCl', formula, amount, strength }).substance // mol
 */
export function takePortion(portion: Portion, strength: ResolvedStrength = strengthOf(portion)): TakenPortion {
  const { id, name, formula, amount } = portion;
  const mass = formula && molarMass(formula);
  const perMole = mass?.ok && isPositive(mass.value.middle.value) ? mass.value.middle : undefined;
  const unweighable = mass && !mass.ok ? [withItsEnds(mass.fault, formula, amount)] : [];
  const none = { id, name, formula, strength, doubts: [] };
  if (!amount) return { ...none, excess: false, missing: [] };
  if (amount.dimension === 'excess') return { ...none, excess: true, molarMass: perMole, missing: unweighable };
  const measured = asMeasured(amount, portion);
  const held = inEveryUnit(measured, strength, perMole);
  const most = molAtMost(amount, portion, strongest(strength, leastMolarMass(formula)));
  return {
    id,
    name,
    formula,
    strength,
    mass: held.mass,
    volume: held.volume,
    substance: held.substance,
    pure: held.pure,
    excess: false,
    molarMass: perMole,
    molAtMost: greaterOf(most, held.substance?.value),
    missing: [...unweighable, ...missingFor(portion, held, strength)],
    doubts: measured.doubts,
  };
}

/**
 * How much stuff holds a given amount of the substance: the way back from moles to grams and millilitres.
 * @example stuffFor(exact('0.05'), { id: 'acid', name: 'HCl', formula, strength }) // volume 25 mL at 2 mol/L
 */
export function stuffFor(
  substance: Decimal,
  portion: Omit<Portion, 'amount'>,
): Pick<TakenPortion, 'mass' | 'volume' | 'pure' | 'missing'> {
  const amount: Quantity = {
    written: `${substance} mol`,
    dimension: 'amount',
    value: substance,
    unit: 'mol',
    base: substance,
    baseUnit: 'mol',
    resolution: exact('1e-30'),
  };
  const { mass, volume, pure, missing } = takePortion({ ...portion, amount });
  return { mass, volume, pure, missing };
}
