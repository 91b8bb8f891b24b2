// The checks that every format of spectra shares: order, gaps, range, sign and units of columns of reflectance.
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { makeSpectrum, wavelengthFault } from '../spectrum.js';
import { faultAt, type Cell, type Column, type FileNote, type SpectrumReading } from './reading.js';

export type Unit = 'percent' | 'fraction';

/** The unit that a file names, and whether beside each value or by its format (so that even a black of 0.4 % is believed). */
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

function negativeFault(nm: readonly number[], cells: readonly Cell[]): Outcome<never> | undefined {
  const at = cells.findIndex(({ value }) => value < 0);
  if (at < 0) return undefined;
  return faultAt(cells[at], {
    code: 'negative-reflectance',
    message: `The reflectance ${cells[at]!.value} at ${nm[at]} nm is negative.`,
    expected: '0 or more',
    cure: 'Check the calibration of the instrument (black trap) and read again.',
  });
}

/** A column that reads as per cent by its size. */
function percentColumn({ nm, cells, largest, stated }: Judged): Outcome<JudgedUnit> {
  const changed = cells.findIndex((_, i) => i > 0 && unitChanges(cells, i));
  if (changed > 0) {
    const [before, here] = [cells[changed - 1]!, cells[changed]!];
    return faultAt(here, {
      code: 'mixed-units',
      message: `${before.value} at ${nm[changed - 1]} nm is followed by ${here.value} at ${nm[changed]} nm: fractions and per cent are mixed.`,
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
      cure: 'If these are fractions, take the per cent sign out of the heading; if the sample is so dark, write “%” beside each value.',
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

function unitOfAll(
  nm: readonly number[],
  columns: readonly Column[],
  stated: StatedUnit | undefined,
): Outcome<JudgedUnit> {
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

/**
 * Spectra from a row of wavelengths and columns of values: order, gaps, range, sign and units checked.
 * @param stated the unit that the file itself names
 * @returns spectra of reflectance 0 … 1 and notes; or the first fault with its place
 */
export function spectraFromColumns(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  stated?: StatedUnit,
): Outcome<{ readonly spectra: SpectrumReading[]; readonly notes: readonly FileNote[] }> {
  const nm = wavelengths.map(({ value }) => value);
  const wrong = wavelengthFault(nm);
  if (wrong) {
    const { at, ...fault } = wrong;
    return faultAt(wavelengths[at], fault);
  }
  const uneven = columns.find(({ cells }) => cells.length !== nm.length);
  if (uneven) return bad(countFault(nm.length, uneven.cells.length));
  for (const { cells } of columns) {
    const negative = negativeFault(nm, cells);
    if (negative) return negative;
  }
  const unit = unitOfAll(nm, columns, stated);
  if (!unit.ok) return unit;
  const scale = unit.value.unit === 'percent' ? 100 : 1;
  const spectra: SpectrumReading[] = [];
  for (const { name, cells } of columns) {
    const made = makeSpectrum(
      nm,
      cells.map(({ value }) => value / scale),
    );
    if (!made.ok) return faultAt(cells[0], made.fault);
    spectra.push({ ...(name ? { name } : {}), spectrum: made.value });
  }
  return good({ spectra, notes: unit.value.notes });
}

const countFault = (wavelengths: number, values: number): Fault => ({
  code: 'missing-value',
  message: `${wavelengths} wavelengths have ${values} values.`,
  cure: 'Give one value for each wavelength.',
});
