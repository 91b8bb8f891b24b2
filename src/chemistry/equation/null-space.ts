// The null space of a matrix in whole numbers throughout, so that no coefficient is ever rounded.

export const greatestCommonDivisor = (a: bigint, b: bigint): bigint => {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
};

/** In lowest terms. */
export const simplest = (row: readonly bigint[]): bigint[] => {
  const common = row.reduce(greatestCommonDivisor, 0n);
  return common > 1n ? row.map((value) => value / common) : [...row];
};

const size = (value: bigint): bigint => (value < 0n ? -value : value);
const leastCommonMultiple = (a: bigint, b: bigint): bigint => (a / greatestCommonDivisor(a, b)) * size(b);

interface Eliminated {
  readonly rows: readonly (readonly bigint[])[];
  /** Column of the leading entry of each of the first rows. */
  readonly pivots: readonly number[];
}

/** Fraction-free elimination to reduced rows. */
function eliminate(matrix: readonly (readonly bigint[])[], width: number): Eliminated {
  let rows = matrix.map(simplest);
  const pivots: number[] = [];
  for (let column = 0; column < width && pivots.length < rows.length; column += 1) {
    const rank = pivots.length;
    const at = rows.findIndex((row, index) => index >= rank && row[column] !== 0n);
    if (at < 0) continue;
    [rows[rank], rows[at]] = [rows[at]!, rows[rank]!];
    const pivot = rows[rank]!;
    rows = rows.map((row, index) =>
      index === rank || row[column] === 0n
        ? row
        : simplest(row.map((value, place) => value * pivot[column]! - pivot[place]! * row[column]!)),
    );
    pivots.push(column);
  }
  return { rows, pivots };
}

/**
 * Whole-number basis of the null space; each vector in lowest terms.
 * @example nullSpace([[2n, 0n, -2n], [0n, 2n, -1n]]) // [[2n, 1n, 2n]]
 */
export function nullSpace(matrix: readonly (readonly bigint[])[]): bigint[][] {
  const width = matrix[0]?.length ?? 0;
  const { rows, pivots } = eliminate(matrix, width);
  const leads = pivots.map((column, index) => rows[index]![column]!);
  const scale = leads.reduce(leastCommonMultiple, 1n);
  const free = Array.from({ length: width }, (_, column) => column).filter((column) => !pivots.includes(column));
  return free.map((column) => {
    const vector = new Array<bigint>(width).fill(0n);
    vector[column] = scale;
    pivots.forEach((pivot, index) => {
      vector[pivot] = (-rows[index]![column]! * scale) / leads[index]!;
    });
    return simplest(vector);
  });
}
