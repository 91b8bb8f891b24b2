// The journal as data: JSON and CSV of entries, samples, reagents and incidents.
import type { JournalModel, SampleRow } from '../crosslinks/model.js';
import { identityOf } from '../kept/inputs.js';
import type { TestResult } from '../reckoning/appearance/appearance-contracts.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { liesAbove100 } from '../reckoning/figures.js';
import { publishedEntriesSchema } from '../journal/json-schema.js';
import { testsSchema } from '../journal/schema.js';
import type { FileContent, MadeFile, Part, SiteFile } from './assets.js';

interface DataFile {
  readonly name: string;
  readonly what: string;
  /** All of the journal that it holds something of. */
  readonly inputs: (model: JournalModel) => unknown;
  readonly write: (model: JournalModel) => FileContent;
  /** The same in parts. */
  readonly parts?: (model: JournalModel) => readonly Part[];
}

/** Standard tests, and the column of each. */
const testColumns = Object.keys(testsSchema.shape).map((key) => ({ key, column: key.replaceAll('-', '_') }));

const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;

/** A column of a table that is published: what its cells hold, in words, and of which kind. */
interface Column {
  readonly name: string;
  readonly what: string;
  /** Kinds of XML Schema that CSV on the Web takes. */
  readonly kind: 'string' | 'integer' | 'decimal' | 'date';
  /** UCUM code. */
  readonly unit?: string;
}

const wordsOf = (name: string, what: string): Column => ({ name, what, kind: 'string' });
const decimalOf = (name: string, what: string, unit: string): Column => ({ name, what, kind: 'decimal', unit });

const testWhat = (key: string): string =>
  `standard test: ${testsSchema.shape[key as keyof typeof testsSchema.shape].description ?? key}`;

/** Columns of samples.csv, in order. */
export const sampleColumns: readonly Column[] = [
  { name: 'entry', what: 'number of the entry; its address is /number/', kind: 'integer' },
  wordsOf('sample', 'id of the sample within its entry'),
  wordsOf('title', 'title of the entry'),
  { name: 'date', what: 'day of the experiment', kind: 'date' },
  wordsOf('status', 'planned, running, finished, failed, abandoned or withdrawn'),
  wordsOf('pigment', 'what was made'),
  wordsOf('formula', 'its formula'),
  wordsOf('colour_index', 'Colour Index generic name'),
  wordsOf('elements', 'symbols of the colour-giving elements, with spaces between'),
  wordsOf('differs', 'the one thing in which the sample differs from the others'),
  wordsOf('repeats', 'the sample of the entry whose recipe it repeats'),
  wordsOf('family', 'colour family'),
  wordsOf('family_basis', 'what the family rests on: measured, photograph, estimate (a code of a colour) or declared'),
  wordsOf('limiting', 'name of the limiting reagent'),
  decimalOf('theoretical_yield_g', 'theoretical yield', 'g'),
  decimalOf('obtained_g', 'mass obtained', 'g'),
  decimalOf('percent_yield', 'percent yield', '%'),
  decimalOf('percent_yield_expanded_uncertainty', 'its expanded uncertainty, k = 2', '%'),
  decimalOf('percent_yield_at_least', 'lower bound, where it is undecided what limits', '%'),
  decimalOf('percent_yield_at_most', 'upper bound, where it is undecided what limits', '%'),
  wordsOf('percent_yield_remark', 'what a yield above 100 % means'),
  decimalOf('L', 'CIELAB L*', '1'),
  decimalOf('a', 'CIELAB a*', '1'),
  decimalOf('b', 'CIELAB b*', '1'),
  decimalOf('C', 'CIELAB chroma', '1'),
  decimalOf('h', 'CIELAB hue angle', 'deg'),
  wordsOf('illuminant', 'CIE illuminant of the Lab values'),
  { name: 'observer', what: 'CIE observer of the Lab values', kind: 'integer', unit: 'deg' },
  wordsOf('colour_basis', 'what the colour was taken from: spectrum, lab, xyz, photograph, srgb-estimate'),
  wordsOf('invented', 'yes where a reading is made up for a demonstration'),
  wordsOf('srgb', 'the colour as in-gamut sRGB, #rrggbb'),
  decimalOf('lamp_move_de00', 'CIEDE2000 from daylight to the lamp that moves it most', '1'),
  decimalOf('contrast_ratio_percent', 'contrast ratio over black and white', '%'),
  wordsOf('opacity', 'opacity in words'),
  wordsOf('aged', 'what the sample went through; the last, where it was aged several times'),
  decimalOf('aged_de00', 'CIEDE2000 of the sample after that from before', '1'),
  wordsOf('tinting_against', 'what its tinting strength is relative to'),
  decimalOf('tinting_strength_percent', 'relative tinting strength at the strongest absorption', '%'),
  decimalOf('tinting_strength_by_lightness_percent', 'the same by the tristimulus value Y', '%'),
  ...testColumns.map(({ key, column }) => wordsOf(column, testWhat(key))),
];

/**
 * What the columns hold, as CSV on the Web has it. Source: W3C Recommendation of 17 December 2015,
 * https://www.w3.org/TR/tabular-metadata/
 */
