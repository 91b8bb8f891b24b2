// Drawings of measured colour: lamps, curves, the a*b* plane, lightness, tints. The data in these tests are invented.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coloursInPlace } from '../../templates/pictures/colours-in-place.js';
import { curveRows } from '../../templates/pictures/curve-rows.js';
import { reflectanceCurves, type ReflectanceCurve } from '../../templates/pictures/curves.js';
import { tidy } from '../../templates/pictures/hand.js';
import { around, spread } from '../../templates/pictures/labels.js';
import { rung, tintLadder, usual } from '../../templates/pictures/ladder.js';
import { lampPair, type SampleUnderLamps } from '../../templates/pictures/lamps.js';
import { abPlane, lightnessRule, type PlacedColour } from '../../templates/pictures/plane.js';
import { alternative, boxesOf, classed, coordinates, elements, expectSound, fills, named, words } from './tree.js';
import { turning, type Point } from '../../templates/pictures/hand.js';

const under = (label: string, daylight: string, lamplight: string, mapped = false): SampleUnderLamps => ({
  label,
  lamps: [
    { lamp: 'daylight', hex: daylight },
    { lamp: 'lamplight', hex: lamplight, mapped },
  ],
});
const fieldsOf = (tree: Parameters<typeof named>[0]) => classed(tree, 'fields').flatMap(boxesOf);
const texts = (tree: Parameters<typeof named>[0]): string[] => named(tree, 'text').map(words);

describe('samples under lamps', () => {
  const pair = lampPair({
    samples: [under('A', '#102030', '#112131'), under('B', '#203040', '#503040')],
    verdict: 'They part under lamplight.',
  });

  test('a pair makes four fields, the two of a lamp touching', () => {
    expectSound(pair);
    const fields = fieldsOf(pair);
    expect(fields.map(({ colour }) => colour)).toEqual(['#102030', '#203040', '#112131', '#503040']);
    const [first, second, third] = fields;
    expect(first!.x + first!.width).toBe(second!.x);
    expect(first!.y).toBe(second!.y);
    expect(third!.y).toBeGreaterThan(first!.y + first!.height);
  });

  test('samples and lamps are named, and the text alternative has colours and verdict', () => {
    expect(texts(pair)).toEqual(['A', 'B', 'daylight', 'lamplight']);
    expect(alternative(pair)).toBe(
      'A and B under daylight and lamplight. A: daylight #102030, lamplight #112131. B: daylight #203040, ' +
        'lamplight #503040. They part under lamplight.',
    );
  });

  test('one sample is set against itself, daylight touching lamplight', () => {
    const tree = lampPair({ samples: [under('A', '#102030', '#112131')] });
    expect(texts(tree)).toEqual(['daylight', 'lamplight', 'A']);
    const fields = fieldsOf(tree);
    expect(fields.length).toBe(2);
    expect(fields[0]!.x + fields[0]!.width).toBe(fields[1]!.x);
  });

  test('a mapped colour is marked at its field and explained', () => {
    const tree = lampPair({ samples: [under('A', '#102030', '#112131', true), under('B', '#203040', '#503040')] });
    expect(classed(tree, 'mark').length).toBe(1);
    expect(texts(tree)).toContain('† nearest colour a screen can show');
  });

  test('a lamp that a sample was not reckoned for stays an empty field', () => {
    const tree = lampPair({
      samples: [under('A', '#102030', '#112131'), { label: 'B', lamps: [{ lamp: 'daylight', hex: '#203040' }] }],
    });
    expectSound(tree);
    expect(fieldsOf(tree).length).toBe(3);
    expect(classed(tree, 'unpainted').length).toBe(1);
  });

  test('nothing to show is said, three samples still touch', () => {
    expectSound(lampPair({ samples: [] }));
    const three = lampPair({ samples: ['A', 'B', 'C'].map((label) => under(label, '#102030', '#112131')) });
    const row = fieldsOf(three).slice(0, 3);
    row.slice(1).forEach((field, i) => {
      expect(field.x).toBeCloseTo(row[i]!.x + row[i]!.width, 6);
    });
  });
});

