// The pictures of the demonstration journal: computed from its own spectra, and marked as such in the picture itself.
// `npm run pictures` draws them anew.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { adapt } from '../../src/colour/adaptation.js';
import { readReadings } from '../../src/colour/instruments/read.js';
import type { Triple } from '../../src/colour/numbers.js';
import { atTableWavelengths } from '../../src/colour/spectrum.js';
import { whiteOf, xyzFromLab, xyzFromTableValues } from '../../src/colour/tristimulus.js';
import { classicChartsTable } from '../../src/tables/compiled/colour/photograph/classic-charts.js';
import { photograph, random, smoothReflectance } from '../colour/camera.js';

/** Light as a screen has it, linear sRGB, three numbers a pixel. */
interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly light: Float64Array;
}

const content = (path: string): string => fileURLToPath(new URL(`../../content/${path}`, import.meta.url));

/** Linear sRGB of XYZ in daylight. IEC 61966-2-1. */
const linear = ([x, y, z]: Triple): Triple => [
  (3.2406 * x - 1.5372 * y - 0.4986 * z) / 100,
  (-0.9689 * x + 1.8758 * y + 0.0415 * z) / 100,
  (0.0557 * x - 0.204 * y + 1.057 * z) / 100,
];

/** What an eye used to a lamp sees of a paint of the demonstration, as a screen has it. */
function paint(spectrum: string, lamp: 'D65' | 'A'): Triple {
  const read = readReadings(new Uint8Array(readFileSync(content(spectrum))));
  if (!read.ok) throw new Error(read.fault.message);
  const xyz = xyzFromTableValues(atTableWavelengths(read.value.spectra[0]!.spectrum), lamp, 2);
  return linear(adapt(xyz, whiteOf(lamp, 2), whiteOf('D65', 2)));
}

const size = { width: 720, height: 480 } as const;

/** Heaps of pigment on a pale card, lit from the upper left. */
function heaps(colours: readonly Triple[], cast: Triple, seed: number): Drawing {
  const { width, height } = size;
  const next = random(seed);
  const grain = Float64Array.from({ length: width * height }, next);
  const light = new Float64Array(3 * width * height);
  const radius = colours.length > 1 ? 130 : 175;
  const centres = colours.map((_, i) => (width * (2 * i + 1)) / (2 * colours.length));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      const k = Math.min(colours.length - 1, Math.floor((x * colours.length) / width));
      const [u, v] = [(x - centres[k]!) / radius, (y - 215) / (0.82 * radius)];
      const inside = Math.hypot(u, v) + 0.05 * (grain[at]! - 0.5) < 1;
      const fall = 1.06 - (0.16 * x) / width - (0.1 * y) / height;
      const [su, sv] = [u - 0.16, v - 0.16];
      const shadow = Math.max(0, 1.12 - Math.hypot(su, sv));
      const card = 0.72 * fall * (1 - 0.55 * Math.min(1, 2.2 * shadow));
      // A low cone, whose side turned to the light is lighter, with grains on it.
      const shade = (0.94 - 0.2 * (u + v) + 0.22 * (grain[at]! - 0.5)) * fall;
      for (let c = 0; c < 3; c += 1) light[3 * at + c] = (inside ? colours[k]![c]! * shade : card) * cast[c]!;
    }
  return { width, height, light };
}

/** Letters of five by seven points, row by row. */
const letters: Readonly<Record<string, string>> = {
  C: '01110 10001 10000 10000 10000 10001 01110',
  O: '01110 10001 10001 10001 10001 10001 01110',
  M: '10001 11011 10101 10101 10001 10001 10001',
  P: '11110 10001 10001 11110 10000 10000 10000',
  U: '10001 10001 10001 10001 10001 10001 01110',
  T: '11111 00100 00100 00100 00100 00100 00100',
  E: '11111 10000 10000 11110 10000 10000 11111',
  D: '11110 10001 10001 10001 10001 10001 11110',
  R: '11110 10001 10001 11110 10100 10010 10001',
  N: '10001 11001 10101 10011 10001 10001 10001',
  I: '01110 00100 00100 00100 00100 00100 01110',
  G: '01110 10001 10000 10111 10001 10001 01110',
};
const mark = 'COMPUTED RENDERING';

