// The checks that every format of spectra shares: order, gaps, range, sign and units of columns of reflectance.
import { bad, good, type Fault, type Outcome } from '../faults.js';
import { makeSpectrum, neededRange, visibleRange, wavelengthFault } from '../spectrum.js';
import { faultAt, type Cell, type Column, type FileNote, type SpectrumReading } from './reading.js';

export type Unit = 'percent' | 'fraction';

/**
 * The unit that a file names, and whether beside each value or by its format (so that even a black of 0.4 % is
 * believed).
 */
export interface StatedUnit {
  readonly unit: Unit;
  readonly sure?: boolean;
}

/** Without a unit named, a column whose largest value is over this is per cent; up to `fractionAtMost`, fractions. */
const percentOver = 2;
const fractionAtMost = 1.5;

/** Fluorescence may raise the radiance factor well over 1; nothing is over this, as a fraction. */
const highest = 2.5;

/** Reflectance over this, as a fraction, is worth a note. */
const overWhite = 1.05;

/** A column may be this many times as dark as the lightest in the file, and still be in the same unit. */
const darkerAtMost = 25;

const overWhiteNote = (reached: string, cell: Cell): FileNote => ({
  code: 'over-100-percent',
  message: `The reflectance reaches ${reached} %.`,
  line: cell.line,
  column: cell.column,
  cure: 'Fluorescence or a slip of the white calibration; check it.',
});

/** Whether two neighbouring values lie as far apart as a fraction and a per cent of about the same reflectance do. */
const hundredfold = (low: number, high: number): boolean =>
  low > 0 && low <= 1.2 && high > percentOver && high >= 25 * low && high <= 400 * low;

/**
 * Whether the unit changes from one value to the next: by a factor of about 100, as a cliff (a true edge climbs on the
 * far side of the step as well), or to one value and back.
 */
function unitChanges(cells: readonly Cell[], at: number): boolean {
  const [before, here] = [cells[at - 1]!.value, cells[at]!.value];
  const rises = here > before;
  const [low, high] = rises ? [before, here] : [here, before];
  const beyond = cells[rises ? at + 1 : at - 2]?.value;
  if (!hundredfold(low, high)) return false;
  if (beyond === undefined) return true;
  return beyond <= 1.2 ? hundredfold(beyond, high) : 1.5 * Math.abs(high - beyond) < high - low;
}

const largestOf = (cells: readonly Cell[]): Cell =>
  cells.reduce((largest, cell) => (cell.value > largest.value ? cell : largest));

/** A column with what its unit is judged by. */
interface Judged {
  readonly nm: readonly number[];
  readonly cells: readonly Cell[];
  readonly largest: Cell;
  readonly smallest: number;
  /** The largest value of all columns. */
  readonly largestOfAll: number;
  readonly stated: StatedUnit | undefined;
}

interface JudgedUnit {
  readonly unit: Unit;
  readonly notes: readonly FileNote[];
}

/** A column that reads as per cent by its size. */
function percentColumn({ nm, cells, largest, stated }: Judged): Outcome<JudgedUnit> {
  const changed = cells.findIndex((_, i) => i > 0 && unitChanges(cells, i));
  if (changed > 0) {
    const [before, here] = [cells[changed - 1]!, cells[changed]!];
    return faultAt(here, {
      code: 'mixed-units',
      message:
        `${before.value} at ${nm[changed - 1]} nm is followed by ${here.value} at ${nm[changed]} nm: fractions ` +
        'and per cent are mixed.',
      expected: 'all values from 0 to 1, or all in per cent',
      cure: 'Write all values in the same unit.',
    });
  }
  if (largest.value > 100 * highest)
    return faultAt(largest, {
      code: 'reflectance-too-high',
      message: `The reflectance ${largest.value} is over ${100 * highest} %.`,
      expected: '0 to 100 %',
      cure: 'Check the unit and the white calibration.',
    });
  if (stated?.unit === 'fraction')
    return faultAt(largest, {
      code: 'mixed-units',
      message: `The file says that values are fractions, yet ${largest.value} stands in it.`,
      expected: '0 to 1',
      cure: 'Correct the heading or the values.',
    });
  const notes = largest.value > 100 * overWhite ? [overWhiteNote(String(largest.value), largest)] : [];
  return good({ unit: 'percent', notes });
}

