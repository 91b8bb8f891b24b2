// Statistics of replicates: mean, standard deviation, and Welch's test of whether two means differ.

/** Mean and sample standard deviation (n − 1). @example sampleStatistics([1, 2, 3]) // { mean: 2, standardDeviation: 1, n: 3 } */
export function sampleStatistics(values: readonly number[]): {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly n: number;
} {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, standardDeviation: n > 1 ? Math.sqrt(squares / (n - 1)) : Number.NaN, n };
}

/** Logarithm of the gamma function. Source: Lanczos approximation, g = 7, n = 9; Press et al., Numerical Recipes, 3rd ed. (2007) 6.1; coefficients from memory, checked against factorials. */
function logGamma(x: number): number {
  const coefficients = [
    0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const shifted = x - 1;
  const t = shifted + 7.5;
  const series = coefficients
    .slice(1)
    .reduce((sum, coefficient, index) => sum + coefficient / (shifted + index + 1), coefficients[0]!);
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(series);
}

/** Regularised incomplete beta function I_x(a, b), by its continued fraction. Source: NIST DLMF 8.17.22. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
  const tiny = 1e-300;
  const kept = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < 1e-15) break;
  }
  return front * fraction;
}

export interface WelchTest {
  /** Difference of the means, first minus second. */
  readonly difference: number;
  readonly t: number;
  /** Welch–Satterthwaite degrees of freedom. */
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a difference at least as large by chance. */
  readonly p: number;
}

/**
 * Welch's unequal-variances t test, two-sided; undefined with fewer than two values on a side or no scatter at all.
 * Source: B. L. Welch, Biometrika 34 (1947) 28; t distribution by the incomplete beta function, DLMF 8.17.
 * @example welch([27.5, 21.0, 19.0], [27.1, 22.0, 20.8])?.p
 */
export function welch(first: readonly number[], second: readonly number[]): WelchTest | undefined {
  const a = sampleStatistics(first);
  const b = sampleStatistics(second);
  if (a.n < 2 || b.n < 2) return undefined;
  const ofA = a.standardDeviation ** 2 / a.n;
  const ofB = b.standardDeviation ** 2 / b.n;
  if (ofA + ofB === 0) return undefined;
  const t = (a.mean - b.mean) / Math.sqrt(ofA + ofB);
  const degreesOfFreedom = (ofA + ofB) ** 2 / (ofA ** 2 / (a.n - 1) + ofB ** 2 / (b.n - 1));
  return {
    difference: a.mean - b.mean,
    t,
    degreesOfFreedom,
    p: incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5),
  };
}
