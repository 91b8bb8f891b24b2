// Small systems of linear equations.

/** One step of the elimination: the row with the largest value in the column comes up; false if there is none. */
function pivot(rows: number[][], at: number): boolean {
  let best = at;
  for (let i = at + 1; i < rows.length; i += 1) if (Math.abs(rows[i]![at]!) > Math.abs(rows[best]![at]!)) best = i;
  if (Math.abs(rows[best]![at]!) < 1e-12) return false;
  [rows[at], rows[best]] = [rows[best]!, rows[at]!];
  return true;
}

/**
 * Solves as many equations as unknowns, by elimination with pivots; undefined if they have no single solution.
 * @example solve([[2, 0], [0, 4]], [2, 8]) // [1, 2]
 */
export function solve(matrix: readonly (readonly number[])[], values: readonly number[]): number[] | undefined {
  const n = values.length;
  const rows = matrix.map((row, i) => [...row, values[i]!]);
  for (let at = 0; at < n; at += 1) {
    if (!pivot(rows, at)) return undefined;
    const first = rows[at]!;
    for (let i = at + 1; i < n; i += 1) {
      const share = rows[i]![at]! / first[at]!;
      for (let j = at; j <= n; j += 1) rows[i]![j]! -= share * first[j]!;
    }
  }
  const found = new Array<number>(n).fill(0);
  for (let at = n - 1; at >= 0; at -= 1) {
    let rest = rows[at]![n]!;
    for (let j = at + 1; j < n; j += 1) rest -= rows[at]![j]! * found[j]!;
    found[at] = rest / rows[at]![at]!;
  }
  return found.every(Number.isFinite) ? found : undefined;
}

/** Sums of products of terms, weighted: the matrix of the normal equations. */
function normalMatrix(terms: readonly (readonly number[])[], weights: readonly number[]): number[][] {
  const n = terms[0]?.length ?? 0;
  const normal = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  terms.forEach((row, k) => {
    for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) normal[i]![j]! += weights[k]! * row[i]! * row[j]!;
  });
  return normal;
}

/**
 * Coefficients that bring the sum of terms closest to the values: weighted least squares by the normal equations.
 * @param terms one row of terms a value
 */
export function leastSquares(
  terms: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): number[] | undefined {
  const n = terms[0]?.length ?? 0;
  const right = Array.from({ length: n }, (_, i) =>
    terms.reduce((sum, row, k) => sum + weights[k]! * row[i]! * values[k]!, 0),
  );
  return solve(normalMatrix(terms, weights), right);
}

/** Variance of a sum of the coefficients, told by what the fit leaves over: `terms` as they stand in the sum. */
export type VarianceOf = (terms: readonly number[]) => number;

/** How well the coefficients of a fit are known, from what it leaves over (`rest`, one a value). */
export function varianceOfFit(
  terms: readonly (readonly number[])[],
  rest: readonly number[],
  weights: readonly number[],
): VarianceOf {
  const n = terms[0]?.length ?? 0;
  const degrees = Math.max(1, terms.length - n);
  const variance = rest.reduce((sum, one, k) => sum + weights[k]! * one * one, 0) / degrees;
  const normal = normalMatrix(terms, weights);
  return (sum) => {
    const solved = solve(normal, sum);
    return solved ? variance * solved.reduce((total, one, i) => total + one * sum[i]!, 0) : Infinity;
  };
}
