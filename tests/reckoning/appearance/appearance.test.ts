// The colour of an entry, from its front matter and data files to plain data and remarks with places.
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../../src/journal/entry.js';
import { entrySchema, journalSchema, shelfReagentSchema } from '../../../src/journal/schema.js';
import { remarksOn } from '../../../src/journal/place.js';
import { severityOf } from '../../../src/remarks/remark.js';
import { reckonAppearance } from '../../../src/reckoning/appearance/appearance.js';
import { referenceText } from '../../reference/read.js';

const files: Record<string, string> = Object.fromEntries(
  ['cobalt-blue', 'prussian-blue', 'emerald-green', 'vermilion', 'zinc-white', 'lead-white'].flatMap((name) =>
    ['white', 'black'].map((over) => [
      `spectra/${name}-${over}.csv`,
      referenceText(`colour/reflectance/${name}-over-${over}.csv`),
    ]),
  ),
);
const pair = referenceText('colour/iso-metamer-pair-spectra.csv')
  .trim()
  .split('\n')
  .map((line) => line.split(','));
files['spectra/pair-standard.csv'] = pair.map(([nm, standard]) => `${nm},${standard}`).join('\n');
files['spectra/pair-sample.csv'] = pair.map(([nm, , sample]) => `${nm},${sample}`).join('\n');
const cobalt = files['spectra/cobalt-blue-white.csv']!.trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number) as [number, number]);
files['spectra/three-readings.csv'] = `nm,reading 1,reading 2,reading 3\n${cobalt
  .map(([nm, r]) => [nm, r, (r * 1.01).toFixed(5), (r * 0.99).toFixed(5)].join(','))
  .join('\n')}`;
files['spectra/negative.csv'] = files['spectra/cobalt-blue-white.csv']!.replace(/^430,.*$/m, '430,-0.01');

const start = 'number: 7\ntitle: Colours\ndate: 2026-05-01\nstatus: finished\n';

function reckon(rest: string, shelf: Record<string, unknown> = {}, more: Record<string, string> = {}) {
  const matter = start + rest;
  const entry: Entry = {
    ...entrySchema.parse(parse(matter)),
    file: 'entries/007-colours.md',
    matter,
    matterLine: 2,
    body: '',
    bodyLine: 40,
  };
  const all: Record<string, string> = { ...files, ...more };
  const { appearance, findings } = reckonAppearance(entry, {
    settings: journalSchema.parse({ title: 'J', address: 'https://example.org/', author: 'A' }),
    shelf: new Map(Object.entries(shelf).map(([id, reagent]) => [id, shelfReagentSchema.parse(reagent)])),
    lot: () => undefined,
    reading: (path: string) => all[path],
  } as never);
  // What is handed on is plain data.
  expect(JSON.parse(JSON.stringify(findings))).toEqual(findings);
  const remarks = remarksOn(entry, findings);
  expect(JSON.parse(JSON.stringify(appearance))).toEqual(appearance);
  return {
    appearance,
    said: remarks.map((one) => `${one.file}:${one.line}:${one.column} ${one.ruleId} ${severityOf(one)}`),
    remarks,
  };
}
const sample = (colour: string, more = '') => `samples:\n  - sample: A\n    colour: ${colour}\n${more}`;

