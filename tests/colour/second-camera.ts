// A second simulated camera, written without regard to how colours are read from its pictures: other lights, other
// paints, charts that are not quite what is published of them, photon noise, glare, fall-off to the corners, the
// camera's own colour matrix, contrast and JPEG.
import sharp from 'sharp';
import { kOverS, reflectanceOf } from '../../src/colour/kubelka-munk.js';
import type { Illuminant, Triple } from '../../src/colour/numbers.js';
import type { Corners } from '../../src/colour/photograph/geometry.js';
import type { Picture } from '../../src/colour/photograph/picture.js';
import { srgbCurve } from '../../src/colour/photograph/profile.js';
import { tableRange } from '../../src/colour/spectrum.js';
import { whiteOf, xyzFromLab, xyzFromTableValues } from '../../src/colour/tristimulus.js';
import { illuminantsTable } from '../../src/tables/compiled/colour/illuminants.js';
import { classicChartsTable } from '../../src/tables/compiled/colour/photograph/classic-charts.js';
import { camera, paints, random, smoothReflectance } from './camera.js';

type Values = Float64Array;
type Next = () => number;
export type Sensitivities = readonly [Values, Values, Values];

const wavelengths = Array.from({ length: tableRange.count }, (_, i) => tableRange.first + i * tableRange.step);
const overWavelengths = (value: (nm: number) => number): Values => Float64Array.from(wavelengths, value);
const normal = (next: Next): number =>
  Math.sqrt(-2 * Math.log(Math.max(next(), 1e-12))) * Math.cos(2 * Math.PI * next());
const between = (next: Next, low: number, high: number): number => low + (high - low) * next();
const one = <T>(next: Next, of: readonly T[]): T => of[Math.min(of.length - 1, Math.floor(next() * of.length))]!;

/** Power of a black body at each wavelength, relative. Planck's law, c2 = 1.4388e-2 m K (CIE 15:2018). */
const blackBody = (kelvin: number): Values =>
  overWavelengths((nm) => nm ** -5 / (Math.exp(1.4388e7 / (nm * kelvin)) - 1));

const bell = (nm: number, middle: number, width: number): number => Math.exp(-0.5 * ((nm - middle) / width) ** 2);

/** A white LED: a narrow blue peak and the broad light of its phosphor; a common model, from memory. */
const whiteLed = (blue: number, share: number): Values =>
  overWavelengths((nm) => share * bell(nm, blue, 9) + bell(nm, 545, 42) + 0.75 * bell(nm, 610, 45));

const table = (light: Illuminant): Values => Float64Array.from(illuminantsTable(), (row) => row[light]);

/** Lights of three sorts, none of them among those that the method was made with. */
export const lights: Readonly<Record<'daylight' | 'lamplight' | 'white LED', readonly Values[]>> = {
  daylight: [table('D50'), blackBody(7500)],
  lamplight: [blackBody(2600), blackBody(3200)],
  'white LED': [whiteLed(448, 1.1), whiteLed(455, 0.55)],
};

/** A camera of three bells with shoulders, as no maker builds it, for want of another open one. Own invention. */
const inventedCamera: Sensitivities = [
  overWavelengths(
    (nm) => (bell(nm, 602, 34) + 0.12 * bell(nm, 530, 40) + 0.05 * bell(nm, 450, 30)) * (nm > 690 ? 0.3 : 1),
  ),
  overWavelengths((nm) => bell(nm, 535, 40) + 0.1 * bell(nm, 455, 30) + 0.08 * bell(nm, 620, 40)),
  overWavelengths((nm) => bell(nm, 458, 28) + 0.1 * bell(nm, 535, 35) + 0.02 * bell(nm, 640, 40)),
];

/** Cameras of the simulation: two published ones, and one that nothing was made with. */
export const secondCameras: Readonly<Record<string, () => Sensitivities>> = {
  'insta360-x5': () => camera('insta360-x5'),
  'canon-eos-5d-mark-ii': () => camera('canon-eos-5d-mark-ii'),
  invented: () => inventedCamera,
};

