// masstone colour PHOTO --chart: a simulated photograph as PNG, JPEG and TIFF; its JSON, words and faults.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deltaE00 } from '../../src/colour/difference.js';
import { whiteOf, xyzFromLab } from '../../src/colour/tristimulus.js';
import { command } from '../../src/commands/colour.js';
import { WrongUse } from '../../src/commands/command.js';
import { classicChartsTable } from '../../src/tables/compiled/colour/photograph/classic-charts.js';
import { paints, photograph, smoothReflectance, trueLab, type Taken } from '../colour/camera.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-photograph-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function colour(...words: string[]): Promise<{ status: number; out: string; err: string }> {
  const { values, positionals } = parseArgs({
    args: words,
    options: { ...command.options, json: { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  let [out, err] = ['', ''];
  const given = { values: values as never, positionals, journal: folder, json: values.json === true };
  const status = await command.run(given, {
    result: (text) => {
      out += text;
    },
    aside: (text) => {
      err += text;
    },
    terminal: false,
  });
  return { status, out, err };
}

const pigments = ['cobalt-blue', 'vermilion', 'cobalt-blue'].map(
  (name) => paints().find((paint) => paint.name === name)!.reflectance,
);
let taken: Taken;
const at = (name: string) => join(folder, name);
const corners = () => taken.corners.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
const sample = (i: number) => {
  const { x, y, width, height } = taken.samples[i]!;
  return `${Math.round(x)},${Math.round(y)},${width},${height}`;
};
const usual = (file: string, ...more: string[]) => [
  at(file),
  '--chart',
  'classic-24',
  '--corners',
  corners(),
  '--sample',
  sample(0),
  ...more,
];
const json = async (...words: string[]) => JSON.parse((await colour(...words, '--json')).out);

beforeAll(async () => {
  const rows = classicChartsTable().filter(({ chart }) => chart === 'classic-24');
  const patches = rows.map((row) => smoothReflectance(xyzFromLab([row.L, row.a, row.b], whiteOf('D50', 2))));
  taken = photograph({
    camera: 'canon-eos-5d-mark-ii',
    light: 'LED-B3',
    patches,
    columns: 6,
    samples: pigments,
    seed: 3,
    uneven: 0.2,
    noise: 0.01,
  });
  const { data, width, height } = taken.picture;
  const image = () => sharp(data, { raw: { width, height, channels: 3 } });
  await image().png().toFile(at('photo.png'));
  await image().jpeg({ quality: 95 }).withMetadata({ orientation: 1 }).toFile(at('photo.jpg'));
  await image().rotate(90).jpeg({ quality: 95 }).withMetadata({ orientation: 8 }).toFile(at('turned.jpg'));
  await image().withIccProfile('p3').tiff().toFile(at('wide.tiff'));
  writeFileSync(at('cut.png'), (await image().png().toBuffer()).subarray(0, 4000));
  writeFileSync(at('phone.heic'), Buffer.from('000000186674797068656963000000006d696631686569630000', 'hex'));
});

describe('masstone colour of a photograph', () => {
  it('tells all that its help says', async () => {
    const told = await json(...usual('photo.png', '--sample', `red=${sample(1)}`));
    expect(Object.keys(told)).toEqual([
      'basis',
      'lab',
      'observer',
      'family',
      'uncertainty',
      'chart',
      'samples',
      'difference',
      'notes',
    ]);
    expect(told).toMatchObject({
      basis: 'photograph',
      observer: 2,
      family: 'blue',
      chart: { name: 'classic-24', patches: 24, rejected: [] },
      difference: { of: 'A', from: 'red', code: 'visible-apart' },
    });
    expect(told.samples.map(({ name, family }: { name: string; family: string }) => [name, family])).toEqual([
      ['A', 'blue'],
      ['red', 'red'],
    ]);
    expect(told.uncertainty.method).toMatch(/^leave-one-out/);
    expect(deltaE00(told.lab.D65, trueLab(pigments[0]!))).toBeLessThan(told.uncertainty.de00);
  });
  it.each(['photo.jpg', 'turned.jpg', 'wide.tiff'])(
    '%s gives the same as the picture that it was made of',
    async (file) => {
      const [plain, other] = [await json(...usual('photo.png')), await json(...usual(file))];
      expect(deltaE00(plain.lab.D65, other.lab.D65)).toBeLessThan(1);
    },
  );
  it('the same paint twice cannot be told apart', async () => {
    const told = await json(...usual('photo.png', '--sample', sample(2)));
    expect(told.difference).toMatchObject({ verdict: 'cannot be told', code: 'cannot-be-told' });
    expect(told.difference.uncertainty.de00).toBeLessThan(told.uncertainty.de00);
  });
  it('is set against a Lab with its own uncertainty, and no verdict is given below it', async () => {
    const [l, a, b] = (await json(...usual('photo.png'))).lab.D65;
    const told = await json(...usual('photo.png', '--against-lab', `${l + 0.5} ${a} ${b}`));
    expect(told.difference).toMatchObject({ of: 'A', code: 'cannot-be-told' });
  });
  it('says it in words', async () => {
    const { out } = await colour(...usual('photo.png'));
    expect(out).toMatch(/^A {2}L\* .*± ΔE00 \d\.\d {2}blue \(from a photograph\)$/m);
    expect(out).toMatch(/Stated uncertainty: leave-one-out over 24 patches/);
  });
  it('with a grey card alone tells a rough estimate', async () => {
    const told = await json(at('photo.png'), '--grey', sample(0), '--sample', sample(1));
    expect(told.basis).toBe('rough estimate');
    expect(told.cast).toHaveLength(3);
    expect(told.difference).toBeUndefined();
  });
  it.each([
    ['a picture without a chart', () => [at('photo.png')], 'picture-without-chart'],
    ['a picture cut short', () => usual('cut.png'), 'unreadable-picture'],
    ['HEIC', () => usual('phone.heic'), 'unreadable-picture'],
    ['none', () => usual('none.png'), 'no-such-file'],
    [
      'a chart that is not there',
      () => usual('photo.png').map((word) => (word === 'classic-24' ? at('no.csv') : word)),
      'no-such-chart',
    ],
  ])('%s is a fault', async (_, words, code) => {
    const { status, out } = await colour(...words(), '--json');
    expect([status, JSON.parse(out).error.code]).toEqual([1, code]);
    expect(JSON.parse(out).error.cure).toMatch(/\.$/);
  });
  it.each([
    [['--chart', 'classic-24']],
    [['p.png', '--chart', 'classic-24', '--corners', '1,2 3,4', '--sample', '1,2,3,4']],
    [['p.png', '--chart', 'classic-24', '--corners', '1,2 3,4 5,6 7,8']],
    [['p.png', '--chart', 'classic-24', '--corners', '1,2 3,4 5,6 7,8', '--sample', '1,2']],
    [['p.png', '--chart', 'classic-24', '--corners', '1,2 3,4 5,6 7,8', '--sample', '1,2,3,4', '--grid', 'six']],
    [['p.png', '--corners', '1,2 3,4 5,6 7,8']],
    [['p.png', '--chart', 'classic-24', '--grey', '1,2,3,4']],
  ])('wrong use: %j', async (words) => {
    await expect(colour(...words)).rejects.toThrow(WrongUse);
  });
});