describe('a sample with a spectrum', () => {
  const { appearance, said } = reckon(
    sample('{ spectrum: spectra/cobalt-blue-white.csv, instrument: SP-1, invented: true }'),
  );
  const [a] = appearance.samples;

  // Source of Lab: tests/reference/colour/lab-from-spectrum-cases.csv, R03, D65/10°; of the movement:
  // colour-inconstancy-cases.csv, CAT16.
  it('has Lab, LCh, family, swatch and curve', () => {
    expect(said).toEqual([]);
    expect(a!.lab![0]).toBeCloseTo(35.83, 1);
    expect(a!.lab![1]).toBeCloseTo(6.29, 1);
    expect(a!.lab![2]).toBeCloseTo(-42.27, 1);
    expect(a!.lch![2]).toBeCloseTo(278.5, 0);
    expect(a).toMatchObject({ observer: 10, basis: 'spectrum', family: 'blue', invented: true, instrument: 'SP-1' });
    expect(a!.swatch!.hex).toMatch(/^#[0-9a-f]{6}$/);
    expect(a!.curve).toHaveLength(31);
    expect(a!.curve![0]).toEqual({ nm: 400, r: cobalt[0]![1] });
    expect(appearance).toMatchObject({ family: 'blue', familyBasis: 'measured' });
  });
  it('is told under five lamps, daylight first, and moves from daylight to lamplight', () => {
    expect(a!.perLamp!.map(({ lamp, name }) => `${lamp} ${name}`)).toEqual([
      'D65 daylight',
      'D50 warm daylight',
      'A lamplight',
      'F11 shop light',
      'LED-B3 modern lamp',
    ]);
    expect(a!.lampMove).toMatchObject({ lamp: 'A', transform: 'CAT16' });
    expect(a!.lampMove!.de00).toBeCloseTo(6.36, 1);
    expect(a!.lampMove!.directions).toContain('redder');
    expect(a!.lampMove!.text).toMatch(/^turns redder.* under lamplight$/);
    expect(a!.lampMoves).toHaveLength(4);
  });
  it('has a tint ladder from masstone to a hundredth in the standard white, marked as computed', () => {
    const ladder = a!.tintLadder!;
    expect(ladder).toMatchObject({ computed: true, whiteGiven: false, white: 'standard white (zinc white in oil)' });
    expect(ladder.steps.map(({ share }) => share)).toEqual([1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01]);
    const lightness = ladder.steps.map(({ lab }) => lab[0]);
    expect([...lightness].sort((x, y) => x - y)).toEqual(lightness);
    expect(ladder.steps[0]!.lab[0]).toBeCloseTo(a!.lab![0], 2);
  });
  it('a white may be given for the ladder', () => {
    const given = reckon(sample('{ spectrum: spectra/cobalt-blue-white.csv, white: spectra/lead-white-white.csv }'))
      .appearance.samples[0]!.tintLadder!;
    expect(given).toMatchObject({ whiteGiven: true, white: 'spectra/lead-white-white.csv' });
    expect(given.steps[3]!.lab).not.toEqual(a!.tintLadder!.steps[3]!.lab);
  });
  it('several columns are readings, with their scatter', () => {
    const three = reckon(sample('{ spectrum: spectra/three-readings.csv }')).appearance.samples[0]!;
    expect(three.repeatability).toMatchObject({ readings: 3 });
    expect(three.repeatability!.mean).toBeGreaterThan(0.05);
    expect(three.repeatability!.mean).toBeLessThan(0.5);
  });
});

describe('a sample with Lab', () => {
  it('tells only what follows from it', () => {
    const { appearance, said } = reckon(sample('{ lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 2 }'));
    expect(said).toEqual([]);
    expect(appearance.samples[0]).toMatchObject({ lab: [54.1, -30.2, 6], observer: 2, basis: 'lab', family: 'green' });
    expect(appearance.samples[0]!.swatch!.approximate).toBeUndefined();
    expect(appearance.samples[0]!.perLamp).toHaveLength(1);
    for (const absent of ['lampMove', 'tintLadder', 'curve'] as const)
      expect(appearance.samples[0]![absent]).toBeUndefined();
    expect(appearance.samples[0]!.note).toContain('cannot be known without a spectrum');
  });
  it('for 10° its swatch is said to be approximate', () => {
    expect(
      reckon(sample('{ lab: [54.1, -30.2, 6.0], illuminant: D65, observer: 10 }')).appearance.samples[0]!.swatch!
        .approximate,
    ).toBe(true);
  });
  it('under D50 is carried over to D65, said to be approximate, and kept as given', () => {
    const [a] = reckon(sample('{ lab: [54.1, -30.2, 6.0], illuminant: D50, observer: 2 }')).appearance.samples;
    expect(a).toMatchObject({ labApproximate: true, given: { lab: [54.1, -30.2, 6], illuminant: 'D50', observer: 2 } });
    expect(a!.lab).not.toEqual([54.1, -30.2, 6]);
  });
  it('under lamplight does not tell Lab in daylight', () => {
    const [a] = reckon(sample('{ lab: [54.1, -30.2, 6.0], illuminant: A, observer: 2 }')).appearance.samples;
    expect(a!.lab).toBeUndefined();
    expect(a!.swatch!.approximate).toBe(true);
    expect(a!.note).toContain('Lab in daylight cannot be told');
  });
  it('without illuminant is a remark at the Lab', () => {
    const { said, appearance } = reckon(sample('{ lab: [54.1, -30.2, 6.0] }'));
    expect(said).toEqual(['entries/007-colours.md:8:20 lab-without-illuminant warning']);
    expect(appearance.samples[0]!.labApproximate).toBe(true);
  });
  it('XYZ without illuminant means nothing', () => {
    const { said, appearance } = reckon(sample('{ xyz: [10, 11, 12] }'));
    expect(said).toEqual(['entries/007-colours.md:8:20 xyz-without-illuminant error']);
    expect(appearance.samples[0]!.lab).toBeUndefined();
  });
  it('XYZ with illuminant is told as Lab', () => {
    expect(
      reckon(sample('{ xyz: [94.811, 100, 107.304], illuminant: D65, observer: 10 }')).appearance.samples[0]!,
    ).toMatchObject({ lab: [100, 0, 0], basis: 'xyz', family: 'white' });
  });
  it('several readings give mean and scatter', () => {
    const [a] = reckon(
      sample(
        '{ illuminant: D65, observer: 10, readings: [{ lab: [50, 10, 10] }, { lab: [51, 10, 10] }, { lab: [52, ' +
          '10, 10] }] }',
      ),
    ).appearance.samples;
    expect(a!.lab).toEqual([51, 10, 10]);
    expect(a!.repeatability).toMatchObject({ readings: 3 });
  });
  it('readings that lie far apart are remarked on', () => {
    expect(
      reckon(sample('{ illuminant: D65, observer: 10, readings: [{ lab: [50, 10, 10] }, { lab: [80, 10, 10] }] }'))
        .said,
    ).toEqual(['entries/007-colours.md:8:13 readings-disagree warning']);
  });
  it('an sRGB reading is a rough estimate', () => {
    const [a] = reckon(sample('{ srgb: "#2a52be" }')).appearance.samples;
    expect(a).toMatchObject({
      basis: 'srgb-estimate',
      labApproximate: true,
      family: 'blue',
      swatch: { hex: '#2a52be', mapped: false, approximate: true },
    });
  });
  it('beside a spectrum that says otherwise is remarked on', () => {
    expect(
      reckon(sample('{ spectrum: spectra/cobalt-blue-white.csv, lab: [50, 0, 0], illuminant: D65, observer: 10 }'))
        .said,
    ).toEqual(['entries/007-colours.md:8:61 lab-against-spectrum warning']);
    expect(
      reckon(
        sample(
          '{ spectrum: spectra/cobalt-blue-white.csv, lab: [35.83, 6.29, -42.27], illuminant: D65, observer: 10 }',
        ),
      ).said,
    ).toEqual([]);
  });
});

describe('faults of files', () => {
  it('have the file as their place, once, however many samples name it', () => {
    const { said, appearance } = reckon(
      'samples:\n  - { sample: A, colour: { spectrum: spectra/negative.csv } }\n  - { sample: B, colour: { ' +
        'spectrum: spectra/negative.csv } }\n',
    );
    expect(said).toEqual(['spectra/negative.csv:5:5 negative-reflectance error']);
    expect(appearance.samples).toEqual([{ sample: 'A' }, { sample: 'B' }]);
  });
  it('a file with Lab tells its illuminant and observer; one whose tables are not here is a remark', () => {
    const lab = (illuminant: string) => ({
      'lab.txt':
        `CGATS.17\nILLUMINATION_NAME "${illuminant}"\nOBSERVER_ANGLE "2"\nBEGIN_DATA_FORMAT\nLAB_L LAB_A ` +
        `LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n50 10 -20\nEND_DATA\n`,
    });
    expect(reckon(sample('{ spectrum: lab.txt }'), {}, lab('D65')).appearance.samples[0]).toMatchObject({
      basis: 'lab',
      lab: [50, 10, -20],
      observer: 2,
    });
    expect(reckon(sample('{ spectrum: lab.txt }'), {}, lab('C')).said).toEqual([
      'lab.txt:1:1 unknown-illuminant error',
    ]);
  });
  it('a file that is not there is left to the reading of the journal', () => {
    const { said, appearance } = reckon(sample('{ spectrum: spectra/none.csv }'));
    expect(said).toEqual([]);
    expect(appearance.family).toBeUndefined();
  });
});

describe('a tolerance', () => {
  it('is judged against the reference, as far as doubt allows', () => {
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { lab: [50, 0, 0], illuminant: D65 } }\n  - { sample: B, colour: { ' +
        'lab: [53, 0, 0], illuminant: D65 } }\nreference: { name: bought, tolerance: 1, colour: { lab: [50.2, 0, ' +
        '0], illuminant: D65 } }\n',
    );
    expect(appearance.reference!.differences.map(({ tolerance }) => tolerance?.within)).toEqual([true, false]);
  });
});

describe('a colour from a photograph without a chart', () => {
  it('measures no family and gets no verdict', () => {
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { srgb: "#4f8a6b" } }\n  - { sample: B, colour: { srgb: "#4f8a7b" } }\n',
    );
    expect(appearance).toMatchObject({ family: 'green', familyBasis: 'estimate' });
    expect(appearance.pairs![0]!.verdict.code).toBe('no-verdict');
  });
});

