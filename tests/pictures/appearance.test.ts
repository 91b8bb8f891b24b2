// The colour section of an entry's page: what it says and what it leaves unsaid. The readings in these tests are
// invented.
import type { Root } from 'hast';
import { describe, expect, test } from 'vitest';
import type {
  AppearanceReckoning,
  ColourPair,
  SampleAppearance,
  UnderLamp,
  OpacityReckoning,
} from '../../src/reckoning/appearance/appearance-contracts.js';
import { appearanceContent } from '../../templates/parts/appearance.js';
import { boxesOf, classed, elements, expectSound, markup, named, words } from './tree.js';

const lamp = (name: UnderLamp['lamp'], called: string, hex: string): UnderLamp => ({
  lamp: name,
  name: called,
  lab: [50, -30, 10],
  xyz: [18, 25, 20],
  swatch: { hex, mapped: false },
});

const spectral: SampleAppearance = {
  sample: 'A',
  lab: [50, -30, 0],
  lch: [50, 30, 180],
  observer: 10,
  basis: 'spectrum',
  family: 'green',
  swatch: { hex: '#2c7a5b', mapped: false },
  perLamp: [
    lamp('D65', 'daylight', '#2c7a5b'),
    lamp('A', 'lamplight', '#2c6a5b'),
    lamp('F11', 'shop light', '#2c7a50'),
  ],
  curve: Array.from({ length: 31 }, (_, i) => ({ nm: 400 + 10 * i, r: 0.1 + 0.01 * i })),
  lampMove: {
    lamp: 'A',
    name: 'lamplight',
    de00: 4.23,
    lab: [48, -28, 4],
    directions: ['darker'],
    text: 'turns darker under lamplight',
    transform: 'CAT16',
  },
  lampMoves: [
    {
      lamp: 'A',
      name: 'lamplight',
      de00: 4.23,
      lab: [48, -28, 4],
      directions: ['darker'],
      text: 'turns darker under lamplight',
      transform: 'CAT16',
    },
  ],
};
const given: SampleAppearance = {
  sample: 'B',
  lab: [54.1, -30.2, 6],
  observer: 10,
  basis: 'lab',
  family: 'green',
  swatch: { hex: '#40906a', mapped: false },
  perLamp: [lamp('D65', 'daylight', '#40906a')],
};

const pair: ColourPair = {
  a: 'A',
  b: 'B',
  de00: 1.234,
  delta: [4.1, -0.2, 6],
  dC: 1.3,
  dH: -5.9,
  direction: 'lighter and yellower',
  under: 'D65/10°',
  verdict: {
    code: 'visible-side-by-side',
    words: 'visible side by side',
    sentence: 'Touching, the two can be told apart.',
    source: 'a published threshold',
  },
  perLamp: [
    { lamp: 'D65', name: 'daylight', de00: 1.234 },
    { lamp: 'A', name: 'lamplight', de00: 5 },
  ],
  metamerism: [{ lamp: 'A', name: 'lamplight', index00: 3.5, index76: 4.5 }],
  metameric: { lamp: 'A', alikeUnder: 'D65', sentence: 'Alike in daylight, they differ by 5.0 under lamplight.' },
};

const shown = (appearance: AppearanceReckoning): Root => {
  const children = appearanceContent(appearance, '/how/');
  expect(children).not.toEqual([]);
  const tree: Root = { type: 'root', children };
  expectSound(tree);
  return tree;
};
const linksOf = (tree: Root): unknown[] => named(tree, 'a').map(({ properties }) => properties.href);
const fieldsOf = (tree: ReturnType<typeof shown>) => classed(tree, 'fields').flatMap(boxesOf);
const rows = (tree: ReturnType<typeof shown>, caption: RegExp): string[][] =>
  named(tree, 'table')
    .filter((table) => caption.test(words(named(table, 'caption')[0] ?? table)))
    .flatMap((table) =>
      named(table, 'tr').map((row) => elements(row, ({ tagName }) => tagName === 'th' || tagName === 'td').map(words)),
    );

