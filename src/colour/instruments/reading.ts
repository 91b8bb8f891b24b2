// What a file of colour readings gives, whichever format it is in: spectra or values, notes, and where each number
// stands.
import { bad, type ColourFaultCode, type Fault, type Outcome } from '../faults.js';
import type { Observer, Triple } from '../numbers.js';
import type { Spectrum } from '../spectrum.js';

/** Something worth saying about a file that could be read all the same. */
export interface FileNote {
  readonly code: ColourFaultCode;
  readonly message: string;
  readonly line?: number;
  readonly column?: number;
  readonly cure: string;
}

export interface SpectrumReading {
  readonly name?: string;
  /** Where it stands in the file. */
  readonly place?: FilePlace;
  readonly spectrum: Spectrum;
}

/** Lab or XYZ as an instrument wrote it, where no spectrum stands in the file. */
export interface ValueReading {
  readonly name?: string;
  readonly place?: FilePlace;
  readonly space: 'lab' | 'xyz';
  readonly value: Triple;
  readonly illuminant?: string;
  readonly observer?: Observer;
}

/** Readings of a file: spectra, or values if there is no spectrum. */
export interface ReadingsFile {
  readonly format: 'CSV' | 'CGATS' | 'CxF';
  readonly spectra: readonly SpectrumReading[];
  readonly values: readonly ValueReading[];
  readonly notes: readonly FileNote[];
}

/** A place in a file, both counted from 1. */
export interface FilePlace {
  readonly line: number;
  readonly column: number;
}

/** A number with its place in the file. */
export interface Cell extends FilePlace {
  readonly value: number;
}

/** One reading before it is checked. */
export interface Column {
  readonly name?: string;
  readonly cells: readonly Cell[];
}

/** Files over this length, or with more wavelengths, readings of one sample or sets in all, are not read. */
export const longest = { characters: 4_000_000, wavelengths: 4_000, readings: 200, sets: 2_000 } as const;

/** Longer text is no number that an instrument writes, and is not searched. */
const longestNumber = 40;
const numberText = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/**
 * A finite number written plainly, with a decimal point (`NaN`, `Infinity`, `1e999` and empty text are none).
 * @example plainNumber('0.25') // 0.25
 */
export function plainNumber(text: string): number | undefined {
  if (text.length > longestNumber || !numberText.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}

/** Text of a file as it is quoted in a message. */
export const quoted = (text: string): string => `'${text.slice(0, 40)}'`;

/** A fault with its place in the file. */
export const faultAt = (place: FilePlace | undefined, fault: Fault): Outcome<never> =>
  bad(place ? { ...fault, line: place.line, column: place.column } : fault);