describe('pairs', () => {
  it('the pair of ISO 18314-4 differs visibly in daylight and has its published metamerism index', () => {
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { spectrum: spectra/pair-standard.csv } }\n  - { sample: B, colour: ' +
        '{ spectrum: spectra/pair-sample.csv } }\n',
    );
    const [found] = appearance.pairs!;
    expect(found).toMatchObject({
      a: 'A',
      b: 'B',
      under: 'D65/10°',
      verdict: { code: 'visible-side-by-side', words: 'visible side by side' },
    });
    // Published 3.8267581 with 10 nm weights (metamerism-index-cases.csv); 5 nm summation moves it a little.
    expect(found!.metamerism!.find(({ lamp }) => lamp === 'A')!.index76).toBeCloseTo(3.8268, 1);
    expect(found!.verdict.source).toContain('Paravina');
  });
  it('a pair that is the same in daylight and differs by lamplight is flagged', () => {
    // B is A plus a multiple of what daylight does not see: built from the difference of A's spectrum and its
    // neighbours.
    const nm = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
    const grey = nm.map(() => 0.4);
    const black = metamericBlack(nm);
    const text = (values: number[]) => nm.map((w, i) => `${w},${values[i]!.toFixed(5)}`).join('\n');
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { spectrum: a.csv } }\n  - { sample: B, colour: { spectrum: b.csv } }\n',
      {},
      { 'a.csv': text(grey), 'b.csv': text(grey.map((r, i) => r + black[i]!)) },
    );
    const [found] = appearance.pairs!;
    expect(found!.de00).toBeLessThan(0.5);
    expect(found!.metameric).toBeDefined();
    expect(found!.metameric!.sentence).toMatch(/^A metameric pair: the same in daylight .* different under /);
  });
  it('Lab values of different conditions are not compared', () => {
    const { appearance, said } = reckon(
      'samples:\n  - { sample: A, colour: { lab: [50, 10, 10], illuminant: D65, observer: 10 } }\n  - { ' +
        'sample: B, colour: { lab: [50, 10, 10], illuminant: D65, observer: 2 } }\n',
    );
    expect(appearance.pairs).toEqual([]);
    expect(said).toEqual(['entries/007-colours.md:8:26 colours-not-comparable warning']);
  });
  it('a spectrum is compared with Lab under the conditions of the Lab', () => {
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { spectrum: spectra/cobalt-blue-white.csv } }\n  - { sample: B, ' +
        'colour: { lab: [35.83, 6.29, -42.27], illuminant: D65, observer: 10 } }\n',
    );
    expect(appearance.pairs![0]).toMatchObject({ under: 'D65/10°', verdict: { code: 'measured' } });
  });
  it('a difference within the scatter of the readings cannot be told', () => {
    const at = (l: number) =>
      `{ illuminant: D65, observer: 10, readings: [{ lab: [${l}, 10, 10] }, { lab: [${l + 1}, 10, 10] }, { ` +
      `lab: [${l + 2}, 10, 10] }] }`;
    const { appearance } = reckon(
      `samples:\n  - { sample: A, colour: ${at(50)} }\n  - { sample: B, colour: ${at(50.4)} }\n`,
    );
    expect(appearance.pairs![0]!.verdict.code).toBe('cannot-be-told');
    expect(appearance.pairs![0]!.repeatability).toBeGreaterThan(appearance.pairs![0]!.de00);
  });
});

