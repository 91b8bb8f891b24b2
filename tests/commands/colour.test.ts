// masstone colour: the published cases through the command line, its JSON, its words, its faults.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { command } from '../../src/commands/colour.js';
import { WrongUse } from '../../src/commands/command.js';
import { referenceRows } from '../reference/read.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-colour-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const reference = (path: string) => fileURLToPath(new URL(`../reference/colour/${path}`, import.meta.url));
const written = (name: string, text: string | Buffer) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

/** Runs the command as the dispatcher does. */
async function colour(...words: string[]): Promise<{ status: number; out: string; err: string }> {
  const { values, positionals } = parseArgs({
    args: words,
    options: { ...command.options, json: { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  let [out, err] = ['', ''];
  const status = await command.run(
    { values: values as never, positionals, journal: folder, json: values.json === true },
    {
      result: (text) => {
        out += text;
      },
      aside: (text) => {
        err += text;
      },
      terminal: false,
    },
  );
  return { status, out, err };
}
const json = async (...words: string[]) => JSON.parse((await colour(...words, '--json')).out);

describe('what a maker types', () => {
  const flat = `nm;%\n${Array.from({ length: 31 }, (_, i) => `${400 + 10 * i};50,0`).join('\n')}\n`;
  it('is a tolerance with a comma, and Lab with its letters', async () => {
    const file = written('flat.csv', flat);
    expect((await colour(file, '--against', file, '--tolerance', '2,5')).out).toContain('2.5');
    const [plain, lettered] = [
      await colour('--lab', '50 2.6772 -79.7751', '--against-lab', '50 0 -82.7485', '--json'),
      await colour('--lab', 'L=50 a=2.6772 b=-79.7751', '--against-lab', 'L* 50 / a* 0 / b* -82.7485', '--json'),
    ];
    expect(JSON.parse(lettered.out).difference.de00).toBe(JSON.parse(plain.out).difference.de00);
  });
  it('is told by what the file calls it', async () => {
    const names = Array.from({ length: 31 }, (_, i) => `SPECTRAL_NM${400 + 10 * i}`).join(' ');
    const values = Array(31).fill('0.5').join(' ');
    const cgats =
      `CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_NAME ${names}\nEND_DATA_FORMAT\n` +
      `BEGIN_DATA\n"cold batch" ${values}\nEND_DATA\n`;
    expect((await colour(written('one.txt', cgats))).out).toMatch(/one\.txt, “cold batch”: CGATS spectrum/);
    expect((await colour(written('flat.csv', flat))).out).toMatch(/flat\.csv: CSV spectrum/);
  });
});

describe('masstone colour', () => {
  it.each(referenceRows('colour/lab-from-spectrum-cases.csv').filter(({ spectrum }) => !spectrum!.includes('#')))(
    '$case $illuminant/$observer° of $spectrum',
    async (row) => {
      const told = await json(reference(row.spectrum!), '--observer', row.observer!);
      const [l, a, b] = told.lab[row.illuminant!];
      expect(Math.hypot(l - Number(row.L), a - Number(row.a), b - Number(row.b))).toBeLessThanOrEqual(
        Number(row.tol_dE76_spline_or_E308),
      );
      // Published to four decimals; 0.05 in X, Y, Z covers the two routes of interpolation.
      told.xyz[row.illuminant!].forEach((value: number, i: number) =>
        expect(Math.abs(value - Number([row.X, row.Y, row.Z][i]))).toBeLessThan(0.12),
      );
    },
  );

  it.each(referenceRows('colour/ciede2000-pairs.csv'))(
    'pair $pair of Sharma, Wu and Dalal 2005 is $dE00',
    async (row) => {
      const { difference } = await json(
        '--lab',
        `${row.L1} ${row.a1} ${row.b1}`,
        '--against-lab',
        `${row.L2}, ${row.a2}, ${row.b2}`,
      );
      expect(Math.abs(difference.de00 - Number(row.dE00))).toBeLessThan(5.1e-5);
    },
  );

  it.each(referenceRows('colour/colour-inconstancy-cases.csv'))(
    '$spectrum moves $dE00 from daylight to $test by $transform',
    async (row) => {
      const { inconstancy } = await json(
        reference(row.spectrum!),
        '--observer',
        row.observer!,
        '--transform',
        row.transform!,
      );
      expect(inconstancy.transform).toBe(row.transform);
      expect(Math.abs(inconstancy[row.test!].de00 - Number(row.dE00))).toBeLessThan(row.test === 'F11' ? 0.2 : 0.1);
    },
  );

  it('tells all that its help says', async () => {
    const told = await json(
      reference('reflectance/cobalt-blue-over-white.csv'),
      '--against',
      reference('reflectance/prussian-blue-over-white.csv'),
    );
    expect(Object.keys(told)).toEqual([
      'lab',
      'xyz',
      'lch',
      'family',
      'observer',
      'basis',
      'format',
      'swatch',
      'inconstancy',
      'notes',
      'difference',
    ]);
    expect(Object.keys(told.lab)).toEqual(['D65', 'D50', 'A', 'F11', 'LED-B3']);
    expect(told).toMatchObject({
      family: 'blue',
      observer: 10,
      basis: 'spectrum',
      format: 'CSV',
      inconstancy: {
        known: true,
        transform: 'CAT16',
        reference: 'D65',
        test: 'A',
        A: { text: expect.stringMatching(/^turns redder.* under lamplight$/) },
      },
    });
    expect(told.inconstancy.de00).toBe(told.inconstancy.A.de00);
    expect(told.difference).toMatchObject({ verdict: 'visible apart', code: 'visible-apart', under: 'D65/10°' });
    expect(Object.keys(told.difference.metamerism)).toEqual(['D50', 'A', 'F11', 'LED-B3']);
  });

  it('prints plain words, lined up', async () => {
    const { status, out, err } = await colour(
      reference('reflectance/cobalt-blue-over-white.csv'),
      '--against',
      reference('reflectance/prussian-blue-over-white.csv'),
    );
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(/^lamplight \(A\) +31\.\d\d +-3\.\d\d/m);
    expect(out).toMatch(/turns redder, darker and bluer under lamplight \(A\)/);
    expect(out).toMatch(/Visible even apart: ΔE00 24\.8/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThan(200);
  });

  it.each(['50 10 -20', '50, 10, -20', '50;10;-20', '[50, 10, -20]', '50,0 10,0 −20,0', '50.0  10\t-20'])(
    'Lab may be written %s',
    async (text) => {
      expect((await json('--lab', text, '--illuminant', 'd50', '--observer', '2')).lab).toEqual({ D50: [50, 10, -20] });
    },
  );

  it('Lab alone does not tell other lamps', async () => {
    const told = await json('--lab', '50 10 -20', '--illuminant', 'A', '--observer', '2');
    expect(Object.keys(told.lab)).toEqual(['A']);
    expect(told.inconstancy).toEqual({ known: false, reason: expect.stringContaining('spectrum') });
    expect((await json('--lab', '50 10 -20', '--illuminant', 'F2')).lab).toEqual({ F2: [50, 10, -20] });
  });

  it('assumptions are said', async () => {
    const { notes } = await json('--lab', '50 10 -20');
    expect(notes.join(' ')).toMatch(/D65 was assumed.*10° was assumed/);
  });

  it('several columns that are said to be of one sample are readings with their scatter', async () => {
    const rows = referenceRows('colour/reflectance/cobalt-blue-over-white.csv');
    const path = written(
      'three.csv',
      rows
        .map(({ wavelength, reflectance }) => `${wavelength};${reflectance};${Number(reflectance) * 1.02}`)
        .join('\n'),
    );
    expect((await json(path, '--set', 'all')).repeatability).toMatchObject({ readings: 2 });
  });

  it('of a file of several samples one is chosen by name; without a name it is asked for', async () => {
    const rows = referenceRows('colour/reflectance/cobalt-blue-over-white.csv');
    const path = written(
      'two-samples.csv',
      ['nm;Cadmium A;Cadmium B', ...rows.map(({ wavelength, reflectance }) => `${wavelength};${reflectance};0.5`)].join(
        '\n',
      ),
    );
    const asked = await json(path);
    expect(asked.error.code).toBe('several-samples');
    expect(asked.error.message).toContain('“Cadmium A”, “Cadmium B”');
    expect((await json(path, '--set', 'cadmium a')).family).toBe('blue');
    expect((await json(path, '--set', 'Cadmium B')).family).toBe('grey');
    const { difference } = await json(path, '--set', 'Cadmium A', '--against', path, '--against-set', 'Cadmium B');
    expect(difference.de00).toBeGreaterThan(20);
    expect((await json(path, '--set', 'Cadmium C')).error.code).toBe('unknown-set');
  });

  it('curves and tinting strength are told where they are asked for', async () => {
    const tint = reference('reflectance/cobalt-blue-50-zincwhite-50-over-white.csv');
    const pale = reference('reflectance/cobalt-blue-10-zincwhite-90-over-white.csv');
    const white = reference('reflectance/zinc-white-over-white.csv');
    const told = await json(tint, '--curves', '--against', pale, '--tinting-strength', '--white', white);
    expect([told.curves.ks.length, told.curves.derivative.length]).toEqual([31, 30]);
    // Worked from the files: (K/S of FILE − K/S of the white) ÷ (K/S of the other − K/S of the white).
    const { nm, percent } = told.tintingStrength;
    const ks = (file: string) => {
      const rows = referenceRows(`colour/reflectance/${file}-over-white.csv`);
      const r = Number(rows.find(({ wavelength }) => Number(wavelength) === nm)!.reflectance);
      return (1 - r) ** 2 / (2 * r);
    };
    const [half, tenth, bare] = ['cobalt-blue-50-zincwhite-50', 'cobalt-blue-10-zincwhite-90', 'zinc-white'].map(ks);
    expect(percent).toBeCloseTo((100 * (half! - bare!)) / (tenth! - bare!), 1);
    expect(percent).toBeGreaterThan(200);
    expect(told.difference.caveat).toMatch(/brushwork/);
    expect((await json(tint)).curves).toBeUndefined();
    expect((await json('--lab', '50 1 1', '--against', tint, '--tinting-strength')).error.code).toBe('no-spectrum');
  });

  it('readings that can hardly be of one sample are pointed out', async () => {
    const path = written(
      'two-pigments.csv',
      referenceRows('colour/reflectance/cobalt-blue-over-white.csv')
        .map(({ wavelength, reflectance }) => `${wavelength};${reflectance};${1 - Number(reflectance)}`)
        .join('\n'),
    );
    expect((await json(path, '--set', 'all')).notes.join()).toMatch(
      /^The readings lie up to ΔE00 \d+\.\d from their mean/,
    );
  });

  it('a file with Lab only is read as such', async () => {
    const path = written(
      'lab.txt',
      'CGATS.17\nILLUMINATION_NAME "D50"\nOBSERVER_ANGLE "2"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A ' +
        'LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 50 10 -20\nEND_DATA\n',
    );
    expect(await json(path)).toMatchObject({ basis: 'lab', format: 'CGATS', lab: { D50: [50, 10, -20] }, observer: 2 });
    expect((await colour(path, '--against', path)).out).toContain('Compared under D50, for which a reading was given');
    const spectrum = reference('reflectance/zinc-white.csv');
    expect((await colour(spectrum, '--against', spectrum)).out).not.toContain('Compared under');
  });

  it.each([
    ['negative.csv', 'nm,R\n400,0.1\n410,-0.1\n', { code: 'negative-reflectance', line: 3, column: 5 }],
    ['empty.csv', '', { code: 'empty-file', line: 1 }],
    ['junk.bin', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 255, 254]), { code: 'not-text' }],
    ['laughs.cxf', '<!DOCTYPE CxF [<!ENTITY a "ha">]><CxF>&a;</CxF>', { code: 'document-type', line: 1 }],
    ['million.csv', `${'400,0.5\n'.repeat(1_000_000)}`, { code: 'file-size' }],
    [
      'xyz.txt',
      'CGATS.17\nBEGIN_DATA_FORMAT\nXYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\n10 11 12\nEND_DATA\n',
      { code: 'xyz-without-illuminant' },
    ],
  ])('%s has no answer: exit 1, the fault with its place', async (name, text, expected) => {
    const path = written(
      name,
      name === 'negative.csv'
        ? referenceRows('colour/reflectance/cobalt-blue-over-white.csv').reduce(
            (lines, { wavelength, reflectance }) =>
              `${lines}${wavelength},${wavelength === '410' ? '-0.1' : reflectance}\n`,
            'nm,R\n',
          )
        : text,
    );
    const { status, out } = await colour(path, '--json');
    expect(status).toBe(1);
    expect(JSON.parse(out).error).toMatchObject({ ...expected, file: path });
    const plain = await colour(path);
    expect([plain.status, plain.out]).toEqual([1, '']);
    expect(plain.err.startsWith(path)).toBe(true);
  });

  it('a file that is not there, or not a file', async () => {
    expect(JSON.parse((await colour(join(folder, 'none.csv'), '--json')).out).error.code).toBe('no-such-file');
    expect(JSON.parse((await colour(folder, '--json')).out).error.code).toBe('not-a-file');
  });

  it('Lab values of different conditions are not compared', async () => {
    const path = written(
      'lab2.txt',
      'CGATS.17\nILLUMINATION_NAME "A"\nOBSERVER_ANGLE "2"\nBEGIN_DATA_FORMAT\nLAB_L LAB_A ' +
        'LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n50 10 -20\nEND_DATA\n',
    );
    expect(JSON.parse((await colour(path, '--against-lab', '50 10 -20', '--json')).out).error.code).toBe(
      'colours-not-comparable',
    );
    expect(JSON.parse((await colour('--lab', '500 1 1', '--json')).out).error.code).toBe('not-lab');
  });

  it.each([
    [[]],
    [['a.csv', 'b.csv']],
    [['a.csv', '--lab', '1 2 3']],
    [['--lab', '1 2']],
    [['--lab', 'one two three']],
    [['--lab', '1 2 NaN']],
    [['--lab', '1 2 3 4']],
    [['--lab', '0x32 1 1']],
    [['a.csv', '--observer', '4']],
    [['a.csv', '--illuminant', 'sunshine']],
    [['a.csv', '--transform', 'bradford']],
    [['a.csv', '--against', 'b.csv', '--against-lab', '1 2 3']],
    [['--lab', '1 2 3', '--set', 'A']],
    [['a.csv', '--tinting-strength']],
    [['a.csv', '--tolerance', '1']],
    [['a.csv', '--against', 'b.csv', '--tolerance', 'none']],
    [['a.csv', '--against-set', 'A']],
  ])('wrong use: %j', async (words) => {
    await expect(colour(...words)).rejects.toThrow(WrongUse);
  });
});
