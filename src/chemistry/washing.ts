// What washing leaves of a dissolved salt in a cake that keeps some of the liquor each time.
import { exact, isPositive, one, type Decimal } from './exact.js';

/** Washings that are alike. */
export interface WashesAlike {
  /** mL of one wash. */
  readonly volume: Decimal;
  /** mL of liquor that the cake keeps each time. */
  readonly held: Decimal;
  readonly times: number;
}

const atMostAll = (share: Decimal): Decimal => (share.gt(1) ? one : share);

/**
 * Share of a dissolved salt that is left, 0 to 1, at best: each wash mixes fully, and nothing clings to the solid.
 * held₀/liquor after the first pouring off, and held/(held + volume) after each wash; the first washes’ `held` is what
 * the cake keeps of the liquor. Undefined without a wash or a liquor.
 * Source: W. C. Blanchard, J. Phelan, Synthetic inorganic chemistry, washing by decantation; the share (u/(u + v))ⁿ in
 * L. Waldbauer, N. Cortelyou, J. Chem. Educ., Optimum volume for a wash portion.
 * @param liquor mL before the first pouring off
 * @example shareLeftByWashing(exact(1000), [{ volume: exact(800), held: exact(200), times: 2 }])?.toNumber() // 0.008
 */
export function shareLeftByWashing(liquor: Decimal, washes: readonly WashesAlike[]): Decimal | undefined {
  const [first] = washes;
  if (!first || !isPositive(liquor)) return undefined;
  return washes.reduce(
    (share, { volume, held, times }) => {
      const both = held.plus(volume);
      return both.isZero() ? share : share.times(exact(held.div(both)).pow(times));
    },
    atMostAll(first.held.div(liquor)),
  );
}