describe('reflectance curves', () => {
  const slope = (label: string, to: number, hex?: string): ReflectanceCurve => ({
    label,
    hex,
    points: Array.from({ length: 31 }, (_, i) => [400 + 10 * i, (to * i) / 30] as const),
  });

  test('each sample is one curve with its own dashes and its name at the end', () => {
    const tree = reflectanceCurves({
      curves: ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'].map((label, i) => slope(label, 0.2 + 0.1 * i)),
    });
    expectSound(tree);
    const dashes = classed(tree, 'curve').map(({ properties }) => String(properties.strokeDashArray ?? 'solid'));
    expect(new Set(dashes).size).toBe(8);
    expect(texts(tree).filter((text) => /^[A-H]$/.test(text)).length).toBe(8);
    // The ink is the style sheet's, the same for all.
    expect(classed(tree, 'curve').map(({ properties }) => properties.stroke)).toEqual(Array(8).fill(undefined));
  });

  test('beyond eight the dashes return with a heavier line', () => {
    const drawn = classed(
      reflectanceCurves({ curves: Array.from({ length: 16 }, (_, i) => slope(`S${i}`, 0.5)) }),
      'curve',
    ).map(({ properties }) => `${properties.strokeDashArray} ${properties.strokeWidth}`);
    expect(new Set(drawn).size).toBe(16);
  });

  test('the frame is 400 to 700 nm and 0 to 100 %, so that entries compare', () => {
    const tree = reflectanceCurves({ curves: [slope('A', 0.5)] });
    expect(texts(tree)).toEqual(
      expect.arrayContaining([
        '400',
        '450',
        '500',
        '550',
        '600',
        '650',
        '700',
        '0',
        '20',
        '40',
        '60',
        '80',
        '100',
        'wavelength, nm',
        'reflectance, %',
      ]),
    );
    const path = coordinates(classed(tree, 'curve')[0]);
    expect(path.slice(0, 2)).toEqual([34, 190]);
    expect(path.slice(-2)).toEqual([334, 108]);
  });

  test('of dark samples only, the frame ends at 25 % and says so', () => {
    const tree = reflectanceCurves({ curves: [slope('A', 0.2), slope('B', 0.1)] });
    expect(texts(tree)).toEqual(expect.arrayContaining(['reflectance, %, drawn to 25 % only', '25']));
    expect(coordinates(classed(tree, 'curve')[0]).slice(-1)).toEqual([58.8]);
    expect(texts(reflectanceCurves({ curves: [slope('A', 0.2), slope('B', 0.4)] }))).not.toContain('25');
  });

  test('a reading over 100 % widens the frame instead of leaving it', () => {
    const tree = reflectanceCurves({ curves: [slope('A', 1.27)] });
    expect(Math.min(...coordinates(classed(tree, 'curve')[0]).filter((_, i) => i % 2 === 1))).toBeGreaterThanOrEqual(
      26,
    );
  });

  test('the text alternative names the lowest and highest reflectance', () => {
    expect(alternative(reflectanceCurves({ curves: [slope('A', 0.6)] }))).toBe(
      'Reflectance of A. A: lowest 0.0 % at 400 nm, highest 60 % at 700 nm.',
    );
  });

  test('names at the ends keep apart when the curves do not', () => {
    const tree = reflectanceCurves({ curves: ['A', 'B', 'C', 'D'].map((label) => slope(label, 0.5)) });
    const heights = named(tree, 'text')
      .filter((text) => /^[A-D]$/.test(words(text)))
      .map(({ properties }) => Number(properties.y))
      .sort((x, y) => x - y);
    heights.slice(1).forEach((y, i) => {
      expect(y - (heights[i] ?? 0)).toBeGreaterThanOrEqual(13.9);
    });
  });

  test('one point is a dot, no points are said, broken points are left out', () => {
    const dot = reflectanceCurves({ curves: [{ label: 'A', points: [[550, 0.4]] }] });
    expectSound(dot);
    expect(classed(dot, 'curve')[0]?.tagName).toBe('circle');
    expect(words(reflectanceCurves({ curves: [] }))).toContain('No spectrum was read.');
    const broken = reflectanceCurves({
      curves: [
        {
          label: 'A',
          points: [
            [400, Number.NaN],
            [410, 0.2],
            [Number.POSITIVE_INFINITY, 0.2],
            [420, 0.3],
          ],
        },
      ],
    });
    expectSound(broken);
    expect(coordinates(classed(broken, 'curve')[0]).length).toBe(4);
  });
});

