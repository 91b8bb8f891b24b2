// Spectra from tables: wavelengths down (one column a reading) or across (one row a reading).
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import {
  longest,
  plainNumber,
  spectraFromColumns,
  type Cell,
  type Column,
  type FileNote,
  type ReadingsFile,
  type SaidUnit,
} from './columns.js';
import { wavelengthFault } from './spectrum.js';

interface Word {
  readonly text: string;
  readonly column: number;
}
interface Line {
  readonly words: readonly Word[];
  readonly line: number;
}

/** Splits a line at a separator (or at white space), without quotes, each word with its 1-based column. */
function split(line: string, separator: string): Word[] {
  const words: Word[] = [];
  if (separator === ' ') {
    for (const found of line.matchAll(/\S+/g))
      words.push({ text: found[0].replace(/^"(.*)"$/, '$1'), column: found.index + 1 });
    return words;
  }
  const quoted = line.includes('"');
  let from = 0;
  while (from <= line.length) {
    while (from < line.length && line[from] === ' ') from += 1;
    let to = line.indexOf(separator, from);
    if (quoted && line[from] === '"') {
      // A separator within quotes is text.
      const close = line.indexOf('"', from + 1);
      if (close > 0) to = line.indexOf(separator, close);
    }
    if (to < 0) to = line.length;
    const text = line.slice(from, to).trim();
    words.push({ text: quoted ? text.replace(/^"(.*)"$/, '$1').trim() : text, column: from + 1 });
    from = to + 1;
  }
  return words;
}

function separatorOf(lines: readonly string[]): ';' | '\t' | ',' | ' ' {
  if (lines.some((line) => line.includes(';'))) return ';';
  if (lines.some((line) => /\S\t/.test(line))) return '\t';
  const data = lines.find((line) => /^\s*"?\d/.test(line)) ?? '';
  return /^\s*\d[\d.]*(?:,\d+)?\s+[\d.+-]/.test(data) ? ' ' : ',';
}

const columnWavelength = (text: string): number | undefined => {
  if (text.length > 40) return undefined;
  const found =
    /^(?:[A-Za-z_%()[\]\s]*[^\d.\w]?\s*)?(\d{3,4}(?:[.,]\d+)?)\s*[\])]?\s*(?:nm|\[nm\]|\(nm\))?\s*(?:%|\[%\]|\(%\))?$/i.exec(
      text,
    );
  const nm = found ? Number(found[1]!.replace(',', '.')) : Number.NaN;
  return nm >= 150 && nm <= 3000 ? nm : undefined;
};

/** Cells that stand where a value should: empty, or what programs write for none. */
const hole = /^(?:|nan|n\/a|-|[+-]?inf(?:inity)?)$/i;

const spreadHeading = /std|deviation|streuung|uncertaint|error|(?:^|[\s_(])s\.?d\.?(?:$|[\s_)])|^\s*[±σ]/i;

