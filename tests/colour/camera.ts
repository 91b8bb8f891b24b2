// A simulated camera: published sensitivities and lights, chart and paint spectra, uneven light, noise, eight bits.
import type { Illuminant, Triple } from '../../src/colour/numbers.js';
import type { Picture, Point } from '../../src/colour/photograph/picture.js';
import { srgbCurve } from '../../src/colour/photograph/profile.js';
import { atTableWavelengths, tableRange, type Spectrum } from '../../src/colour/spectrum.js';
import { labFromXyz, whiteOf, xyzFromTableValues } from '../../src/colour/tristimulus.js';
import { once } from '../../src/once.js';
import { illuminantsTable } from '../../src/tables/compiled/colour/illuminants.js';
import { referenceRows } from '../reference/read.js';

/** Relative sensitivities at the 81 table wavelengths, R, G, B. */
export function camera(name: string): readonly [Float64Array, Float64Array, Float64Array] {
  const rows = referenceRows(`colour/cameras/${name}.csv`);
  const column = (key: string) => Float64Array.from(rows, (row) => Number(row[key]));
  return [column('R'), column('G'), column('B')];
}

export const cameras = ['canon-powershot-s90', 'canon-eos-5d-mark-ii', 'sony-ilce-7m3', 'insta360-x5'] as const;

const power = (light: Illuminant): Float64Array => Float64Array.from(illuminantsTable(), (row) => row[light]);

/** Numbers from 0 to 1 that are the same in every run (mulberry32). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const gaussian = (next: () => number): number =>
  Math.sqrt(-2 * Math.log(Math.max(next(), 1e-12))) * Math.cos(2 * Math.PI * next());

export interface Shot {
  readonly camera: string;
  readonly light: Illuminant;
  /** The chart's patches row by row, as reflectance at the table wavelengths. */
  readonly patches: readonly Float64Array[];
  readonly columns: number;
  readonly samples: readonly Float64Array[];
  readonly seed: number;
  /** How much lighter one side of the picture is than the other: 0.3 is 30 %. */
  readonly uneven: number;
  /** Standard deviation of a pixel at white, over white. */
  readonly noise: number;
  /** Light of the chart's white in the picture, 0 … 1. */
  readonly exposure?: number;
  /** How the camera renders light, before its eight bits; sRGB by default. */
  readonly render?: (light: number) => number;
}

export interface Taken {
  readonly picture: Picture;
  readonly corners: readonly [Point, Point, Point, Point];
  readonly samples: readonly {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }[];
}

const toSrgb = (light: number): number =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * Math.max(light, 0) ** (1 / 2.4) - 0.055;

const size = { width: 640, height: 360 } as const;
const cell = 60;
const origin = { x: 60, y: 60 };
const tilt = 0.06;

/** What the camera sees of a reflectance, balanced so that a perfect white has 1 in each channel. */
function seen(shot: Shot): (reflectance: Float64Array) => Triple {
  const sensitivities = camera(shot.camera);
  const light = power(shot.light);
  const whites = sensitivities.map((s) => s.reduce((sum, v, i) => sum + v * light[i]!, 0));
  return (reflectance) =>
    sensitivities.map(
      (s, c) => s.reduce((sum, v, i) => sum + v * light[i]! * reflectance[i]!, 0) / whites[c]!,
    ) as unknown as Triple;
}

/** A photograph of a chart with samples in a row below it, on a dark grey ground. */
export function photograph(shot: Shot): Taken {
  const { width, height } = size;
  const look = seen(shot);
  const rows = shot.patches.length / shot.columns;
  const patchColours = shot.patches.map(look);
  const sampleColours = shot.samples.map(look);
  const ground: Triple = [0.12, 0.12, 0.12];
  const next = random(shot.seed);
  const angle = 2 * Math.PI * next();
  const lightAt = (x: number, y: number): number => {
    const [u, v] = [(2 * x) / width - 1, (2 * y) / height - 1];
    return 1 + (shot.uneven / 2) * (Math.cos(angle) * u + Math.sin(angle) * v) - 0.15 * shot.uneven * (u * u + v * v);
  };
  const render = shot.render ?? toSrgb;
  const exposure = shot.exposure ?? 0.8;
  const data = new Uint8Array(3 * width * height);
  const colourAt = (x: number, y: number): Triple => {
    // The chart is seen a little from the side: columns draw together to the right.
    const s = 1 / (1 + tilt * ((x - origin.x) / (cell * shot.columns)));
    const column = (x - origin.x) / cell;
    const row = (y - origin.y) / (cell * s);
    const [i, j] = [Math.floor(column), Math.floor(row)];
    const inside = (p: number) => p - Math.floor(p) > 0.12 && p - Math.floor(p) < 0.88;
    if (!inside(column) || !inside(row)) return ground;
    if (i >= 0 && i < shot.columns && j >= 0 && j < rows) return patchColours[j * shot.columns + i]!;
    return sampleColours[sampleIndex(i, j, shot.columns)] ?? ground;
  };
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const colour = colourAt(x, y);
      const here = lightAt(x, y) * exposure;
      for (let c = 0; c < 3; c += 1) {
        const light = colour[c]! * here;
        // Shot noise grows with the root of the light; a tenth of it is there in the dark.
        const noisy = light + shot.noise * Math.sqrt(Math.max(light, 0.01)) * gaussian(next);
        data[3 * (y * width + x) + c] = Math.round(255 * Math.min(1, Math.max(0, render(noisy))));
      }
    }
  const centre = (column: number, row: number): Point => {
    const x = origin.x + cell * (column + 0.5);
    const s = 1 / (1 + tilt * ((x - origin.x) / (cell * shot.columns)));
    return { x, y: origin.y + cell * s * (row + 0.5) };
  };
  return {
    picture: { width, height, data, maximum: 255, curves: [srgbCurve, srgbCurve, srgbCurve] },
    corners: [centre(0, 0), centre(shot.columns - 1, 0), centre(shot.columns - 1, rows - 1), centre(0, rows - 1)],
    samples: shot.samples.map((_, k) => {
      const { x, y } = centre(shot.columns + Math.floor(k / 4), k % 4);
      return { x: x - 15, y: y - 15, width: 30, height: 30 };
    }),
  };
}

