// Spectra, Lab or XYZ from CGATS.17 / ISO 28178 text, as instruments export it.
import { good, type Outcome } from '../faults.js';
import type { Observer } from '../numbers.js';
import { checkLab, checkXyz } from '../surface.js';
import { isVisible, spectraFromColumns, type StatedUnit } from './columns.js';
import { notReflectance, otherQuantity } from './quantity.js';
import {
  faultAt,
  longest,
  plainNumber,
  quoted,
  type Cell,
  type Column,
  type FileNote,
  type FilePlace,
  type ReadingsFile,
  type ValueReading,
} from './reading.js';

interface Token extends FilePlace {
  readonly text: string;
}

/** One table of a file as it stands, before its numbers are read. */
interface RawTable {
  readonly keywords: ReadonlyMap<string, Token>;
  readonly fields: readonly Token[];
  readonly data: readonly Token[];
  /** The line of BEGIN_DATA. */
  readonly dataLine: number;
  /** The index of the line after END_DATA. */
  readonly next: number;
}

/** A table as rows of values under named fields. */
interface Table {
  readonly keyword: (name: string) => string | undefined;
  readonly fields: readonly Token[];
  /** Names of the fields in capitals. */
  readonly names: readonly string[];
  readonly sets: readonly (readonly Token[])[];
  readonly notes: readonly FileNote[];
}

/** Words between tabs, so that a name of several words needs no quotes. */
function cellsBetweenTabs(line: string, number: number): Token[] {
  const tokens: Token[] = [];
  let column = 1;
  for (const cell of line.split('\t')) {
    const text = cell.trim().replace(/^"(.*)"$/, '$1');
    tokens.push({ text, line: number, column: column + cell.length - cell.trimStart().length });
    column += cell.length + 1;
  }
  return tokens;
}

function tokensOf(line: string, number: number): Token[] {
  const tokens: Token[] = [];
  for (const found of line.matchAll(/"([^"]*)"|\S+/g)) {
    if (found[0].startsWith('#')) break;
    tokens.push({ text: found[1] ?? found[0], line: number, column: found.index + 1 });
  }
  return tokens;
}

/**
 * The wavelength that a field's name carries: SPECTRAL_NM400, SPECTRAL_NM_400, SPEC_400, NM400, R_400, REFL_400,
 * 400NM.
 */
function fieldWavelength(name: string): number | undefined {
  const found =
    /^(?:(?:SPECTRAL_?(?:NM|R)?|SPECTRUM|SPEC|NM|REFL(?:ECTANCE)?|R|S)?_?)(\d{3,4}(?:\.\d+)?)(?:_?NM)?$/i.exec(name);
  return found ? Number(found[1]) : undefined;
}

const illuminantNamed = (text: string | undefined): string | undefined =>
  /\b(D50|D65|D55|D75|F11|FL11|F2|FL2|LED-B3|A|C)\b/i
    .exec(text ?? '')?.[1]
    ?.toUpperCase()
    .replace('FL', 'F');

const observerNamed = (text: string | undefined): Observer | undefined => {
  const found = /\b(10|2)\b/.exec(text ?? '')?.[1];
  return found ? (Number(found) as Observer) : undefined;
};

/** More values than this are not the readings of one sample. */
const mostValues = longest.wavelengths * 100;

/** Words of a keyword's value that are kept. */
const longestKeyword = 40;

/** Adds tokens, as many as show that there are too many (a row may hold a million). */
const add = (to: Token[], tokens: readonly Token[]) => {
  for (const token of tokens) {
    if (to.length > mostValues) return;
    to.push(token);
  }
};

type Part = 'head' | 'fields' | 'data' | 'done';

/** What a keyword line does to the part that is being read; undefined for other lines. */
const partAfter: Readonly<Record<string, Part>> = {
  BEGIN_DATA_FORMAT: 'fields',
  END_DATA_FORMAT: 'head',
  BEGIN_DATA: 'data',
  END_DATA: 'done',
};

const cutShort: Readonly<Record<Exclude<Part, 'done'>, { readonly message: string; readonly expected: string }>> = {
  head: { message: 'The file has no data.', expected: 'END_DATA' },
  fields: { message: 'END_DATA_FORMAT is missing.', expected: 'END_DATA_FORMAT' },
  data: { message: 'END_DATA is missing.', expected: 'END_DATA' },
};