const csvMetadata = {
  '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
  url: 'samples.csv',
  'dc:title': 'Samples',
  'dc:description':
    'Every sample of the journal, one row each. Before text that a spreadsheet would run stands an apostrophe.',
  dialect: { encoding: 'utf-8', header: true, delimiter: ',' },
  tableSchema: {
    columns: sampleColumns.map(({ name, what, kind, unit }) => ({
      name,
      titles: name,
      'dc:description': unit === undefined ? what : `${what}; unit (UCUM): ${unit}`,
      datatype: kind,
      required: ['entry', 'sample'].includes(name),
      ...(unit !== undefined && { 'schema:unitText': unit }),
    })),
    primaryKey: ['entry', 'sample'],
    aboutUrl: '../{entry}/#{sample}',
  },
};

/** What came out of the tests that a sample had, by column. */
function testCells(tests: readonly TestResult[] = []): Record<string, string> {
  if (tests.length === 0) return {};
  const cells = testColumns.flatMap(({ key, column }) => {
    const test = tests.find((one) => one.test === key);
    return test ? [[column, [test.value, test.unit].filter((part) => part !== undefined).join(' ')] as const] : [];
  });
  return Object.fromEntries(cells);
}

export function flatSample(row: SampleRow): Record<string, Cell> {
  const { amounts, appearance } = row;
  const over = amounts?.percentYield && liesAbove100(amounts.percentYield);
  return {
    entry: row.entry.number,
    sample: row.sample,
    title: row.entry.title,
    date: row.entry.date,
    status: row.entry.status,
    pigment: row.pigment,
    formula: row.formula,
    colour_index: row.colourIndex,
    elements: row.elements.join(' '),
    differs: row.differs,
    repeats: row.repeats,
    family: row.family,
    family_basis: row.familyBasis,
    limiting: amounts?.limiting,
    theoretical_yield_g: amounts?.theoreticalYield?.value,
    obtained_g: amounts?.obtained?.value,
    percent_yield: amounts?.percentYield?.value,
    percent_yield_expanded_uncertainty: amounts?.percentYield?.uncertainty,
    percent_yield_at_least: amounts?.percentYield?.within?.low,
    percent_yield_at_most: amounts?.percentYield?.within?.high,
    percent_yield_remark: over ? 'above 100 %: wet or impure' : undefined,
    L: appearance?.lab?.[0],
    a: appearance?.lab?.[1],
    b: appearance?.lab?.[2],
    C: appearance?.lch?.[1],
    h: appearance?.lch?.[2],
    illuminant: appearance?.lab ? 'D65' : undefined,
    observer: appearance?.lab ? (appearance.observer ?? 10) : undefined,
    colour_basis: appearance?.basis,
    invented: appearance?.invented ? 'yes' : undefined,
    srgb: appearance?.swatch?.hex,
    lamp_move_de00: appearance?.lampMove?.de00,
    contrast_ratio_percent: appearance?.opacity?.contrastRatio,
    opacity: appearance?.opacity?.word,
    aged: appearance?.aged?.at(-1)?.after,
    aged_de00: appearance?.aged?.at(-1)?.de00,
    tinting_against: appearance?.tinting?.against,
    tinting_strength_percent: appearance?.tinting?.percent,
    tinting_strength_by_lightness_percent: appearance?.tinting?.byLightness,
    ...testCells(appearance?.tests),
  };
}

/**
 * What a spreadsheet would take for a formula and run; white space and signs that cannot be seen before it do not
 * hinder some.
 */
const wouldRun = /^[\s\p{Cc}\p{Cf}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n]/u;
const isNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/**
 * A cell of text as no spreadsheet runs it: an apostrophe before it says that it is text.
 * @example harmless('=1+1') // "'=1+1"
 */
export const harmless = (cell: string): string => (wouldRun.test(cell) && !isNumber.test(cell) ? `'${cell}` : cell);

/** An entry as it stands in entries.json. */
export function entryLine({ entry, amounts, dangers, appearance, elements }: ReckonedEntry): string {
  const { body: _body, matter: _matter, matterLine: _matterLine, bodyLine: _bodyLine, ...written } = entry;
  return JSON.stringify({
    ...written,
    address: `/${entry.number}/`,
    elements,
    reckoned: {
      amounts,
      dangers,
      appearance: { ...appearance, samples: appearance.samples.map(({ curve: _curve, ...rest }) => rest) },
    },
  });
}

/** Entries as JSON, some at a time: of a large journal the whole would be hundreds of megabytes. */
function* entryPieces({ entries }: JournalModel): Iterable<string> {
  yield '[\n';
  for (const [at, one] of entries.entries()) yield `${at > 0 ? ',\n' : ''}${entryLine(one)}`;
  yield '\n]\n';
}

type Cell = string | number | undefined;

