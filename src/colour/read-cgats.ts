// Spectra, Lab or XYZ from CGATS.17 / ISO 28178 text, as instruments export it.
import { bad, good, type Outcome } from '../outcome.js';
import type { Observer, Triple } from './numbers.js';
import {
  longest,
  plainNumber,
  spectraFromColumns,
  type Cell,
  type Column,
  type FileNote,
  type ReadingsFile,
  type SaidUnit,
  type ValueReading,
} from './columns.js';

interface Token {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

function tokensOf(line: string, number: number): Token[] {
  const tokens: Token[] = [];
  for (const found of line.matchAll(/"([^"]*)"|\S+/g)) {
    if (found[0].startsWith('#')) break;
    tokens.push({ text: found[1] ?? found[0], line: number, column: found.index + 1 });
  }
  return tokens;
}

/** The wavelength that a field's name carries: SPECTRAL_NM400, SPECTRAL_NM_400, SPEC_400, NM400, R_400, REFL_400, 400NM. */
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

/** Adds tokens, as many as tell that there are too many (a row may hold a million). */
const add = (to: Token[], tokens: readonly Token[]) => {
  for (const token of tokens) {
    if (to.length > mostValues) return;
    to.push(token);
  }
};

/**
 * Reads the first table of a CGATS file, or the first that has spectra; every data set is taken as one reading of the sample.
 */
export function readCgats(text: string): Outcome<ReadingsFile> {
  const lines = text.split(/\r\n|\n|\r/);
  const first = readTable(lines, 0);
  if (!first.ok || first.value.file.spectra.length > 0) return first.ok ? good(first.value.file) : first;
  for (let from = first.value.next; from < lines.length; ) {
    const further = readTable(lines, from);
    if (!further.ok) break;
    if (further.value.file.spectra.length > 0) return good(further.value.file);
    from = further.value.next;
  }
  return good(first.value.file);
}