/** Gathers one table line by line. */
class TableBuilder {
  private readonly keywords = new Map<string, Token>();
  private readonly fields: Token[] = [];
  private readonly data: Token[] = [];
  private dataLine = 1;
  part: Part = 'head';

  take(tokens: readonly Token[], whole: string): void {
    const { text, line } = tokens[0]!;
    const word = text.toUpperCase();
    const begins = Object.hasOwn(partAfter, word);
    if (begins) this.part = partAfter[word]!;
    if (word === 'BEGIN_DATA') this.dataLine = line;
    const rest = begins ? tokens.slice(1) : tokens;
    if (this.part === 'fields') add(this.fields, rest);
    else if (this.part === 'data') add(this.data, begins ? rest : this.row(rest, whole));
    else if (!begins) this.keywords.set(word, tokens[1] ? keywordValue(tokens) : { ...tokens[0]!, text: '' });
  }

  /** A data set in a line of its own may be divided by tabs and hold names of several words. */
  private row(tokens: readonly Token[], whole: string): readonly Token[] {
    if (tokens.length === this.fields.length || !whole.includes('\t')) return tokens;
    const cells = cellsBetweenTabs(whole, tokens[0]!.line);
    return cells.length === this.fields.length ? cells : tokens;
  }

  get tooLong(): boolean {
    return this.data.length > mostValues || this.fields.length > mostValues;
  }

  table(next: number): RawTable {
    const { keywords, fields, data, dataLine } = this;
    return { keywords, fields, data, dataLine, next };
  }
}

/** Gathers keywords, fields and values of the table that begins at a line. */
function rawTable(lines: readonly string[], from: number): Outcome<RawTable> {
  const builder = new TableBuilder();
  for (let i = from; i < lines.length; i += 1) {
    const tokens = tokensOf(lines[i]!, i + 1);
    if (tokens.length > 0) builder.take(tokens, lines[i]!);
    if (builder.part === 'done') return good(builder.table(i + 1));
    if (builder.tooLong)
      return faultAt(
        { line: i + 1, column: 1 },
        {
          code: 'too-many-readings',
          message: 'The table has too many values for one sample.',
          cure: 'Give the readings of one sample only.',
        },
      );
  }
  const part = builder.part as Exclude<Part, 'done'>;
  return faultAt(
    { line: part === 'head' ? 1 : lines.length, column: 1 },
    { code: 'no-end', ...cutShort[part], cure: 'The file was cut short; export it again.' },
  );
}

const keywordValue = (tokens: readonly Token[]): Token => ({
  ...tokens[1]!,
  text: tokens
    .slice(1, longestKeyword)
    .map(({ text }) => text)
    .join(' '),
});

/** The fields of a table: named, or (some programs write one bare row of values) by the range in its keywords. */
function fieldsOf({ keywords, fields, dataLine }: RawTable): Outcome<readonly Token[]> {
  if (fields.length > 0) return good(fields);
  const place = { line: dataLine, column: 1 };
  const [count, from, to] = ['SPECTRAL_BANDS', 'SPECTRAL_START_NM', 'SPECTRAL_END_NM'].map((name) =>
    plainNumber(keywords.get(name)?.text ?? ''),
  );
  if (!count || count < 2 || count > longest.wavelengths || from === undefined || to === undefined)
    return faultAt(place, {
      code: 'no-fields',
      message: 'The file names no fields (BEGIN_DATA_FORMAT).',
      expected: 'BEGIN_DATA_FORMAT with SPECTRAL_NM… fields',
      cure: 'Export the file with its data format.',
    });
  const step = (to - from) / (count - 1);
  return good(Array.from({ length: Math.floor(count) }, (_, i) => ({ text: `SPEC_${from + step * i}`, ...place })));
}

/** The values of a table, divided into sets of one value a field. */
function setsOf({ data, dataLine }: RawTable, fields: readonly Token[]): Outcome<Token[][]> {
  const place = { line: dataLine, column: 1 };
  if (data.length === 0)
    return faultAt(place, {
      code: 'no-data',
      message: 'The file holds no data set.',
      cure: 'Export the readings again.',
    });
  if (data.length % fields.length !== 0)
    return faultAt(data.at(-1), {
      code: 'data-do-not-fit',
      message: `${data.length} values do not make up rows of ${fields.length} fields.`,
      expected: `${fields.length} values in each data set`,
      cure: 'A value is missing or too many; export the file again.',
    });
  const sets: Token[][] = [];
  for (let i = 0; i < data.length; i += fields.length) sets.push(data.slice(i, i + fields.length));
  if (sets.length > longest.sets)
    return faultAt(place, {
      code: 'too-many-readings',
      message: `The file holds ${sets.length} data sets.`,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });
  return good(sets);
}

