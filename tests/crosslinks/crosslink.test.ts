// How entries hang together: series, families, backlinks, lots, what is still to be made.
import { describe, expect, it } from 'vitest';
import { crosslink } from '../../src/crosslinks/crosslink.js';
import { isMade, knownPigments } from '../../src/crosslinks/known-pigments.js';
import { untoldFamily } from '../../src/crosslinks/untold-families.js';
import type { Entry, Journal } from '../../src/journal/entry.js';
import { entrySchema, type ShelfReagent } from '../../src/journal/schema.js';
import { gistOf } from '../../src/reckoning/gist.js';
import type { ReckonedEntry } from '../../src/reckoning/contracts.js';

const shelf = new Map<string, ShelfReagent>([
  ['green-vitriol', { name: 'green vitriol', formula: 'FeSO4·7H2O' }],
  ['own-oxide', { name: 'our red', lot: '1/A' }],
]);
const journal = {
  folder: '/j',
  settings: {},
  shelf: { file: 'shelf.yaml', text: '', reagents: shelf },
  entries: [],
  series: [{ file: 'series/Fe.md', name: 'Fe', body: 'Iron.', bodyLine: 1 }],
  colours: [],
  pages: [],
  register: [],
  readings: new Map(),
} as unknown as Journal;

const made = (
  number: number,
  matter: object,
  family?: string,
  elements: string[] = ['Fe'],
  yields: Record<string, string> = {},
): ReckonedEntry => {
  const { foreseen = [], ...written } = matter as Record<string, unknown>;
  const parsed = entrySchema.parse({
    number,
    title: `Entry ${number}`,
    date: `2026-01-${String(number).padStart(2, '0')}`,
    status: 'finished',
    ...written,
  });
  const entry: Entry = {
    ...parsed,
    file: `entries/00${number}.md`,
    matter: '',
    matterLine: 2,
    body: (matter as { words?: string }).words ?? '',
    bodyLine: 9,
  };
  const amounts = {
    samples: entry.samples.map(({ sample }) => ({
      sample,
      ingredients: [],
      percentYield: yields[sample] ? { value: yields[sample], unit: '%', text: `${yields[sample]} %` } : undefined,
    })),
  } as unknown as ReckonedEntry['amounts'];
  const appearance = {
    samples: entry.samples.map(({ sample }) => ({ sample, family })),
    family,
    familyBasis: family ? 'measured' : undefined,
  } as unknown as ReckonedEntry['appearance'];
  const dangers = {
    box: { pictograms: [], statements: [], precautionary: [], unknown: [] },
    foreseen,
  } as unknown as ReckonedEntry['dangers'];
  return {
    entry,
    elements,
    gist: gistOf(entry, amounts, dangers, appearance),
    findings: [],
    dangers,
    amounts,
    appearance,
  } as unknown as ReckonedEntry;
};
const body = (one: ReckonedEntry, words: string): ReckonedEntry => ({ ...one, entry: { ...one.entry, body: words } });

const red = made(
  1,
  {
    samples: [{ sample: 'A' }, { sample: 'B' }],
    pigment: { name: 'Mars red', formula: 'Fe2O3' },
    reagents: [{ reagent: 'green-vitriol', amount: '2 g' }],
    incidents: [{ what: 'It frothed over.' }],
    ideas: ['Slower.'],
  },
  'red',
  ['Fe'],
  { A: '88.0', B: '91.5' },
);
const blue = body(
  made(
    2,
    {
      samples: [{ sample: 'A' }],
      pigment: { name: 'Prussian blue', formula: 'Fe4[Fe(CN)6]3' },
      follows: [1],
      reagents: [{ reagent: 'own-oxide', amount: '1 g' }],
    },
    'blue',
  ),
  'After [red](001.md) and [red again](001.md#A).',
);
const lost = made(3, { status: 'withdrawn', samples: [{ sample: 'A' }], repeats: [2] }, 'red');
const model = crosslink(journal, [red, blue, lost]);

