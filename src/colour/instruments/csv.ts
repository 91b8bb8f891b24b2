// Spectra from tables: wavelengths down (one column a reading) or across (one row a reading).
import { bad, good, type Fault, type Outcome } from '../faults.js';
import { wavelengthFault } from '../spectrum.js';
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
  type ReadingsFile,
} from './reading.js';

interface Word {
  readonly text: string;
  readonly column: number;
}
interface RawLine {
  readonly line: number;
  readonly text: string;
}
interface Line extends RawLine {
  readonly words: readonly Word[];
}

const wordAt = ({ words }: Line, index: number): string => words[index]?.text ?? '';

/** Words between white space. */
const splitAtSpaces = (line: string): Word[] =>
  [...line.matchAll(/\S+/g)].map((found) => ({ text: found[0].replace(/^"(.*)"$/, '$1'), column: found.index + 1 }));

/** Where the word that begins at `from` ends: at the next separator that does not stand within quotes. */
function endOfWord(line: string, from: number, separator: string): number {
  const close = line[from] === '"' ? line.indexOf('"', from + 1) : -1;
  const end = line.indexOf(separator, close > 0 ? close : from);
  return end < 0 ? line.length : end;
}

/** Words between separators, without their quotes, each with its 1-based column. */
function splitAt(line: string, separator: string): Word[] {
  const words: Word[] = [];
  for (let from = 0; from <= line.length; ) {
    while (line[from] === ' ') from += 1;
    const end = endOfWord(line, from, separator);
    const text = line.slice(from, end).trim();
    words.push({ text: text.replace(/^"(.*)"$/, '$1').trim(), column: from + 1 });
    from = end + 1;
  }
  return words;
}

type Separator = ';' | '\t' | ',' | ' ';

/** Judged by the lines that begin with a number, where there are any: remarks of the instrument hold other signs. */
function separatorOf(all: readonly string[]): Separator {
  const numbers = all.filter((line) => /^\s*"?[+-]?\d/.test(line));
  const lines = numbers.length > 0 ? numbers : all;
  if (lines.some((line) => line.includes(';'))) return ';';
  if (lines.some((line) => /\S\t/.test(line))) return '\t';
  const data = lines.find((line) => /^\s*"?\d/.test(line)) ?? '';
  return /^\s*\d[\d.]*(?:,\d+)?\s+[\d.+-]/.test(data) ? ' ' : ',';
}

/** Numbers from this to this may be wavelengths, nm. */
const wavelengthsWithin = { from: 150, to: 3000 } as const;
const isWavelength = (value: number | undefined): value is number =>
  value !== undefined && value >= wavelengthsWithin.from && value <= wavelengthsWithin.to;

/** The wavelength that the heading of a column names: `400`, `400 nm`, `R_400`, `R400 [%]`. */
function headingWavelength(text: string): number | undefined {
  if (text.length > 40) return undefined;
  const found =
    /^(?:[A-Za-z_%()[\]\s]*[^\d.\w]?\s*)?(\d{3,4}(?:[.,]\d+)?)\s*[\])]?\s*(?:nm|\[nm\]|\(nm\))?\s*(?:%|\[%\]|\(%\))?$/i.exec(
      text,
    );
  const nm = found ? Number(found[1]!.replace(',', '.')) : undefined;
  return isWavelength(nm) ? nm : undefined;
}

/** Cells that stand where a value should: empty, or what programs write for none. */
const hole = /^(?:|nan|n\/a|-|[+-]?inf(?:inity)?)$/i;

const spreadHeading = /std|deviation|streuung|uncertaint|error|(?:^|[\s_(])s\.?d\.?(?:$|[\s_)])|^\s*[±σ]/i;