const sampleIndex = (i: number, j: number, columns: number): number =>
  i >= columns && j >= 0 && j < 4 ? (i - columns) * 4 + j : -1;

/** Lab of a reflectance in daylight for the 2° observer: what a photograph is to tell. */
export const trueLab = (reflectance: Float64Array): Triple =>
  labFromXyz(xyzFromTableValues(reflectance, 'D65', 2), whiteOf('D65', 2));

interface Paint {
  readonly name: string;
  readonly reflectance: Float64Array;
}

/** Every measured paint of the reference spectra over white, as reflectance at the table wavelengths. */
export const paints: () => readonly Paint[] = once(() =>
  referenceRows('colour/reflectance/SOURCES.csv')
    .map(({ file }) => file!)
    .filter((file) => file.endsWith('over-white.csv'))
    .map((file) => {
      const rows = referenceRows(`colour/reflectance/${file}`);
      const spectrum: Spectrum = {
        wavelengths: rows.map((row) => Number(row.wavelength)),
        reflectance: rows.map((row) => Number(row.reflectance)),
      };
      return { name: file.replace('-over-white.csv', ''), reflectance: atTableWavelengths(spectrum) };
    }),
);

/**
 * The smoothest reflectance with a given XYZ under D50: least squares of the steps of its logarithm (after S. Burns,
 * least log slope squared). Stands for a patch of a chart of which only the Lab is published.
 */
export function smoothReflectance(xyz: Triple): Float64Array {
  const n = tableRange.count;
  const unit = (k: number) => Float64Array.from({ length: n }, (_, i) => (i === k ? 1 : 0));
  weights ??= Array.from({ length: n }, (_, k) => xyzFromTableValues(unit(k), 'D50', 2));
  let z = new Float64Array(n).fill(Math.log(Math.max(xyz[1] / 100, 0.01)));
  const multipliers = [0, 0, 0];
  for (let round = 0; round < 40; round += 1) {
    // Newton's method on the conditions of Lagrange.
    const size = n + 3;
    const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
    const right = new Array<number>(size).fill(0);
    for (let i = 0; i < n; i += 1) {
      const neighbours = [i - 1, i + 1].filter((j) => j >= 0 && j < n);
      let gradient = 0;
      for (const j of neighbours) {
        matrix[i]![i]! += 2;
        matrix[i]![j]! -= 2;
        gradient += 2 * (z[i]! - z[j]!);
      }
      const r = Math.exp(z[i]!);
      for (let c = 0; c < 3; c += 1) {
        const w = weights[i]![c]! * r;
        matrix[i]![i]! += multipliers[c]! * w;
        matrix[i]![n + c] = w;
        matrix[n + c]![i] = w;
        gradient += multipliers[c]! * w;
      }
      right[i] = -gradient;
    }
    for (let c = 0; c < 3; c += 1)
      right[n + c] = xyz[c]! - z.reduce((sum, value, i) => sum + weights![i]![c]! * Math.exp(value), 0);
    const step = solve(matrix, right);
    if (!step) throw new Error('no smooth reflectance');
    z = z.map((value, i) => value + Math.max(-1, Math.min(1, step[i]!)));
    for (let c = 0; c < 3; c += 1) multipliers[c]! += step[n + c]!;
    if (Math.max(...step.slice(0, n).map(Math.abs)) < 1e-7) break;
  }
  return z.map(Math.exp);
}
let weights: Triple[] | undefined;

function solve(matrix: number[][], right: number[]): number[] | undefined {
  const n = right.length;
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  for (let at = 0; at < n; at += 1) {
    let best = at;
    for (let i = at + 1; i < n; i += 1) if (Math.abs(rows[i]![at]!) > Math.abs(rows[best]![at]!)) best = i;
    if (Math.abs(rows[best]![at]!) < 1e-14) return undefined;
    [rows[at], rows[best]] = [rows[best]!, rows[at]!];
    for (let i = 0; i < n; i += 1) {
      if (i === at) continue;
      const share = rows[i]![at]! / rows[at]![at]!;
      if (share !== 0) for (let j = at; j <= n; j += 1) rows[i]![j]! -= share * rows[at]![j]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** A chart of measured paints as a file of spectra, wavelengths across, for `--chart FILE`. */
export const chartFile = (patches: readonly Spectrum[]): string =>
  [
    ['patch', ...patches[0]!.wavelengths.map((nm) => `${nm} nm`)].join(','),
    ...patches.map(({ reflectance }, i) => [i + 1, ...reflectance].join(',')),
  ].join('\n');
