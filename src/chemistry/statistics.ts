// Statistics of replicates: mean, standard deviation, whether two means differ, whether one value lies outside the
// rest.
import { memoise } from '../memoise.js';

export interface SampleStatistics {
  readonly mean: number;
  /** Sample standard deviation (n − 1); not a number for fewer than two values. */
  readonly standardDeviation: number;
  readonly n: number;
}

/**
 * Mean and sample standard deviation (n − 1).
 * @example sampleStatistics([1, 2, 3]) // { mean: 2, standardDeviation: 1, n: 3 }
 */
export function sampleStatistics(values: readonly number[]): SampleStatistics {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, standardDeviation: n > 1 ? Math.sqrt(squares / (n - 1)) : Number.NaN, n };
}

/** Coefficients for g = 7, n = 9; from memory, checked against factorials and against tables of t. */
const lanczos = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/**
 * Logarithm of the gamma function for x ≥ 0.5. Source: Press et al., Numerical Recipes, 3rd ed. (2007) 6.1, Lanczos.
 */
function logGamma(x: number): number {
  const t = x + 6.5;
  // The sum begins with the first coefficient, so that the index of the next is 1.
  const series = lanczos.reduce((sum, coefficient, index) => sum + coefficient / (x + index - 1));
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(series);
}

const smallest = 1e-300;
const awayFromZero = (value: number): number => (Math.abs(value) < smallest ? smallest : value);

/** The continued fraction of the incomplete beta function, by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + even * d);
    c = awayFromZero(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + odd * d);
    c = awayFromZero(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return fraction;
}

/** Regularised incomplete beta function I_x(a, b) for a, b ≥ 0.5. Source: NIST DLMF 8.17.4 and 8.17.22. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const logFront = logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x);
  return (Math.exp(logFront) / a) * betaFraction(x, a, b);
}

/**
 * Two-sided probability of Student's t at least as far from 0 as this one by chance.
 * Source: the t distribution by the incomplete beta function, NIST DLMF 8.17 and Abramowitz & Stegun 26.7.1.
 * @example studentProbability(12.706, 1) // 0.05
 */
export const studentProbability = (t: number, degreesOfFreedom: number): number =>
  incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);

/**
 * Critical value of Student's t, two-sided.
 * @param alpha probability outside ±t, above 0 and below 1
 * @example studentCritical(10, 0.05) // 2.228
 */
