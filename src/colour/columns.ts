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
export const plainNumber = (text: string): number | undefined => (text.length <= longestNumber && numberText.test(text) ? Number(text) : undefined);

/** In a row or file where the largest value is over this, values are per cent; up to `fractionAtMost`, fractions. */
const fractionAtMost = 1.5;
const percentOver = 2;

/** Neighbours (10 to 20 nm apart) never differ by this factor in one unit, but by about 100 where the unit changes. */
const unitJump = 25;

/**
 * Spectra from a row of wavelengths and columns of values: order, gaps, range, sign and units checked.
 * @param unitSaid the unit that the file itself names
 */
export function spectraFromColumns(wavelengths: readonly Cell[], columns: readonly Column[], unitSaid?: 'percent' | 'fraction'): Outcome<{ readonly spectra: SpectrumReading[]; readonly notes: FileNote[] }> {
  const at = (fault: Fault, cell: Cell | undefined): Outcome<never> => bad(cell ? { ...fault, line: cell.line, column: cell.column } : fault);
  const nm = wavelengths.map(({ value }) => value);
  const wrong = wavelengthFault(nm);
  if (wrong) { const { at: index, ...fault } = wrong; return at(fault, wavelengths[index]); }
  const notes: FileNote[] = [];
  const units: { unit: 'percent' | 'fraction'; cell: Cell }[] = [];
  for (const { cells } of columns) {
    const negative = cells.find(({ value }) => value < 0);
    if (negative) return at({ code: 'negative-reflectance', message: `The reflectance ${negative.value} at ${nm[cells.indexOf(negative)]} nm is negative.`, expected: '0 or more', cure: 'Check the calibration of the instrument (black trap) and read again.' }, negative);
    let largest = cells[0]!;
    for (const cell of cells) if (cell.value > largest.value) largest = cell;
    if (largest.value > percentOver) {
      for (let i = 1; i < cells.length; i += 1) {
        const [low, high] = [cells[i - 1]!.value, cells[i]!.value].sort((a, b) => a - b) as [number, number];
        if (low <= 1.2 && high > percentOver && high > unitJump * Math.max(low, 0.02)) return at({ code: 'mixed-units', message: `${cells[i - 1]!.value} at ${nm[i - 1]} nm is followed by ${cells[i]!.value} at ${nm[i]} nm: fractions and per cent are mixed.`, expected: 'all values from 0 to 1, or all in per cent', cure: 'Write all values in the same unit.' }, cells[i]);
      }
      if (largest.value > 100 * fractionAtMost) return at({ code: 'reflectance-too-high', message: `The reflectance ${largest.value} is over ${100 * fractionAtMost} %.`, expected: '0 to 100 %', cure: 'Check the unit and the white calibration.' }, largest);
      if (unitSaid === 'fraction') return at({ code: 'mixed-units', message: `The file says that values are fractions, yet ${largest.value} stands in it.`, expected: '0 to 1', cure: 'Correct the heading or the values.' }, largest);
      units.push({ unit: 'percent', cell: largest });
    } else if (largest.value > fractionAtMost && unitSaid !== 'percent') {
      return at({ code: 'unit-unclear', message: `The largest value is ${largest.value}: it may be a fraction or per cent.`, expected: 'values from 0 to 1, or per cent with “%” in the heading', cure: 'Write “%” into the heading if these are per cent.' }, largest);
    } else if (unitSaid === 'percent' && largest.value <= 1) {
      return at({ code: 'mixed-units', message: `The heading says per cent, yet no value is over 1.`, expected: 'per cent, 0 to 100', cure: 'Correct the heading or the values.' }, largest);
    } else {
      units.push({ unit: unitSaid ?? 'fraction', cell: largest });
      if (largest.value > 1.05 && unitSaid !== 'percent') notes.push({ code: 'over-100-percent', message: `The reflectance reaches ${(100 * largest.value).toFixed(0)} %.`, line: largest.line, column: largest.column, cure: 'Fluorescence or a slip of the white calibration; check it.' });
    }
  }
  const other = units.find(({ unit }) => unit !== units[0]!.unit);
  if (other) return at({ code: 'mixed-units', message: 'One column is in fractions and another in per cent.', expected: 'one unit in a file', cure: 'Write all values in the same unit.' }, other.cell);
  if (units[0]?.unit === 'percent') {
    for (const { cells } of columns) {
      const high = cells.find(({ value }) => value > 105);
      if (high) notes.push({ code: 'over-100-percent', message: `The reflectance reaches ${high.value} %.`, line: high.line, column: high.column, cure: 'Fluorescence or a slip of the white calibration; check it.' });
    }
  }
  const scale = units[0]?.unit === 'percent' ? 100 : 1;
  const spectra: SpectrumReading[] = [];
  for (const { name, cells } of columns) {
    const made = makeSpectrum(nm, scale === 1 ? cells.map(({ value }) => value) : cells.map(({ value }) => value / scale));
    if (!made.ok) return at(made.fault, cells[0]);
    spectra.push({ ...(name ? { name } : {}), spectrum: made.value });
  }
  return good({ spectra, notes });
}
