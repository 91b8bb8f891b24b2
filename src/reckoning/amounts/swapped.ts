// A yield that the reaction cannot give: whether two amounts that were written the wrong way round would explain it.
import {
  findLimitingReagent,
  nearestNumber,
  percentYield,
  theoreticalYield,
  type Equation,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { takePortion } from '../../reagents/index.js';
import type { Ingredient } from '../ingredients.js';
import { inReaction } from './limiting.js';
import type { PotAmounts } from './pot-amounts.js';

/** Two reagents whose amounts would explain it, were they swapped, and the yield that it would then be. */
export interface SwappedAmounts {
  readonly first: string;
  readonly second: string;
  readonly percent: string;
}

/** A yield below this explains nothing. Common practice, no source. */
const leastPercent = 40;

/** Per cent that was obtained if these had each the amount of the other; undefined where that cannot be told. */
function percentIfSwapped(
  equation: Equation,
  { partners, product }: PotAmounts,
  [one, other]: readonly [Ingredient, Ingredient],
  obtained: UncertainDecimal,
): UncertainDecimal | undefined {
  const takens = partners.map((partner) => {
    if (partner !== one && partner !== other) return partner.taken;
    const amount = (partner === one ? other : one).measure.amount;
    return takePortion({ ...partner.measure, ...(amount && { amount }) });
  });
  const { extent, amountUnknown } = findLimitingReagent(equation, takens);
  const mass = extent && amountUnknown.length === 0 && product ? theoreticalYield(extent, product).mass : undefined;
  const share = mass?.value.gt(0) ? percentYield(obtained, mass) : undefined;
  return share?.ok ? share.value : undefined;
}

/**
 * The first two weighed reactants of which the amounts, swapped, make a yield above 100 % one that the reaction can
 * give; undefined where there are none.
 * @param obtained g
 */
export function amountsSwapped(
  equation: Equation,
  pot: PotAmounts,
  obtained: UncertainDecimal,
): SwappedAmounts | undefined {
  const weighed = pot.partners.filter(
    ({ measure, taken }) =>
      measure.amount?.dimension === 'mass' && inReaction(taken, pot.limitation).supplies.length > 0,
  );
  for (const [at, one] of weighed.entries())
    for (const other of weighed.slice(at + 1)) {
      const percent = percentIfSwapped(equation, pot, [one, other], obtained);
      const value = percent === undefined ? Number.NaN : nearestNumber(percent.value);
      if (percent && value >= leastPercent && value <= 100)
        return { first: one.name, second: other.name, percent: `about ${value.toFixed(0)} %` };
    }
  return undefined;
}