export function studentCritical(degreesOfFreedom: number, alpha: number): number {
  let [low, high] = [0, 1e9];
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (studentProbability(middle, degreesOfFreedom) > alpha) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export interface WelchTest {
  /** Difference of the means, first minus second. */
  readonly difference: number;
  readonly t: number;
  /** Welch–Satterthwaite degrees of freedom. */
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a difference at least as large by chance. */
  readonly p: number;
  /** Confidence interval of the difference. */
  readonly interval: { readonly low: number; readonly high: number; readonly level: 95 };
}

/** How several values scatter. */
export type Spread = Pick<SampleStatistics, 'standardDeviation' | 'n'>;

/**
 * Welch's unequal-variances t test, two-sided; undefined with fewer than two values on a side or no scatter at all.
 * Source: B. L. Welch, Biometrika 34 (1947) 28.
 * @example welch([27.5, 21.0, 19.0], [27.1, 22.0, 20.8])?.p
 */
export function welch(first: readonly number[], second: readonly number[]): WelchTest | undefined {
  const [a, b] = [sampleStatistics(first), sampleStatistics(second)];
  return welchOf(a.mean - b.mean, a, b);
}

/**
 * The same test of a difference of two means, by how the values scatter on either side.
 * @example welchOf(4.2, { standardDeviation: 1.5, n: 3 }, { standardDeviation: 0.8, n: 3 })?.degreesOfFreedom // 3.05
 */
export function welchOf(difference: number, a: Spread, b: Spread): WelchTest | undefined {
  const ofA = a.standardDeviation ** 2 / a.n;
  const ofB = b.standardDeviation ** 2 / b.n;
  const standardError = Math.sqrt(ofA + ofB);
  const degreesOfFreedom = (ofA + ofB) ** 2 / (ofA ** 2 / (a.n - 1) + ofB ** 2 / (b.n - 1));
  // Not a number with one value on a side, with no scatter, or with so little that its square is nothing.
  if (!Number.isFinite(degreesOfFreedom)) return undefined;
  const t = difference / standardError;
  const half = studentCritical(degreesOfFreedom, 0.05) * standardError;
  return {
    difference,
    t,
    degreesOfFreedom,
    p: studentProbability(t, degreesOfFreedom),
    interval: { low: difference - half, high: difference + half, level: 95 },
  };
}

export interface SingleAgainstSample {
  readonly t: number;
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a value at least as far from the sample's mean by chance. */
  readonly p: number;
}

/**
 * The t test of one value against a small sample; undefined with fewer than two values or no scatter at all.
 * Source: J. R. Crawford, D. C. Howell, Clin. Neuropsychol. 12 (1998) 482, from memory.
 */
export function singleAgainstSample(single: number, sample: readonly number[]): SingleAgainstSample | undefined {
  const several = sampleStatistics(sample);
  return singleAgainst(single - several.mean, several);
}

/**
 * The same test, of the distance of one value from the mean of several, by how those scatter.
 * @example singleAgainst(1.02, { standardDeviation: 0.3, n: 3 })?.t // 2.944
 */
export function singleAgainst(distance: number, { standardDeviation, n }: Spread): SingleAgainstSample | undefined {
  if (n < 2 || standardDeviation === 0) return undefined;
  const t = distance / (standardDeviation * Math.sqrt(1 + 1 / n));
  return { t, degreesOfFreedom: n - 1, p: studentProbability(t, n - 1) };
}

/** Critical value of Grubbs's test for one outlier, two-sided. Source: F. E. Grubbs, Technometrics 11 (1969) 1, 5. */
export const grubbsCritical = (n: number, alpha: number): number => criticalOnce([n, alpha]);

const criticalOnce = memoise(
  (of: readonly [n: number, alpha: number]) => of.join(' '),
  ([n, alpha]) => findCritical(n, alpha),
  200,
);

function findCritical(n: number, alpha: number): number {
  const t = studentCritical(n - 2, alpha / n);
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
}

export interface GrubbsTest {
  /** Which value lies furthest from the mean. */
  readonly index: number;
  /** |x − mean| / s of that value. */
  readonly statistic: number;
  readonly critical: number;
  readonly alpha: number;
  readonly isOutlier: boolean;
}

/**
 * Grubbs's test of the value furthest from the mean, two-sided; undefined with fewer than three values or no scatter.
 * Source: F. E. Grubbs, Technometrics 11 (1969) 1; NIST/SEMATECH e-Handbook 1.3.5.17.1.
 * @example grubbs([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57])?.statistic // 2.4688
 */
export function grubbs(values: readonly number[], alpha = 0.05): GrubbsTest | undefined {
  const { mean, standardDeviation, n } = sampleStatistics(values);
  if (n < 3 || standardDeviation === 0) return undefined;
  const distances = values.map((value) => Math.abs(value - mean) / standardDeviation);
  const statistic = Math.max(...distances);
  const critical = grubbsCritical(n, alpha);
  return { index: distances.indexOf(statistic), statistic, critical, alpha, isOutlier: statistic > critical };
}

/**
 * Probabilities of several tests, adjusted for their number by Holm's step-down rule, in the order in which they were
 * given.
 * Source: S. Holm, Scand. J. Statist. 6 (1979) 65.
 * @example holm([0.01, 0.04, 0.03, 0.005]) // [0.03, 0.06, 0.06, 0.02]
 */
export function holm(probabilities: readonly number[]): readonly number[] {
  const order = probabilities.map((p, index) => ({ p, index })).sort((a, b) => a.p - b.p);
  const adjusted: number[] = [];
  let atLeast = 0;
  order.forEach(({ p, index }, rank) => {
    atLeast = Math.min(1, Math.max(atLeast, (probabilities.length - rank) * p));
    adjusted[index] = atLeast;
  });
  return adjusted;
}
