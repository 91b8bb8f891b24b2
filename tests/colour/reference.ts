// Reads the reflectance spectra and Lab triples of the published colour cases.
import { referenceRows } from '../reference/read.js';
import type { Spectrum } from '../../src/colour/spectrum.js';
import type { Triple } from '../../src/colour/numbers.js';

/** A measured spectrum of `tests/reference/colour`: `reflectance/cobalt-blue-over-white.csv`, or `file.csv#column`. */
export function measured(path: string): Spectrum {
  const [file, column = 'reflectance'] = path.split('#');
  const rows = referenceRows(`colour/${file}`);
  return {
    wavelengths: rows.map((row) => Number(row.wavelength)),
    reflectance: rows.map((row) => Number(row[column])),
  };
}

export const triple = (row: Record<string, string>, ...columns: [string, string, string]): Triple => [
  Number(row[columns[0]]),
  Number(row[columns[1]]),
  Number(row[columns[2]]),
];