/** What stands in quotation marks in a cell. Source: RFC 4180, section 2, https://www.rfc-editor.org/rfc/rfc4180 */
const isQuoted = /[",\r\n]/;

function csvCell(cell: Cell): string {
  if (typeof cell !== 'string') return cell === undefined ? '' : String(cell);
  const text = harmless(cell);
  return isQuoted.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A line of a table. A library took twenty times as long for it. */
const csvLine = (cells: readonly Cell[]): string => `${cells.map(csvCell).join(',')}\n`;

const columnNames = sampleColumns.map(({ name }) => name);

/** Samples as CSV. */
const csvOf = (samples: readonly SampleRow[]): string =>
  samples
    .map(flatSample)
    .map((row) => csvLine(columnNames.map((name) => row[name])))
    .join('');

/** The samples of each entry, in the order in which they are listed. */
function samplesTogether({ samples }: JournalModel): readonly (readonly SampleRow[])[] {
  const together: SampleRow[][] = [];
  for (const row of samples)
    if (together.at(-1)?.[0]?.entry.number === row.entry.number) together.at(-1)!.push(row);
    else together.push([row]);
  return together;
}

/** The samples of one entry in a file of all, after those of others or before them. */
type SamplesPart = (rows: readonly SampleRow[], isFirst: boolean) => Part;

const inJson: SamplesPart = (rows, isFirst) => {
  const indented = (row: SampleRow): string => JSON.stringify(flatSample(row), null, 1).replace(/^/gm, ' ');
  return {
    identity: `${isFirst ? 'first ' : ''}${identityOf(rows)}`,
    make: () => `${isFirst ? '[\n' : ',\n'}${rows.map(indented).join(',\n')}`,
  };
};

const inCsv: SamplesPart = (rows) => ({ identity: identityOf(rows), make: () => csvOf(rows) });

/** Files with a part for the samples of each entry. */
export const filesOfSamples: readonly { readonly address: string; readonly part: SamplesPart }[] = [
  { address: '/data/samples.csv', part: inCsv },
  { address: '/data/samples.json', part: inJson },
];

/** What `json` makes of all samples, entry by entry. */
function samplesAsJson(model: JournalModel): readonly Part[] {
  const parts = samplesTogether(model).map((rows, at) => inJson(rows, at === 0));
  return [...parts, { identity: 'end', make: () => '\n]\n' }];
}

/** Files below /data/, with what each holds. */
export const dataFiles: readonly DataFile[] = [
  {
    name: 'samples.csv',
    what:
      'Every sample, one row each: yields, colour, opacity. Before text that a spreadsheet would run stands an ' +
      'apostrophe.',
    inputs: ({ samples }) => samples,
    write: ({ samples }) => csvLine(columnNames) + csvOf(samples),
    parts: (model) => [
      { identity: 'header', make: () => csvLine(columnNames) },
      ...samplesTogether(model).map((rows, at) => inCsv(rows, at === 0)),
    ],
  },
  {
    name: 'samples.csv-metadata.json',
    what: 'What each column of samples.csv holds, with its unit: CSV on the Web metadata.',
    inputs: () => csvMetadata,
    write: () => json(csvMetadata),
  },
  {
    name: 'samples.json',
    what: 'The same, as JSON.',
    inputs: ({ samples }) => samples,
    write: (model) => json(model.samples.map(flatSample)),
    parts: (model) =>
      model.samples.length === 0 ? [{ identity: 'none', make: () => json([]) }] : samplesAsJson(model),
  },
  {
    name: 'entries.json',
    what: 'Every entry: its front matter and everything reckoned from it.',
    inputs: ({ entries }) => entries.map((one) => one.identity ?? identityOf(one)),
    write: (model) => ({ pieces: () => entryPieces(model) }),
  },
  {
    name: 'entries.schema.json',
    what: 'The shape of entries.json: JSON Schema, draft 2020-12.',
    inputs: publishedEntriesSchema,
    write: () => json(publishedEntriesSchema()),
  },
  {
    name: 'reagents.json',
    what: 'The shelf, and the entries that used each reagent.',
    inputs: ({ reagents }) => reagents,
    write: (model) =>
      json(
        model.reagents.map(({ id, reagent, uses, assayed, stock }) => ({
          id,
          ...reagent,
          ...(assayed && { assayed }),
          ...(stock && { stock }),
          entries: [...new Set(uses.map((use) => use.entry.number))],
        })),
      ),
  },
  {
    name: 'incidents.json',
    what: 'Every incident and what was learned.',
    inputs: ({ incidents }) => incidents,
    write: ({ incidents }) => json(incidents),
  },
  {
    name: 'ideas.json',
    what: 'Ideas for next time.',
    inputs: ({ ideas }) => ideas,
    write: ({ ideas }) => json(ideas),
  },
];

/** Made entry by entry, in a publication beside the pages (`entry-files.ts`). */
export const entriesFile = '/data/entries.json';

/** The files, each with what it is made of, none made yet. */
export const dataMade = (model: JournalModel): MadeFile[] =>
  dataFiles.map(({ name, inputs, write, parts }) => ({
    address: `/data/${name}`,
    inputs: inputs(model),
    make: () => write(model),
    ...(parts && { parts: () => parts(model) }),
  }));

export const writeData = (model: JournalModel): SiteFile[] =>
  dataMade(model).map(({ address, make }) => ({ address, content: make() }));
