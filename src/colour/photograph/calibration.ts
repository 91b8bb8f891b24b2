// The calibration of one photograph by its chart: tone, evenness of light, fit, and how far off all that is.
import { bad, good, type Outcome } from '../../outcome.js';
import type { Triple } from '../numbers.js';
import { lchFromLab } from '../tristimulus.js';
import type { Chart, ChartPatch } from './chart.js';
import {
  errorsOf,
  fitColours,
  fitKinds,
  labOf,
  jackknifeError,
  leaveOneOutFits,
  type ColourFit,
  type FitKind,
} from './fit.js';
import { leastSquares } from './least-squares.js';
import { evennessOf, type ChartPlace, type Evenness, type FromMiddle, type LitPatch } from './light.js';
import type { MeasuredPatch } from './patches.js';
import type { Rgb } from './picture.js';

/** Patches of less chroma than this are greys. */
const greyBelow = 6;

/** Fewer usable patches than this tell no fit. */
const fewestPatches = 10;

/**
 * The chart's own colours may not be off by more than this, CIEDE2000 on average: else it is another chart, or
 * turned.
 */
const worstMean = 12;

/** A curve through the greys must better the fit by this share to be used. */
const betterBy = 0.8;

/** Channels nearer to one another than this, as a share of their light, are those of a grey picture. */
const colourless = 0.02;
const isColourless = (rgb: Rgb): boolean => Math.max(...rgb) - Math.min(...rgb) <= colourless * Math.max(...rgb);

const isGrey = ({ lab }: ChartPatch): boolean => lchFromLab(lab)[1] < greyBelow;

export interface Calibration {
  readonly fit: FitKind;
  /** Light was straightened by a curve through the chart's greys. */
  readonly toned: boolean;
  /** Lab in daylight (2°) of light at a place on the chart. */
  readonly labAt: (rgb: Rgb, place: ChartPlace) => Triple;
  readonly evenness: Evenness;
  /** Leave-one-out CIEDE2000 of every patch that was used. */
  readonly errors: readonly number[];
  /**
   * The same of a straight map (3×3), whichever was taken: how far the camera's sensitivities are from an eye's. A
   * root-polynomial bends to the colours of the chart, which tells nothing of a paint of another spectrum.
   */
  readonly straightErrors: readonly number[];
  /** What the fit may be off by at a colour for want of patches near it, CIEDE2000, one standard error. */
  readonly wantAt: (rgb: Rgb, place: ChartPlace) => number;
  /** Light of one corner of the chart over that of the darkest. */
  readonly unevenness: number;
}

type Tone = (rgb: Rgb) => Rgb;

const asItIs: Tone = (rgb) => rgb;

/**
 * A smooth curve for each channel through the greys, in logarithms: what a camera's own rendering does beyond its
 * profile.
 */
function toneThroughGreys(greys: readonly { readonly rgb: Rgb; readonly y: number }[]): Tone | undefined {
  if (greys.length < 5) return undefined;
  const curves = [0, 1, 2].map((c) => {
    const logs = greys.map(({ rgb }) => Math.log(Math.max(rgb[c]!, 1e-5)));
    return leastSquares(
      logs.map((l) => [1, l, l * l]),
      greys.map(({ y }) => Math.log(y / 100)),
      greys.map(() => 1),
    );
  });
  if (curves.some((curve) => curve === undefined)) return undefined;
  const channel = (value: number, c: number): number => {
    const l = Math.log(Math.max(value, 1e-5));
    const [a, b, q] = curves[c]!;
    // Beyond the turning point of the parabola the curve would fall again.
    const turn = q! === 0 ? Infinity : -b! / (2 * q!);
    const kept = q! < 0 ? Math.min(l, turn) : Math.max(l, turn === Infinity ? l : turn);
    return Math.exp(a! + b! * kept + q! * kept * kept);
  };
  return ([r, g, b]) => [channel(r, 0), channel(g, 1), channel(b, 2)];
}