describe('the a*b* plane', () => {
  const colours: PlacedColour[] = [
    { label: '1 A', lab: [50, 40, 0], hex: '#aa4455', family: 'red' },
    { label: '2 A', lab: [60, 0, 60], hex: '#bbaa00' },
    { label: '3 A', lab: [30, -20, -20], hex: '#003344' },
  ];

  test('a dot lies right for +a*, up for +b*, at a distance that is its chroma', () => {
    const tree = abPlane({ title: 'Iron', colours });
    expectSound(tree);
    const dots = classed(tree, 'colour').map(({ properties }) => ({
      fill: properties.fill,
      x: Number(properties.cx) - 190,
      y: 190 - Number(properties.cy),
    }));
    expect(dots.map(({ fill }) => fill)).toEqual(['#aa4455', '#bbaa00', '#003344']);
    expect(dots[0]).toMatchObject({ y: 0 });
    expect(dots[1]).toMatchObject({ x: 0 });
    expect((dots[1]?.y ?? 0) / (dots[0]?.x ?? 1)).toBeCloseTo(1.5, 2);
    expect(dots[2]?.x).toBeLessThan(0);
    expect(dots[2]?.y).toBeLessThan(0);
  });

  test('rings are numbered and the outermost holds every dot', () => {
    const tree = abPlane({ title: 'Iron', colours });
    const outermost = Math.max(...classed(tree, 'ring').map(({ properties }) => Number(properties.r)));
    for (const { properties } of classed(tree, 'colour'))
      expect(Math.hypot(Number(properties.cx) - 190, Number(properties.cy) - 190)).toBeLessThanOrEqual(outermost + 0.1);
    expect(texts(tree)).toEqual(expect.arrayContaining(['20', '40', 'C* 60', '+a*', '+b*']));
    expect(texts(tree)).toEqual(
      expect.arrayContaining(['red', 'orange', 'yellow', 'green', 'blue-green', 'blue', 'violet']),
    );
  });

  test('every dot has its name beside it, and no two names overlap', () => {
    const crowd = Array.from(
      { length: 12 },
      (_, i): PlacedColour => ({
        label: `${i + 1} A`,
        lab: [50, 20 + (i % 4) * 3, 20 + Math.floor(i / 4) * 3],
        hex: '#886644',
      }),
    );
    const tree = abPlane({ title: 'Crowd', colours: crowd });
    expect(classed(tree, 'name').length).toBe(12);
    const boxes = around(
      crowd.map(({ lab }) => ({ x: 100 + lab[1] * 2, y: 100 + lab[2] * 2, width: 24 })),
      13,
      8,
      { x: 0, y: 0, width: 380, height: 380 },
    );
    boxes.forEach((one, i) =>
      boxes.slice(i + 1).forEach((other) => {
        if (one && other)
          expect(
            one.x + one.width <= other.x ||
              other.x + other.width <= one.x ||
              one.y + one.height <= other.y ||
              other.y + other.height <= one.y,
          ).toBe(true);
      }),
    );
  });

  test('names without room are counted, not lost', () => {
    const heap = Array.from(
      { length: 80 },
      (_, i): PlacedColour => ({ label: `${i} A`, lab: [50, 10, 10], hex: '#886644' }),
    );
    const tree = abPlane({ title: 'Heap', colours: heap });
    const unnamed = 80 - classed(tree, 'name').length;
    expect(unnamed).toBeGreaterThan(0);
    expect(words(tree)).toContain(`${unnamed} more named in the table`);
    expect(alternative(tree)).toMatch(/39 A: L\* 50, C\* 14, hue 45°\. And 40 more\.$/);
  });

  test('a journal of thousands is drawn without names, and as many as can be told apart', () => {
    const heap = Array.from(
      { length: 3000 },
      (_, i): PlacedColour => ({ label: `${i} A`, lab: [i % 100, (i % 37) - 18, (i % 53) - 26], hex: '#886644' }),
    );
    const tree = coloursInPlace({ title: 'Heap', colours: heap })!;
    expect(classed(tree, 'colour').length).toBe(600);
    expect(classed(tree, 'name').length).toBe(0);
    expect(words(tree)).toContain('300 of 3000 samples are drawn.');
    expect(words(tree)).toContain('names in the table');
    expect(named(tree, 'tbody').flatMap((body) => named(body, 'tr')).length).toBe(300);
  });

  test('neutral, equal, single, absent and absurd colours are drawn soundly', () => {
    for (const labs of [
      [],
      [[0, 0, 0]],
      [
        [50, 0, 0],
        [50, 0, 0],
      ],
      [[50, 1e9, -1e9]],
      [[Number.NaN, 1, 1]],
      [[50, Number.POSITIVE_INFINITY, 0]],
    ] as [number, number, number][][]) {
      expectSound(abPlane({ title: 'x', colours: labs.map((lab, i) => ({ label: `${i}`, lab })) }));
      expectSound(lightnessRule({ title: 'x', colours: labs.map((lab, i) => ({ label: `${i}`, lab })) }));
    }
    expect(words(abPlane({ title: 'x', colours: [] }))).toContain('no colour measured');
  });

  test('any finite Lab values give a sound drawing', () => {
    const lab = fc.tuple(
      fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
      fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
      fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
    );
    fc.assert(
      fc.property(fc.array(fc.record({ label: fc.string(), lab }), { maxLength: 20 }), (some) => {
        expectSound(abPlane({ title: 'x', colours: some }));
        expectSound(lightnessRule({ title: 'x', colours: some }));
      }),
      { numRuns: 50 },
    );
  });

  test('with its table it is one figure; without a measured colour there is none', () => {
    const tree = coloursInPlace({ title: 'Iron', colours })!;
    expectSound(tree);
    expect(named(tree, 'svg').length).toBe(2);
    expect(
      named(tree, 'tbody')
        .flatMap((body) => named(body, 'tr'))
        .map(words),
    ).toEqual(['1 A50.040.00.040.00red', '2 A60.00.060.060.090–', '3 A30.0−20.0−20.028.3225–']);
    expect(coloursInPlace({ title: 'Iron', colours: [{ label: 'x', lab: [Number.NaN, 0, 0] }] })).toBeNull();
  });
});