function countNote(keywords: ReadonlyMap<string, Token>, sets: number): FileNote[] {
  const stated = keywords.get('NUMBER_OF_SETS');
  const count = plainNumber(stated?.text ?? '');
  if (!stated || count === undefined || count === sets) return [];
  return [
    {
      code: 'sets-do-not-count',
      message: `The file says ${count} data sets and holds ${sets}.`,
      line: stated.line,
      column: stated.column,
      cure: 'Export the file again if a reading is missing.',
    },
  ];
}

function tableOf(raw: RawTable): Outcome<Table> {
  const fields = fieldsOf(raw);
  if (!fields.ok) return fields;
  const sets = setsOf(raw, fields.value);
  if (!sets.ok) return sets;
  return good({
    keyword: (name) => raw.keywords.get(name)?.text,
    fields: fields.value,
    names: fields.value.map(({ text }) => text.toUpperCase()),
    sets: sets.value,
    notes: countNote(raw.keywords, sets.value.length),
  });
}

const cellOf = (token: Token): Outcome<Cell> => {
  const value = plainNumber(token.text) ?? plainNumber(token.text.replace(',', '.'));
  if (value !== undefined) return good({ value, line: token.line, column: token.column });
  return faultAt(token, {
    code: 'not-a-number',
    message: `${quoted(token.text)} is not a number.`,
    expected: 'a reflectance',
    cure: 'Correct the value, or export the file again.',
  });
};

function cellsOf(tokens: readonly Token[]): Outcome<Cell[]> {
  const cells: Cell[] = [];
  for (const token of tokens) {
    const cell = cellOf(token);
    if (!cell.ok) return cell;
    cells.push(cell.value);
  }
  return good(cells);
}

function nameOf({ names }: Table, set: readonly Token[]): { readonly name?: string } {
  const field = ['SAMPLE_NAME', 'SAMPLE_ID', 'SAMPLEID'].map((name) => names.indexOf(name)).find((index) => index >= 0);
  return field === undefined ? {} : { name: set[field]!.text };
}

/** What SPECTRAL_NORM says that a perfect white has: 1, 100, or another number. */
const normOf = ({ keyword }: Table): number | undefined =>
  plainNumber((keyword('SPECTRAL_NORM') ?? '').replace(',', '.'));

function statedUnit(table: Table): StatedUnit | undefined {
  const norm = normOf(table);
  if (table.names.includes('SPECTRAL_PCT') || (norm !== undefined && norm !== 1))
    return { unit: 'percent', sure: true };
  if (table.names.includes('SPECTRAL_DEC') || norm === 1) return { unit: 'fraction' };
  return undefined;
}

/** Values of a norm other than 1 and 100, in per cent. */
function normed(table: Table, cells: readonly Cell[]): readonly Cell[] {
  const norm = normOf(table);
  if (norm === undefined || norm === 1 || norm === 100) return cells;
  return cells.map((cell) => ({ ...cell, value: (100 * cell.value) / norm }));
}

/** Keywords that may name what was measured. */
const quantityKeywords = [
  'MEAS_TYPE',
  'MEASUREMENT_TYPE',
  'MEASUREMENT_MODE',
  'MEASUREMENT',
  'DEVICE_CLASS',
  'DEVICE_TYPE',
  'QUANTITY',
  'SPECTRAL_QUANTITY',
  'SPECTRAL_TYPE',
] as const;

/** Full scales of converters of 8 to 16 bits: such a norm is of counts. */
const countNorms: readonly number[] = [255, 1023, 4095, 16383, 65535, 65536];

/** Another quantity than reflectance that the table is said to hold. */
function quantityOf(table: Table): string | undefined {
  for (const name of quantityKeywords) {
    const value = table.keyword(name);
    if (value === undefined) continue;
    if (/display|monitor|projector|ambient|flash/i.test(value)) return 'emission';
    const found = otherQuantity(value);
    if (found) return found;
  }
  const bare = ['CCSS', 'EMISSION', 'TRANSMISSION', 'AMBIENT', 'ABSORBANCE'].find((word) => table.keyword(word) === '');
  if (bare) return bare === 'CCSS' ? 'emission' : otherQuantity(bare);
  const norm = normOf(table);
  if (norm !== undefined && countNorms.includes(norm)) return 'counts';
  return table.names.map(otherQuantity).find((found) => found !== undefined);
}