/** A pigment made up of edges and bands of absorption, more or less thinned with white. */
function inventedPigment(next: Next): Values {
  const edges = Array.from({ length: next() < 0.5 ? 1 : 0 }, () => ({
    at: between(next, 450, 640),
    width: between(next, 6, 20),
    high: 10 ** between(next, -0.3, 1.2),
  }));
  const bands = Array.from({ length: 1 + Math.floor(3 * next()) }, () => ({
    at: between(next, 410, 690),
    width: between(next, 18, 60),
    high: 10 ** between(next, -0.7, 0.9),
  }));
  const ground = 10 ** between(next, -2.5, -0.8);
  const thinned = next() < 0.5 ? 1 : between(next, 0.05, 0.5);
  return overWavelengths((nm) => {
    const absorbed =
      edges.reduce((sum, { at, width, high }) => sum + high / (1 + Math.exp((nm - at) / width)), ground) +
      bands.reduce((sum, { at, width, high }) => sum + high * bell(nm, at, width), 0);
    return reflectanceOf(thinned * absorbed + 0.002);
  });
}

/** Two measured paints ground together, by the theory of Kubelka and Munk. */
function mixedPaint(next: Next): Values {
  const all = paints();
  const [a, b] = [one(next, all).reflectance, one(next, all).reflectance];
  const share = between(next, 0.1, 0.9);
  return a.map((r, i) => reflectanceOf(share * kOverS(r) + (1 - share) * kOverS(b[i]!)));
}

export const paintOf = (next: Next): Values => (next() < 0.5 ? inventedPigment(next) : mixedPaint(next));

/** Lab of one chart differs from the published average by about so much in each of L*, a*, b*. Own estimate. */
const chartSpread = 0.5;

const white = whiteOf('D50', 2);
let average: readonly { readonly lab: Triple; readonly smooth: Values }[] | undefined;

/** The classic chart as it is published, with the smoothest spectra that have its colours. */
const averageChart = () =>
  (average ??= classicChartsTable()
    .filter((row) => row.chart === 'classic-24')
    .map(({ L, a, b }) => {
      const lab: Triple = [L, a, b];
      return { lab, smooth: smoothReflectance(xyzFromLab(lab, white)) };
    }));

/** Changes that move X, Y and Z one by one. */
const movers = [440, 540, 610].map((middle) => overWavelengths((nm) => bell(nm, middle, 40)));

/** The sum of the movers that has these X, Y and Z under D50. */
function moved(xyz: Triple): Values {
  const columns = movers.map((one) => xyzFromTableValues(one, 'D50', 2));
  const weights = solveThree(columns, xyz);
  return overWavelengths((nm) => movers.reduce((sum, one, k) => sum + weights[k]! * one[wavelengths.indexOf(nm)]!, 0));
}

/** A classic chart as one was made: near the published average, with spectra that are not the smoothest. */
const chartMade = (next: Next): Values[] =>
  averageChart().map(({ lab, smooth }) => {
    const other = lab.map((value) => value + chartSpread * normal(next)) as unknown as Triple;
    const [from, to] = [xyzFromLab(lab, white), xyzFromLab(other, white)];
    const change = moved([to[0] - from[0], to[1] - from[1], to[2] - from[2]]);
    return withTexture(
      smooth.map((r, i) => Math.max(0.005, r + change[i]!)),
      next,
    );
  });

/** Adds a ripple to a reflectance that its XYZ under D50 do not show: pigments are no smooth curves. */
function withTexture(reflectance: Values, next: Next): Values {
  const period = between(next, 60, 140);
  const phase = between(next, 0, 2 * Math.PI);
  const ripple = overWavelengths((nm) => Math.sin((2 * Math.PI * nm) / period + phase));
  const seen = moved(xyzFromTableValues(ripple, 'D50', 2));
  const amplitude = 0.12 * Math.min(...reflectance.map((r) => Math.min(r, 1 - r, 0.5)));
  return reflectance.map((r, i) => r + amplitude * (ripple[i]! - seen[i]!));
}