/** Headings of the column of wavelengths, and of columns that are neither that nor reflectance. */
const wavelengthHeading = /wave|wellen|^\s*(?:nm|wl|lambda|λ)(?![a-z])/i;
const otherHeading = /^\s*(?:observer|angle|illuminant|temperature|time\b|(?:n|no|nr|index|row)\b|#)/i;
const noReading = (heading: string): boolean =>
  [spreadHeading, wavelengthHeading, otherHeading].some((pattern) => pattern.test(heading)) ||
  otherQuantity(heading) !== undefined;

/** Lines that are no data and no heading: `# …`, `// …`, `% …`, `; …`. */
const comment = /^\s*(?:#|\/\/|%\s|;(?!.*;))/;

/** What ends the numbers: `>>>>>End Spectral Data<<<<<`, `[EndOfData]`, `END`. */
const endMarker =
  /^[\W_]*(?:end|eof|stop)(?:[\s_-]*(?:of|the|spectral|spectrum|processed|data|file|measurement|scan))*[\W_]*$/i;

/**
 * The unit that a heading names: `R %`, `reflectance_pct`, `R (0-1)`. A tint's `20 %` is its name; `0-100 %` is a
 * unit.
 */
function unitOf(heading: string): StatedUnit | undefined {
  if (/\b0(?:\.0+)?\s*(?:-|–|\.\.+|…|to|bis)\s*1(?:\.0+)?(?![\d.])|fraction|decimal|\[-\]/i.test(heading))
    return { unit: 'fraction' };
  if (
    /(?<!\d\s?)%|\b0\s*(?:-|–|\.\.+|…|to|bis)\s*100|per\s?cent|pour\s?cent|pro[cz]ent|(?<![a-z])pct|pct(?![a-z])/i.test(
      heading,
    )
  )
    return { unit: 'percent' };
  return undefined;
}

/** `wavelength,reflectance`, or `nm,` and a name. */
const usualHeading = (heading: string): boolean =>
  /^[a-z_ ]+,[a-z_ ]+$/i.test(heading) && !unitOf(heading) && !noReading(heading.slice(heading.indexOf(',') + 1));

/** A line `400,0.0731` of the usual file; undefined for any other. */
function usualRow(line: string): { readonly nm: number; readonly r: number } | undefined {
  const comma = line.indexOf(',');
  if (comma < 0) return undefined;
  const [nm, r] = [plainNumber(line.slice(0, comma)), plainNumber(line.slice(comma + 1))];
  return nm === undefined || r === undefined || r < 0 || r > 1.05 ? undefined : { nm, r };
}

/**
 * The usual file (a heading or none, then `400,0.0731`, fractions all), read without keeping places, since nothing in
 * it needs one; undefined for anything else, which the full reading below takes, and any fault with it.
 */
function readUsual(lines: readonly string[]): ReadingsFile | undefined {
  const heading = lines[0] ?? '';
  const headed = !/^\d/.test(heading);
  if (headed && !usualHeading(heading)) return undefined;
  const wavelengths: number[] = [];
  const reflectance: number[] = [];
  const end = lines.at(-1) === '' ? lines.length - 1 : lines.length;
  for (let i = headed ? 1 : 0; i < end; i += 1) {
    const row = usualRow(lines[i]!);
    if (!row) return undefined;
    wavelengths.push(row.nm);
    reflectance.push(row.r);
  }
  const visible = wavelengths.every(isVisible);
  if (!visible || wavelengths.length > longest.wavelengths || wavelengthFault(wavelengths)) return undefined;
  const name = headed ? heading.slice(heading.indexOf(',') + 1).trim() : '';
  const spectrum = { wavelengths, reflectance };
  return { format: 'CSV', spectra: [{ ...(name ? { name } : {}), spectrum }], values: [], notes: [] };
}

/** A decimal comma is read where commas do not separate; where they do, one within a word was in quotes. */
const decimal = (word: string): number | undefined => plainNumber(word.includes('.') ? word : word.replace(',', '.'));

/** A number, also as `400 nm` and `12.3 %`. */
function numberIn(word: string): number | undefined {
  if (word.endsWith('%')) return decimal(word.slice(0, -1).trimEnd());
  return decimal(/nm$/i.test(word) ? word.slice(0, -2).trimEnd() : word);
}

const numberAt = (line: Line, index: number): number | undefined => numberIn(wordAt(line, index));

/** Lines that are neither empty nor comments, split into words. */
function linesOf(raw: readonly string[]): Outcome<{ readonly lines: readonly Line[]; readonly separator: Separator }> {
  const kept: { text: string; line: number }[] = [];
  for (const [i, text] of raw.entries()) {
    if (text.trim() === '' || comment.test(text)) continue;
    if (kept.length > 0 && text.length < 80 && endMarker.test(text)) break;
    kept.push({ text, line: i + 1 });
    if (kept.length > longest.wavelengths)
      return faultAt(
        { line: i + 1, column: 1 },
        {
          code: 'too-many-rows',
          message: `The file has more than ${longest.wavelengths} rows.`,
          cure: 'Give one sample’s spectrum, 400 to 700 nm, in steps of 1 nm or coarser.',
        },
      );
  }
  const separator = separatorOf(kept.slice(0, 60).map(({ text }) => text));
  const split = separator === ' ' ? splitAtSpaces : (line: string) => splitAt(line, separator);
  return good({ lines: kept.map(({ text, line }) => ({ text, line, words: split(text) })), separator });
}

const wavelengthAt = (line: Line, index: number): number | undefined => {
  const value = numberAt(line, index);
  return isWavelength(value) ? value : undefined;
};

/** Whether a column holds wavelengths in eight rows or more, rising from the first that it holds to the end. */
function holdsWavelengths(lines: readonly Line[], column: number): boolean {
  const from = lines.findIndex((line) => wavelengthAt(line, column) !== undefined);
  if (from < 0) return false;
  const values = lines.slice(from).map((line) => wavelengthAt(line, column));
  return values.length >= 8 && values.every((nm, i) => nm !== undefined && (i === 0 || nm > (values[i - 1] ?? nm)));
}

/** The column of wavelengths: the first, unless another of the first twelve holds them and the first can't. */
function wavelengthColumn(lines: readonly Line[]): number {
  if (lines.filter((line) => wavelengthAt(line, 0) !== undefined).length > 1) return 0;
  const width = Math.min(12, lines.at(-1)?.words.length ?? 0);
  for (let column = 1; column < width; column += 1) if (holdsWavelengths(lines, column)) return column;
  return 0;
}

/** The column of wavelengths put first. */
function wavelengthsFirst(lines: readonly Line[]): readonly Line[] {
  const own = wavelengthColumn(lines);
  if (own === 0) return lines;
  return lines.map((line) => ({
    ...line,
    words: [
      line.words[own] ?? { text: '', column: line.words.at(-1)!.column },
      ...line.words.slice(0, own),
      ...line.words.slice(own + 1),
    ],
  }));
}

/** A row of a number and, beside it, a number or (after what may be a wavelength) a hole. */
function looksLikeData(line: Line): boolean {
  const first = numberAt(line, 0);
  if (first === undefined || line.words.length < 2) return false;
  const numbers = line.words.slice(1).some(({ text }) => numberIn(text) !== undefined);
  return numbers || (first >= wavelengthsWithin.from && hole.test(wordAt(line, 1)));
}

const startsWithWavelength = (line: Line): boolean => (numberAt(line, 0) ?? 0) >= wavelengthsWithin.from;

/**
 * The first row of the numbers, or -1. A heading or remarks of the instrument may stand before them; so may a row that
 * only looks like numbers (`1;2`).
 */
function firstRow(lines: readonly Line[]): number {
  const first = lines.findIndex(looksLikeData);
  if (first < 0) return -1;
  const later = lines.findIndex(
    (line, i) => i >= first && startsWithWavelength(line) && numberAt(line, 1) !== undefined,
  );
  const skipped = later > first && later - first < 20 && !lines.slice(first, later).some(startsWithWavelength);
  return skipped ? later : first;
}

function noRowFault(lines: readonly Line[]): Outcome<never> {
  const withNumber = lines.find(({ words }) => words.some(({ text }) => numberIn(text) !== undefined));
  const line = withNumber ?? lines[0];
  return faultAt(
    { line: line?.line ?? 1, column: 1 },
    {
      code: 'no-spectrum',
      message: 'No row of the file starts with a wavelength and a value.',
      expected: 'rows such as 400;0.123',
      cure: 'Export the reflectance as wavelength and value, one row a wavelength.',
    },
  );
}

/** Rows and what is to be said about them. */
interface Rows {
  readonly rows: readonly Line[];
  readonly notes: readonly FileNote[];
}

const threeWholeNumbers = (line: Line): boolean =>
  line.words.length === 3 && line.words.every(({ text }) => /^\d+$/.test(text)) && startsWithWavelength(line);

/** `400,0,0512` may be a wavelength and 0.0512, or a wavelength and two readings. */
function withDecimalCommas(rows: readonly Line[], separator: Separator): Outcome<Rows> {
  if (separator !== ',' || !rows.every(threeWholeNumbers)) return good({ rows, notes: [] });
  const place = { line: rows[0]!.line, column: rows[0]!.words[1]!.column };
  const fractions = rows.every((line) => /^[01]$/.test(wordAt(line, 1)));
  const decimals = rows.some((line) => wordAt(line, 2).length > 2 || /^0\d/.test(wordAt(line, 2)));
  if (!fractions && !decimals)
    return faultAt(place, {
      code: 'ambiguous-comma',
      message: 'Commas here may separate columns or stand for the decimal point.',
      expected: '400;5,12 or 400,5.12',
      cure: 'Use a decimal point, or a semicolon between columns.',
    });
  const note: FileNote = {
    code: 'ambiguous-comma',
    message:
      'The comma separates columns and is the decimal sign as well; it was read as the decimal sign of the values.',
    ...place,
    cure: 'Use a decimal point, or a semicolon between columns.',
  };
  const joined = rows.map((line) => ({
    ...line,
    words: [line.words[0]!, { text: `${wordAt(line, 1)}.${wordAt(line, 2)}`, column: line.words[1]!.column }],
  }));
  return good({ rows: joined, notes: [note] });
}

/** With or without the gloss, as a heading says it. */
const glossOf = (heading: string): string | undefined =>
  /(?<![a-z])(sci|sce|spin|spex)(?![a-z])/i.exec(heading)?.[1]?.toLowerCase();

/** The columns that are readings, by their headings and first rows. */
function readingColumns(rows: readonly Line[], heading: Line | undefined): number[] {
  const first = rows[0]!;
  // A column that starts with words is not a reading; one that starts empty or with NaN is one with a hole.
  return first.words.flatMap(({ text }, c) => {
    if (c === 0 || (heading && noReading(wordAt(heading, c)))) return [];
    if (numberIn(text) === undefined && !hole.test(text)) return [];
    return rows.every((line) => wordAt(line, c) === '') ? [] : [c];
  });
}

/** With and without the gloss are not two readings of the same: the first kind is used. */
function ofOneGloss(
  columns: readonly number[],
  heading: Line | undefined,
): { readonly columns: readonly number[]; readonly notes: readonly FileNote[] } {
  const kinds = columns.map((c) => (heading ? glossOf(wordAt(heading, c)) : undefined));
  const used = kinds.find((kind) => kind !== undefined);
  if (!heading || used === undefined || !kinds.some((kind) => kind !== undefined && kind !== used))
    return { columns, notes: [] };
  const kept = columns.filter((_, i) => kinds[i] === used);
  const note: FileNote = {
    code: 'several-kinds',
    message:
      `Readings with and without the specular part stand in the file; those headed ${used.toUpperCase()} were ` +
      'used.',
    line: heading.line,
    column: heading.words[kept[0]!]!.column,
    cure: 'Leave one kind only if the other was meant.',
  };
  return { columns: kept, notes: [note] };
}

/** The value in a cell, or what is wrong with it. */
function cellOf({ words, line }: Line, index: number, missing: string): Outcome<Cell> {
  const word = words[index];
  if (!word || word.text === '')
    return faultAt(
      { line, column: word?.column ?? words.at(-1)?.column ?? 1 },
      {
        code: 'missing-value',
        message: missing,
        expected: 'a reflectance',
        cure: 'Give the missing value, or export the spectrum again.',
      },
    );
  const value = numberIn(word.text);
  if (value === undefined)
    return faultAt(
      { line, column: word.column },
      {
        code: 'not-a-number',
        message: `${quoted(word.text)} is not a number.`,
        expected: 'a reflectance',
        cure: 'Correct the value.',
      },
    );
  return good({ value, line, column: word.column });
}

function wavelengthCell(line: Line): Outcome<Cell> {
  const { text, column } = line.words[0]!;
  const value = numberIn(text);
  if (value !== undefined) return good({ value, line: line.line, column });
  return faultAt(
    { line: line.line, column },
    {
      code: 'not-a-number',
      message: `${quoted(text)} is not a wavelength.`,
      expected: 'a wavelength in nm',
      cure: 'Leave only rows of numbers after the heading.',
    },
  );
}

const marked = (line: Line, index: number): boolean => wordAt(line, index).endsWith('%');

/** Values with and without a per cent sign beside them are not in one unit. */
function mixedMarks(line: Line, index: number): Outcome<never> {
  const text = wordAt(line, index);
  const sign = marked(line, index)
    ? 'in per cent, the values before it are not'
    : 'without the per cent sign of the values before it';
  return faultAt(
    { line: line.line, column: line.words[index]!.column },
    {
      code: 'mixed-units',
      message: `${quoted(text)} is ${sign}.`,
      expected: 'one unit in a file',
      cure: 'Write all values in the same unit.',
    },
  );
}

interface Cells {
  readonly wavelengths: readonly Cell[];
  /** One list a column. */
  readonly values: readonly (readonly Cell[])[];
}

const othersShown = 5;

/** The first value that is none, and with it all others that are to be corrected too. */
function withOthers(fault: Fault, rows: readonly Line[], columns: readonly number[]): Outcome<never> {
  const others = rows.flatMap((row) =>
    columns.flatMap((at): string[] => {
      const text = wordAt(row, at);
      const value = numberIn(text);
      const isFirst = row.line === fault.line && row.words[at]?.column === fault.column;
      if (isFirst || text === '' || (value !== undefined && value >= 0)) return [];
      return [`line ${row.line}, ${quoted(text)}${value === undefined ? '' : ', which is below zero'}`];
    }),
  );
  if (others.length === 0) return bad(fault);
  const more = others.length > othersShown ? ` and ${others.length - othersShown} more` : '';
  return bad({
    ...fault,
    cure: `${fault.cure ?? ''} Look also at ${others.slice(0, othersShown).join('; ')}${more}.`.trim(),
  });
}

function cellsDown(rows: readonly Line[], columns: readonly number[]): Outcome<Cells> {
  const wavelengths: Cell[] = [];
  const values: Cell[][] = columns.map(() => []);
  const percent = marked(rows[0]!, columns[0]!);
  for (const line of rows) {
    const nm = wavelengthCell(line);
    if (!nm.ok) return nm;
    wavelengths.push(nm.value);
    for (const [k, c] of columns.entries()) {
      const cell = cellOf(line, c, `No value stands beside ${nm.value.value} nm.`);
      if (!cell.ok) return withOthers(cell.fault, rows, columns);
      if (marked(line, c) !== percent) return mixedMarks(line, c);
      values[k]!.push(cell.value);
    }
  }
  return good({ wavelengths, values });
}

/** Lines before the numbers, comments too, as they stand. */
const mostRemarks = 200;
const remarksBefore = (raw: readonly string[], line: number): RawLine[] =>
  raw.slice(0, Math.min(line - 1, mostRemarks)).map((text, i) => ({ text: text.slice(0, 200), line: i + 1 }));

/**
 * The quantity of a file that holds no reflectance: named by the heading of its columns, or by a remark before them.
 */
function otherQuantityOf(
  columns: readonly number[],
  heading: Line | undefined,
  remarks: readonly RawLine[],
): PlacedQuantity | undefined {
  if (columns.length > 0) return quantityBefore(remarks, heading);
  for (const { text, column } of heading?.words ?? []) {
    const name = otherQuantity(text);
    if (name) return { name, place: { line: heading!.line, column } };
  }
  return quantityBefore(remarks, undefined);
}

/**
 * Rows that the CIE tables have values for; all, where that is none. What an instrument writes further out may be
 * anything.
 */
function visibleRows(rows: readonly Line[]): readonly Line[] {
  const visible = rows.filter((line) => {
    const nm = numberAt(line, 0);
    return nm === undefined || isVisible(nm);
  });
  return visible.filter((line) => numberAt(line, 0) !== undefined).length < 2 ? rows : visible;
}

/** Wavelengths down, one column a reading. */
function readDown(all: readonly Line[], separator: Separator, raw: readonly string[]): Outcome<ReadingsFile> {
  const lines = wavelengthsFirst(all);
  const first = firstRow(lines);
  if (first < 0) return noRowFault(lines);
  const found = withDecimalCommas(lines.slice(first), separator);
  if (!found.ok) return found;
  const rows = visibleRows(found.value.rows);
  // The line right above the numbers names the unit; words further up may hold any per cent.
  const heading = first > 0 ? lines[first - 1] : undefined;
  const { columns, notes } = ofOneGloss(readingColumns(rows, heading), heading);
  const place = { line: rows[0]!.line, column: 1 };
  const quantity = otherQuantityOf(columns, heading, remarksBefore(raw, rows[0]!.line));
  if (quantity) return notReflectance(quantity.name, quantity.place);
  if (columns.length > longest.sets)
    return faultAt(place, {
      code: 'too-many-readings',
      message: `The file has ${columns.length} columns of readings.`,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });
  if (columns.length === 0)
    return faultAt(place, {
      code: 'no-spectrum',
      message: 'No column of reflectance was found.',
      cure: 'Export the reflectance as wavelength and value, one row a wavelength.',
    });
  const cells = cellsDown(rows, columns);
  if (!cells.ok) return cells;
  const percent = marked(rows[0]!, columns[0]!);
  return withSpectra(
    cells.value.wavelengths,
    columns.map((c, k) => named(heading ? wordAt(heading, c) : '', cells.value.values[k]!)),
    percent ? { unit: 'percent', sure: true } : unitOf(heading?.text ?? ''),
    [...found.value.notes, ...notes],
  );
}

const named = (name: string, cells: readonly Cell[]): Column => ({ ...(name ? { name } : {}), cells });

/**
 * The column that names the rows, before the first wavelength: the one headed name or sample, else the first; or -1.
 */
function columnOfNames(heading: Line, firstWavelength: number): number {
  const words = heading.words.slice(0, firstWavelength).map(({ text }) => text);
  const headed = words.findIndex((text) => /name|sample|probe|label|échantillon/i.test(text));
  return headed >= 0 ? headed : Math.min(0, words.length - 1);
}

/** A quantity with the place where it is named. */
interface PlacedQuantity {
  readonly name: string;
  readonly place: { readonly line: number; readonly column: number };
}

/** A remark that says what was measured: `Y axis: Absorbance`, `# Transmission spectrum`. */
const saysQuantity = /\b(?:mode|type|quantity|measure\w*|messgr\w*|y[\s-]?axis|ordinate|units?|spectr(?:um|a|e))\b/i;

/** Figures that light meters write before a spectrum, and no instrument for reflectance: `LUX 695`, `CCT 5198`. */
const lightFigures = /^\s*(?:lux|illuminance|cct|cri|tlci|ppfd|irr)\b/i;

function quantityIn(remark: string): string | undefined {
  if (lightFigures.test(remark)) return 'emission';
  return saysQuantity.test(remark) ? otherQuantity(remark) : undefined;
}

/** Another quantity than reflectance that remarks before the numbers name, unless the heading names reflectance. */
function quantityBefore(remarks: readonly RawLine[], heading: Line | undefined): PlacedQuantity | undefined {
  if (heading && /refle[ck]t|\b%?r\b/i.test(heading.text)) return undefined;
  for (const { text, line } of remarks) {
    const name = quantityIn(text);
    if (name) return { name, place: { line, column: 1 } };
  }
  return undefined;
}

/** Wavelengths across, in the headings of columns; one row a reading. */
function readAcross(lines: readonly Line[], at: number, before: readonly RawLine[]): Outcome<ReadingsFile> {
  const heading = lines[at]!;
  const found = heading.words.flatMap(({ text, column }, index) => {
    const value = headingWavelength(text);
    return value === undefined ? [] : [{ index, cell: { value, line: heading.line, column } }];
  });
  const visible = found.filter(({ cell }) => isVisible(cell.value));
  const places = visible.length < 2 ? found : visible;
  const quantity = quantityBefore(before, heading);
  if (quantity) return notReflectance(quantity.name, quantity.place);
  const nameColumn = columnOfNames(heading, found[0]!.index);
  const columns: Column[] = [];
  for (const line of lines.slice(at + 1)) {
    const cells: Cell[] = [];
    for (const { index, cell } of places) {
      const read = cellOf(line, index, `No value stands below ${cell.value} nm.`);
      if (!read.ok) return read;
      cells.push(read.value);
    }
    columns.push(named(nameColumn < 0 ? '' : wordAt(line, nameColumn), cells));
    if (columns.length > longest.sets)
      return faultAt(
        { line: line.line, column: 1 },
        {
          code: 'too-many-readings',
          message: `The file has more than ${longest.sets} rows of readings.`,
          cure: 'Give the readings of one sample only.',
        },
      );
  }
  if (columns.length === 0)
    return faultAt(
      { line: heading.line, column: 1 },
      {
        code: 'no-spectrum',
        message: 'No row of values stands below the wavelengths.',
        cure: 'Export the reading again.',
      },
    );
  return withSpectra(
    places.map(({ cell }) => cell),
    columns,
    unitOf(heading.text),
    [],
  );
}

function withSpectra(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  stated: StatedUnit | undefined,
  notes: readonly FileNote[],
): Outcome<ReadingsFile> {
  const spectra = spectraFromColumns(wavelengths, columns, stated);
  if (!spectra.ok) return spectra;
  return good({ format: 'CSV', spectra: spectra.value.spectra, values: [], notes: [...notes, ...spectra.value.notes] });
}

/** The line whose words are headings of eight or more wavelengths, among the first forty; or -1. */
const headingAcross = (lines: readonly Line[]): number =>
  lines.slice(0, 40).findIndex(({ words }) => {
    if (words.length < 8) return false;
    return words.filter(({ text }) => headingWavelength(text) !== undefined).length >= 8;
  });

/**
 * Reads a CSV of reflectance. Separator `;`, tab, `,` or spaces; decimal comma where that cannot be the separator;
 * with or without a heading; other text columns are passed over.
 */
export function parseCsv(text: string): Outcome<ReadingsFile> {
  const raw = text.split(/\r\n|\n|\r/);
  const usual = readUsual(raw);
  if (usual) return good(usual);
  const found = linesOf(raw);
  if (!found.ok) return found;
  const { lines, separator } = found.value;
  const across = headingAcross(lines);
  const before = remarksBefore(raw, lines[Math.max(across, 0)]?.line ?? 1);
  return across >= 0 ? readAcross(lines, across, before) : readDown(lines, separator, raw);
}
