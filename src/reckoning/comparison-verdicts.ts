// The verdict on two preparations: single samples by weighing, repeats by their scatter, one against repeats.
import {
  contributionsFrom,
  Decimal,
  expandedSize,
  expandedUncertainty,
  minus,
  roundToUncertainty,
  sampleStatistics,
  scaled,
  singleAgainstSample,
  studentCritical,
  sum,
  welch,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { Compared, Comparison, Repeats } from './contracts.js';
import { figure, type Figure } from './figures.js';

/** A sample's result that can be compared. */
export interface Result {
  readonly sample: string;
  readonly replicateOf?: string;
  readonly percentYield?: UncertainDecimal;
  /** It lies above 100 % by more than its uncertainty, and is no yield to compare. */
  readonly above100?: boolean;
  readonly obtained?: UncertainDecimal;
  /** The last digit of what was obtained, or the step of the balance where that is coarser, g. */
  readonly lastDigit?: Decimal;
  /** Why what was obtained is no more than an upper bound, as half a sentence: it was weighed before it was dry. */
  readonly notDry?: string;
  /** Inputs of its uncertainty that are readings of a balance or a measuring vessel. */
  readonly weighings: ReadonlySet<string>;
}

/** What is compared, and how it is shown. */
export interface Measure {
  readonly measure: Comparison['measure'];
  readonly of: (result: Result) => UncertainDecimal | undefined;
  /** `yield` */
  readonly noun: string;
  readonly unit: string;
  /** Of a difference. */
  readonly differenceUnit: string;
  readonly places: number;
}

/** A difference is shown below this probability of chance. */
export const significance = 0.05;

const digits = (value: number, places: number): string => value.toFixed(places).replace('-', '−');
export const named = (samples: readonly string[]): string =>
  samples.length === 1 ? samples[0]! : `${samples.slice(0, -1).join(', ')} and ${samples.at(-1)!}`;
export const shownP = (p: number): string => (p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`);

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

type Groups = readonly [readonly Result[], readonly Result[]];
type Numbers = readonly [readonly number[], readonly number[]];
type Sides = Pick<Comparison, 'a' | 'b'>;
type Judged = Omit<Comparison, 'a' | 'b' | 'measure'> & Pick<Pair, 'unshown'>;

/** Two preparations compared. */
export interface Pair {
  readonly comparison: Comparison;
  /** The verdict where the number of comparisons takes a difference back, to which that is added. */
  readonly unshown?: string;
}

/** Two preparations, each a sample with its repeats. */
export function pair(groups: Groups, measure: Measure): Pair {
  const sides = { a: compared(groups[0], measure), b: compared(groups[1], measure) };
  const { unshown, ...verdict } = judged(groups, sides, measure);
  return {
    comparison: { ...sides, measure: measure.measure, ...verdict },
    ...(unshown !== undefined && { unshown }),
  };
}

/** Repeats of one preparation, with their mean and scatter. */
export const repeatsAs = (group: readonly Result[], measure: Measure): Repeats => ({
  ...compared(group, measure),
  measure: measure.measure,
});

function judged(groups: Groups, sides: Sides, measure: Measure): Judged {
  const [first, second] = groups;
  if (first.length === 1 && second.length === 1) return byWeighing(groups, sides, measure);
  return first.length > 1 && second.length > 1
    ? byScatter(groups, sides, measure)
    : singleByScatter(groups, sides, measure);
}

/** What verdicts by weighing alone leave out. */
export const weighingLeavesOut =
  'Only the uncertainty of weighing, measuring out and stated purity is counted; a purity that both share cancels. ' +
  'How much the preparation scatters from one run to the ' +
  'next, losses on paper and glass, and water left in the product are not; single samples cannot tell, repeats could.';
/** What verdicts by the scatter of repeats leave out. */
export const scatterLeavesOut =
  'Errors that all repeats share, such as a purity that is not what the label says or water left in every batch, ' +
  'do not show in their scatter.';

/** The mean of some results, with what their inputs contribute. */
function meanOf(group: readonly Result[], { of }: Measure): UncertainDecimal {
  const all = group.map((result) => of(result)!);
  return all.length === 1 ? all[0]! : scaled(sum(all), new Decimal(1).div(all.length));
}

interface Apart {
  readonly difference: UncertainDecimal;
  readonly uncertainty: Decimal;
  /** `weighing`, or with what counts beside it. */
  readonly by: string;
}

/** How far two preparations are apart by their readings; what is no reading and enters both cancels. */
function apartByWeighing([first, second]: Groups, measure: Measure): Apart {
  const readings = new Set([...first, ...second].flatMap(({ weighings }) => [...weighings]));
  const [a, b] = [meanOf(first, measure), meanOf(second, measure)];
  const shared = (input: string): boolean =>
    !readings.has(input) && a.contributions.inputs.includes(input) && b.contributions.inputs.includes(input);
  const own = (value: UncertainDecimal): UncertainDecimal => contributionsFrom(value, (input) => !shared(input));
  const difference = minus(own(a), own(b));
  const alone = expandedSize(contributionsFrom(difference, (input) => readings.has(input)));
  const more = expandedSize(difference) > alone * 1.02;
  return {
    difference,
    uncertainty: expandedUncertainty(difference),
    by: more ? 'weighing and stated purity' : 'weighing',
  };
}

const intervalOf = (difference: number, half: number): Comparison['interval'] => ({
  low: difference - half,
  high: difference + half,
  level: 95,
});

/** Whether two masses are no more than one step apart, and nothing else sets their samples apart. */
function isOneStep(one: Result, other: Result, { of }: Measure): boolean {
  if (!one.obtained || !other.obtained || !one.lastDigit || !other.lastDigit) return false;
  const [a, b] = [one.obtained.value, other.obtained.value];
  if (a.minus(b).abs().gt(Decimal.max(one.lastDigit, other.lastDigit))) return false;
  const [yieldOfA, yieldOfB] = [of(one)!.value, of(other)!.value];
  return yieldOfA.times(b).minus(yieldOfB.times(a)).abs().lte(yieldOfA.times(b).abs().times(1e-9));
}

/**
 * Why two single samples are not set apart though their figures are; undefined where they are.
 * A mass is the difference of two readings, with the vessel or the zero, and either may be off by half a step.
 * Source: EURACHEM/CITAC Guide CG 4, 3rd ed. (2012), example A1, weighing by difference (from memory).
 */
function notSetApart([[first], [second]]: Groups, measure: Measure): string | undefined {
  const [one, other] = [first!, second!];
  const [more, less] = measure.of(one)!.value.lt(measure.of(other)!.value) ? [other, one] : [one, other];
  if (more.notDry !== undefined)
    return (
      `Sample ${more.sample} was weighed more than sample ${less.sample}, but ${more.notDry}: the difference may ` +
      'be water, and they are not compared.'
    );
  return isOneStep(one, other, measure)
    ? `Samples ${one.sample} and ${other.sample} lie no more than one step of the balance apart, which the last ` +
        'digit and the zero can explain: whether they differ cannot be told.'
    : undefined;
}

/** Two single samples, told apart only by what weighing, measuring out and purity can be off by. */
function byWeighing(groups: Groups, { a, b }: Sides, measure: Measure): Judged {
  const { difference, uncertainty, by } = apartByWeighing(groups, measure);
  const apart = difference.value.abs().gt(uncertainty);
  const alike = apart ? notSetApart(groups, measure) : undefined;
  const differs = apart && alike === undefined;
  const size = roundToUncertainty(difference.value.abs(), uncertainty, 2);
  const plusMinus = size.uncertainty === undefined ? '' : ` ± ${size.uncertainty}`;
  const amount = `${size.value}${plusMinus} ${measure.differenceUnit}`;
  const [more, less] = difference.value.isNegative() ? [b, a] : [a, b];
  return {
    basis: 'weighing',
    difference: figure(difference, measure.unit),
    interval: intervalOf(difference.value.toNumber(), uncertainty.toNumber()),
    differs,
    verdict:
      alike ??
      (differs
        ? `Sample ${named(more.samples)} gave ${amount} more than sample ${named(less.samples)}, ` +
          `which is more than ${by} alone can explain.`
        : `The ${measure.noun} of samples ${named(a.samples)} and ` +
          `${named(b.samples)} cannot be told apart by ${by}: ` +
          `they are ${amount} apart.`),
    leavesOut: weighingLeavesOut,
  };
}

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

/** Repeats that all gave the same: nothing but their readings can set them apart from others. */
function withoutScatter(groups: Groups, sides: Sides, measure: Measure): Omit<Judged, 'basis' | 'leavesOut'> {
  const { difference, uncertainty, by } = apartByWeighing(groups, measure);
  const differs = difference.value.abs().gt(uncertainty);
  const { value, uncertainty: shown } = roundToUncertainty(difference.value.abs(), uncertainty, 2);
  const apart = `${value}${shown === undefined ? '' : ` ± ${shown}`} ${measure.differenceUnit} apart`;
  const judgement = differs ? `more than ${by} alone can explain` : `no more than ${by} can explain`;
  return {
    difference: { ...figure(difference, measure.unit), text: differenceText(difference, measure) },
    interval: intervalOf(difference.value.toNumber(), uncertainty.toNumber()),
    differs,
    verdict:
      `The repeats do not scatter at all (${meansWords(sides)}), so they are judged by ${by}: ` +
      `they are ${apart}, ${judgement}.`,
  };
}

const differenceText = ({ value }: UncertainDecimal, { differenceUnit, places }: Measure): string =>
  `${digits(value.toNumber(), places)} ${differenceUnit}`;

/** `95 % interval of the difference −12.3 to −0.1` */
const intervalWords = ({ low, high }: Comparison['interval'], { places }: Measure): string =>
  `95 % interval of the difference ${digits(low, places)} to ${digits(high, places)}`;

/** Replicates against replicates. */
function byScatter(groups: Groups, sides: Sides, measure: Measure): Judged {
  const numbers: Numbers = [numbersOf(groups[0], measure), numbersOf(groups[1], measure)];
  const common = { basis: 'replicates', leavesOut: scatterLeavesOut } as const;
  const test = welch(...numbers);
  if (!test) return { ...common, ...withoutScatter(groups, sides, measure) };
  const { t, degreesOfFreedom, p, interval } = test;
  const differs = p < significance;
  const told =
    `${meansWords(sides)}; ${intervalWords(interval, measure)}; ` +
    `Welch’s t = ${digits(t, 2)}, ${degreesOfFreedom.toFixed(1)} degrees of freedom, ${shownP(p)}`;
  return {
    ...common,
    difference: differenceOfMeans(numbers, measure),
    interval,
    differs,
    t: t.toFixed(3),
    degreesOfFreedom: degreesOfFreedom.toFixed(2),
    p: p.toPrecision(3),
    verdict: differs
      ? `The ${measure.noun} differs between the preparations (${told}): ` +
        'a difference as large as this would seldom come about by chance.'
      : `No difference in ${measure.noun} is shown (${told}); with so few repeats a small one could still be there.`,
    unshown: `No difference in ${measure.noun} is shown (${told}).`,
  };
}

/** Degrees of freedom of two repeats: 95 % reach over more than twelve times their scatter. */
const ofTwoRepeats = 1;

/** Where repeats would lead one to expect another one, as words; nothing weighs less than nothing. */
const expectedWords = (mean: number, half: number, { unit, places }: Measure): string =>
  `${digits(Math.max(0, mean - half), places)} to ${digits(mean + half, places)} ${unit}`;

/** A single sample against replicates. */
function singleByScatter(groups: Groups, sides: Sides, measure: Measure): Judged {
  const numbers: Numbers = [numbersOf(groups[0], measure), numbersOf(groups[1], measure)];
  const firstIsSingle = numbers[0].length === 1;
  const [single, several] = firstIsSingle ? [numbers[0][0]!, numbers[1]] : [numbers[1][0]!, numbers[0]];
  const basis = 'single against replicates';
  const test = singleAgainstSample(single, several);
  const name = named((firstIsSingle ? sides.a : sides.b).samples);
  const common = { basis, leavesOut: scatterLeavesOut, madeOnce: `Sample ${name} was made only once.` } as const;
  if (!test) return { ...common, ...withoutScatter(groups, sides, measure) };
  const { t, degreesOfFreedom, p } = test;
  const { mean, standardDeviation, n } = sampleStatistics(several);
  const half = studentCritical(degreesOfFreedom, significance) * standardDeviation * Math.sqrt(1 + 1 / n);
  const difference = firstIsSingle ? single - mean : mean - single;
  const differs = p < significance;
  const degrees = degreesOfFreedom === 1 ? 'degree of freedom' : 'degrees of freedom';
  const told = `${meansWords(sides)}; t = ${digits(t, 2)}, ${degreesOfFreedom} ${degrees}, ${shownP(p)}`;
  const expected = expectedWords(mean, half, measure);
  return {
    ...common,
    difference: differenceOfMeans(numbers, measure),
    interval: intervalOf(difference, half),
    differs,
    t: t.toFixed(3),
    degreesOfFreedom: String(degreesOfFreedom),
    p: p.toPrecision(3),
    verdict: singleWords({ name, expected, told, differs, degreesOfFreedom }),
    unshown: `Whether sample ${name} differs cannot be told (${told}).`,
  };
}

/** A single sample held against repeats, in words: of two repeats hardly anything can be told. */
function singleWords(of: {
  readonly name: string;
  readonly expected: string;
  readonly told: string;
  readonly differs: boolean;
  readonly degreesOfFreedom: number;
}): string {
  const { name, expected, told, differs, degreesOfFreedom } = of;
  if (!differs && degreesOfFreedom === ofTwoRepeats)
    return (
      `Whether sample ${name} differs cannot be told: two repeats can hardly show anything, and would let one expect ` +
      `${expected} (${told}).`
    );
  const lies = differs ? 'outside' : 'within';
  return `Sample ${name} lies ${lies} what the repeats let one expect, ${expected} (${told}).`;
}
