// The spread of a yield where weighing cannot tell which reagent limits: bounds that hold whichever of them it is.
import {
  exact,
  expandedUncertainty,
  molarMass,
  withoutUncertainty,
  type Decimal,
  type LimitingReagent,
  type Term,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { SampleAmounts } from './contracts.js';
import { figure, type Figure } from './figures.js';

interface Bounds {
  readonly low: Decimal;
  readonly high: Decimal;
}

const least = (values: readonly Decimal[]): Decimal => values.reduce((a, b) => (b.lt(a) ? b : a));

/** mol of reaction: the smallest of what each of those that may limit allows, at its lower and at its upper end. */
function extentBounds({ limiting, possiblyLimiting }: LimitingReagent): Bounds | undefined {
  const extents = [limiting, ...possiblyLimiting].flatMap((one) => one?.extent ?? []);
  if (possiblyLimiting.length === 0 || extents.length < 2) return undefined;
  const ends = (sign: 1 | -1): Decimal[] =>
    extents.map((extent) => extent.value.plus(exact(expandedUncertainty(extent).toFixed()).times(sign)));
  return { low: least(ends(-1)), high: least(ends(1)) };
}

const shown = ({ low, high }: Bounds, unit: string): { readonly low: Figure; readonly high: Figure } => {
  const rounded = (value: Decimal): Figure => figure(withoutUncertainty(value.toSignificantDigits(4)), unit);
  return { low: rounded(low), high: rounded(high) };
};

function percentBounds({ low, high }: Bounds, obtained: UncertainDecimal): Bounds | undefined {
  if (!low.gt(0)) return undefined;
  const half = exact(expandedUncertainty(obtained).toFixed());
  return {
    low: obtained.value.minus(half).div(high).times(100),
    high: obtained.value.plus(half).div(low).times(100),
  };
}

/**
 * Between which bounds theoretical and percent yield lie, each with about 95 %, where it is undecided what limits;
 * undefined where it is decided, or the product has no molar mass.
 */
export function undecidedYield(
  product: Term | undefined,
  limitation: LimitingReagent,
  obtained: UncertainDecimal | undefined,
): SampleAmounts['undecided'] {
  const extent = extentBounds(limitation);
  const perMole = product && molarMass(product.formula);
  if (!extent || !product || !perMole?.ok) return undefined;
  const each = perMole.value.middle.value.times(product.coefficient);
  const possible = { low: extent.low.times(each), high: extent.high.times(each) };
  const percent = obtained && percentBounds(possible, obtained);
  const theoreticalYield = shown(possible, 'g');
  const percentYield = percent && shown(percent, '%');
  const ofYield = percentYield ? `, and the yield between ${percentYield.low.text} and ${percentYield.high.text}` : '';
  return {
    theoreticalYield,
    ...(percentYield && { percentYield }),
    words:
      'Whichever of them it is, the theoretical yield lies between ' +
      `${theoreticalYield.low.text} and ${theoreticalYield.high.text}${ofYield} (bounds, about 95 %).`,
  };
}
