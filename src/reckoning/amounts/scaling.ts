// Portions as they can be weighed or measured out: scaled, filled in with what a reaction asks for, rounded to the
// balance.
import { exact, scaled, type Decimal, type Quantity, type UncertainDecimal } from '../../chemistry/index.js';
import { stuffFor, type Portion, type ResolvedReagent } from '../../reagents/index.js';

/** Steps of the vessels of a small bench, mL. Common practice, no source. */
function volumeStep(value: Decimal): Decimal {
  if (value.lt(1)) return exact('0.01');
  return value.lt(100) ? exact('0.1') : exact('1');
}

const inBaseUnit = (dimension: Quantity['dimension'], unit: string, value: Decimal, step: Decimal): Quantity => {
  const rounded = value.div(step).toDecimalPlaces(0).times(step);
  return {
    written: `${rounded.toFixed(step.decimalPlaces())} ${unit}`,
    dimension,
    value: rounded,
    unit,
    base: rounded,
    baseUnit: unit,
    resolution: step,
  };
};

/**
 * The same portion, so many times as large.
 * @param step smallest step of the balance, g
 */
export function scaledPortion(portion: Portion, factor: Decimal, step: Decimal): Portion {
  const { amount } = portion;
  if (!amount || amount.dimension === 'excess') return portion;
  const value = amount.base.times(factor);
  switch (amount.dimension) {
    case 'mass':
      return { ...portion, amount: inBaseUnit('mass', 'g', value, step) };
    case 'volume':
      return { ...portion, amount: inBaseUnit('volume', 'mL', value, volumeStep(value)) };
    case 'drops':
      return { ...portion, amount: inBaseUnit('drops', 'drops', value, exact(1)) };
    default:
      return portionOf(portion, value, step);
  }
}

/** A reagent as it is, so many times as much of it: as danger is judged, without rounding to a balance. */
export function scaledReagent(reagent: ResolvedReagent, factor: Decimal): ResolvedReagent {
  const { taken } = reagent;
  const times = (one: UncertainDecimal | undefined): UncertainDecimal | undefined => one && scaled(one, factor);
  return {
    ...reagent,
    taken: {
      ...taken,
      substance: times(taken.substance),
      pure: times(taken.pure),
      mass: times(taken.mass),
      volume: times(taken.volume),
      molAtMost: taken.molAtMost?.times(factor),
    },
  };
}

/**
 * A portion that holds so many moles, by mass or, for a solution by volume, by volume.
 * @param step smallest step of the balance, g
 */
export function portionOf(portion: Portion, mol: Decimal, step: Decimal): Portion {
  const { mass, volume } = stuffFor(mol, portion);
  const { strength, density } = portion;
  const byVolume = strength !== undefined && (strength.dimension !== 'mass-percent' || density !== undefined);
  if (volume && (byVolume || !mass))
    return { ...portion, amount: inBaseUnit('volume', 'mL', volume.value, volumeStep(volume.value)) };
  return mass ? { ...portion, amount: inBaseUnit('mass', 'g', mass.value, step) } : portion;
}