/**
 * A spectrum that D65/10° sees as (almost) nothing: a cosine with what daylight sees of it taken out by least
 * squares.
 */
function metamericBlack(nm: readonly number[]): number[] {
  const rows = ['x', 'y', 'z'].map((axis) => nm.map((w) => weight(w)[axis as 'x' | 'y' | 'z']));
  let black = nm.map((w) => 0.14 * Math.cos(((w - 400) / 300) * 7 * Math.PI));
  for (let round = 0; round < 4000; round += 1) {
    for (const row of rows) {
      const dot = row.reduce((sum, value, i) => sum + value * black[i]!, 0);
      const norm = row.reduce((sum, value) => sum + value * value, 0);
      black = black.map((value, i) => value - (dot / norm) * row[i]!);
    }
  }
  return black;
}
const tables = (() => {
  const read = (text: string) =>
    text
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.split(','));
  const eye = new Map(
    read(readSource('observer-10deg.csv')).map((cells) => [Number(cells[0]), cells.slice(1, 4).map(Number)]),
  );
  const lamp = new Map(read(readSource('illuminants.csv')).map((cells) => [Number(cells[0]), Number(cells[3])]));
  return { eye, lamp };
})();
function weight(nm: number): { x: number; y: number; z: number } {
  const [x, y, z] = tables.eye.get(nm)!;
  const power = tables.lamp.get(nm)!;
  return { x: x! * power, y: y! * power, z: z! * power };
}
function readSource(name: string): string {
  return referenceText(`../../src/colour/${name}`);
}

describe('opacity', () => {
  it('from two Y values: ratio, word, definition, films over black and white, undertone', () => {
    const { appearance } = reckon(
      sample(
        '{ spectrum: spectra/emerald-green-white.csv }',
        '    opacity: { over-black: 16.85, over-white: 23.96 }\n',
      ),
    );
    const [a] = appearance.samples;
    expect(a!.opacity).toMatchObject({
      contrastRatio: 70.33,
      word: 'semi-transparent',
      definition: 'contrast ratio 40 to 75 %',
    });
    const { hex, overBlack, overWhite, undertone, filmEstimated } = a!.swatch!;
    expect(filmEstimated).toBe(true);
    expect(new Set([overBlack, overWhite, undertone]).size).toBe(3);
    expect(light(undertone!)).toBeGreaterThan(light(overWhite!));
    expect(light(overWhite!)).toBeGreaterThan(light(overBlack!));
    expect(hex).toBeDefined();
  });
  it('from two spectra: as the measured films are, with the difference between the backings', () => {
    const { appearance } = reckon(
      sample(
        '{ spectrum: spectra/emerald-green-white.csv }',
        '    opacity: { over-black: spectra/emerald-green-black.csv, over-white: spectra/emerald-green-white.csv }\n',
      ),
    );
    const [a] = appearance.samples;
    // Source: tests/reference/colour/opacity-cases.csv, emerald green 70.31 %.
    expect(a!.opacity!.contrastRatio).toBeCloseTo(70.31, 1);
    expect(a!.opacity!.de00).toBeGreaterThan(5);
    expect(a!.swatch!.overWhite).toBe(a!.swatch!.hex);
    expect(a!.swatch!.filmEstimated).toBeUndefined();
  });
  it('is told without a colour reading too, and a swap of black and white is a remark', () => {
    const { appearance } = reckon('samples:\n  - sample: A\n    opacity: { over-black: 50, over-white: 60 }\n');
    expect(appearance.samples[0]).toMatchObject({ opacity: { word: 'semi-opaque' } });
    expect(reckon('samples:\n  - sample: A\n    opacity: { over-black: 60, over-white: 50 }\n').said).toEqual([
      'entries/007-colours.md:8:14 lighter-over-black error',
    ]);
  });
});
const light = (hex: string) => [1, 3, 5].reduce((sum, at) => sum + Number.parseInt(hex.slice(at, at + 2), 16), 0);

