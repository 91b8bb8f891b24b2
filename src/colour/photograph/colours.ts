// Colours of samples in a photograph with a chart: each with what it may be off by, two of them with what their
// difference may.
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { deltaE00 } from '../difference.js';
import type { Triple } from '../numbers.js';
import { lchFromLab } from '../tristimulus.js';
import { verdict, type Verdict } from '../verdict.js';
import { calibrate, type Calibration } from './calibration.js';
import type { Chart } from './chart.js';
import type { FitKind } from './fit.js';
import { placementOf, type Corners, type Placement } from './geometry.js';
import type { ChartPlace, Evenness, FromMiddle } from './light.js';
import { measurePatches, type RejectedPatch, type Rejection } from './patches.js';
import { areaOf, type Picture, type Rgb } from './picture.js';

/** A sample in the picture: its upper left corner, width and height in pixels. */
export interface SampleArea {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PhotographedSample {
  readonly name: string;
  /** Daylight (D65), 2° observer. */
  readonly lab: Triple;
  /** What the colour may be off by, CIEDE2000, in 95 of 100. */
  readonly uncertainty: number;
  /** The mean of the pixels is known to this, CIEDE2000. */
  readonly noise: number;
  /** What one per cent more light would make of it, CIEDE2000. */
  readonly perCentOfLight: number;
  readonly place: ChartPlace;
  readonly notes: readonly string[];
}

export interface PhotographColours {
  readonly evenness: Evenness;
  readonly chart: {
    readonly name: string;
    readonly patches: number;
    readonly rejected: readonly RejectedPatch[];
    readonly fit: FitKind;
    /** Leave-one-out CIEDE2000 of the patches used. */
    readonly mean: number;
    readonly max: number;
  };
  readonly uncertainty: { readonly de00: number; readonly method: string };
  readonly samples: readonly PhotographedSample[];
  readonly notes: readonly string[];
}

/**
 * The stated uncertainty of a grey over the root mean square of the leave-one-out errors of a straight map. A paint is
 * off by more than a patch, as its spectrum is not the chart's.
 */
export const coverageFactor = 2.2;

/**
 * The chroma at which the uncertainty is that of a grey times the root of two: a grey reflects all wavelengths alike,
 * and a camera that is balanced to white sees it right whatever its sensitivities; the stronger a colour, the more its
 * spectrum may differ from that of a patch which looks the same, and most so by lamplight. Both figures were found with
 * the first simulated camera as those that state least and hold in 95 of 100 under each of four lights, and held
 * against the second, which had no part in it.
 */
export const doublingChroma = 60;

/**
 * Colours nearer to one another than this, CIEDE2000, are off in the same way, as the fit is a smooth map: of their
 * difference only the share `distance / sameWay` of the uncertainty is left. Found in the simulation, tested there.
 */
export const sameWay = 12;

/** Of the uncertainty, what is always left of a difference. */
const least = 0.1;

/**
 * No photograph is stated to be nearer than this, however well it fits its chart: a spectroradiometer at a distance was
 * off by ΔE76 1.46 on average (Gozalo-Diaz et al. 2007, J. Prosthet. Dent. 97:45).
 */
export const leastUncertainty = 1.5;

const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/**
 * A plane through the patches tells the light at a place no better than this share of it: lenses and lamps are no
 * planes.
 */
const leastLightDoubt = 0.01;

/** What the leave-one-out errors of the patches make of the uncertainty of a paint of a chroma. */
const statedUncertainty = (errors: readonly number[], chroma: number): number =>
  Math.max(leastUncertainty, coverageFactor * rootMeanSquare(errors) * Math.hypot(1, chroma / doublingChroma));

/** Samples of fewer pixels than this tell no mean. */
const fewestPixels = 25;

/** A sample of which one half is lighter than the other by more than this is unevenly painted or lit. */
const unevenSample = 0.08;

/** More of a sample's pixels at the end of the scale than this, and its colour cannot be read. */
const clippedShare = 0.01;

function sampleFault(name: string, message: string, cure: string): Outcome<never> {
  return bad({ code: 'sample-area', message: `Sample ${name}: ${message}`, cure });
}

const scaled = ([r, g, b]: Rgb, factor: number): Rgb => [r * factor, g * factor, b * factor];

/** Samples further from the chart than this, in steps from patch to patch, are lit by a guess. */
const farFromChart = 4;

function sampleOf(
  picture: Picture,
  placement: Placement,
  calibration: Calibration,
  chart: Chart,
  { name, x, y, width, height }: SampleArea,
): Outcome<PhotographedSample> {
  if (x < 0 || y < 0 || x + width > picture.width || y + height > picture.height || !(width > 0) || !(height > 0))
    return sampleFault(name, 'its area does not lie within the picture.', 'Give x, y, width and height in pixels.');
  const area = areaOf(picture, { from: { x, y }, to: { x: x + width - 1, y: y + height - 1 } });
  if (!area || area.pixels < fewestPixels)
    return sampleFault(name, 'its area is too small.', `Give an area of ${fewestPixels} pixels or more.`);
  if (area.clipped > clippedShare)
    return sampleFault(name, 'it is overexposed, and its colour is lost.', 'Photograph it with less light.');
  const at = placement.toChart(x + width / 2, y + height / 2);
  const place: ChartPlace = { column: at.x, row: at.y };
  const lab = calibration.labAt(area.mean, place);
  const perCentOfLight = deltaE00(lab, calibration.labAt(scaled(area.mean, 1.01), place));
  const noise = (100 * perCentOfLight * area.noise) / Math.sqrt(area.pixels);
  const light = 100 * perCentOfLight * Math.hypot(calibration.evenness.doubt(place), leastLightDoubt);
  const want = calibration.wantAt(area.mean, place);
  const { columns, rows } = chart.grid;
  const away = Math.max(-at.x, at.x - (columns - 1), -at.y, at.y - (rows - 1));
  const notes = [
    ...(area.slope > unevenSample
      ? [`Sample ${name} is uneven: one half is ${Math.round(100 * area.slope)} % lighter than the other.`]
      : []),
    ...(away > farFromChart ? [`Sample ${name} lies far from the chart: how it is lit is a guess.`] : []),
  ];
  const own = statedUncertainty(calibration.straightErrors, lchFromLab(lab)[1]);
  return good({
    name,
    lab,
    uncertainty: Math.hypot(own, 2 * noise, 2 * light, 2 * want),
    noise,
    perCentOfLight,
    place,
    notes,
  });
}

const reasons: Readonly<Record<Rejection, string>> = {
  outside: 'outside the picture',
  small: 'too small',
  clipped: 'overexposed',
  noisy: 'soiled or noisy',
  uneven: 'unevenly lit',
  dark: 'too dark',
};

function rejectedNote(rejected: readonly RejectedPatch[]): string[] {
  if (rejected.length === 0) return [];
  const listed = rejected.map(({ patch, name, reason }) => `${patch} (${name}): ${reasons[reason]}`);
  return [`Patches left out: ${listed.join('; ')}.`];
}

/** A fault of too few patches, with why the others were left out: `24 too small`. */
function withReasons(fault: Fault, rejected: readonly RejectedPatch[]): Fault {
  if (fault.code !== 'chart-patches' || rejected.length === 0) return fault;
  const counts = new Map<Rejection, number>();
  for (const { reason } of rejected) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  const listed = [...counts].sort((a, b) => b[1] - a[1]).map(([reason, count]) => `${count} ${reasons[reason]}`);
  return { ...fault, message: `${fault.message.replace(/\.$/, '')}: ${listed.join(', ')}.` };
}

/** What is said of every colour from a photograph. */
const standing =
  'From a photograph: the colour is in daylight only, and the error on a paint is larger than on the chart, as ' +
  'its spectrum is another. Published: telephones are off by more than ΔE00 10 on average without a chart, by ' +
  'about half of that with one.';

function notesOn(
  picture: Picture,
  { toned, unevenness }: Calibration,
  chart: Chart,
  rejected: readonly RejectedPatch[],
): string[] {
  return [
    standing,
    ...(picture.notes ?? []),
    ...chart.notes,
    ...rejectedNote(rejected),
    ...(toned ? ['The camera renders light in a way of its own; it was straightened by the chart’s greys.'] : []),
    ...(unevenness > 1.15
      ? [`The light on the chart is uneven by ${Math.round(100 * (unevenness - 1))} %; it was evened out by the chart.`]
      : []),
  ];
}

/** How far places on the chart lie from the middle of the picture, where its lens gives the most light. */
const fromMiddleOf =
  ({ width, height }: Picture, { toPixels }: Placement): FromMiddle =>
  ({ column, row }) => {
    const { x, y } = toPixels(column, row);
    return ((x - width / 2) ** 2 + (y - height / 2) ** 2) / ((width / 2) ** 2 + (height / 2) ** 2);
  };

/** Faults of corners that may be the right ones in another order. */
const mayBeReordered: ReadonlySet<string> = new Set([
  'corners-order',
  'corners-shape',
  'chart-does-not-fit',
  'chart-patches',
]);

/** Every order of four corners that goes round clockwise is one of these, seen from one that does not. */
const orders = [
  [0, 1, 2, 3],
  [0, 1, 3, 2],
  [0, 2, 1, 3],
  [0, 2, 3, 1],
  [0, 3, 1, 2],
  [0, 3, 2, 1],
];

/** The order of the same corners in which the patches have the chart's colours; undefined where there is none. */
function orderThatFits(picture: Picture, chart: Chart, corners: Corners): Corners | undefined {
  for (const order of orders)
    for (let turned = 0; turned < 4; turned += 1) {
      const [a, b, c, d] = [0, 1, 2, 3].map((at) => corners[order[(at + turned) % 4]!]!);
      const other: Corners = [a!, b!, c!, d!];
      const placement = placementOf(other, chart.grid);
      if (!placement.ok) continue;
      const { used } = measurePatches(picture, chart, placement.value);
      if (calibrate(chart, used, fromMiddleOf(picture, placement.value)).ok) return other;
    }
  return undefined;
}

/** A fault of corners with the order in which they fit, if they do. */
function withOtherOrder(fault: Fault, picture: Picture, chart: Chart, corners: Corners): Fault {
  const other = mayBeReordered.has(fault.code) ? orderThatFits(picture, chart, corners) : undefined;
  if (!other) return fault;
  const written = other.map(({ x, y }) => `${x},${y}`).join(' ');
  return { ...fault, cure: `The chart is turned, or its corners are in another order: it fits as "${written}".` };
}

/**
 * Colours of samples in a photograph that shows a chart of known colours.
 * @param corners centres of the four corner patches in pixels of the upright picture, clockwise from the first patch
 * @returns Lab in daylight with uncertainty; or a fault: corners, too few usable patches, not the chart, a bad sample
 * area
 */
export function coloursFromPhotograph(
  picture: Picture,
  chart: Chart,
  corners: Corners,
  areas: readonly SampleArea[],
): Outcome<PhotographColours> {
  const placement = placementOf(corners, chart.grid);
  if (!placement.ok) return bad(withOtherOrder(placement.fault, picture, chart, corners));
  const { used, rejected } = measurePatches(picture, chart, placement.value);
  const calibration = calibrate(chart, used, fromMiddleOf(picture, placement.value));
  if (!calibration.ok) return bad(withOtherOrder(withReasons(calibration.fault, rejected), picture, chart, corners));
  const { errors, straightErrors, fit } = calibration.value;
  const samples: PhotographedSample[] = [];
  for (const area of areas) {
    const sample = sampleOf(picture, placement.value, calibration.value, chart, area);
    if (!sample.ok) return sample;
    samples.push(sample.value);
  }
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  return good({
    evenness: calibration.value.evenness,
    chart: { name: chart.name, patches: used.length, rejected, fit, mean, max: Math.max(...errors) },
    uncertainty: {
      de00: statedUncertainty(straightErrors, 0),
      method:
        `leave-one-out over ${used.length} patches of ${chart.name}: ${coverageFactor} times the root mean ` +
        `square of their CIEDE2000 by a straight map, ${leastUncertainty} at least, more for strong colours (times ` +
        `√2 at chroma ${doublingChroma}); 95 of 100 lie within it`,
    },
    samples,
    notes: [...notesOn(picture, calibration.value, chart, rejected), ...samples.flatMap(({ notes }) => notes)],
  });
}

/**
 * What the difference of two samples of one photograph may be off by, CIEDE2000, in 95 of 100: what the fit leaves of
 * it for colours so far apart, the noise of both, and how well the light between their places is known.
 */
export function uncertaintyOfDifference(
  { evenness }: Pick<PhotographColours, 'evenness'>,
  first: PhotographedSample,
  second: PhotographedSample,
): number {
  const apart = Math.min(1, deltaE00(first.lab, second.lab) / sameWay);
  const perCent = Math.max(first.perCentOfLight, second.perCentOfLight);
  const light = 100 * perCent * Math.hypot(evenness.doubtBetween(first.place, second.place), leastLightDoubt);
  const own = Math.max(first.uncertainty, second.uncertainty) * Math.max(apart, least);
  return Math.hypot(own, 2 * first.noise, 2 * second.noise, 2 * light);
}

export interface PhotographDifference {
  readonly de00: number;
  /** Of the second less the first, Lab. */
  readonly delta: Triple;
  readonly uncertainty: number;
  readonly verdict: Verdict;
}

/** The difference of two samples of one photograph: no verdict below its uncertainty. */
export function differenceInPhotograph(
  photograph: Pick<PhotographColours, 'evenness'>,
  first: PhotographedSample,
  second: PhotographedSample,
): PhotographDifference {
  const de00 = deltaE00(first.lab, second.lab);
  const uncertainty = uncertaintyOfDifference(photograph, first, second);
  const [a, b] = [first.lab, second.lab];
  return {
    de00,
    delta: [b[0] - a[0], b[1] - a[1], b[2] - a[2]],
    uncertainty,
    verdict: verdict(de00, { uncertainty }),
  };
}