/** Headings of the column of wavelengths, and of columns that are neither that nor reflectance. */
const wavelengthHeading = /wave|wellen|^\s*(?:nm|wl|lambda|λ)(?![a-z])/i;
const otherHeading =
  /^\s*(?:absorb|transm|k\s*\/\s*s|counts?\b|observer|angle|illuminant|temperature|time\b|(?:n|no|nr|index|row)\b|#)/i;

/** Lines that are no data and no heading: `# …`, `// …`, `% …`, `; …`. */
const comment = /^\s*(?:#|\/\/|%\s|;(?!.*;))/;

/** The unit that a heading names: `R %`, `reflectance_pct`, `R (0-1)`. A tint's `20 %` is its name; `0-100 %` is a unit. */
function unitOf(heading: string): SaidUnit | undefined {
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

/**
 * The usual file (a heading or none, then `400,0.0731`, fractions all), read without keeping places, since nothing in
 * it needs one; undefined for anything else, which the full reading below takes, and any fault with it.
 */
function readUsual(lines: readonly string[]): ReadingsFile | undefined {
  const wavelengths: number[] = [];
  const reflectance: number[] = [];
  const heading = lines[0] ?? '';
  const start = /^\d/.test(heading) ? 0 : 1;
  if (start === 1 && !/^[a-z_ ]+,[a-z_ ]+$/i.test(heading)) return undefined;
  if (start === 1 && unitOf(heading)) return undefined;
  for (let i = start; i < lines.length; i += 1) {
    const line = lines[i]!;
    if (line === '' && i === lines.length - 1) break;
    const comma = line.indexOf(',');
    const [nm, r] = [plainNumber(line.slice(0, comma)), plainNumber(line.slice(comma + 1))];
    if (comma < 0 || nm === undefined || r === undefined || r < 0 || r > 1.05) return undefined;
    wavelengths.push(nm);
    reflectance.push(r);
  }
  if (wavelengths.length > longest.wavelengths || wavelengthFault(wavelengths)) return undefined;
  const name = start === 1 ? heading.slice(heading.indexOf(',') + 1).trim() : '';
  return {
    format: 'CSV',
    spectra: [{ ...(name ? { name } : {}), spectrum: { wavelengths, reflectance } }],
    values: [],
    notes: [],
  };
}

/** The column of wavelengths: the first, unless another holds them (rising from 150 to 3000 nm) and the first can't. */
function wavelengthColumn(lines: readonly Line[], read: (word: string) => number | undefined): number {
  const at = (line: Line, c: number): number | undefined => {
    const value = read(line.words[c]?.text ?? '');
    return value !== undefined && value >= 150 && value <= 3000 ? value : undefined;
  };
  if (lines.filter((line) => at(line, 0) !== undefined).length > 1) return 0;
  for (let c = 1; c < Math.min(12, lines.at(-1)?.words.length ?? 0); c += 1) {
    const rows = lines.slice(lines.findIndex((line) => at(line, c) !== undefined));
    if (
      rows.length >= 8 &&
      rows.every((line, i) => {
        const nm = at(line, c);
        return nm !== undefined && (i === 0 || nm > at(rows[i - 1]!, c)!);
      })
    )
      return c;
  }
  return 0;
}

/**
 * Reads a CSV of reflectance. Separator `;`, tab, `,` or spaces; decimal comma where that cannot be the separator;
 * with or without a heading; other text columns are passed over.
 */
export function readCsv(text: string): Outcome<ReadingsFile> {
  const fault = (found: Fault): Outcome<never> => bad(found);
  const raw = text.split(/\r\n|\n|\r/);
  const usual = readUsual(raw);
  if (usual) return good(usual);
  const kept: { text: string; line: number }[] = [];
  for (let i = 0; i < raw.length; i += 1) {
    const line = raw[i]!;
    if (line.trim() === '' || comment.test(line)) continue;
    kept.push({ text: line, line: i + 1 });
    if (kept.length > longest.wavelengths)
      return fault({
        code: 'too-many-rows',
        message: `The file has more than ${longest.wavelengths} rows.`,
        line: i + 1,
        column: 1,
        cure: 'Give one sample’s spectrum, 400 to 700 nm, in steps of 1 nm or coarser.',
      });
  }
  const separator = separatorOf(kept.slice(0, 60).map((line) => line.text));
  let lines: Line[] = kept.map((line) => ({ words: split(line.text, separator), line: line.line }));
  // Where commas separate, one within a word was in quotes and is decimal.
  const number = (word: string): number | undefined => plainNumber(word.includes('.') ? word : word.replace(',', '.'));
  // `400 nm` and `12.3 %` are read as well.
  const read = (word: string): number | undefined =>
    number(/(?:nm|%)$/i.test(word) ? word.slice(0, word.endsWith('%') ? -1 : -2).trimEnd() : word);
  const notes: FileNote[] = [];

  const across = lines
    .slice(0, 40)
    .findIndex(
      ({ words }) =>
        words.length >= 8 && words.filter(({ text: word }) => columnWavelength(word) !== undefined).length >= 8,
    );
  if (across >= 0) return readAcross(lines, across, read, kept[across]!.text);

  const own = wavelengthColumn(lines, read);
  if (own > 0)
    lines = lines.map(({ words, line }) => ({
      line,
      words: [
        words[own] ?? { text: '', column: words.at(-1)!.column },
        ...words.slice(0, own),
        ...words.slice(own + 1),
      ],
    }));

  let first = lines.findIndex(
    ({ words }) =>
      read(words[0]!.text) !== undefined &&
      words.length > 1 &&
      (words.slice(1).some(({ text: word }) => read(word) !== undefined) ||
        (read(words[0]!.text)! >= 150 && hole.test(words[1]!.text))),
  );
  if (first < 0) {
    const number = lines.findIndex(({ words }) => words.some(({ text: word }) => read(word) !== undefined));
    const line = lines[Math.max(number, 0)];
    return fault({
      code: 'no-spectrum',
      message: 'No row of the file starts with a wavelength and a value.',
      line: line?.line ?? 1,
      column: 1,
      expected: 'rows such as 400;0.123',
      cure: 'Export the reflectance as wavelength and value, one row a wavelength.',
    });
  }
  // A heading or remarks of the instrument may stand before the numbers; a row that only looks like data (`1;2`) may too.
  const looksLikeWavelength = (line: Line) => {
    const nm = read(line.words[0]!.text);
    return nm !== undefined && nm >= 150;
  };
  const later = lines.findIndex(
    (line, i) =>
      i >= first && looksLikeWavelength(line) && line.words.length > 1 && read(line.words[1]!.text) !== undefined,
  );
  if (later > first && lines.slice(first, later).every((line) => !looksLikeWavelength(line)) && later - first < 20)
    first = later;

  let data = lines.slice(first);
  const heading = first > 0 ? lines[first - 1] : undefined;
  // The line right above the numbers names the unit; words further up may hold any per cent.
  const headText = first > 0 ? kept[first - 1]!.text : '';

  if (
    separator === ',' &&
    data.every(
      ({ words }) =>
        words.length === 3 && words.every(({ text: word }) => /^\d+$/.test(word)) && Number(words[0]!.text) >= 150,
    )
  ) {
    // 400,0,0512 may be a wavelength and 0.0512, or a wavelength and two readings.
    const fractions = data.every(({ words }) => words[1]!.text === '0' || words[1]!.text === '1');
    const decimals = data.some(({ words }) => words[2]!.text.length > 2 || /^0\d/.test(words[2]!.text));
    if (!fractions && !decimals)
      return fault({
        code: 'ambiguous-comma',
        message: 'Commas here may separate columns or stand for the decimal point.',
        line: data[0]!.line,
        column: data[0]!.words[1]!.column,
        expected: '400;5,12 or 400,5.12',
        cure: 'Use a decimal point, or a semicolon between columns.',
      });
    notes.push({
      code: 'ambiguous-comma',
      message:
        'The comma separates columns and is the decimal sign as well; it was read as the decimal sign of the values.',
      line: data[0]!.line,
      column: data[0]!.words[1]!.column,
      cure: 'Use a decimal point, or a semicolon between columns.',
    });
    data = data.map(({ words, line }) => ({
      line,
      words: [words[0]!, { text: `${words[1]!.text}.${words[2]!.text}`, column: words[1]!.column }],
    }));
  }

  const width = data[0]!.words.length;
  const headed = (c: number): string => heading?.words[c]?.text ?? '';
  let taken: number[] = [];
  for (let c = 1; c < width; c += 1) {
    if ([spreadHeading, wavelengthHeading, otherHeading].some((other) => other.test(headed(c)))) continue;
    const word = data[0]!.words[c]!.text;
    // A column that starts with words is not a reading; one that starts empty or with NaN is one with a hole.
    if (read(word) !== undefined || hole.test(word)) {
      if (data.every(({ words }) => (words[c]?.text ?? '') === '')) continue;
      taken.push(c);
    }
  }
  // With and without the gloss are not two readings of the same.
  const gloss = (c: number): string | undefined =>
    /(?<![a-z])(sci|sce|spin|spex)(?![a-z])/i.exec(headed(c))?.[1]?.toLowerCase();
  const kind = taken.map(gloss).find((one) => one !== undefined);
  if (kind !== undefined && taken.some((c) => gloss(c) !== undefined && gloss(c) !== kind)) {
    notes.push({
      code: 'several-kinds',
      message: `Readings with and without the specular part stand in the file; those headed ${kind.toUpperCase()} were used.`,
      line: heading!.line,
      column: heading!.words[taken.find((c) => gloss(c) === kind)!]!.column,
      cure: 'Leave one kind only if the other was meant.',
    });
    taken = taken.filter((c) => gloss(c) === kind);
  }
  if (taken.length > longest.readings)
    return fault({
      code: 'too-many-readings',
      message: `The file has ${taken.length} columns of readings.`,
      line: data[0]!.line,
      column: 1,
      cure: `Give at most ${longest.readings} readings of one sample.`,
    });

  const wavelengths: Cell[] = [];
  const cells: Cell[][] = taken.map(() => []);
  let percentMarks: boolean | undefined;
  for (const { words, line } of data) {
    const nm = read(words[0]!.text);
    if (nm === undefined)
      return fault({
        code: 'not-a-number',
        message: `'${words[0]!.text.slice(0, 40)}' is not a wavelength.`,
        line,
        column: words[0]!.column,
        expected: 'a wavelength in nm',
        cure: 'Leave only rows of numbers after the heading.',
      });
    wavelengths.push({ value: nm, line, column: words[0]!.column });
    for (const [k, c] of taken.entries()) {
      const word = words[c];
      if (!word || word.text === '')
        return fault({
          code: 'missing-value',
          message: `No value stands beside ${nm} nm.`,
          line,
          column: word?.column ?? words.at(-1)!.column,
          expected: 'a reflectance',
          cure: 'Give the missing value, or export the spectrum again.',
        });
      const value = read(word.text);
      if (value === undefined)
        return fault({
          code: 'not-a-number',
          message: `'${word.text.slice(0, 40)}' is not a number.`,
          line,
          column: word.column,
          expected: 'a reflectance',
          cure: 'Correct the value.',
        });
      const marked = word.text.endsWith('%');
      if ((percentMarks ??= marked) !== marked)
        return fault({
          code: 'mixed-units',
          message: `'${word.text.slice(0, 40)}' is ${marked ? 'in per cent, the values before it are not' : 'without the per cent sign of the values before it'}.`,
          line,
          column: word.column,
          expected: 'one unit in a file',
          cure: 'Write all values in the same unit.',
        });
      cells[k]!.push({ value, line, column: word.column });
    }
  }
  if (taken.length === 0)
    return fault({
      code: 'no-spectrum',
      message: 'No column of reflectance was found.',
      line: data[0]!.line,
      column: 1,
      cure: 'Export the reflectance as wavelength and value, one row a wavelength.',
    });
  const columns: Column[] = taken.map((c, k) => ({ ...(headed(c) ? { name: headed(c) } : {}), cells: cells[k]! }));
  return finish(wavelengths, columns, percentMarks ? { unit: 'percent', sure: true } : unitOf(headText), notes);
}

function readAcross(
  lines: readonly Line[],
  at: number,
  read: (word: string) => number | undefined,
  headText: string,
): Outcome<ReadingsFile> {
  const heading = lines[at]!;
  const places = heading.words.flatMap(({ text: word, column }, index) => {
    const value = columnWavelength(word);
    return value === undefined ? [] : [{ index, cell: { value, line: heading.line, column } }];
  });
  const columns: Column[] = [];
  for (const { words, line } of lines.slice(at + 1)) {
    const cells: Cell[] = [];
    for (const { index, cell } of places) {
      const word = words[index];
      if (!word || word.text === '')
        return bad({
          code: 'missing-value',
          message: `No value stands below ${cell.value} nm.`,
          line,
          column: word?.column ?? words.at(-1)?.column ?? 1,
          cure: 'Give the missing value, or export the spectrum again.',
        });
      const value = read(word.text);
      if (value === undefined)
        return bad({
          code: 'not-a-number',
          message: `'${word.text.slice(0, 40)}' is not a number.`,
          line,
          column: word.column,
          expected: 'a reflectance',
          cure: 'Correct the value.',
        });
      cells.push({ value, line, column: word.column });
    }
    const name = places[0]!.index > 0 ? words[0]?.text : undefined;
    columns.push({ ...(name ? { name } : {}), cells });
    if (columns.length > longest.readings)
      return bad({
        code: 'too-many-readings',
        message: `The file has more than ${longest.readings} rows of readings.`,
        line,
        column: 1,
        cure: 'Give the readings of one sample only.',
      });
  }
  if (columns.length === 0)
    return bad({
      code: 'no-spectrum',
      message: 'No row of values stands below the wavelengths.',
      line: heading.line,
      column: 1,
      cure: 'Export the reading again.',
    });
  return finish(
    places.map(({ cell }) => cell),
    columns,
    unitOf(headText),
    [],
  );
}

function finish(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  said: SaidUnit | undefined,
  notes: readonly FileNote[],
): Outcome<ReadingsFile> {
  const spectra = spectraFromColumns(wavelengths, columns, said);
  if (!spectra.ok) return spectra;
  return good({ format: 'CSV', spectra: spectra.value.spectra, values: [], notes: [...notes, ...spectra.value.notes] });
}