describe('the journal model', () => {
  it('has the newest entry first and its neighbours by number', () => {
    expect(model.entries.map(({ entry }) => entry.number)).toEqual([3, 2, 1]);
    expect(model.links.get(2)?.previous?.number).toBe(1);
    expect(model.links.get(2)?.next?.number).toBe(3);
    expect(model.links.get(1)?.previous).toBeUndefined();
  });
  it('knows links both ways', () => {
    expect(model.links.get(2)?.follows.map(({ number }) => number)).toEqual([1]);
    expect(model.links.get(1)?.followedBy.map(({ number }) => number)).toEqual([2]);
    expect(model.links.get(2)?.repeatedBy.map(({ number }) => number)).toEqual([3]);
    expect(model.links.get(1)?.mentionedBy.map(({ number }) => number)).toEqual([2]);
  });
  it('follows a lot that stands on the shelf back to its sample', () => {
    expect(model.links.get(2)?.lotsUsed).toMatchObject([{ lot: '1/A', sample: 'A', from: { number: 1 } }]);
    expect(model.links.get(1)?.lotsTaken).toMatchObject([{ sample: 'A', by: { number: 2 } }]);
  });
  it('lays out a series in the order of the colours, with the best yield of each entry', () => {
    const iron = model.series.find(({ element }) => element === 'Fe')!;
    expect(iron.name).toBe('iron');
    expect(iron.words?.body).toBe('Iron.');
    const families = iron.cells.filter((cell) => cell.entries.length > 0).map(({ family }) => family);
    expect(families).toEqual(['blue', 'red']);
    expect(iron.cells.find(({ family }) => family === 'red')?.entries[0]?.bestYield).toMatchObject({
      text: '91.5 %',
      over: false,
    });
  });
  it('leaves withdrawn results out of series and tables', () => {
    expect(model.samples.map((row) => `${row.entry.number}/${row.sample}`)).toEqual(['2/A', '1/A', '1/B']);
  });
  it('tells an amount added in one sample from one taken instead of the entry’s', () => {
    const one = made(5, {
      reagents: [{ reagent: 'green-vitriol', amount: '1.00 g', role: 'acid' }],
      samples: [
        { sample: 'A', add: [{ reagent: 'own-oxide', amount: '0.10 g' }] },
        { sample: 'B', change: [{ reagent: 'green-vitriol', amount: '0.25 g' }] },
      ],
    });
    const { reagents } = crosslink(journal, [one]);
    expect(reagents.find(({ id }) => id === 'green-vitriol')!.uses).toMatchObject([
      { amount: '1.00 g' },
      { amount: '0.25 g', sample: 'B', instead: true, role: 'acid' },
    ]);
    expect(reagents.find(({ id }) => id === 'own-oxide')!.uses).toMatchObject([{ amount: '0.10 g', sample: 'A' }]);
  });
  it('tells of a reagent what was foreseen with it as a partner, the gravest first, and in which entries', () => {
    const { name } = shelf.get('green-vitriol')!;
    const froth = { rule: 'froth', title: 'froth', severity: 'warning', partners: [name, 'soda'] };
    const entries = [4, 5, 6].map((number) =>
      made(number, {
        status: number === 6 ? 'withdrawn' : 'finished',
        foreseen: [
          { ...froth, severity: number === 5 ? 'danger' : 'warning' },
          { rule: 'heat', title: 'a heat', severity: 'warning', partners: [name] },
          { rule: 'faint', title: 'a faint smell', severity: 'note', partners: [name] },
        ],
      }),
    );
    const { reagents } = crosslink(journal, entries);
    expect(reagents.find(({ id }) => id === 'green-vitriol')!.foreseen).toEqual([
      { rule: 'froth', title: 'froth', severity: 'danger', entries: [5, 4] },
      { rule: 'heat', title: 'a heat', severity: 'warning', entries: [5, 4] },
    ]);
    expect(reagents.find(({ id }) => id === 'own-oxide')!.foreseen).toEqual([]);
  });
  it('tells where a reagent was used and what went wrong there', () => {
    const vitriol = model.reagents.find(({ id }) => id === 'green-vitriol')!;
    expect(vitriol.uses).toMatchObject([{ entry: { number: 1 }, amount: '2 g', role: 'reactant' }]);
    expect(vitriol.incidents.map(({ what }) => what)).toEqual(['It frothed over.']);
    expect(model.ideas.map(({ idea }) => idea)).toEqual(['Slower.']);
  });
});