describe('families', () => {
  it('a declared family that contradicts the measurement is remarked on, and the measured one shown', () => {
    const { appearance, said } = reckon(
      `pigment: { name: cobalt blue, family: red }\n${sample('{ spectrum: spectra/cobalt-blue-white.csv }')}`,
    );
    expect(said).toEqual(['entries/007-colours.md:6:39 family-against-measurement warning']);
    expect(appearance).toMatchObject({ family: 'blue', familyBasis: 'measured' });
  });
  it('a dark masstone that reads black may be declared by its hue, which is then said to be unmeasured', () => {
    const { appearance, said } = reckon(
      `pigment: { name: Prussian blue, family: blue }\n${sample('{ spectrum: spectra/prussian-blue-white.csv }')}`,
    );
    expect(said).toEqual(['entries/007-colours.md:6:41 masstone-reads-black note']);
    expect(appearance.samples[0]!.family).toBe('black');
    expect(appearance).toMatchObject({ family: 'blue', familyBasis: 'declared' });
    expect(
      reckon(`pigment: { name: x, family: yellow }\n${sample('{ spectrum: spectra/prussian-blue-white.csv }')}`).said,
    ).toEqual(['entries/007-colours.md:6:29 family-against-measurement warning']);
  });
  it('a dark masstone whose computed tint shows the declared hue is measured by it', () => {
    const nm = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
    const dark = nm.map((w) => `${w},${w < 500 ? 0.006 : 0.003}`).join('\n');
    const { appearance, said } = reckon(
      `pigment: { name: x, family: blue }\n${sample('{ spectrum: dark.csv }')}`,
      {},
      { 'dark.csv': dark },
    );
    expect(said).toEqual([]);
    expect(appearance.samples[0]).toMatchObject({ family: 'black', tintFamily: 'blue' });
    expect(appearance).toMatchObject({ family: 'blue', familyBasis: 'measured' });
  });
  it('a family that is only declared says so', () => {
    expect(reckon('pigment: { name: x, family: purple }\nsamples: [{ sample: A }]\n').appearance).toMatchObject({
      family: 'violet',
      familyBasis: 'declared',
    });
    expect(reckon('samples: [{ sample: A }]\n').appearance.family).toBeUndefined();
  });
  it('a word that is no family is remarked on', () => {
    const { said, appearance } = reckon('pigment: { name: x, family: constructor }\nsamples: [{ sample: A }]\n');
    expect(said).toEqual(['entries/007-colours.md:6:29 unknown-family warning']);
    expect(appearance.family).toBeUndefined();
  });
});

describe('a reference', () => {
  it('described in the entry stands beside every sample', () => {
    const { appearance } = reckon(
      'reference: { name: bought cobalt, colour: { spectrum: spectra/prussian-blue-white.csv } ' +
        `}\n${sample('{ spectrum: spectra/cobalt-blue-white.csv }')}`,
    );
    expect(appearance.reference).toMatchObject({
      name: 'bought cobalt',
      basis: 'spectrum',
      family: 'black',
      differences: [{ sample: 'A', verdict: { code: 'visible-apart', words: 'visible apart' } }],
    });
  });
  it('may stand on the shelf', () => {
    const shelf = {
      'bought-blue': { name: 'cobalt blue, bought', colour: { lab: [35, 6, -42], illuminant: 'D65', observer: 10 } },
    };
    const { appearance, said } = reckon(
      'reference: { name: bought cobalt, reagent: bought-blue ' +
        `}\n${sample('{ spectrum: spectra/cobalt-blue-white.csv }')}`,
      shelf,
    );
    expect(said).toEqual([]);
    expect(appearance.reference!.differences[0]!.de00).toBeLessThan(1.5);
  });
  it('that is not on the shelf, or has no colour there, is a remark', () => {
    expect(reckon(`reference: { name: x, reagent: gone }\n${sample('{ srgb: "#123456" }')}`).said).toEqual([
      'entries/007-colours.md:6:32 unknown-reagent error',
    ]);
    expect(
      reckon(`reference: { name: x, reagent: plain }\n${sample('{ srgb: "#123456" }')}`, { plain: { name: 'plain' } })
        .said,
    ).toEqual(['entries/007-colours.md:6:32 reference-without-colour error']);
    expect(reckon(`reference: { name: x }\n${sample('{ srgb: "#123456" }')}`).said).toEqual([
      'entries/007-colours.md:6:12 reference-without-colour error',
    ]);
  });
});