function withSpectra(table: Table, wavelengths: readonly Cell[], columns: readonly Column[]): Outcome<ReadingsFile> {
  const found = spectraFromColumns(
    wavelengths,
    columns.map((column) => ({ ...column, cells: normed(table, column.cells) })),
    statedUnit(table),
  );
  if (!found.ok) return found;
  const { spectra, notes } = found.value;
  return good({ format: 'CGATS', spectra, values: [], notes: [...table.notes, ...notes] });
}

interface Band {
  readonly index: number;
  readonly cell: Cell;
}

/** Names of fields may be wavelengths in whole nanometres, where the keywords tell the true ones (steps of 3.33 nm). */
const roundedBy = 0.75;

function bandsOf(table: Table): readonly Band[] {
  const bands = table.names.flatMap((name, index): Band[] => {
    const value = fieldWavelength(name);
    const { line, column } = table.fields[index]!;
    return value === undefined ? [] : [{ index, cell: { value, line, column } }];
  });
  const [count, from, to] = ['SPECTRAL_BANDS', 'SPECTRAL_START_NM', 'SPECTRAL_END_NM'].map((name) =>
    plainNumber((table.keyword(name) ?? '').replace(',', '.')),
  );
  if (from === undefined || to === undefined || count !== bands.length || count < 2) return bands;
  const exact = (i: number): number => from + ((to - from) * i) / (count - 1);
  if (bands.some(({ cell }, i) => Math.abs(cell.value - exact(i)) > roundedBy)) return bands;
  return bands.map(({ index, cell }, i) => ({ index, cell: { ...cell, value: exact(i) } }));
}

/** Bands that the CIE tables have values for; all, where that is none. */
function visibleBands(bands: readonly Band[]): readonly Band[] {
  const visible = bands.filter(({ cell }) => isVisible(cell.value));
  return visible.length < 2 ? bands : visible;
}

/** One field a wavelength. */
function spectraFromBands(table: Table, bands: readonly Band[]): Outcome<ReadingsFile> {
  const columns: Column[] = [];
  for (const set of table.sets) {
    const cells = cellsOf(bands.map(({ index }) => set[index]!));
    if (!cells.ok) return cells;
    columns.push({ ...nameOf(table, set), cells: cells.value });
  }
  return withSpectra(
    table,
    bands.map(({ cell }) => cell),
    columns,
  );
}

/** Fields SPECTRAL_NM that are followed by their SPECTRAL_PCT or SPECTRAL_DEC. */
const pairsOf = ({ names }: Table): number[] =>
  names.flatMap((name, index) =>
    name === 'SPECTRAL_NM' && /^SPECTRAL_(?:PCT|DEC)$/.test(names[index + 1] ?? '') ? [index] : [],
  );

/** Wavelengths and values in pairs: several in each set, or one pair a set. */
function spectraFromPairs(table: Table, pairs: readonly number[]): Outcome<ReadingsFile> {
  const rows: { readonly nm: Cell[]; readonly values: Cell[] }[] = [];
  for (const set of table.sets) {
    const nm = cellsOf(pairs.map((index) => set[index]!));
    if (!nm.ok) return nm;
    const values = cellsOf(pairs.map((index) => set[index + 1]!));
    if (!values.ok) return values;
    rows.push({ nm: nm.value, values: values.value });
  }
  const oneSpectrum = pairs.length === 1;
  const readings = oneSpectrum
    ? [{ nm: rows.flatMap(({ nm }) => nm), values: rows.flatMap(({ values }) => values) }]
    : rows;
  const wavelengths = readings[0]!.nm;
  const odd = readings.find(({ nm }) => nm.some(({ value }, i) => value !== wavelengths[i]!.value));
  if (odd)
    return faultAt(odd.nm[0], {
      code: 'mixed-wavelengths',
      message: 'The readings have different wavelengths.',
      expected: 'the same wavelengths in each data set',
      cure: 'Give readings with the same wavelengths.',
    });
  return withSpectra(
    table,
    wavelengths,
    readings.map(({ values }, i) => ({ ...(oneSpectrum ? {} : nameOf(table, table.sets[i]!)), cells: values })),
  );
}

