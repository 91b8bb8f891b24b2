// What every format of colour readings shares: their shape, and the checks of order, gaps, range, sign and units.
import { bad, good, type Fault, type Outcome } from '../outcome.js';
import type { Observer, Triple } from './numbers.js';
import { makeSpectrum, wavelengthFault, type Spectrum } from './spectrum.js';

/** Something worth saying about a file that could be read all the same. */
export interface FileNote {
  readonly code: string;
  readonly message: string;
  readonly line?: number;
  readonly column?: number;
  readonly cure: string;
}

export interface SpectrumReading {
  readonly name?: string;
  readonly spectrum: Spectrum;
}

/** Lab or XYZ as an instrument wrote it, where no spectrum stands in the file. */
export interface ValueReading {
  readonly name?: string;
  readonly space: 'lab' | 'xyz';
  readonly value: Triple;
  readonly illuminant?: string;
  readonly observer?: Observer;
}

/** All readings of a file, taken as readings of one sample. Spectra, or values if there is no spectrum. */
export interface ReadingsFile {
  readonly format: 'CSV' | 'CGATS' | 'CxF';
  readonly spectra: readonly SpectrumReading[];
  readonly values: readonly ValueReading[];
  readonly notes: readonly FileNote[];
}

/** A number with its place in the file. */
export interface Cell {
  readonly value: number;
  readonly line: number;
  readonly column: number;
}

export interface Column {
  readonly name?: string;
  readonly cells: readonly Cell[];
}

/** Files over this length, or with more wavelengths or readings, are not spectra. */
export const longest = { characters: 4_000_000, wavelengths: 4_000, readings: 200 } as const;

/** Longer text is no number that an instrument writes, and is not searched. */
const longestNumber = 40;
const numberText = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/** A number written plainly (decimal point; `NaN`, `Infinity` and empty text are none). */
export const plainNumber = (text: string): number | undefined =>
  text.length <= longestNumber && numberText.test(text) ? Number(text) : undefined;

/** The unit that a file names, and whether beside each value or by its format (so that even a black of 0.4 % is believed). */
export interface SaidUnit {
  readonly unit: 'percent' | 'fraction';
  readonly sure?: boolean;
}

/** Without a unit named, a column whose largest value is over this is per cent; up to `fractionAtMost`, fractions. */
const percentOver = 2;
const fractionAtMost = 1.5;

/** Fluorescence may raise the radiance factor well over 1; nothing is over this, as a fraction. */
const highest = 2.5;

const overWhite = (message: string, cell: Cell): FileNote => ({
  code: 'over-100-percent',
  message,
  line: cell.line,
  column: cell.column,
  cure: 'Fluorescence or a slip of the white calibration; check it.',
});

/**
 * Whether the unit changes from one value to the next: by a factor of about 100, as a cliff (a true edge climbs on the
 * far side of the step as well), or to one value and back.
 */
function unitChanges(cells: readonly Cell[], at: number): boolean {
  const [before, here] = [cells[at - 1]!.value, cells[at]!.value];
  const [low, high, beyond] =
    here > before ? [before, here, cells[at + 1]?.value] : [here, before, cells[at - 2]?.value];
  const jumps = (from: number): boolean =>
    from > 0 && from <= 1.2 && high > percentOver && high >= 25 * from && high <= 400 * from;
  if (!jumps(low)) return false;
  return beyond === undefined || (beyond <= 1.2 ? jumps(beyond) : 1.5 * Math.abs(high - beyond) < high - low);
}

/**
 * Spectra from a row of wavelengths and columns of values: order, gaps, range, sign and units checked.
 * @param said the unit that the file itself names
 */