describe('standard tests', () => {
  it('are typed, with unit, range and standard', () => {
    const { appearance, said } = reckon(
      'samples:\n  - sample: A\n    tests: { oil-absorption: 38 g/100 g, ph: 7.5, lightfastness-astm: I, ' +
        'acid-spot: dissolved }\n',
    );
    expect(said).toEqual([]);
    expect(
      appearance.samples[0]!.tests!.map(({ name, text, standard }) => `${name}: ${text} (${standard ?? '-'})`),
    ).toEqual([
      'Lightfastness, ASTM: category I (ASTM D4303-10(2022))',
      'Oil absorption: 38 g/100 g (ISO 787-5, ASTM D281)',
      'pH of the suspension: 7.5 (ISO 787-9)',
      'Acid spot test: dissolved (-)',
    ]);
  });
  it('an unusual result is remarked on, and kept', () => {
    const { appearance, said } = reckon('samples:\n  - sample: A\n    tests: { density: 15 g/mL }\n');
    expect(said).toEqual(['entries/007-colours.md:8:23 unusual-test-result warning']);
    expect(appearance.samples[0]!.tests).toHaveLength(1);
  });
});

describe('work', () => {
  it('pairs of samples are compared from what was read once: a file for each sample, whatever is told of it', () => {
    const names = ['cobalt-blue', 'emerald-green', 'vermilion', 'zinc-white'];
    const matter = `${start}samples:\n${names
      .map(
        (name, i) =>
          `  - { sample: ${'ABCD'[i]}, colour: { spectrum: spectra/${name}-white.csv }, opacity: { over-black: 20, ` +
          'over-white: 40 } }',
      )
      .join('\n')}\n`;
    const entry: Entry = {
      ...entrySchema.parse(parse(matter)),
      file: 'entries/007.md',
      matter,
      matterLine: 2,
      body: '',
      bodyLine: 9,
    };
    const asked: string[] = [];
    const { appearance } = reckonAppearance(entry, {
      settings: {},
      shelf: new Map(),
      lot: () => undefined,
      reading: (path: string) => {
        asked.push(path);
        return files[path];
      },
    } as never);
    expect(asked).toEqual(names.map((name) => `spectra/${name}-white.csv`));
    expect(appearance.pairs!.map(({ a, b }) => a + b)).toEqual(['AB', 'AC', 'AD', 'BC', 'BD', 'CD']);
  });
});

describe('drawdowns', () => {
  const lab = (l: number, drawdown?: number) => `{ lab: [${l}, 10, 10]${drawdown ? `, drawdown: ${drawdown}` : ''} }`;
  const sample = (id: string, ...readings: string[]) =>
    `  - { sample: ${id}, colour: { illuminant: D65, observer: 2, readings: [${readings.join(', ')}] } }\n`;

  it(
    'read several times have their own scatter, after the mean of each; one alone cannot tell pigment from ' +
      'brushwork',
    () => {
      const { appearance } = reckon(
        `samples:\n${sample('A', lab(50, 1), lab(50.4, 1), lab(52, 2))}${sample('B', lab(55, 1), lab(57, 2))}${sample('C', lab(60), lab(60.2))}`,
      );
      // Of drawdown 1 of A the mean is 50.2: two readings, 50.2 and 52.
      expect(appearance.samples[0]).toMatchObject({ lab: [51.1, 10, 10], repeatability: { readings: 2 } });
      const [ab, ac] = appearance.pairs!;
      expect(ab!.verdict.caveat).toBeUndefined();
      expect(ac!.verdict.caveat).toMatch(/cannot tell pigment from brushwork/);
    },
  );
});

describe('drawdowns of which some are single', () => {
  it('are said to be single of that sample alone', () => {
    const reading = (l: number, drawdown: number) => `{ lab: [${l}, 10, 10], drawdown: ${drawdown} }`;
    const conditions = 'illuminant: D65, observer: 2';
    const { appearance } = reckon(
      `samples:
  - { sample: P, colour: { ${conditions}, readings: [${reading(50, 1)}, ${reading(50.6, 2)}, ${reading(50.3, 3)}] } }
  - { sample: G, colour: { ${conditions}, lab: [51, 10, 10] } }
`,
    );
    const [pair] = appearance.pairs!;
    expect(pair!.verdict.caveat).toMatch(/^One drawdown of G cannot tell/);
    // P scatters by ΔL* 0.2 on average, which G may do as well: 2 × 0.2 × √((n + 1) ÷ (n − 1)), n = 3.
    expect(pair!.repeatability).toBeCloseTo(0.4 * Math.SQRT2, 2);
    expect(pair!.verdict.words).toBe('measured');
  });
});

describe('colours of repeats', () => {
  const sample = (id: string, l: number, more = '') =>
    `  - { sample: ${id}, ${more}colour: { lab: [${l}, 0, 0], illuminant: D65, observer: 2 } }\n`;
  const repeats = (id: string, of: string, l: number) => sample(id, l, `replicate-of: ${of}, `);
  const cold = `${sample('A', 50)}${repeats('B', 'A', 50.3)}${repeats('C', 'A', 49.7)}`;
  const warm = `${sample('D', 52)}${repeats('E', 'D', 52.3)}${repeats('F', 'D', 51.7)}`;
  const of = (samples: string, control = '') => reckon(`${control}samples:\n${samples}`).appearance;

  it('are compared as a group, by Welch’s test on their scatter', () => {
    const { comparisons, repeats: told, pairs } = of(cold + warm);
    expect(told!.map(({ samples }) => samples.join(''))).toEqual(['ABC', 'DEF']);
    expect(told![0]).toMatchObject({ lab: [50, 0, 0], deviation: expect.closeTo(0.3, 2) as number });
    expect(comparisons).toHaveLength(1);
    const [one] = comparisons!;
    expect(one).toMatchObject({ a: ['A', 'B', 'C'], b: ['D', 'E', 'F'], direction: 'lighter' });
    // Means 2 apart, s 0.3 and 0.3, n 3 and 3: t = 2 ÷ (0.3 √⅔) = 8.16, 4 degrees of freedom.
    expect(Math.abs(Number(one!.t))).toBeGreaterThan(7.9);
    expect(Number(one!.degreesOfFreedom)).toBeCloseTo(4, 1);
    expect(one!.verdict).toMatchObject({ code: 'visible-side-by-side' });
    expect(one!.verdict.caveat).toBeUndefined();
    expect(pairs!.filter(({ verdict }) => verdict.code === 'repeats').map(({ a, b }) => a + b)).toEqual([
      'AB',
      'AC',
      'BC',
      'DE',
      'DF',
      'EF',
    ]);
  });
  it('judge a single sample, which is not told from them where they scatter as wide', () => {
    const { comparisons, pairs } = of(cold + sample('G', 51));
    const [one] = comparisons!;
    expect(one!.verdict).toMatchObject({ code: 'cannot-be-told', caveat: 'G was made only once.' });
    // 4.303 × 0.3 × √(1 + ⅓), t of 2 degrees of freedom.
    expect(one!.repeatability).toBeCloseTo(1.49, 1);
    expect(pairs!.find(({ a, b }) => a + b === 'AG')!.verdict.code).toBe('cannot-be-told');
    expect(of(cold + sample('G', 53)).comparisons![0]!.verdict.code).toBe('visible-side-by-side');
  });
  it('can hardly tell anything where there are two of them', () => {
    const two = `${sample('A', 50)}${repeats('B', 'A', 50.6)}${sample('C', 53)}`;
    const [one] = of(two).comparisons!;
    expect(one!.verdict.sentence).toMatch(/Two repeats can hardly show anything/);
    // 12.706 × 0.424 × √1.5
    expect(one!.repeatability).toBeCloseTo(6.6, 1);
  });
  it('are held against the control, where one is stated', () => {
    const { comparisons, pairs } = of(`${cold}${warm}${sample('G', 51)}`, 'control: G\n');
    expect(comparisons!.map(({ a, b }) => [a, b].map((one) => one.join('')))).toEqual([
      ['G', 'ABC'],
      ['G', 'DEF'],
    ]);
    expect(comparisons![0]).toMatchObject({ correction: 'Holm' });
    expect(pairs).toHaveLength(21);
    const singles = of(`${sample('A', 50)}${sample('B', 52)}${sample('C', 54)}`, 'control: B\n');
    expect(singles.comparisons!.map(({ a, b }) => [...a, ...b].join(''))).toEqual(['BA', 'BC']);
  });
  it('of which some are Lab and some spectra have a mean where both are known for one lamp and observer', () => {
    const grey = 'colour: { lab: [50, 0, 0], illuminant: D65, observer: 10 }';
    const flat = `380,18.42\n${Array.from({ length: 35 }, (_, i) => `${390 + 10 * i},18.42`).join('\n')}\n`;
    const read = (spectrum: string) =>
      reckon(
        `samples:\n  - { sample: A, ${grey} }\n  - { sample: B, replicate-of: A, ${spectrum} }\n`,
        {},
        {
          'spectra/flat.csv': flat,
        },
      ).appearance.repeats;
    // A flat 18.42 % is L* 50.0: Y/Yn of CIE 15.
    expect(read('colour: { spectrum: spectra/flat.csv }')![0]).toMatchObject({
      samples: ['A', 'B'],
      deviation: expect.closeTo(0, 1) as number,
    });
    expect(read('colour: { spectrum: spectra/flat.csv, observer: 2 }')).toBeUndefined();
  });
  it('of which all read the same are judged by the readings', () => {
    const { comparisons } = of(`${sample('A', 50)}${repeats('B', 'A', 50)}${sample('C', 53)}`);
    expect(comparisons![0]!.verdict.code).toBe('visible-side-by-side');
    expect(comparisons![0]!.p).toBeUndefined();
  });
  it('of which two estimates are only guessed give no verdict', () => {
    const guess = (id: string, hex: string, more = '') => `  - { sample: ${id}, ${more}colour: { srgb: "${hex}" } }\n`;
    const {
      comparisons,
      pairs,
      repeats: told,
    } = of(`${guess('A', '#336644')}${guess('B', '#356745', 'replicate-of: A, ')}${guess('C', '#993322')}`);
    expect(comparisons![0]!.verdict.code).toBe('no-verdict');
    expect(told![0]!.estimated).toBe(true);
    expect(pairs!.map(({ verdict }) => verdict.code)).toEqual(['repeats', 'no-verdict', 'no-verdict']);
  });
  it('without any, and without a control, leaves pairs as they are', () => {
    const { comparisons, repeats: told } = of(`${sample('A', 50)}${sample('B', 52)}`);
    expect([comparisons, told]).toEqual([undefined, undefined]);
  });
});

describe('how a sample was prepared, and what became of it', () => {
  it('is told as words; ageing is a difference from before', () => {
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { lab: [50, 10, 10], illuminant: D65, observer: 10 }, preparation: { ' +
        'binder: linseed oil, thickness: 100 µm wet, geometry: specular excluded, condition: M1 }, aged: [{ ' +
        'after: 300 h in a window, colour: { lab: [55, 8, 12], illuminant: D65, observer: 10 } }] }\n',
    );
    const [sample] = appearance.samples;
    expect(sample!.preparation).toBe('linseed oil, 100 µm wet, specular excluded, M1');
    expect(sample!.note).toMatch(/Prepared and read: linseed oil/);
    expect(sample!.aged![0]).toMatchObject({
      after: '300 h in a window',
      delta: [5, -2, 2],
      direction: expect.stringMatching(/lighter/),
    });
  });
});

describe('tints that were read', () => {
  const flat = (r: number) => Array.from({ length: 31 }, (_, i) => `${400 + 10 * i},${r}`).join('\n');
  const files = {
    'spectra/masstone.csv': flat(0.1),
    'spectra/forty.csv': flat(0.4),
    'spectra/fifty.csv': flat(0.5),
    'spectra/sixty.csv': flat(0.6),
    'spectra/white.csv': flat(0.8),
  };
  const tinted = (id: string, file: string, percent = 5, white = 'white: spectra/white.csv, ') =>
    `  - { sample: ${id}, colour: { spectrum: spectra/masstone.csv, ${white}tints: [{ percent: ${percent}, spectrum: ` +
    `spectra/${file}.csv }] } }\n`;
  // By hand: K/S of 40, 50, 60 and 80 % is 0.45, 0.25, 0.13333 and 0.025.
  it('tell how strongly each sample tints against the first, or the control', () => {
    const two = `samples:\n${tinted('A', 'fifty')}${tinted('B', 'forty')}${tinted('C', 'sixty')}`;
    const strengths = (text: string) =>
      reckon(text, {}, files).appearance.samples.map(({ tinting }) => tinting && [tinting.against, tinting.percent]);
    expect(strengths(two)).toEqual([undefined, ['A', 188.9], ['A', 48.1]]);
    expect(strengths(`control: B\n${two}`)).toEqual([['B', 52.9], undefined, ['B', 25.5]]);
  });
  it('against the bought pigment, where a tint of that was read', () => {
    const { appearance } = reckon(
      `samples:\n${tinted('A', 'fifty')}reference:\n  name: bought\n  colour: { spectrum: spectra/masstone.csv, white: ` +
        'spectra/white.csv, tints: [{ percent: 5, spectrum: spectra/forty.csv }] }\n',
      {},
      files,
    );
    expect(appearance.samples[0]!.tinting).toMatchObject({
      against: 'bought',
      percent: 52.9,
      byLightness: 52.9,
      share: 0.05,
      white: 'spectra/white.csv',
    });
  });
  it('tell nothing of tints of other shares or whites', () => {
    for (const other of [tinted('B', 'forty', 10), tinted('B', 'forty', 5, '')])
      expect(reckon(`samples:\n${tinted('A', 'fifty')}${other}`, {}, files).appearance.samples[1]!.tinting).toBe(
        undefined,
      );
  });
  it('stand in the ladder as read, the others fitted to them', () => {
    const tint = cobalt.map(([nm, r]) => `${nm},${(0.5 * (r + 0.9)).toFixed(5)}`).join('\n');
    const { appearance } = reckon(
      'samples:\n  - { sample: A, colour: { spectrum: spectra/cobalt-blue-white.csv, tints: [{ percent: 10, ' +
        'spectrum: spectra/tint.csv }] } }\n',
      {},
      { 'spectra/tint.csv': tint },
    );
    const ladder = appearance.samples[0]!.tintLadder!;
    const read = ladder.steps.filter(({ measured }) => measured).map(({ share }) => share);
    expect(read).toEqual([1, 0.1]);
    expect(ladder.note).toMatch(/^Fitted to the tint that was read, by Kubelka–Munk with one constant/);
  });
});