/** Writes what the picture is into its lower left corner. */
function marked(data: Uint8Array, width: number, height: number): Uint8Array {
  const point = 2;
  const [left, top] = [12, height - 7 * point - 12];
  const set = (x: number, y: number, value: number): void => {
    if (x >= 0 && y >= 0 && x < width && y < height) data.fill(value, 3 * (y * width + x), 3 * (y * width + x) + 3);
  };
  for (let y = top - 6; y < height - 6; y += 1)
    for (let x = left - 6; x < left + 6 * point * mark.length + 4; x += 1) set(x, y, 20);
  [...mark].forEach((letter, i) =>
    (letters[letter]?.split(' ') ?? []).forEach((row, dy) =>
      [...row].forEach((bit, dx) => {
        if (bit !== '1') return;
        for (let p = 0; p < point * point; p += 1)
          set(left + (6 * i + dx) * point + (p % point), top + dy * point + Math.floor(p / point), 235);
      }),
    ),
  );
  return data;
}

const coded = (light: number): number =>
  light <= 0.0031308 ? 12.92 * Math.max(light, 0) : 1.055 * Math.min(light, 1) ** (1 / 2.4) - 0.055;

const drawn = ({ width, height, light }: Drawing) => ({
  width,
  height,
  data: marked(
    Uint8Array.from(light, (one) => Math.round(255 * coded(one))),
    width,
    height,
  ),
});

/** The two lots of a blue that went green, beside a chart under a modern lamp; seen by a simulated camera. */
function chart() {
  const classic = classicChartsTable().filter((row) => row.chart === 'classic-24');
  const reflectance = (lab: Triple) => smoothReflectance(xyzFromLab(lab, whiteOf('D50', 2)));
  const { picture, corners, samples } = photograph({
    camera: 'sony-ilce-7m3',
    light: 'LED-B3',
    patches: classic.map(({ L, a, b }) => reflectance([L, a, b])),
    columns: 6,
    samples: [reflectance([63.4, -21.2, 3.6]), reflectance([66, -19.5, 7.8])],
    seed: 9,
    uneven: 0.2,
    noise: 0.02,
  });
  const { width, height, data } = picture;
  return { drawing: { width, height, data: marked(data as Uint8Array, width, height) }, corners, samples };
}

const daylight: Triple = [1, 1, 1];
/** A room's lamp to a camera that is set for it, nearly. */
const lamplight: Triple = [1.06, 0.97, 0.84];

/** Every picture of the demonstration, by its path below the journal. */
export const pictures = {
  'photos/004-A.jpg': () => drawn(heaps([paint('spectra/004-A.csv', 'D65')], daylight, 41)),
  'photos/004-B.jpg': () => drawn(heaps([paint('spectra/004-B.csv', 'D65')], daylight, 42)),
  'photos/009-chart.jpg': () => chart().drawing,
  'photos/027-window.jpg': () =>
    drawn(
      heaps(
        ['A', 'B'].map((one) => paint(`spectra/027-${one}.csv`, 'D65')),
        daylight,
        27,
      ),
    ),
  'photos/027-lamp.jpg': () =>
    drawn(
      heaps(
        ['A', 'B'].map((one) => paint(`spectra/027-${one}.csv`, 'A')),
        lamplight,
        27,
      ),
    ),
} as const;

/** Where the chart's corners and the samples lie in `photos/009-chart.jpg`. */
export const chartPlaces = () => {
  const { corners, samples } = chart();
  return { corners, samples };
};

/** The file of a picture, without metadata. */
export const fileOf = ({ width, height, data }: ReturnType<typeof drawn>): Promise<Buffer> =>
  sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 88, chromaSubsampling: '4:4:4', mozjpeg: true })
    .toBuffer();

export const pathOf = content;
