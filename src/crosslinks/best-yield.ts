// The best yield of several samples. More than the pure pigment can weigh is no good yield but a wet or impure product:
// it is never the best while another sample has a yield, and it is marked where it stands alone.
// Repeats of one recipe give one yield, the mean of them: the luckiest of them is no result.
import { sampleStatistics } from '../chemistry/index.js';
import type { RowAmounts } from '../reckoning/contracts.js';
import { liesAbove100 } from '../reckoning/figures.js';
import { preparationsOf } from '../reckoning/repeats.js';

export interface BestYield {
  /** The sample, or all of those that repeat one recipe. */
  readonly samples: readonly string[];
  /** As readers see it: `95.8 ± 0.6 %`; `92.2 %, mean of 3, s 1.5`. */
  readonly text: string;
  /** Percent, unrounded. */
  readonly percent: number;
  /** Above 100 % by more than its doubt. */
  readonly over: boolean;
}

/**
 * Percent yield to rank by, the best highest, at most 100; what lies above that by more than its doubt comes last, the
 * nearer to 100 % the better.
 */
export const yieldRank = ({ percent, over }: Pick<BestYield, 'percent' | 'over'>): number =>
  over ? -percent : Math.min(percent, 100);

/** Mean and scatter of repeats: `92.2 %, mean of 3, s 1.5`. */
const meanText = (mean: number, deviation: number, n: number): string =>
  `${mean.toFixed(1)} %, mean of ${n}, s ${deviation.toFixed(1)}`;

/** The yield of one preparation: of a sample, or the mean of a sample and its repeats. */
function yieldOf(preparation: readonly RowAmounts[]): BestYield {
  const samples = preparation.map(({ sample }) => sample);
  const yields = preparation.map(({ percentYield }) => Number(percentYield!.value));
  if (preparation.length === 1) {
    const only = preparation[0]!.percentYield!;
    return { samples, text: only.text, percent: yields[0]!, over: liesAbove100(only) };
  }
  const { mean, standardDeviation, n } = sampleStatistics(yields);
  const over = mean > 100 && preparation.some(({ percentYield }) => liesAbove100(percentYield!));
  return { samples, text: meanText(mean, standardDeviation, n), percent: mean, over };
}

/**
 * The yield of each preparation that has one, in the order in which they were written.
 * @example yieldsOf(samples).map(({ text }) => text) // ['92.2 %, mean of 3, s 1.5', …]
 */
export const yieldsOf = (samples: readonly RowAmounts[]): readonly BestYield[] =>
  preparationsOf(samples, ({ percentYield }) => percentYield !== undefined).map(yieldOf);

/**
 * @param samples in their order; the first of equals is the best
 * @returns undefined where no sample has a percent yield
 * @example bestYield(samples)?.text // '95.8 ± 0.6 %', …
 */
export const bestYield = (samples: readonly RowAmounts[]): BestYield | undefined =>
  yieldsOf(samples).reduce<BestYield | undefined>(
    (best, one) => (best && yieldRank(best) >= yieldRank(one) ? best : one),
    undefined,
  );
