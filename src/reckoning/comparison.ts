// Whether samples differ in yield: single samples by weighing alone, replicates by their scatter.
import {
  Decimal,
  expandedUncertainty,
  minus,
  contributionsFrom,
  roundToUncertainty,
  sampleStatistics,
  singleAgainstSample,
  welch,
  type UncertainDecimal,
} from '../chemistry/index.js';
import { figure } from './figures.js';
import type { Compared, Comparison, Figure } from './contracts.js';

/** A sample's result that can be compared. */
export interface Result {
  readonly sample: string;
  readonly replicateOf?: string;
  readonly percentYield?: UncertainDecimal;
  readonly obtained?: UncertainDecimal;
}

const digits = (value: number, places: number): string => value.toFixed(places).replace('-', '−');
const named = (samples: readonly string[]): string =>
  samples.length === 1 ? samples[0]! : `${samples.slice(0, -1).join(', ')} and ${samples.at(-1)!}`;
const shownP = (p: number): string => (p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`);
const byWeighing = (input: string): boolean => input.startsWith('reading:');

function groups(results: readonly Result[]): readonly (readonly Result[])[] {
  const byRoot = new Map<string, Result[]>();
  const parents = new Map(results.map(({ sample, replicateOf }) => [sample, replicateOf]));
  for (const result of results) {
    let root = result.sample;
    for (
      let step = 0;
      step < results.length && parents.get(root) !== undefined && parents.has(parents.get(root)!);
      step += 1
    )
      root = parents.get(root)!;
    byRoot.set(root, [...(byRoot.get(root) ?? []), result]);
  }
  return [...byRoot.values()];
}

/**
 * Compares samples two by two: all pairs of up to four preparations, each with the first beyond that.
 * Limit for a difference: 95 % (expanded uncertainty k = 2, or p < 0.05).
 * Source: GUM 6.2 for single samples; Welch's test for replicates; for one against several, the t test of a single case
 * against a small sample (J. R. Crawford, D. C. Howell, Clin. Neuropsychol. 12 (1998) 482, from memory).
 */
export function compare(results: readonly Result[]): readonly Comparison[] {
  const measure = results.filter(({ percentYield }) => percentYield).length >= 2 ? 'percent yield' : 'mass obtained';
  const value = (result: Result): UncertainDecimal | undefined =>
    measure === 'percent yield' ? result.percentYield : result.obtained;
  const all = groups(results.filter((result) => value(result)));
  const pairs: [readonly Result[], readonly Result[]][] = [];
  all.forEach((first, index) =>
    all.slice(index + 1).forEach((second) => {
      if (all.length <= 4 || index === 0) pairs.push([first, second]);
    }),
  );
  return pairs.map(([first, second]) => pair(first, second, measure, value));
}

function pair(
  first: readonly Result[],
  second: readonly Result[],
  measure: Comparison['measure'],
  value: (result: Result) => UncertainDecimal | undefined,
): Comparison {
  const unit = measure === 'percent yield' ? 'percentage points' : 'g';
  const shownUnit = measure === 'percent yield' ? '%' : 'g';
  const numbers = (group: readonly Result[]): number[] => group.map((result) => value(result)!.value.toNumber());
  const compared = (group: readonly Result[]): Compared => {
    const { mean, standardDeviation: deviation, n } = sampleStatistics(numbers(group));
    const places = measure === 'percent yield' ? 1 : 3;
    return {
      samples: group.map(({ sample }) => sample),
      mean: `${digits(mean, places)} ${shownUnit}`,
      ...(n > 1 && { deviation: digits(deviation, measure === 'percent yield' ? 2 : 4) }),
      n,
    };
  };
  const [a, b] = [compared(first), compared(second)];
  const what = measure === 'percent yield' ? 'yield' : 'mass';
  if (first.length === 1 && second.length === 1) {
    const apart = minus(
      contributionsFrom(value(first[0]!)!, byWeighing),
      contributionsFrom(value(second[0]!)!, byWeighing),
    );
    const uncertainty = expandedUncertainty(apart);
    const differs = apart.value.abs().gt(uncertainty);
    const size = roundToUncertainty(apart.value.abs(), uncertainty, 2);
    const [more, less] = apart.value.isNegative() ? [b, a] : [a, b];
    const amount = `${size.value}${size.uncertainty === undefined ? '' : ` ± ${size.uncertainty}`} ${unit}`;
    return {
      a,
      b,
      measure,
      basis: 'weighing',
      difference: figure(apart, measure === 'percent yield' ? '%' : 'g'),
      differs,
      verdict: differs
        ? `Sample ${named(more.samples)} gave ${amount} more than sample ${named(less.samples)}, which is more than weighing alone can explain.`
        : `The ${what} of samples ${named(a.samples)} and ${named(b.samples)} cannot be told apart by weighing: they are ${amount} apart.`,
      leavesOut:
        'Only the uncertainty of weighing and measuring out is counted. How much the preparation scatters from one run to the next, losses on paper and glass, and water left in the product are not; single samples cannot tell, repeats could.',
    };
  }
  const [x, y] = [numbers(first), numbers(second)];
  const difference = sampleStatistics(x).mean - sampleStatistics(y).mean;
  const places = measure === 'percent yield' ? 1 : 3;
  const shownDifference: Figure = {
    value: new Decimal(difference.toFixed(8)).toFixed(),
    unit: shownUnit,
    text: `${digits(difference, places)} ${unit}`,
  };
  const means = [a, b]
    .map(
      (side) =>
        `${named(side.samples)}: mean ${side.mean}${side.deviation === undefined ? '' : `, s ${side.deviation}`}, n ${side.n}`,
    )
    .join('; ');
  const leavesOut =
    'Errors that all repeats share, such as a purity that is not what the label says or water left in every batch, do not show in their scatter.';
  if (first.length > 1 && second.length > 1) {
    const test = welch(x, y);
    if (!test)
      return {
        a,
        b,
        measure,
        basis: 'replicates',
        difference: shownDifference,
        differs: false,
        verdict: `The repeats do not scatter at all (${means}), so no test of their difference can be made.`,
        leavesOut,
      };
    const differs = test.p < 0.05;
    return {
      a,
      b,
      measure,
      basis: 'replicates',
      difference: shownDifference,
      differs,
      t: test.t.toFixed(3),
      degreesOfFreedom: test.degreesOfFreedom.toFixed(2),
      p: test.p.toPrecision(3),
      verdict: differs
        ? `The ${what} differs between the preparations (${means}; Welch’s t = ${digits(test.t, 2)}, ${test.degreesOfFreedom.toFixed(1)} degrees of freedom, ${shownP(test.p)}): a difference as large as this would seldom come about by chance.`
        : `No difference in ${what} is shown (${means}; Welch’s t = ${digits(test.t, 2)}, ${test.degreesOfFreedom.toFixed(1)} degrees of freedom, ${shownP(test.p)}); with so few repeats a small one could still be there.`,
      leavesOut,
    };
  }
  const [lone, several] = first.length === 1 ? [x[0]!, y] : [y[0]!, x];
  const test = singleAgainstSample(lone, several);
  if (!test)
    return {
      a,
      b,
      measure,
      basis: 'single against replicates',
      difference: shownDifference,
      differs: false,
      verdict: `The repeats do not scatter at all (${means}), so the single sample cannot be judged against them.`,
      leavesOut,
    };
  const { t, degreesOfFreedom, p } = test;
  const differs = p < 0.05;
  const single = named(first.length === 1 ? a.samples : b.samples);
  return {
    a,
    b,
    measure,
    basis: 'single against replicates',
    difference: shownDifference,
    differs,
    t: t.toFixed(3),
    degreesOfFreedom: String(degreesOfFreedom),
    p: p.toPrecision(3),
    verdict: differs
      ? `Sample ${single} lies outside what the repeats would lead one to expect (${means}; t = ${digits(t, 2)}, ${degreesOfFreedom} degrees of freedom, ${shownP(p)}).`
      : `Sample ${single} lies within what the repeats would lead one to expect (${means}; t = ${digits(t, 2)}, ${degreesOfFreedom} degrees of freedom, ${shownP(p)}).`,
    leavesOut: `${leavesOut} One of the two was made only once.`,
  };
}
