// The evenness of the light over a chart: a plane through the logarithm of what each patch has too much or too little.
import type { Triple } from '../numbers.js';
import type { Grid } from './geometry.js';
import { leastSquares, varianceOfFit, type VarianceOf } from './least-squares.js';
import type { Rgb } from './picture.js';

/** A patch with what it should have and what the picture has of it. */
export interface LitPatch {
  readonly column: number;
  readonly row: number;
  readonly rgb: Rgb;
  readonly xyz: Triple;
  readonly grey: boolean;
}

/** A place on the chart: column and row from 0, beside it too. */
export interface ChartPlace {
  readonly column: number;
  readonly row: number;
}

export interface Evenness {
  /** Light at a place, over its mean on the chart. */
  readonly at: (place: ChartPlace) => number;
  /** Standard error of the light at a place, as a share of it. */
  readonly doubt: (place: ChartPlace) => number;
  /** Standard error of the light at one place over that at another. */
  readonly doubtBetween: (place: ChartPlace, other: ChartPlace) => number;
}

/** Greys tell the light best: their colour needs no fit. */
const greyWeight = 4;

const rounds = 12;

/** Places on the chart from -1 to 1. */
const placed = (grid: Grid) => {
  const centre = { column: (grid.columns - 1) / 2, row: (grid.rows - 1) / 2 };
  return (column: number, row: number): [number, number] => [
    (column - centre.column) / Math.max(centre.column, 1),
    (row - centre.row) / Math.max(centre.row, 1),
  ];
};

/** Red, green and blue that a straight map gives to each patch, fitted to what the picture has. */
function straightMap(patches: readonly LitPatch[], light: readonly number[]): number[][] | undefined {
  const terms = patches.map(({ xyz }) => xyz);
  const rows = [0, 1, 2].map((c) => {
    const values = patches.map(({ rgb }, i) => rgb[c]! / light[i]!);
    // Errors are taken relative to the light, as they come.
    return leastSquares(
      terms,
      values,
      values.map((value) => 1 / (value + 0.02) ** 2),
    );
  });
  return rows.every((row) => row !== undefined) ? (rows as number[][]) : undefined;
}

/** By how much a patch is lighter than its colour says. */
function excess({ rgb, xyz }: LitPatch, map: readonly (readonly number[])[]): number {
  const expected = map.map((row) => row[0]! * xyz[0] + row[1]! * xyz[1] + row[2]! * xyz[2]);
  const [found, wanted] = [rgb[0] + rgb[1] + rgb[2], expected[0]! + expected[1]! + expected[2]!];
  return Math.log(Math.max(found, 1e-6) / Math.max(wanted, 1e-6));
}

/**
 * The evenness of the light, from every patch and most of all from the greys: colours and a plane of light are fitted
 * in turns. Own method.
 */
export function evennessOf(patches: readonly LitPatch[], grid: Grid): Evenness {
  const place = placed(grid);
  const terms = patches.map(({ column, row }) => [1, ...place(column, row)]);
  const weights = patches.map(({ grey }) => (grey ? greyWeight : 1));
  let plane: readonly number[] = [0, 0, 0];
  const at = ({ column, row }: ChartPlace): number => {
    const [u, v] = place(column, row);
    return Math.exp(plane[1]! * u + plane[2]! * v);
  };
  let variance: VarianceOf = () => 0;
  for (let round = 0; round < rounds; round += 1) {
    const map = straightMap(patches, patches.map(at));
    if (!map) break;
    const values = patches.map((patch) => excess(patch, map));
    const found = leastSquares(terms, values, weights);
    if (!found) break;
    plane = found;
    const rest = values.map((value, i) => value - terms[i]!.reduce((sum, one, k) => sum + one * found[k]!, 0));
    variance = varianceOfFit(terms, rest, weights);
  }
  return {
    at,
    doubt: ({ column, row }) => Math.sqrt(variance([1, ...place(column, row)])),
    doubtBetween: (one, other) => {
      const [a, b] = [place(one.column, one.row), place(other.column, other.row)];
      return Math.sqrt(variance([0, a[0] - b[0], a[1] - b[1]]));
    },
  };
}