/** A column of small values: fractions, unless the file says per cent. */
function fractionColumn({ largest, smallest, stated }: Judged): Outcome<JudgedUnit> {
  if (stated === undefined && (largest.value > fractionAtMost || smallest > overWhite))
    return faultAt(largest, {
      code: 'unit-unclear',
      message: `The values go up to ${largest.value}: they may be fractions or per cent.`,
      expected: 'values from 0 to 1, or per cent with “%” in the heading',
      cure: 'Write “%” into the heading if these are per cent, “0 to 1” if they are fractions.',
    });
  if (stated?.unit === 'percent' && !stated.sure && largest.value <= 1 && largest.value > 0)
    return faultAt(largest, {
      code: 'mixed-units',
      message: 'The heading says per cent, yet no value is over 1.',
      expected: 'per cent, 0 to 100',
      cure:
        'If these are fractions, take the per cent sign out of the heading; if the sample is so dark, write “%” ' +
        'beside each value.',
    });
  const unit = stated?.unit ?? 'fraction';
  const light = largest.value > overWhite && unit === 'fraction';
  return good({ unit, notes: light ? [overWhiteNote((100 * largest.value).toFixed(0), largest)] : [] });
}

function unitOfColumn(column: Judged): Outcome<JudgedUnit> {
  const { largest, largestOfAll, stated } = column;
  // A dark reading beside one in per cent that is not a hundred times as light is in per cent as well.
  const besidePercent =
    stated === undefined && largestOfAll > percentOver && largestOfAll < darkerAtMost * largest.value;
  const limit = stated?.unit === 'fraction' ? highest : percentOver;
  return besidePercent || largest.value > limit ? percentColumn(column) : fractionColumn(column);
}

function unitOfAll({ wavelengths, columns }: Band, stated: StatedUnit | undefined): Outcome<JudgedUnit> {
  const nm = wavelengths.map(({ value }) => value);
  const notes: FileNote[] = [];
  const largestOfAll = Math.max(0, ...columns.map(({ cells }) => largestOf(cells).value));
  let first: Unit | undefined;
  for (const { cells } of columns) {
    const largest = largestOf(cells);
    const smallest = cells.reduce((least, { value }) => Math.min(least, value), Infinity);
    const judged = unitOfColumn({ nm, cells, largest, smallest, largestOfAll, stated });
    if (!judged.ok) return judged;
    notes.push(...judged.value.notes);
    first ??= judged.value.unit;
    if (judged.value.unit !== first)
      return faultAt(largest, {
        code: 'mixed-units',
        message: 'One column is in fractions and another in per cent.',
        expected: 'one unit in a file',
        cure: 'Write all values in the same unit.',
      });
  }
  return good({ unit: first ?? 'fraction', notes });
}

/** Reflectance under zero by no more than this, as a fraction, is the noise of the instrument. */
const noiseUnderZero = 0.005;

/** Wavelengths with their columns, as they are narrowed down to what is reckoned with. */
interface Band {
  readonly wavelengths: readonly Cell[];
  readonly columns: readonly Column[];
}

const restricted = ({ wavelengths, columns }: Band, keep: (nm: number, index: number) => boolean): Band => {
  const kept = wavelengths.map(({ value }, i) => keep(value, i));
  return {
    wavelengths: wavelengths.filter((_, i) => kept[i]),
    columns: columns.map((column) => ({ ...column, cells: column.cells.filter((_, i) => kept[i]) })),
  };
};

/** In rising order, where the file has them falling all the way. */
function rising(band: Band): Band {
  const { wavelengths, columns } = band;
  const falls = wavelengths.every(({ value }, i) => i === 0 || value < wavelengths[i - 1]!.value);
  if (!falls || wavelengths.length < 2) return band;
  return {
    wavelengths: wavelengths.toReversed(),
    columns: columns.map((column) => ({ ...column, cells: column.cells.toReversed() })),
  };
}

/** Whether a wavelength lies where the CIE tables have values: what lies outside is not looked at. */
export const isVisible = (nm: number): boolean => nm >= visibleRange.from && nm <= visibleRange.to;

/** The part that the CIE tables have values for; all of it, where that is none (the fault then tells what is wrong). */
const cropped = (band: Band): Band =>
  band.wavelengths.filter(({ value }) => isVisible(value)).length < 2 ? band : restricted(band, isVisible);