describe('what the trade knows', () => {
  it('is not made until a sample has its formula or its name', () => {
    const iron = model.series.find(({ element }) => element === 'Fe')!;
    const notMade = iron.cells.flatMap((cell) => cell.notMade.map(({ id }) => id));
    expect(notMade).not.toContain('PG046'); // red iron oxide, Fe2O3
    expect(notMade).not.toContain('PG050'); // Prussian blue
    expect(notMade).toContain('PG047'); // yellow iron oxide
  });
  it('and what was made of it without its colour being told is named where the trade has it', () => {
    const untold = made(9, { samples: [{ sample: 'A' }], pigment: { name: 'baryta', formula: 'BaCrO4' } }, undefined, [
      'Cr',
    ]);
    const chromium = crosslink(journal, [untold]).series.find(({ element }) => element === 'Cr')!;
    const yellow = chromium.cells.find(({ family }) => family === 'yellow')!;
    expect(yellow.entries).toEqual([]);
    expect(yellow.untold?.map(({ number }) => number)).toEqual([9]);
    expect(chromium.cells.find(({ family }) => family === 'green')!.untold).toBeUndefined();
    // What failed is no pigment made, and was tried all the same.
    const failed = { ...untold, entry: { ...untold.entry, number: 10, status: 'failed' as const } };
    const tried = crosslink(journal, [failed]).series.find(({ element }) => element === 'Cr')!;
    const cell = tried.cells.find(({ family }) => family === 'yellow')!;
    expect(cell.untold?.map(({ status }) => status)).toEqual(['failed']);
    expect(cell.notMade.length).toBeGreaterThan(yellow.notMade.length);
    expect(untoldFamily(untold)).toBe('yellow');
    expect(untoldFamily(made(9, { pigment: { name: 'x', formula: 'BaCrO4' } }))).toBeUndefined();
  });
  it('takes a hydrate for the same pigment', () => {
    const verdigris = knownPigments().find(({ id }) => id === 'PG040')!;
    expect(isMade(verdigris, [{ ...model.samples[0]!, pigment: 'x', formula: 'Cu(CH3COO)2' }])).toBe(true);
    expect(isMade(verdigris, [{ ...model.samples[0]!, pigment: 'x', formula: 'CuO' }])).toBe(false);
  });
  // Two pigments of one dry formula: Colour Index, PG17 77288 Cr2O3 and PG18 77289 Cr2O3·2H2O.
  it.each([
    ['x', 'Cr2O3', undefined, 'PG17'],
    ['x', 'Cr2O3·2H2O', undefined, 'PG18'],
    ['x', 'Cr2O3 . 2 H2O', undefined, 'PG18'],
    ['x', 'Cr2O3·xH2O', undefined, 'PG18'],
    ['x', 'Cr2O3', 'PG18', 'PG18'],
    ['x', 'Cr2O3·2H2O', 'PG17', 'PG17'],
    ['Viridian', 'Cr2O3', undefined, 'PG18'],
    ['x', undefined, 'PG18', 'PG18'],
    ['x', 'FeO(OH)·nH2O', undefined, 'PY42'],
    ['x', 'Zn0.95Co0.05O', 'PG19', 'PG19'],
    ['x', 'CoCr2O4', 'PG26', 'PG26'],
  ])('takes %s %s %s for %s alone', (pigment, formula, colourIndex, made) => {
    const row = { ...model.samples[0]!, pigment, formula, colourIndex };
    const found = knownPigments().filter((one) => isMade(one, [row]));
    expect(found.map((one) => one.colourIndex)).toEqual([made]);
  });
  it('does not take a Colour Index name that several pigments have for any of them', () => {
    const row = { ...model.samples[0]!, pigment: 'x', formula: undefined, colourIndex: 'PV14' };
    expect(knownPigments().some((one) => isMade(one, [row]))).toBe(false);
  });
  it('names a source for every pigment, and no Colour Index number that was only remembered', () => {
    for (const pigment of knownPigments()) expect(pigment.source, pigment.id).not.toBe('');
    expect(knownPigments().find(({ id }) => id === 'PG001')?.colourIndexNumber).toBeUndefined();
    expect(knownPigments().find(({ id }) => id === 'PG073')?.colourIndexNumber).toBe('77007');
  });
});