export function spectraFromColumns(
  wavelengths: readonly Cell[],
  columns: readonly Column[],
  said?: SaidUnit,
): Outcome<{ readonly spectra: SpectrumReading[]; readonly notes: FileNote[] }> {
  const unitSaid = said?.unit;
  const at = (fault: Fault, cell: Cell | undefined): Outcome<never> =>
    bad(cell ? { ...fault, line: cell.line, column: cell.column } : fault);
  const nm = wavelengths.map(({ value }) => value);
  const wrong = wavelengthFault(nm);
  if (wrong) {
    const { at: index, ...fault } = wrong;
    return at(fault, wavelengths[index]);
  }
  const notes: FileNote[] = [];
  const units: { unit: 'percent' | 'fraction'; cell: Cell }[] = [];
  const largestOfAll = columns.reduce(
    (most, { cells }) => cells.reduce((so, { value }) => Math.max(so, value), most),
    0,
  );
  for (const { cells } of columns) {
    const negative = cells.find(({ value }) => value < 0);
    if (negative)
      return at(
        {
          code: 'negative-reflectance',
          message: `The reflectance ${negative.value} at ${nm[cells.indexOf(negative)]} nm is negative.`,
          expected: '0 or more',
          cure: 'Check the calibration of the instrument (black trap) and read again.',
        },
        negative,
      );
    let largest = cells[0]!;
    for (const cell of cells) if (cell.value > largest.value) largest = cell;
    const smallest = cells.reduce((least, { value }) => Math.min(least, value), Infinity);
    // A dark reading beside one in per cent that is not a hundred times as light is in per cent as well.
    const besidePercent = unitSaid === undefined && largestOfAll > percentOver && largestOfAll < 25 * largest.value;
    if (besidePercent || largest.value > (unitSaid === 'fraction' ? highest : percentOver)) {
      const changed = cells.findIndex((_, i) => i > 0 && unitChanges(cells, i));
      if (changed > 0)
        return at(
          {
            code: 'mixed-units',
            message: `${cells[changed - 1]!.value} at ${nm[changed - 1]} nm is followed by ${cells[changed]!.value} at ${nm[changed]} nm: fractions and per cent are mixed.`,
            expected: 'all values from 0 to 1, or all in per cent',
            cure: 'Write all values in the same unit.',
          },
          cells[changed],
        );
      if (largest.value > 100 * highest)
        return at(
          {
            code: 'reflectance-too-high',
            message: `The reflectance ${largest.value} is over ${100 * highest} %.`,
            expected: '0 to 100 %',
            cure: 'Check the unit and the white calibration.',
          },
          largest,
        );
      if (unitSaid === 'fraction')
        return at(
          {
            code: 'mixed-units',
            message: `The file says that values are fractions, yet ${largest.value} stands in it.`,
            expected: '0 to 1',
            cure: 'Correct the heading or the values.',
          },
          largest,
        );
      units.push({ unit: 'percent', cell: largest });
      if (largest.value > 105) notes.push(overWhite(`The reflectance reaches ${largest.value} %.`, largest));
    } else if (unitSaid === undefined && (largest.value > fractionAtMost || smallest > 1.05)) {
      return at(
        {
          code: 'unit-unclear',
          message: `The values go up to ${largest.value}: they may be fractions or per cent.`,
          expected: 'values from 0 to 1, or per cent with “%” in the heading',
          cure: 'Write “%” into the heading if these are per cent, “0 to 1” if they are fractions.',
        },
        largest,
      );
    } else if (unitSaid === 'percent' && !said?.sure && largest.value <= 1 && largest.value > 0) {
      return at(
        {
          code: 'mixed-units',
          message: 'The heading says per cent, yet no value is over 1.',
          expected: 'per cent, 0 to 100',
          cure: 'If these are fractions, take the per cent sign out of the heading; if the sample is so dark, write “%” beside each value.',
        },
        largest,
      );
    } else {
      units.push({ unit: unitSaid ?? 'fraction', cell: largest });
      if (largest.value > 1.05 && unitSaid !== 'percent')
        notes.push(overWhite(`The reflectance reaches ${(100 * largest.value).toFixed(0)} %.`, largest));
    }
  }
  const other = units.find(({ unit }) => unit !== units[0]!.unit);
  if (other)
    return at(
      {
        code: 'mixed-units',
        message: 'One column is in fractions and another in per cent.',
        expected: 'one unit in a file',
        cure: 'Write all values in the same unit.',
      },
      other.cell,
    );
  const scale = units[0]?.unit === 'percent' ? 100 : 1;
  const spectra: SpectrumReading[] = [];
  for (const { name, cells } of columns) {
    const made = makeSpectrum(
      nm,
      scale === 1 ? cells.map(({ value }) => value) : cells.map(({ value }) => value / scale),
    );
    if (!made.ok) return at(made.fault, cells[0]);
    spectra.push({ ...(name ? { name } : {}), spectrum: made.value });
  }
  return good({ spectra, notes });
}
