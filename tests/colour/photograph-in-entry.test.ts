// Colours that an entry takes from a photograph, from the journal's folder to reckoned data and remarks.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { familiesNear, familyOf } from '../../src/colour/families.js';
import { openJournal } from '../../src/open.js';
import { measured } from './reference.js';
import { chartFile, paints, photograph, trueLab, type Taken } from './camera.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-photo-entry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const names = [
  'zinc-white',
  'boneblack-2.9-zincwhite-97.1',
  'boneblack-9.6-zincwhite-90.4',
  'boneblack-52.2-zincwhite-47.8',
  'boneblack-74.2-zincwhite-25.8',
  'vermilion',
  'vermilion-10-zincwhite-90',
  'chrome-yellow',
  'chrome-yellow-8.8-zincwhite-91.2',
  'emerald-green',
  'emerald-green-10.4-zincwhite-89.6',
  'cobalt-blue',
];
const paint = (name: string) => paints().find((one) => one.name === name)!.reflectance;
const samples = ['viridian', 'minium', 'viridian'].map(paint);
let taken: Taken;

const colourOf = (i: number, more = '') => {
  const { x, y, width, height } = taken.samples[i]!;
  const corners = taken.corners.map((at) => `${at.x.toFixed(1)},${at.y.toFixed(1)}`).join(' ');
  return (
    `{ photo: photos/paints.png, chart: spectra/chart.csv, grid: 4x3, corners: "${corners}", sample: ` +
    `"${Math.round(x)},${Math.round(y)},${width},${height}"${more} }`
  );
};
const entry = (body: string) => {
  writeFileSync(
    join(folder, 'entries/001-a.md'),
    `---\nnumber: 1\ntitle: Paints\ndate: 2026-05-01\nstatus: finished\n${body}---\nWords.\n`,
  );
  return openJournal(folder, { drafts: true });
};

beforeAll(async () => {
  for (const below of ['entries', 'photos', 'spectra']) mkdirSync(join(folder, below));
  writeFileSync(join(folder, 'journal.yaml'), 'title: J\naddress: https://example.org/\nauthor: A\n');
  writeFileSync(join(folder, 'shelf.yaml'), '{}\n');
  writeFileSync(
    join(folder, 'spectra/chart.csv'),
    chartFile(names.map((name) => measured(`reflectance/${name}-over-white.csv`))),
  );
  taken = photograph({
    camera: 'sony-ilce-7m3',
    light: 'D65',
    patches: names.map(paint),
    columns: 4,
    samples,
    seed: 5,
    uneven: 0.2,
    noise: 0.01,
  });
  const { data, width, height } = taken.picture;
  await sharp(data, { raw: { width, height, channels: 3 } })
    .png()
    .toFile(join(folder, 'photos/paints.png'));
});

describe('a colour of an entry from a photograph', () => {
  it('is read with its uncertainty, under no lamp, with a rough swatch and a family from a photograph', async () => {
    const { model, remarks } = await entry(`samples:\n  - { sample: A, colour: ${colourOf(0)} }\n`);
    expect(remarks.map(({ ruleId, reason }) => `${ruleId} ${reason}`)).toEqual([]);
    const { appearance } = model!.entries[0]!;
    const [sample] = appearance.samples;
    expect(sample).toMatchObject({ basis: 'photograph', swatch: { approximate: true } });
    expect(sample!.family).toBe(familyOf(sample!.lab as never));
    // The paint, a viridian, is a grey blue-green on the border of green.
    expect(familiesNear(trueLab(samples[0]!), sample!.uncertainty!.de00)).toContain(sample!.family);
    expect([sample!.perLamp, sample!.lampMoves, sample!.curve]).toEqual([undefined, undefined, undefined]);
    expect(deltaE00(sample!.lab as never, trueLab(samples[0]!))).toBeLessThan(sample!.uncertainty!.de00);
    expect(sample!.uncertainty!.method).toMatch(/^leave-one-out over 1[0-2] patches/);
    expect(appearance).toMatchObject({ family: sample!.family, familyBasis: 'photograph' });
  });
  it('two of one photograph are compared with what is left in doubt of their difference', async () => {
    const { model } = await entry(
      `samples:\n  - { sample: A, colour: ${colourOf(0)} }\n  - { sample: B, colour: ${colourOf(2)} }\n  - { ` +
        `sample: C, colour: ${colourOf(1)} }\n`,
    );
    const { pairs, samples: read } = model!.entries[0]!.appearance;
    const [ab, ac] = pairs!;
    expect(ab).toMatchObject({ a: 'A', b: 'B', verdict: { code: 'cannot-be-told' } });
    expect(ab!.uncertainty!).toBeLessThan(read[0]!.uncertainty!.de00);
    expect(ac).toMatchObject({ a: 'A', b: 'C', verdict: { code: 'visible-apart' } });
  });
  it.each([
    [
      'corners against the clock',
      (text: string) => text.replace(/corners: "(\S+) (\S+) (\S+) (\S+)"/, 'corners: "$4 $3 $2 $1"'),
      'photograph-colour',
      /against the clock/,
    ],
    [
      'corners that are none',
      (text: string) => text.replace(/corners: "[^"]*"/, 'corners: "here"'),
      'photograph-colour',
      /not four points/,
    ],
    [
      'an unknown chart',
      (text: string) => text.replace('spectra/chart.csv', 'classic-25'),
      'photograph-colour',
      /classic-25/,
    ],
    ['no chart', (text: string) => text.replace('chart: spectra/chart.csv, ', ''), 'colour-reading', /lacks chart/],
    [
      'a photograph that is not there',
      (text: string) => text.replace('paints.png', 'other.png'),
      'missing-file',
      /other\.png/,
    ],
  ])('%s is a remark at its place', async (_, change, rule, words) => {
    const { remarks } = await entry(`samples:\n  - { sample: A, colour: ${change(colourOf(0))} }\n`);
    const found = remarks.find(({ ruleId }) => ruleId === rule);
    expect(`${found?.reason}`).toMatch(words);
    expect(found?.line).toBe(7);
  });
});