/** Weights of three columns whose sum is the target, by Cramer's rule. */
function solveThree(columns: readonly Triple[], target: Triple): Triple {
  const det = (a: Triple, b: Triple, c: Triple): number =>
    a[0] * (b[1] * c[2] - b[2] * c[1]) - b[0] * (a[1] * c[2] - a[2] * c[1]) + c[0] * (a[1] * b[2] - a[2] * b[1]);
  const [a, b, c] = columns as [Triple, Triple, Triple];
  const whole = det(a, b, c);
  return [det(target, b, c) / whole, det(a, target, c) / whole, det(a, b, target) / whole];
}

/** What a sensor makes of a reflectance under a light, white at 1 in each channel. */
function sensor(sensitivities: Sensitivities, light: Values): (reflectance: Values) => Triple {
  const sums = sensitivities.map((s) => s.reduce((sum, value, i) => sum + value * light[i]!, 0));
  return (reflectance) =>
    sensitivities.map(
      (s, c) => s.reduce((sum, value, i) => sum + value * light[i]! * reflectance[i]!, 0) / sums[c]!,
    ) as unknown as Triple;
}

/** Linear sRGB of XYZ in daylight. IEC 61966-2-1. */
const linear = ([x, y, z]: Triple): Triple => [
  (3.2406 * x - 1.5372 * y - 0.4986 * z) / 100,
  (-0.9689 * x + 1.8758 * y + 0.0415 * z) / 100,
  (0.0557 * x - 0.204 * y + 1.057 * z) / 100,
];

/**
 * The matrix by which a maker turns the sensor's channels into sRGB: least squares over everyday colours in daylight,
 * white kept.
 */
function makersMatrix(sensitivities: Sensitivities): readonly Triple[] {
  const see = sensor(sensitivities, table('D65'));
  const next = random(5);
  const colours = Array.from({ length: 60 }, () => inventedPigment(next));
  const seen = colours.map(see);
  const wanted = colours.map((colour) => linear(xyzFromTableValues(colour, 'D65', 2)));
  return [0, 1, 2].map((c) => {
    // The row sums to 1, so that white stays white: two unknowns.
    const [first, second] = [0, 1, 2].filter((k) => k !== c) as [number, number];
    let [aa, ab, bb, ay, by] = [0, 0, 0, 0, 0];
    seen.forEach((rgb, i) => {
      const [u, v, y] = [rgb[first]! - rgb[c]!, rgb[second]! - rgb[c]!, wanted[i]![c]! - rgb[c]!];
      aa += u * u;
      ab += u * v;
      bb += v * v;
      ay += u * y;
      by += v * y;
    });
    const det = aa * bb - ab * ab;
    const [p, q] = [(bb * ay - ab * by) / det, (aa * by - ab * ay) / det];
    const row = [0, 0, 0];
    row[first] = p;
    row[second] = q;
    row[c] = 1 - p - q;
    return row as unknown as Triple;
  });
}

export interface SecondShot {
  readonly sensitivities: Sensitivities;
  readonly light: Values;
  readonly samples: readonly Values[];
  readonly seed: number;
  /** Light scattered in the lens over all of the picture, of the mean. */
  readonly glare?: number;
  /** The picture's contrast: 0 is that of sRGB. */
  readonly contrast?: number;
}

const width = 760;
const height = 480;
const cell = 62;
const full = 9000;

const encoded = (light: number): number =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * Math.min(light, 1) ** (1 / 2.4) - 0.055;

export interface SecondTaken {
  readonly picture: Picture;
  readonly corners: Corners;
  readonly areas: readonly { name: string; x: number; y: number; width: number; height: number }[];
}

