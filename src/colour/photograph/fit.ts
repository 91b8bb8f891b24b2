// From red, green and blue to X, Y, Z: a 3×3 matrix, or a root-polynomial of the second degree.
import { deltaE00 } from '../difference.js';
import type { Triple } from '../numbers.js';
import { labFromXyz, whiteOf } from '../tristimulus.js';
import { leastSquares } from './least-squares.js';
import type { Rgb } from './picture.js';

/**
 * `3x3`; or `root-polynomial-2`: Finlayson, Mackiewicz and Hurlbert 2015, which keeps exposure out as the matrix
 * does.
 */
export type FitKind = '3x3' | 'root-polynomial-2';

export const fitKinds: readonly FitKind[] = ['3x3', 'root-polynomial-2'];

/** Even light of a patch and the colour that it has. */
export interface KnownColour {
  readonly rgb: Rgb;
  readonly xyz: Triple;
}

export type ColourFit = (rgb: Rgb) => Triple;

const roots = ([r, g, b]: Rgb): number[] => [Math.sqrt(r * g), Math.sqrt(g * b), Math.sqrt(r * b)];

const termsOf = (kind: FitKind, rgb: Rgb): number[] => (kind === '3x3' ? [...rgb] : [...rgb, ...roots(rgb)]);

/** Coefficients that a kind of fit has for each of X, Y and Z. */
export const unknowns = (kind: FitKind): number => (kind === '3x3' ? 3 : 6);

const daylight = whiteOf('D65', 2);

/** How fast CIELAB goes with X, Y or Z: (X/Xn)^(-2/3), so that dark colours count as an eye has them. */
const weight = (value: number, white: number): number => (Math.max(value / white, 0.01) ** (-2 / 3)) ** 2;

/** The fit through known colours, weighted as CIELAB has it; undefined if there are too few. */
export function fitColours(kind: FitKind, known: readonly KnownColour[]): ColourFit | undefined {
  if (known.length < unknowns(kind)) return undefined;
  const terms = known.map(({ rgb }) => termsOf(kind, rgb));
  const rows = [0, 1, 2].map((c) =>
    leastSquares(
      terms,
      known.map(({ xyz }) => xyz[c]!),
      known.map(({ xyz }) => weight(xyz[c]!, daylight[c]!)),
    ),
  );
  if (rows.some((row) => row === undefined)) return undefined;
  return (rgb) => {
    const own = termsOf(kind, rgb);
    const at = (c: number): number => rows[c]!.reduce((sum, one, i) => sum + one * own[i]!, 0);
    return [at(0), at(1), at(2)];
  };
}

/** Lab in daylight for the 2° observer of X, Y, Z; below nothing there is nothing. */
export const labOf = (xyz: Triple): Triple =>
  labFromXyz([Math.max(xyz[0], 0), Math.max(xyz[1], 0), Math.max(xyz[2], 0)], daylight);

/** The fits that leave out one known colour each, in their order; undefined if there are too few. */
export function leaveOneOutFits(kind: FitKind, known: readonly KnownColour[]): ColourFit[] | undefined {
  const fits: ColourFit[] = [];
  for (let i = 0; i < known.length; i += 1) {
    const fit = fitColours(
      kind,
      known.filter((_, j) => j !== i),
    );
    if (!fit) return undefined;
    fits.push(fit);
  }
  return fits;
}

/**
 * What a fit may be off by at a colour for want of patches near it, CIEDE2000: the jackknife's standard error, from the
 * fits that leave out one patch each. Large for colours outside those of the chart.
 */
export function jackknifeError(fit: ColourFit, fits: readonly ColourFit[], rgb: Rgb): number {
  const lab = labOf(fit(rgb));
  const squares = fits.reduce((sum, other) => sum + deltaE00(lab, labOf(other(rgb))) ** 2, 0);
  return Math.sqrt(((fits.length - 1) / fits.length) * squares);
}

/** CIEDE2000 of each known colour from what is found of it. */
export const errorsOf = (known: readonly KnownColour[], found: readonly Triple[]): number[] =>
  known.map(({ xyz }, i) => deltaE00(labOf(xyz), found[i]!));
