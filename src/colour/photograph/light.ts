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

/**
 * What is known of a lens before a picture is seen: how much the logarithm of the light falls from the middle of the
 * picture to its corner. Anything from none (the camera has evened it out) to the cos⁴ law of a lens of 26 mm on full
 * frame, 1.05; that law is textbook optics, the range common practice, no source.
 */
const fallOff = { mean: 0.52, deviation: 0.3 } as const;

/** Variance of the logarithm of a patch's light before any is known. */
const firstVariance = 0.05 ** 2;

/** A place in the picture: its distance from the middle, squared, over that of a corner. */
export type FromMiddle = (place: ChartPlace) => number;

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

/** So even no picture is that the fall-off would be told by the chart alone. */
const leastVariance = 0.003 ** 2;

const meanSquare = (values: readonly number[], weights: readonly number[]): number =>
  values.reduce((sum, value, i) => sum + weights[i]! * value * value, 0) / Math.max(1, values.length - 4);

/** By how much a patch is lighter than its colour says. */
function excess({ rgb, xyz }: LitPatch, map: readonly (readonly number[])[]): number {
  const expected = map.map((row) => row[0]! * xyz[0] + row[1]! * xyz[1] + row[2]! * xyz[2]);
  const [found, wanted] = [rgb[0] + rgb[1] + rgb[2], expected[0]! + expected[1]! + expected[2]!];
  return Math.log(Math.max(found, 1e-6) / Math.max(wanted, 1e-6));
}

/**
 * The evenness of the light, from every patch and most of all from the greys: colours, a plane of light and the lens's
 * fall-off are fitted in turns, the last held to what is known of lenses. Own method.
 */
export function evennessOf(patches: readonly LitPatch[], grid: Grid, fromMiddle: FromMiddle): Evenness {
  const place = placed(grid);
  const slopes = (where: ChartPlace): number[] => [...place(where.column, where.row), -fromMiddle(where)];
  // The last row says what is known of the fall-off before the picture is seen.
  const terms = [...patches.map((patch) => [1, ...slopes(patch)]), [0, 0, 0, 1]];
  const ofPatches = patches.map(({ grey }) => (grey ? greyWeight : 1));
  let left = firstVariance;
  let light: readonly number[] = [0, 0, 0, fallOff.mean];
  const at = (where: ChartPlace): number => {
    const [u, v, middle] = slopes(where);
    return Math.exp(light[1]! * u! + light[2]! * v! + light[3]! * middle!);
  };
  let variance: VarianceOf = () => 0;
  for (let round = 0; round < rounds; round += 1) {
    const map = straightMap(patches, patches.map(at));
    if (!map) break;
    const values = [...patches.map((patch) => excess(patch, map)), fallOff.mean];
    const weights = [...ofPatches, left / fallOff.deviation ** 2];
    const found = leastSquares(terms, values, weights);
    if (!found) break;
    light = found;
    const rest = values.map((value, i) => value - terms[i]!.reduce((sum, one, k) => sum + one * found[k]!, 0));
    left = Math.max(leastVariance, meanSquare(rest.slice(0, -1), ofPatches));
    variance = varianceOfFit(terms, rest, weights);
  }
  return {
    at,
    doubt: (where) => Math.sqrt(variance([1, ...slopes(where)])),
    doubtBetween: (one, other) => {
      const [a, b] = [slopes(one), slopes(other)];
      return Math.sqrt(variance([0, ...a.map((value, k) => value - b[k]!)]));
    },
  };
}