/** A photograph as a telephone takes it: the chart a little turned, eight samples to its right and below it. */
export async function secondPhotograph(shot: SecondShot): Promise<SecondTaken> {
  const next = random(shot.seed);
  const see = sensor(shot.sensitivities, shot.light);
  const chart = chartMade(next).map(see);
  const samples = shot.samples.map(see);
  const turn = between(next, -0.06, 0.06);
  const origin = { x: 90, y: 60 };
  const toPixels = (column: number, row: number) => ({
    x: origin.x + cell * ((column + 0.5) * Math.cos(turn) - (row + 0.5) * Math.sin(turn)),
    y: origin.y + cell * ((column + 0.5) * Math.sin(turn) + (row + 0.5) * Math.cos(turn)),
  });
  const places = shot.samples.map((_, i) =>
    i < 4 ? { column: 6.3 + 0.2 * (i % 2), row: i } : { column: 1.3 * (i - 4) + 0.5, row: 4.4 },
  );
  const [gradient, direction] = [between(next, 0, 0.25), between(next, 0, 2 * Math.PI)];
  const balance = [1 + 0.04 * normal(next), 1, 1 + 0.04 * normal(next)];
  const matrix = makersMatrix(shot.sensitivities);
  const exposure = between(next, 0.6, 0.85);
  const glare = (shot.glare ?? 0.01) * 0.3 * exposure;
  const contrast = shot.contrast ?? between(next, 0, 0.25);
  const ground: Triple = [0.25, 0.24, 0.22];
  const colourAt = (x: number, y: number): Triple => {
    const [dx, dy] = [(x - origin.x) / cell, (y - origin.y) / cell];
    const column = dx * Math.cos(turn) + dy * Math.sin(turn) - 0.5;
    const row = -dx * Math.sin(turn) + dy * Math.cos(turn) - 0.5;
    const [i, j] = [Math.round(column), Math.round(row)];
    const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.42;
    if (i >= 0 && i < 6 && j >= 0 && j < 4 && near(column, i) && near(row, j)) return chart[6 * j + i]!;
    const at = places.findIndex((place) => near(column, place.column) && near(row, place.row));
    return at >= 0 ? samples[at]! : ground;
  };
  const lightAt = (x: number, y: number): number => {
    const [u, v] = [(2 * x) / width - 1, (2 * y) / height - 1];
    const field = Math.cos(Math.atan(0.55 * Math.hypot(u, v * (height / width)))) ** 4;
    return field * (1 + (gradient / 2) * (Math.cos(direction) * u + Math.sin(direction) * v));
  };
  const raw = new Float64Array(3 * width * height);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const colour = colourAt(x, y);
      const here = exposure * lightAt(x, y);
      for (let c = 0; c < 3; c += 1) {
        const electrons = full * (colour[c]! * here + glare);
        const counted = electrons + Math.sqrt(Math.max(electrons, 0)) * normal(next) + 5 * normal(next);
        raw[3 * (y * width + x) + c] = Math.min(1, (balance[c]! * counted) / full);
      }
    }
  const data = new Uint8Array(raw.length);
  for (let at = 0; at < raw.length; at += 3) {
    const [r, g, b] = [raw[at]!, raw[at + 1]!, raw[at + 2]!];
    for (let c = 0; c < 3; c += 1) {
      const [p, q, s] = matrix[c]!;
      const e = encoded(Math.max(0, p * r + q * g + s * b));
      data[at + c] = Math.round(255 * Math.min(1, (1 - contrast) * e + contrast * (3 * e * e - 2 * e ** 3)));
    }
  }
  const jpeg = await sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 90 })
    .toBuffer();
  const decoded = new Uint8Array(await sharp(jpeg).raw().toBuffer());
  return {
    picture: { width, height, data: decoded, maximum: 255, curves: [srgbCurve, srgbCurve, srgbCurve] },
    corners: [toPixels(0, 0), toPixels(5, 0), toPixels(5, 3), toPixels(0, 3)],
    areas: places.map(({ column, row }, i) => {
      const { x, y } = toPixels(column, row);
      return { name: String.fromCharCode(65 + i), x: x - 14, y: y - 14, width: 28, height: 28 };
    }),
  };
}