interface Candidate {
  readonly kind: FitKind;
  readonly toned: boolean;
  readonly tone: Tone;
  readonly evenness: Evenness;
  readonly fit: ColourFit;
  readonly others: readonly ColourFit[];
  readonly errors: readonly number[];
  readonly straightErrors: readonly number[];
  readonly mean: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

const over = (rgb: Rgb, light: number): Rgb => [rgb[0] / light, rgb[1] / light, rgb[2] / light];

/** A chart, and where in the picture it lies. */
interface Seen {
  readonly chart: Chart;
  readonly fromMiddle: FromMiddle;
}

/** Every kind of fit over light that was made straight by a tone and even by the chart. */
function candidatesFor(
  patches: readonly LitPatch[],
  { chart, fromMiddle }: Seen,
  tone: Tone,
  toned: boolean,
): Candidate[] {
  const straight = patches.map((patch) => ({ ...patch, rgb: tone(patch.rgb) }));
  const evenness = evennessOf(straight, chart.grid, fromMiddle);
  const known = straight.map(({ rgb, xyz, column, row }) => ({ rgb: over(rgb, evenness.at({ column, row })), xyz }));
  const fitted = fitKinds.flatMap((kind) => {
    const [fit, others] = [fitColours(kind, known), leaveOneOutFits(kind, known)];
    if (!fit || !others) return [];
    const found = known.map(({ rgb }, i) => labOf(others[i]!(rgb)));
    const errors = errorsOf(known, found);
    return [{ kind, toned, tone, evenness, fit, others, errors, mean: mean(errors) }];
  });
  const straightErrors = fitted.find(({ kind }) => kind === '3x3')?.errors;
  return fitted.map((one) => ({ ...one, straightErrors: straightErrors ?? one.errors }));
}

const best = (candidates: readonly Candidate[]): Candidate | undefined =>
  candidates.reduce<Candidate | undefined>((least, one) => (least && least.mean <= one.mean ? least : one), undefined);

function unevennessOf(evenness: Evenness, { columns, rows }: Chart['grid']): number {
  const corners = [0, columns - 1].flatMap((column) => [0, rows - 1].map((row) => evenness.at({ column, row })));
  return Math.max(...corners) / Math.min(...corners);
}

/**
 * Fits the colours of a photograph to its chart. The kind of fit is the one that finds each patch best from all the
 * others.
 * @returns the calibration; or a fault: too few patches, or colours that are not those of the chart
 */
export function calibrate(chart: Chart, used: readonly MeasuredPatch[], fromMiddle: FromMiddle): Outcome<Calibration> {
  if (used.length < fewestPatches)
    return bad({
      code: 'chart-patches',
      message: `Only ${used.length} patches of the chart can be used.`,
      expected: `${fewestPatches} or more`,
      cure:
        'Look first whether the corners begin at the first patch and go clockwise: they may be turned by 90°. If ' +
        'they are right, photograph the chart whole, sharp, evenly lit and not too light.',
    });
  if (used.every(({ rgb }) => isColourless(rgb)))
    return bad({
      code: 'chart-does-not-fit',
      message: 'The picture shows the chart without colours: it is in greys.',
      expected: `the colours of ${chart.name}`,
      cure: 'Photograph it in colour; what was turned grey has no colour left to be read.',
    });
  const patches: LitPatch[] = used.map(({ patch, column, row, rgb }) => {
    const known = chart.patches[patch - 1]!;
    return { column, row, rgb, xyz: known.xyz, grey: isGrey(known) };
  });
  const plain = best(candidatesFor(patches, { chart, fromMiddle }, asItIs, false));
  const greys = patches.filter(({ grey }) => grey).map(({ rgb, xyz }) => ({ rgb, y: xyz[1] }));
  const tone = toneThroughGreys(greys);
  const toned = tone ? best(candidatesFor(patches, { chart, fromMiddle }, tone, true)) : undefined;
  const chosen = plain && toned && toned.mean < betterBy * plain.mean ? toned : plain;
  if (!chosen || chosen.mean > worstMean)
    return bad({
      code: 'chart-does-not-fit',
      message:
        'The patches do not have the colours of the ' +
        `chart${chosen ? ` (off by ΔE00 ${chosen.mean.toFixed(0)} on average)` : ''}.`,
      expected: `the colours of ${chart.name}, from its first patch clockwise`,
      cure: 'Check which corner is the first patch, the grid, and which chart it is.',
    });
  const { kind, evenness, fit, others, errors, straightErrors } = chosen;
  const even = (rgb: Rgb, place: ChartPlace): Rgb => over(chosen.tone(rgb), evenness.at(place));
  return good({
    fit: kind,
    toned: chosen.toned,
    labAt: (rgb, place) => labOf(fit(even(rgb, place))),
    evenness,
    errors,
    straightErrors,
    wantAt: (rgb, place) => jackknifeError(fit, others, even(rgb, place)),
    unevenness: unevennessOf(evenness, chart.grid),
  });
}
