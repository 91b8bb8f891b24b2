// Whether samples differ in yield: single samples by weighing alone, replicates by their scatter.
import {
  contributionsFrom,
  Decimal,
  expandedUncertainty,
  minus,
  roundToUncertainty,
  sampleStatistics,
  singleAgainstSample,
  welch,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { Compared, Comparison, Figure } from './contracts.js';
import { figure } from './figures.js';

/** A sample's result that can be compared. */
export interface Result {
  readonly sample: string;
  readonly replicateOf?: string;
  readonly percentYield?: UncertainDecimal;
  readonly obtained?: UncertainDecimal;
  /** Inputs of its uncertainty that are readings of a balance or a measuring vessel. */
  readonly weighings: ReadonlySet<string>;
}

/** What is compared, and how it is shown. */
interface Measure {
  readonly measure: Comparison['measure'];
  readonly of: (result: Result) => UncertainDecimal | undefined;
  /** `yield` */
  readonly noun: string;
  readonly unit: string;
  /** Of a difference. */
  readonly differenceUnit: string;
  readonly places: number;
}

const percentYield: Measure = {
  measure: 'percent yield',
  of: (result) => result.percentYield,
  noun: 'yield',
  unit: '%',
  differenceUnit: 'percentage points',
  places: 1,
};
const massObtained: Measure = {
  measure: 'mass obtained',
  of: (result) => result.obtained,
  noun: 'mass',
  unit: 'g',
  differenceUnit: 'g',
  places: 3,
};

/** So many preparations are compared each with each; of more, each only with the first. */
const mostPairwise = 4;

/** A difference is shown below this probability of chance. */
const significance = 0.05;

const digits = (value: number, places: number): string => value.toFixed(places).replace('-', '−');
const named = (samples: readonly string[]): string =>
  samples.length === 1 ? samples[0]! : `${samples.slice(0, -1).join(', ')} and ${samples.at(-1)!}`;
const shownP = (p: number): string => (p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`);

/** The sample that a replicate repeats in the end; a ring of replicates ends where it began. */
function rootOf(sample: string, parents: ReadonlyMap<string, string | undefined>): string {
  let root = sample;
  const passed = new Set([root]);
  for (let parent = parents.get(root); parent !== undefined && parents.has(parent); parent = parents.get(root)) {
    if (passed.has(parent)) return root;
    passed.add(parent);
    root = parent;
  }
  return root;
}

/** Samples with their replicates. */
function preparations(results: readonly Result[]): readonly (readonly Result[])[] {
  const parents = new Map(results.map(({ sample, replicateOf }) => [sample, replicateOf]));
  const byRoot = new Map<string, Result[]>();
  for (const result of results) {
    const root = rootOf(result.sample, parents);
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
  const yields = results.filter((result) => percentYield.of(result)).length;
  const measure = yields >= 2 ? percentYield : massObtained;
  const all = preparations(results.filter((result) => measure.of(result)));
  const firsts = all.length <= mostPairwise ? all : all.slice(0, 1);
  return firsts.flatMap((first, at) => all.slice(at + 1).map((second) => pair(first, second, measure)));
}

const numbersOf = (group: readonly Result[], { of }: Measure): number[] =>
  group.map((result) => of(result)!.value.toNumber());

function compared(group: readonly Result[], measure: Measure): Compared {
  const { mean, standardDeviation, n } = sampleStatistics(numbersOf(group, measure));
  return {
    samples: group.map(({ sample }) => sample),
    mean: `${digits(mean, measure.places)} ${measure.unit}`,
    ...(n > 1 && { deviation: digits(standardDeviation, measure.places + 1) }),
    n,
  };
}

function pair(first: readonly Result[], second: readonly Result[], measure: Measure): Comparison {
  const sides = { a: compared(first, measure), b: compared(second, measure), measure: measure.measure };
  if (first.length === 1 && second.length === 1)
    return { ...sides, ...byWeighing([first[0]!, second[0]!], sides, measure) };
  const numbers = [numbersOf(first, measure), numbersOf(second, measure)] as const;
  const difference = differenceOfMeans(numbers, measure);
  return first.length > 1 && second.length > 1
    ? { ...sides, difference, ...byScatter(numbers, sides, measure) }
    : { ...sides, difference, ...singleByScatter(numbers, sides) };
}

type Sides = Pick<Comparison, 'a' | 'b'>;
type Judged = Omit<Comparison, 'a' | 'b' | 'measure' | 'difference'>;

const weighingLeavesOut =
  'Only the uncertainty of weighing and measuring out is counted. ' +
  'How much the preparation scatters from one run to the ' +
  'next, losses on paper and glass, and water left in the product are not; single samples cannot tell, repeats could.';
const scatterLeavesOut =
  'Errors that all repeats share, such as a purity that is not what the label says or water left in every batch, ' +
  'do not show in their scatter.';

/** Two single samples, told apart only by what weighing and measuring out can be off by. */
function byWeighing(
  [first, second]: readonly [Result, Result],
  { a, b }: Sides,
  measure: Measure,
): Judged & Pick<Comparison, 'difference'> {
  const weighed = (result: Result): UncertainDecimal =>
    contributionsFrom(measure.of(result)!, (input) => result.weighings.has(input));
  const apart = minus(weighed(first), weighed(second));
  const uncertainty = expandedUncertainty(apart);
  const differs = apart.value.abs().gt(uncertainty);
  const size = roundToUncertainty(apart.value.abs(), uncertainty, 2);
  const plusMinus = size.uncertainty === undefined ? '' : ` ± ${size.uncertainty}`;
  const amount = `${size.value}${plusMinus} ${measure.differenceUnit}`;
  const [more, less] = apart.value.isNegative() ? [b, a] : [a, b];
  return {
    basis: 'weighing',
    difference: figure(apart, measure.unit),
    differs,
    verdict: differs
      ? `Sample ${named(more.samples)} gave ${amount} more than sample ${named(less.samples)}, ` +
        'which is more than weighing alone can explain.'
      : `The ${measure.noun} of samples ${named(a.samples)} and ` +
        `${named(b.samples)} cannot be told apart by weighing: ` +
        `they are ${amount} apart.`,
    leavesOut: weighingLeavesOut,
  };
}

type Numbers = readonly [readonly number[], readonly number[]];

function differenceOfMeans([first, second]: Numbers, { unit, differenceUnit, places }: Measure): Figure {
  const difference = sampleStatistics(first).mean - sampleStatistics(second).mean;
  return {
    value: new Decimal(difference.toFixed(8)).toFixed(),
    unit,
    text: `${digits(difference, places)} ${differenceUnit}`,
  };
}

/** `A and B: mean 90.1 %, s 0.42, n 2` */
function meanWords({ samples, mean, deviation, n }: Compared): string {
  const scatter = deviation === undefined ? '' : `, s ${deviation}`;
  return `${named(samples)}: mean ${mean}${scatter}, n ${n}`;
}
const meansWords = ({ a, b }: Sides): string => `${meanWords(a)}; ${meanWords(b)}`;

/** Replicates against replicates. */
function byScatter([first, second]: Numbers, sides: Sides, { noun }: Measure): Judged {
  const common = { basis: 'replicates', leavesOut: scatterLeavesOut } as const;
  const means = meansWords(sides);
  const test = welch(first, second);
  if (!test) {
    const verdict = `The repeats do not scatter at all (${means}), so no test of their difference can be made.`;
    return { ...common, differs: false, verdict };
  }
  const { t, degreesOfFreedom, p } = test;
  const differs = p < significance;
  const told =
    `${means}; Welch’s t = ${digits(t, 2)}, ` + `${degreesOfFreedom.toFixed(1)} degrees of freedom, ${shownP(p)}`;
  return {
    ...common,
    differs,
    t: t.toFixed(3),
    degreesOfFreedom: degreesOfFreedom.toFixed(2),
    p: p.toPrecision(3),
    verdict: differs
      ? `The ${noun} differs between the preparations (${told}): ` +
        'a difference as large as this would seldom come about by chance.'
      : `No difference in ${noun} is shown (${told}); with so few repeats a small one could still be there.`,
  };
}

/** A single sample against replicates. */
function singleByScatter([first, second]: Numbers, sides: Sides): Judged {
  const firstIsSingle = first.length === 1;
  const [single, several] = firstIsSingle ? [first[0]!, second] : [second[0]!, first];
  const means = meansWords(sides);
  const basis = 'single against replicates';
  const test = singleAgainstSample(single, several);
  if (!test) {
    const verdict = `The repeats do not scatter at all (${means}), so the single sample cannot be judged against them.`;
    return { basis, differs: false, verdict, leavesOut: scatterLeavesOut };
  }
  const { t, degreesOfFreedom, p } = test;
  const differs = p < significance;
  const name = named((firstIsSingle ? sides.a : sides.b).samples);
  const told = `${means}; t = ${digits(t, 2)}, ${degreesOfFreedom} degrees of freedom, ${shownP(p)}`;
  const lies = differs ? 'outside' : 'within';
  return {
    basis,
    differs,
    t: t.toFixed(3),
    degreesOfFreedom: String(degreesOfFreedom),
    p: p.toPrecision(3),
    verdict: `Sample ${name} lies ${lies} what the repeats would lead one to expect (${told}).`,
    leavesOut: `${scatterLeavesOut} One of the two was made only once.`,
  };
}