describe('the rule of lightness', () => {
  test('dots keep the order of their lightness and do not cover each other', () => {
    const tree = lightnessRule({
      title: 'x',
      colours: [70, 20, 71, 72].map((lightness, i) => ({
        label: `${i}`,
        lab: [lightness, 0, 0] as const,
        hex: '#777777',
      })),
    });
    const at = classed(tree, 'colour').map(({ properties }) => Number(properties.cx));
    expect([at[1], at[0], at[2], at[3]]).toEqual([...at].sort((x, y) => x - y));
    expect(Math.min((at[2] ?? 0) - (at[0] ?? 0), (at[3] ?? 0) - (at[2] ?? 0))).toBeGreaterThanOrEqual(16);
  });
});

describe('coordinates', () => {
  test('are to a tenth, and never anything but a number', () => {
    expect([1.26, -0.04, Number.NaN, Number.POSITIVE_INFINITY].map(tidy)).toEqual([1.3, 0, 0, 0]);
  });
});

describe('places for labels', () => {
  test('what is apart stays where it is, what is crowded is set about its middle', () => {
    expect(spread([10, 50, 90], 14, 0, 100)).toEqual([10, 50, 90]);
    expect(spread([50, 50, 50], 10, 0, 100)).toEqual([40, 50, 60]);
    expect(spread([0, 0], 10, 0, 100)).toEqual([0, 10]);
    expect(spread([100, 100], 10, 0, 100)).toEqual([90, 100]);
  });

  test('keeps the order, the gap and the limits for any wishes', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 30 }), (wanted) => {
        const places = spread(wanted, 5, 0, 100);
        const room = Math.min(5, 100 / Math.max(1, wanted.length - 1));
        const order = wanted.map((_, i) => i).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
        order.slice(1).forEach((i, at) => {
          expect((places[i] ?? 0) - (places[order[at] ?? 0] ?? 0)).toBeGreaterThanOrEqual(room - 0.02);
        });
        for (const place of places) {
          expect(place).toBeGreaterThanOrEqual(-1e-6);
          expect(place).toBeLessThanOrEqual(100 + 1e-6);
        }
      }),
    );
  });
});

test('a path goes through all of its points but for those that lie on its way', () => {
  const heights = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(heights, (tenths) => {
      const points = tenths.map((height, at): Point => [10 * at, height / 100]);
      const kept = turning(points);
      expect([kept[0], kept.at(-1)]).toEqual([points[0], points.at(-1)]);
      for (const [x, y] of points) {
        const after = Math.max(
          1,
          kept.findIndex((one) => one[0] >= x),
        );
        const [fromX, fromY] = kept[after - 1]!;
        const [toX, toY] = kept[after] ?? [fromX + 1, fromY];
        expect(Math.abs(fromY + ((x - fromX) / (toX - fromX)) * (toY - fromY) - y)).toBeLessThanOrEqual(0.05 + 1e-9);
      }
    }),
  );
  expect(
    turning([
      [0, 0],
      [1, 1],
      [2, 2],
      [3, 0],
    ]),
  ).toEqual([
    [0, 0],
    [2, 2],
    [3, 0],
  ]);
});

