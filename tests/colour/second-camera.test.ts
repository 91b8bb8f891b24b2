// The stated uncertainty of colours from photographs, held against a simulation that the method was not made with. When
// it was first held against it, 87.3 of 100 errors lay within what was stated; the lens's fall-off was then taken out of
// the light, and the uncertainty rested on a straight map, which does not bend to the chart's own colours. By lamplight
// 94 to 95 held, as strong warm colours with a steep edge are off by more; that they get more was found with the first
// camera.
import { beforeAll, describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { namedChart } from '../../src/colour/photograph/chart.js';
import { coloursFromPhotograph, differenceInPhotograph } from '../../src/colour/photograph/colours.js';
import { random, trueLab } from './camera.js';
import { lights, paintOf, secondCameras, secondPhotograph } from './second-camera.js';

interface Found {
  readonly camera: string;
  readonly light: string;
  readonly error: number;
  readonly uncertainty: number;
}

const chart = namedChart('classic-24')!;
const found: Found[] = [];
const pairs: Found[] = [];
const shotsEach = 2;

/** Takes a photograph of eight paints and reads it. */
async function shoot(camera: string, light: string, spectrum: Float64Array, seed: number): Promise<void> {
  const next = random(seed * 31);
  const samples = Array.from({ length: 8 }, () => paintOf(next));
  const labs = samples.map(trueLab);
  const sensitivities = secondCameras[camera]!();
  const { picture, corners, areas } = await secondPhotograph({ sensitivities, light: spectrum, samples, seed });
  const read = coloursFromPhotograph(picture, chart, corners, areas);
  if (!read.ok) throw new Error(`${camera}, ${light}: ${read.fault.message}`);
  read.value.samples.forEach((one, i) => {
    found.push({ camera, light, error: deltaE00(one.lab, labs[i]!), uncertainty: one.uncertainty });
    read.value.samples.slice(0, i).forEach((other, j) => {
      const { de00, uncertainty } = differenceInPhotograph(read.value, other, one);
      pairs.push({ camera, light, error: Math.abs(de00 - deltaE00(labs[j]!, labs[i]!)), uncertainty });
    });
  });
}

beforeAll(async () => {
  let seed = Number(process.env.SECOND_CAMERA_SEED ?? 20_000);
  for (const camera of Object.keys(secondCameras))
    for (const [light, spectra] of Object.entries(lights))
      for (const spectrum of spectra)
        for (let k = 0; k < shotsEach; k += 1) await shoot(camera, light, spectrum, (seed += 1));
}, 300_000);

const within = (list: readonly Found[]): number =>
  list.filter(({ error, uncertainty }) => error <= uncertainty).length / list.length;
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const under = (light: string): Found[] => found.filter((one) => one.light === light);

describe('photographs by a simulation that the method was not made with', () => {
  it('errors lie within the stated uncertainty in 95 of 100', () => {
    expect(found).toHaveLength(288);
    expect(within(found)).toBeGreaterThanOrEqual(0.95);
  });
  it.each([
    ['daylight', 0.97],
    ['white LED', 0.95],
    ['lamplight', 0.95],
  ])('by %s in %f', (light, least) => {
    expect(within(under(light))).toBeGreaterThanOrEqual(least);
  });
  it('a difference of two samples too', () => {
    expect(within(pairs)).toBeGreaterThanOrEqual(0.95);
  });
  it('what is stated is not so wide that it says nothing, and the errors are those of a photograph', () => {
    expect(mean(found.map(({ uncertainty }) => uncertainty))).toBeLessThan(7);
    expect(mean(under('daylight').map(({ error }) => error))).toBeLessThan(2.5);
    expect(mean(found.map(({ error }) => error))).toBeLessThan(3);
  });
});