function readTable(
  lines: readonly string[],
  from: number,
): Outcome<{ readonly file: ReadingsFile; readonly next: number }> {
  const keywords = new Map<string, Token>();
  const fields: Token[] = [];
  const data: Token[] = [];
  const notes: FileNote[] = [];
  let part: 'head' | 'fields' | 'data' | 'done' = 'head';
  let dataLine = 1;
  let next = from;
  for (let i = from; i < lines.length && part !== 'done'; i += 1) {
    next = i + 1;
    const tokens = tokensOf(lines[i]!, i + 1);
    const first = tokens[0];
    if (!first) continue;
    const word = first.text.toUpperCase();
    if (word === 'BEGIN_DATA_FORMAT') {
      part = 'fields';
      add(fields, tokens.slice(1));
      continue;
    }
    if (word === 'BEGIN_DATA') {
      part = 'data';
      dataLine = i + 1;
      add(data, tokens.slice(1));
      continue;
    }
    if (word === 'END_DATA_FORMAT') {
      part = 'head';
      continue;
    }
    if (word === 'END_DATA') {
      part = 'done';
      continue;
    }
    if (part === 'fields') add(fields, tokens);
    else if (part === 'data') add(data, tokens);
    else if (tokens[1])
      keywords.set(word, {
        ...tokens[1],
        text: tokens
          .slice(1, 40)
          .map((token) => token.text)
          .join(' '),
      });
    if (data.length > mostValues || fields.length > mostValues)
      return bad({
        code: 'too-many-readings',
        message: 'The table has too many values for one sample.',
        line: i + 1,
        column: 1,
        cure: 'Give the readings of one sample only.',
      });
  }
  if (part !== 'done')
    return bad({
      code: 'no-end',
      message:
        part === 'fields'
          ? 'END_DATA_FORMAT is missing.'
          : part === 'data'
            ? 'END_DATA is missing.'
            : 'The file has no data.',
      line: part === 'head' ? 1 : lines.length,
      column: 1,
      expected: part === 'fields' ? 'END_DATA_FORMAT' : 'END_DATA',
      cure: 'The file was cut short; export it again.',
    });

  const word = (name: string) => keywords.get(name)?.text;
  if (fields.length === 0) {
    // Some programs write one bare row of values between BEGIN_DATA and END_DATA and name the range in keywords.
    const [count, from, to] = ['SPECTRAL_BANDS', 'SPECTRAL_START_NM', 'SPECTRAL_END_NM'].map((name) =>
      plainNumber(word(name) ?? ''),
    );
    if (!count || count < 2 || count > longest.wavelengths || from === undefined || to === undefined)
      return bad({
        code: 'no-fields',
        message: 'The file names no fields (BEGIN_DATA_FORMAT).',
        line: dataLine,
        column: 1,
        expected: 'BEGIN_DATA_FORMAT with SPECTRAL_NM… fields',
        cure: 'Export the file with its data format.',
      });
    for (let i = 0; i < count; i += 1)
      fields.push({ text: `SPEC_${from + ((to - from) * i) / (count - 1)}`, line: dataLine, column: 1 });
  }
  if (data.length === 0)
    return bad({
      code: 'no-data',
      message: 'The file holds no data set.',
      line: dataLine,
      column: 1,
      cure: 'Export the readings again.',
    });
  if (data.length % fields.length !== 0)
    return bad({
      code: 'data-do-not-fit',
      message: `${data.length} values do not make up rows of ${fields.length} fields.`,
      line: data.at(-1)!.line,
      column: data.at(-1)!.column,
      expected: `${fields.length} values in each data set`,
      cure: 'A value is missing or too many; export the file again.',
    });
  const sets: Token[][] = [];
  for (let i = 0; i < data.length; i += fields.length) sets.push(data.slice(i, i + fields.length));
  const told = plainNumber(word('NUMBER_OF_SETS') ?? '');
  if (told !== undefined && told !== sets.length)
    notes.push({
      code: 'sets-do-not-count',
      message: `The file says ${told} data sets and holds ${sets.length}.`,
      line: keywords.get('NUMBER_OF_SETS')!.line,
      column: keywords.get('NUMBER_OF_SETS')!.column,
      cure: 'Export the file again if a reading is missing.',
    });
  if (sets.length > longest.readings)
    return bad({
      code: 'too-many-readings',
      message: `The file holds ${sets.length} data sets.`,
      line: dataLine,
      column: 1,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });

  const names = fields.map((field) => field.text.toUpperCase());
  const nameField = ['SAMPLE_NAME', 'SAMPLE_ID', 'SAMPLEID']
    .map((name) => names.indexOf(name))
    .find((index) => index >= 0);
  const nameOf = (set: readonly Token[]) => (nameField === undefined ? {} : { name: set[nameField]!.text });
  const cellOf = (token: Token): Outcome<Cell> => {
    const value = plainNumber(token.text) ?? plainNumber(token.text.replace(',', '.'));
    return value === undefined
      ? bad({
          code: 'not-a-number',
          message: `'${token.text.slice(0, 40)}' is not a number.`,
          line: token.line,
          column: token.column,
          expected: 'a reflectance',
          cure: 'Correct the value, or export the file again.',
        })
      : good({ value, line: token.line, column: token.column });
  };

  const bands = names.flatMap((name, index) => {
    const nm = fieldWavelength(name);
    return nm === undefined
      ? []
      : [{ index, cell: { value: nm, line: fields[index]!.line, column: fields[index]!.column } }];
  });
  const norm = plainNumber(word('SPECTRAL_NORM') ?? '');
  const said: SaidUnit | undefined =
    norm === 100 || names.includes('SPECTRAL_PCT')
      ? { unit: 'percent', sure: true }
      : norm === 1 || names.includes('SPECTRAL_DEC')
        ? { unit: 'fraction' }
        : undefined;

  if (bands.length > 0) {
    const columns: Column[] = [];
    for (const set of sets) {
      const cells: Cell[] = [];
      for (const { index } of bands) {
        const cell = cellOf(set[index]!);
        if (!cell.ok) return cell;
        cells.push(cell.value);
      }
      columns.push({ ...nameOf(set), cells });
    }
    return withSpectra(
      bands.map(({ cell }) => cell),
      columns,
      said,
      notes,
      next,
    );
  }

  // SPECTRAL_NM with SPECTRAL_PCT or SPECTRAL_DEC: pairs in each set, or one pair a set.
  const pairs = names.flatMap((name, index) =>
    name === 'SPECTRAL_NM' && /^SPECTRAL_(?:PCT|DEC)$/.test(names[index + 1] ?? '') ? [index] : [],
  );
  if (pairs.length > 0) {
    const rows: { nm: Cell; value: Cell }[][] = [];
    for (const set of sets) {
      const row: { nm: Cell; value: Cell }[] = [];
      for (const index of pairs) {
        const [nm, value] = [cellOf(set[index]!), cellOf(set[index + 1]!)];
        if (!nm.ok) return nm;
        if (!value.ok) return value;
        row.push({ nm: nm.value, value: value.value });
      }
      rows.push(row);
    }
    const readings = pairs.length === 1 ? [rows.flat()] : rows;
    const grid = readings[0]!.map(({ nm }) => nm);
    const odd = readings.find((reading) => reading.some(({ nm }, i) => nm.value !== grid[i]!.value));
    if (odd)
      return bad({
        code: 'mixed-wavelengths',
        message: 'The readings have different wavelengths.',
        line: odd[0]!.nm.line,
        column: odd[0]!.nm.column,
        expected: 'the same wavelengths in each data set',
        cure: 'Give readings with the same wavelengths.',
      });
    return withSpectra(
      grid,
      readings.map((reading, i) => ({
        ...(pairs.length === 1 ? {} : nameOf(sets[i]!)),
        cells: reading.map(({ value }) => value),
      })),
      said,
      notes,
      next,
    );
  }

  const source = word('MEASUREMENT_SOURCE');
  const illuminant = illuminantNamed(
    word('ILLUMINATION_NAME') ??
      word('ILLUMINANT') ??
      /illumination\s*=\s*(\S+)/i.exec(source ?? '')?.[1] ??
      word('WEIGHTING_FUNCTION'),
  );
  const observer = observerNamed(
    word('OBSERVER_ANGLE') ?? word('OBSERVER') ?? /observer(?:angle)?\s*=\s*(\S+)/i.exec(source ?? '')?.[1],
  );
  for (const [space, wanted] of [
    ['lab', ['LAB_L', 'LAB_A', 'LAB_B']],
    ['xyz', ['XYZ_X', 'XYZ_Y', 'XYZ_Z']],
  ] as const) {
    const places = wanted.map((name) => names.indexOf(name));
    if (places.some((index) => index < 0)) continue;
    const values: ValueReading[] = [];
    for (const set of sets) {
      const cells: number[] = [];
      for (const index of places) {
        const cell = cellOf(set[index]!);
        if (!cell.ok) return cell;
        cells.push(cell.value.value);
      }
      values.push({
        ...nameOf(set),
        space,
        value: cells as unknown as Triple,
        ...(illuminant ? { illuminant } : {}),
        ...(observer ? { observer } : {}),
      });
    }
    return good({ file: { format: 'CGATS', spectra: [], values, notes }, next });
  }
  return bad({
    code: 'no-spectrum',
    message: 'The file has neither spectral nor Lab nor XYZ fields.',
    line: fields[0]!.line,
    column: fields[0]!.column,
    expected: 'SPECTRAL_NM… fields, LAB_L LAB_A LAB_B, or XYZ_X XYZ_Y XYZ_Z',
    cure: 'Export the file with spectral data.',
  });
}

function withSpectra(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  said: SaidUnit | undefined,
  notes: readonly FileNote[],
  next: number,
): Outcome<{ readonly file: ReadingsFile; readonly next: number }> {
  const spectra = spectraFromColumns(wavelengths, columns, said);
  if (!spectra.ok) return spectra;
  return good({
    file: { format: 'CGATS', spectra: spectra.value.spectra, values: [], notes: [...notes, ...spectra.value.notes] },
    next,
  });
}