describe('the tint ladder', () => {
  const steps = [1, 0.5, 0.25, 0.125, 0].map((share, i) => ({
    share,
    hex: `#${(17 * (i + 2)).toString(16).padStart(2, '0').repeat(3)}`,
  }));

  test('steps touch, in the order from masstone to white, each with its share', () => {
    const tree = tintLadder({ samples: [{ label: 'sample A', steps }], basis: 'computed (Kubelka–Munk)' });
    expectSound(tree);
    const boxes = classed(tree, 'steps').flatMap(boxesOf);
    expect(boxes.map(({ colour }) => colour)).toEqual(steps.map(({ hex }) => hex));
    boxes.slice(1).forEach((step, i) => {
      expect(step.x).toBeCloseTo(boxes[i]!.x + boxes[i]!.width, 6);
    });
    expect(texts(tree)).toEqual(['100', '50', '25', '12.5', '0', '% pigment in white · computed (Kubelka–Munk)']);
    expect(alternative(tree)).toBe(
      'Tints of sample A with white, computed (Kubelka–Munk). 5 steps: 100, 50, 25, 12.5, 0 % of pigment in white.',
    );
  });

  test('the usual seven steps of several samples stand where the style sheet puts them', () => {
    const seven = Array.from({ length: usual.steps }, (_, i) => ({ share: 1 - i / 7, hex: `#${i}0${i}0${i}0` }));
    const samples = ['A', 'B'].map((label) => ({ label, steps: seven }));
    const tree = tintLadder({ samples, basis: 'computed' });
    expectSound(tree);
    const groups = classed(tree, 'usual');
    expect(groups.map(({ properties }) => properties.transform)).toEqual(['translate(61 13)', 'translate(61 64)']);
    for (const one of groups) expect(fills(one).slice(1)).toEqual(seven.map(({ hex }) => hex));
    const styles = readFileSync(new URL('../../public/styles/pictures.css', import.meta.url), 'utf8');
    const rules = /\.usual rect \{\n([^]*?)\n\}/.exec(styles)![1]!;
    const px = (value: number): string => `${Number(value.toFixed(2))}px`;
    expect(rules.split('\n').map((rule) => rule.trim())).toEqual([
      `width: ${px(usual.breadth)}; height: ${px(rung.several)};`,
      ...seven.slice(1).map((_, i) => `&:nth-child(${i + 2}) { x: ${px((i + 1) * usual.breadth)}; }`),
    ]);
  });

  test('a computed ladder says so in the drawing and in its title', () => {
    const tree = tintLadder({ samples: [{ label: 'sample A', steps }], basis: 'computed (Kubelka–Munk)' });
    expect(alternative(tree)).toMatch(/^Tints of sample A with white, computed/);
  });

  test('mapped steps are marked; many steps thin their numbers; none is said', () => {
    const many = Array.from({ length: 30 }, (_, i) => ({ share: 1 - i / 29, hex: '#808080', mapped: i < 3 }));
    const tree = tintLadder({ samples: [{ label: 'A', steps: many }], basis: 'computed' });
    expectSound(tree);
    expect(classed(tree, 'mark').length).toBe(3);
    expect(texts(tree).filter((text) => /^[\d.]+$/.test(text)).length).toBeLessThan(12);
    expect(words(tintLadder({ samples: [{ label: 'A', steps: [] }], basis: 'computed' }))).toContain('No tints.');
    expectSound(
      tintLadder({ samples: [{ label: 'A', steps: [{ share: Number.NaN, hex: 'nonsense' }] }], basis: 'computed' }),
    );
  });

  test('no drawing carries a colour that is not a plain one', () => {
    const tree = tintLadder({
      samples: [{ label: 'A', steps: [{ share: 1, hex: 'url(https://x.example/)' }] }],
      basis: 'computed',
    });
    expect(elements(tree, ({ properties }) => `${properties.fill} ${properties.stroke}`.includes('url')).length).toBe(
      0,
    );
  });
});

describe('the rows of a table of curves', () => {
  const told = (value: number): string => (Number.isNaN(value) ? '–' : String(value));
  const all = (): boolean => true;
  test('curves with values at the same wavelengths stand side by side', () => {
    const [one, other] = [
      [[400, 1] as const, [420, 2] as const],
      [[400, 3] as const, [420, 4] as const],
    ];
    expect(curveRows([one, other], all, told)).toEqual([
      ['400', '1', '3'],
      ['420', '2', '4'],
    ]);
  });
  test('what one curve lacks is not known, and wavelengths go upwards', () => {
    const [one, other] = [[[420, 2] as const, [400, 1] as const], [[410, 3] as const]];
    expect(curveRows([one, other], all, told)).toEqual([
      ['400', '1', '–'],
      ['410', '–', '3'],
      ['420', '2', '–'],
    ]);
    expect(curveRows([one, other], (nm, first, count) => nm - first >= 20 && count === 3, told)).toEqual([
      ['420', '2', '–'],
    ]);
  });
  test('no curve makes no row', () => expect(curveRows([], all, told)).toEqual([]));
});