/** The part between 400 and 700 nm and as far beyond as no column is under zero by more than noise. */
function withoutNoisyEnds(band: Band, scale: number): { readonly band: Band; readonly notes: readonly FileNote[] } {
  const { wavelengths, columns } = band;
  const bad = (i: number): boolean => columns.some(({ cells }) => cells[i]!.value < -noiseUnderZero * scale);
  const noisy = wavelengths.map((_, i) => bad(i));
  const start = wavelengths.findLastIndex(({ value }, i) => noisy[i] && value < neededRange.first);
  const end = wavelengths.findIndex(({ value }, i) => noisy[i] && value > neededRange.last);
  if (start < 0 && end < 0) return { band, notes: [] };
  const kept = restricted(band, (_, i) => i > start && (end < 0 || i < end));
  const [from, to] = [kept.wavelengths[0]!, kept.wavelengths.at(-1)!];
  const { line, column } = wavelengths[start >= 0 ? start : end]!;
  const note: FileNote = {
    code: 'noisy-ends',
    message:
      `Outside ${from.value} to ${to.value} nm the values fall under zero by more than noise; ` + 'they were left out.',
    line,
    column,
    cure: 'The eye sees next to nothing there; a stronger lamp or longer exposure would read it.',
  };
  return { band: kept, notes: [note] };
}

/** Noise under zero made zero; or the fault of a value that noise does not explain. */
function withoutNoise(
  { wavelengths, columns }: Band,
  scale: number,
): Outcome<{ readonly columns: readonly Column[]; readonly notes: readonly FileNote[] }> {
  const negative = columns.flatMap(({ cells }) => cells.filter(({ value }) => value < 0));
  if (negative.length === 0) return good({ columns, notes: [] });
  for (const { cells } of columns) {
    const at = cells.findIndex(({ value }) => value < -noiseUnderZero * scale);
    if (at < 0) continue;
    return faultAt(cells[at], {
      code: 'negative-reflectance',
      message: `The reflectance ${cells[at]!.value} at ${wavelengths[at]!.value} nm is negative.`,
      expected: '0 or more',
      cure: 'Check the calibration of the instrument (black trap) and read again.',
    });
  }
  const lowest = negative.reduce((least, cell) => (cell.value < least.value ? cell : least));
  const note: FileNote = {
    code: 'noise-under-zero',
    message:
      `${negative.length} values lie under zero, by ${((-100 * lowest.value) / scale).toFixed(2)} % at most; ` +
      'they were taken as zero.',
    line: lowest.line,
    column: lowest.column,
    cure: 'Noise of the instrument in the dark; a fresh dark reading lessens it.',
  };
  const clipped = columns.map((column) => ({
    ...column,
    cells: column.cells.map((cell) => (cell.value < 0 ? { ...cell, value: 0 } : cell)),
  }));
  return good({ columns: clipped, notes: [note] });
}

/**
 * Spectra from a row of wavelengths and columns of values: put in rising order, cropped to 380 to 780 nm, then order,
 * gaps, range, sign and units checked.
 * @param stated the unit that the file itself names
 * @returns spectra of reflectance 0 … 1 and notes; or the first fault with its place
 */
export function spectraFromColumns(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  stated?: StatedUnit,
): Outcome<{ readonly spectra: SpectrumReading[]; readonly notes: readonly FileNote[] }> {
  const uneven = columns.find(({ cells }) => cells.length !== wavelengths.length);
  if (uneven) return bad(countFault(wavelengths.length, uneven.cells.length));
  const visible = cropped(rising({ wavelengths, columns }));
  const wrong = wavelengthFault(visible.wavelengths.map(({ value }) => value));
  if (wrong) {
    const { at, ...fault } = wrong;
    return faultAt(visible.wavelengths[at], fault);
  }
  const unit = unitOfAll(visible, stated);
  if (!unit.ok) return unit;
  const scale = unit.value.unit === 'percent' ? 100 : 1;
  const { band, notes } = withoutNoisyEnds(visible, scale);
  const clean = withoutNoise(band, scale);
  if (!clean.ok) return clean;
  const nm = band.wavelengths.map(({ value }) => value);
  const spectra: SpectrumReading[] = [];
  for (const { name, cells } of clean.value.columns) {
    const made = makeSpectrum(
      nm,
      cells.map(({ value }) => value / scale),
    );
    if (!made.ok) return faultAt(cells[0], made.fault);
    const { line, column } = cells[0]!;
    spectra.push({ ...(name ? { name } : {}), place: { line, column }, spectrum: made.value });
  }
  return good({ spectra, notes: [...unit.value.notes, ...notes, ...clean.value.notes] });
}

const countFault = (wavelengths: number, values: number): Fault => ({
  code: 'missing-value',
  message: `${wavelengths} wavelengths have ${values} values.`,
  cure: 'Give one value for each wavelength.',
});
