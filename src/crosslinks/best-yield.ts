// The best yield of several samples. More than the pure pigment can weigh is no good yield but a wet or impure product:
// it is never the best while another sample has a yield, and it is marked where it stands alone.
import type { RowAmounts } from '../reckoning/contracts.js';

export interface BestYield {
  readonly sample: string;
  /** As readers see it: `95.8 ± 0.6 %`. */
  readonly text: string;
  /** Percent, unrounded. */
  readonly percent: number;
  /** Above 100 %. */
  readonly over: boolean;
}

/**
 * Percent yield to rank by, the best highest: up to 100 % as it is, above that last, the nearer to 100 % the better.
 */
export const yieldRank = (percent: number): number => (percent <= 100 ? percent : -percent);

/**
 * @param samples in their order; the first of equals is the best
 * @returns undefined where no sample has a percent yield
 * @example bestYield(samples)?.text // '95.8 ± 0.6 %'
 */
export function bestYield(samples: readonly RowAmounts[]): BestYield | undefined {
  const known = samples.flatMap(({ sample, percentYield }): BestYield[] => {
    if (!percentYield) return [];
    const percent = Number(percentYield.value);
    return [{ sample, text: percentYield.text, percent, over: percent > 100 }];
  });
  return known.reduce<BestYield | undefined>(
    (best, one) => (best && yieldRank(best.percent) >= yieldRank(one.percent) ? best : one),
    undefined,
  );
}