/** Illuminant and observer that the keywords name. */
function conditionsOf({ keyword }: Table): { readonly illuminant?: string; readonly observer?: Observer } {
  const source = keyword('MEASUREMENT_SOURCE') ?? '';
  const illuminant = illuminantNamed(
    keyword('ILLUMINATION_NAME') ??
      keyword('ILLUMINANT') ??
      /illumination\s*=\s*(\S+)/i.exec(source)?.[1] ??
      keyword('WEIGHTING_FUNCTION'),
  );
  const observer = observerNamed(
    keyword('OBSERVER_ANGLE') ?? keyword('OBSERVER') ?? /observer(?:angle)?\s*=\s*(\S+)/i.exec(source)?.[1],
  );
  return { ...(illuminant ? { illuminant } : {}), ...(observer ? { observer } : {}) };
}

/** What CGATS Lab is for where nothing else is said: ISO 13655 (from memory; the standard itself was not seen). */
const iso13655 = { illuminant: 'D50', observer: 2 } as const;
const conditionsNote: FileNote = {
  code: 'conditions-by-standard',
  message:
    'The file does not state illuminant and observer in full; D50 and 2° were taken, as ISO 13655 has it for ' +
    'such files.',
  line: 1,
  column: 1,
  cure: 'State illuminant and observer beside the file if they were others.',
};

const spaces = [
  { space: 'lab', fields: ['LAB_L', 'LAB_A', 'LAB_B'] },
  { space: 'xyz', fields: ['XYZ_X', 'XYZ_Y', 'XYZ_Z'] },
] as const;

function valuesOf(table: Table): Outcome<ReadingsFile> {
  const found = spaces
    .map(({ space, fields }) => ({ space, places: fields.map((field) => table.names.indexOf(field)) }))
    .find(({ places }) => places.every((index) => index >= 0));
  if (!found)
    return faultAt(table.fields[0], {
      code: 'no-spectrum',
      message: 'The file has neither spectral nor Lab nor XYZ fields.',
      expected: 'SPECTRAL_NM… fields, LAB_L LAB_A LAB_B, or XYZ_X XYZ_Y XYZ_Z',
      cure: 'Export the file with spectral data.',
    });
  const stated = conditionsOf(table);
  const assumed = found.space === 'lab' && (!stated.illuminant || !stated.observer);
  const conditions = assumed ? { ...iso13655, ...stated } : stated;
  const values: ValueReading[] = [];
  for (const set of table.sets) {
    const cells = cellsOf(found.places.map((index) => set[index]!));
    if (!cells.ok) return cells;
    const numbers = cells.value.map(({ value }) => value);
    const value = found.space === 'lab' ? checkLab(numbers) : checkXyz(numbers);
    if (!value.ok) return faultAt(cells.value[0], value.fault);
    const { line, column } = cells.value[0]!;
    values.push({
      ...nameOf(table, set),
      place: { line, column },
      space: found.space,
      value: value.value,
      ...conditions,
    });
  }
  return good({ format: 'CGATS', spectra: [], values, notes: [...table.notes, ...(assumed ? [conditionsNote] : [])] });
}

interface ParsedTable {
  readonly file: ReadingsFile;
  readonly next: number;
}

function parseTable(lines: readonly string[], from: number): Outcome<ParsedTable> {
  const raw = rawTable(lines, from);
  if (!raw.ok) return raw;
  const table = tableOf(raw.value);
  if (!table.ok) return table;
  const file = readingsOf(table.value);
  return file.ok ? good({ file: file.value, next: raw.value.next }) : file;
}

function readingsOf(table: Table): Outcome<ReadingsFile> {
  const quantity = quantityOf(table);
  if (quantity) return notReflectance(quantity, table.fields[0]);
  const bands = visibleBands(bandsOf(table));
  if (bands.length > 0) return spectraFromBands(table, bands);
  const pairs = pairsOf(table);
  return pairs.length > 0 ? spectraFromPairs(table, pairs) : valuesOf(table);
}

/**
 * Reads the first table of a CGATS file, or the first that has spectra; every data set is taken as one reading of the
 * sample.
 */
export function parseCgats(text: string): Outcome<ReadingsFile> {
  const lines = text.split(/\r\n|\n|\r/);
  const first = parseTable(lines, 0);
  if (!first.ok) return first;
  let table = first.value;
  while (table.file.spectra.length === 0 && table.next < lines.length) {
    const further = parseTable(lines, table.next);
    if (!further.ok) break;
    table = further.value;
  }
  return good(table.file.spectra.length > 0 ? table.file : first.value.file);
}