describe('the colour section', () => {
  test('is not there when no sample has a colour, an opacity or a test', () => {
    expect(appearanceContent({ samples: [] }, '/how/')).toEqual([]);
    expect(appearanceContent({ samples: [{ sample: 'A' }] }, '/how/')).toEqual([]);
  });

  test('lists Lab, chroma and hue in daylight, with what they come from', () => {
    const tree = shown({ samples: [spectral, given] });
    expect(rows(tree, /in daylight/)).toEqual([
      ['', 'L*', 'a*', 'b*', 'C*', 'h°'],
      ['A', '50.0', '−30.0', '0.0', '30.0', '180'],
      ['B', '54.1', '−30.2', '6.0', '30.8', '169'],
    ]);
    expect(words(tree)).toContain('A: green, spectrum, 10°. B: green, Lab as given, 10°.');
    expect(words(shown({ samples: [spectral, { ...spectral, sample: 'C' }] }))).toContain('Green, spectrum, 10°.');
  });

  test('a neutral colour has no hue', () => {
    expect(rows(shown({ samples: [{ ...given, lab: [50, 0.1, -0.02] }] }), /in daylight/)[1]).toEqual([
      'B',
      '50.0',
      '0.1',
      '0.0',
      '0.1',
      '–',
    ]);
  });

  test('an estimate says that it is one', () => {
    const tree = shown({
      samples: [{ ...given, basis: 'srgb-estimate', labApproximate: true, note: 'Read from a photograph.' }],
    });
    expect(rows(tree, /in daylight/)[1]![0]).toBe('B ≈');
    expect(words(tree)).toContain('rough estimate from sRGB, 10°');
    expect(words(tree)).toContain('Read from a photograph.');
    expect(words(tree)).toContain('≈ estimated from sRGB.');
  });

  test.each([
    ['srgb-estimate', undefined, '≈ estimated from sRGB.'],
    ['photograph', undefined, '≈ read from a photograph.'],
    ['lab', { lab: [50, 1, 1], illuminant: 'D50', observer: 2 }, '≈ carried over from another illuminant.'],
    ['lab', undefined, '≈ taken for D65, as no illuminant is written.'],
  ] as const)('≈ says why, and nothing else: %s', (basis, as, said) => {
    const { given: _, ...plain } = given;
    const tree = shown({ samples: [{ ...plain, basis, labApproximate: true, ...(as && { given: as }) }] });
    expect(words(tree).match(/≈ [a-z][^.]*\./gu)).toEqual([said]);
  });

  test('two reasons stand in one sentence', () => {
    const one = { ...given, basis: 'srgb-estimate', labApproximate: true } as const;
    const tree = shown({ samples: [one, { ...one, sample: 'C', basis: 'photograph' }] });
    expect(words(tree)).toContain('≈ estimated from sRGB, or read from a photograph.');
  });

  test('invented readings are said to be invented', () => {
    expect(words(shown({ samples: [{ ...spectral, invented: true }] }))).toContain('The readings are invented');
    expect(words(shown({ samples: [{ ...spectral, invented: true }, given] }))).toContain(
      'The readings of A are invented',
    );
    expect(words(shown({ samples: [spectral] }))).not.toContain('invented');
  });

  test('draws what moves from daylight to lamplight, and says whither', () => {
    const tree = shown({ samples: [spectral] });
    expect(classed(tree, 'lamps').length).toBe(1);
    expect(fieldsOf(tree).map(({ colour }) => colour)).toEqual(['#2c7a5b', '#2c6a5b']);
    expect(words(tree)).toContain('Sample A turns darker under lamplight (ΔE₀₀ 4.2)');
    expect(rows(tree, /under each lamp/)).toEqual([
      ['Lamp', 'A'],
      ['daylight (D65)', '50.0, −30.0, 10.0'],
      ['lamplight (A)', '50.0, −30.0, 10.0; 4.23, darker'],
      ['shop light (F11)', '50.0, −30.0, 10.0'],
    ]);
  });

  test('without a spectrum the colour under lamplight is said to be unknown, not guessed', () => {
    const tree = shown({ samples: [given] });
    expect(classed(tree, 'lamps').length).toBe(0);
    expect(words(tree)).toContain('Sample B: the colour under lamplight can’t be known without a spectrum.');
  });

  test('a difference stands with its verdict, its figures and the way to the sources of the thresholds', () => {
    const tree = shown({ samples: [spectral, given], pairs: [pair] });
    expect(words(tree)).toContain('Visible side by side. Touching, the two can be told apart.');
    expect(linksOf(tree)).toContain('/how/#differences');
    // One pair is told in words; a table would have one row.
    expect(words(tree)).toContain('Under D65/10°, second less first: ΔL* 4.1, Δa* −0.2, Δb* 6.0.');
    expect(rows(tree, /Colour differences/)).toEqual([]);
    expect(
      rows(
        shown({ samples: [spectral, given], pairs: [pair, { ...pair, under: 'D50/2°', repeatability: 0.12 }] }),
        /Colour differences/,
      ).map((cells) => cells.slice(5)),
    ).toEqual([
      ['Scatter', 'Under', 'Verdict'],
      ['–', 'D65/10°', 'visible side by side'],
      ['0.12', 'D50/2°', 'visible side by side'],
    ]);
    expect(words(shown({ samples: [spectral, given], pairs: [pair, pair] }))).toContain(
      'Colour differences (CIEDE2000) under D65/10°; second less first',
    );
    expect(words(tree)).toContain('how well a reading repeats is not known');
    expect(rows(tree, /metamerism/)).toEqual([
      ['Lamp', 'A and B'],
      ['lamplight (A)', '5.00 (3.50)'],
    ]);
  });

  test('a verdict that its sentence begins with is said once', () => {
    const tree = shown({
      samples: [spectral],
      pairs: [{ ...pair, verdict: { ...pair.verdict, sentence: 'Visible side by side, hardly apart: ΔE00 1.23.' } }],
    });
    expect(words(classed(tree, 'verdict')[0]!)).toMatch(/^Visible side by side, hardly apart: ΔE₀₀ 1\.23\. Under/);
  });

  test('a pair that parts under lamplight is pointed out', () => {
    expect(words(classed(shown({ samples: [spectral, given], pairs: [pair] }), 'note')[0]!)).toBe(
      'A and B part under another lamp. Alike in daylight, they differ by 5.0 under lamplight.',
    );
  });

  test('of many differences the largest are told, all are in the table', () => {
    const many = Array.from(
      { length: 10 },
      (_, i): ColourPair => ({ ...pair, metameric: undefined, a: `S${i}`, b: 'T', de00: i }),
    );
    const tree = shown({ samples: [spectral], pairs: many });
    expect(classed(tree, 'verdict').map((one) => words(one).slice(0, 9))).toEqual([
      'S9 and T.',
      'S8 and T.',
      'S7 and T.',
    ]);
    expect(rows(tree, /Colour differences/).length).toBe(11);
    expect(words(tree)).toContain('The 3 largest of 10');
  });

  test('a bought reference stands beside the samples everywhere', () => {
    const tree = shown({
      samples: [spectral],
      reference: {
        name: 'Bought green',
        lab: [52, -31, 1],
        observer: 10,
        basis: 'spectrum',
        family: 'green',
        swatch: { hex: '#2f8060', mapped: true },
        perLamp: spectral.perLamp,
        curve: spectral.curve,
        differences: [{ ...pair, metameric: undefined, sample: 'A' }],
      },
    });
    // Second less first: the difference is of the sample less the reference.
    expect(words(tree)).toContain('Under D65/10°, second less first: ΔL* 4.1');
    expect(rows(tree, /metamerism/)[0]).toEqual(['Lamp', 'Bought green and A']);
    expect(rows(tree, /in daylight/).map(([name]) => name)).toEqual(['', 'A', 'Bought green']);
    expect(classed(tree, 'dab').length).toBe(1);
    expect(classed(tree, 'curve').length).toBe(2);
    expect(fieldsOf(tree).length).toBe(4);
  });

  test('opacity is a word with its figures, and what the word means is said once', () => {
    const opacity: OpacityReckoning = {
      contrastRatio: 82.31,
      overBlackY: 21.4,
      overWhiteY: 26,
      word: 'semi-opaque',
      definition: 'contrast ratio 75 to 98 %',
      notes: ['The film’s thickness is not known.'],
    };
    const tree = shown({
      samples: [
        { sample: 'A', opacity },
        { sample: 'B', opacity: { ...opacity, contrastRatio: 76 } },
      ],
    });
    expect(words(tree)).toContain('A semi-opaque, 82.3 %; B semi-opaque, 76.0 %.');
    expect(words(tree).split('Semi-opaque means contrast ratio 75 to 98 %.')).toHaveLength(2);
    expect(rows(tree, /over black and over white/)[1]).toEqual(['A', '21.4', '26.0', '82.3']);
    const spectra = shown({
      samples: [
        { sample: 'A', opacity },
        { sample: 'B', opacity: { ...opacity, de00: 2.31 } },
      ],
    });
    expect(rows(spectra, /over black and over white/).map((cells) => cells.at(-1))).toEqual(['ΔE₀₀', '–', '2.3']);
    expect(words(tree)).toContain('The film’s thickness is not known.');
  });

  test('a tint ladder is said to be computed, with its white and how far to trust it', () => {
    const tree = shown({
      samples: [
        {
          sample: 'A',
          tintLadder: {
            computed: true,
            white: 'standard white',
            whiteGiven: false,
            note: 'An estimate only.',
            steps: [
              { share: 1, lab: [50, -30, 0], hex: '#2c7a5b', mapped: false },
              { share: 0.05, lab: [90, -8, 1], hex: '#cfe3da', mapped: true },
            ],
          },
        },
      ],
    });
    expect(words(tree)).toContain('Sample A with standard white; computed, not painted.');
    expect(words(tree)).toContain('An estimate only.');
    expect(rows(tree, /Computed tints/).slice(1)).toEqual([
      ['100.0', '50.0, −30.0, 0.0; #2c7a5b'],
      ['5.0', '90.0, −8.0, 1.0; #cfe3da †'],
    ]);
  });

  test('samples thinned in the same steps share a drawing and a table; another white has its own', () => {
    const ladder = {
      computed: true as const,
      white: 'standard white',
      whiteGiven: false,
      note: 'An estimate only.',
      steps: [
        { share: 1, lab: [50, -30, 0] as const, hex: '#2c7a5b', mapped: false },
        { share: 0.05, lab: [90, -8, 1] as const, hex: '#cfe3da', mapped: false },
      ],
    };
    const tree = shown({
      samples: [
        { sample: 'A', tintLadder: ladder },
        { sample: 'B', tintLadder: ladder },
        { sample: 'C', tintLadder: { ...ladder, white: 'lead white' } },
      ],
    });
    expect(classed(tree, 'ladder').map((one) => classed(one, 'steps').length)).toEqual([2, 1]);
    expect(rows(tree, /tints of samples A, B:/)[0]).toEqual(['Pigment, %', 'A', 'B']);
    expect(words(tree)).toContain('Sample C with lead white; computed, not painted.');
  });

  test('standard tests keep their unit, range and standard', () => {
    const tree = shown({
      samples: [
        {
          sample: 'A',
          tests: [
            {
              test: 'oil-absorption',
              name: 'Oil absorption',
              value: 38,
              unit: 'g/100 g',
              range: 'about 9 to 150 g/100 g',
              standard: 'ISO 787-5',
              text: '38 g/100 g',
            },
            { test: 'acid-spot', name: 'Acid spot', value: 'slight', text: 'slight' },
          ],
        },
      ],
    });
    expect(named(tree, 'li').map(words)).toEqual(['Oil absorption: 38\u00a0g/100\u00a0g', 'Acid spot: slight']);
    expect(linksOf(tree)).toEqual(['/how/#tests']);
  });

  test('a test that came out the same for every sample is said once, else with its samples', () => {
    const spot = (text: string) => [{ test: 'acid-spot' as const, name: 'Acid spot', value: text, text }];
    const lines = (...results: (string | undefined)[]): string[] =>
      named(
        shown({
          samples: results.map((text, at) => ({ sample: 'ABC'[at]!, ...(text && { tests: spot(text) }) })),
        }),
        'li',
      ).map(words);
    expect(lines('slight', 'slight')).toEqual(['Acid spot: slight each']);
    expect(lines('slight', 'changed')).toEqual(['Acid spot: A slight, B changed']);
    expect(lines('slight', undefined)).toEqual(['Acid spot: A slight']);
  });

  test('every drawing has its table behind it', () => {
    const tree = shown({ samples: [spectral, { ...spectral, sample: 'C' }], pairs: [pair] });
    const figures = classed(tree, 'picture').filter((figure) => classed(figure, 'dab').length === 0);
    expect(figures.length).toBe(2);
    for (const figure of figures)
      expect(named(figure, 'details').flatMap((details) => named(details, 'tbody')).length).toBe(1);
  });

  test('six samples are drawn four at a time', () => {
    const tree = shown({ samples: ['A', 'B', 'C', 'D', 'E', 'F'].map((sample) => ({ ...spectral, sample })) });
    expect(classed(tree, 'lamps').length).toBe(2);
    expect(fieldsOf(tree).length).toBe(12);
  });

  test('names that look like markup stay words', () => {
    const html = markup(
      shown({
        samples: [
          { ...spectral, sample: '<img onerror=x>' },
          { ...given, note: '</section><script>alert(1)</script>' },
        ],
      }),
    );
    expect(html).not.toMatch(/<img|<script/);
  });
});
