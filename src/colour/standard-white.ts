// The white that tints are computed with when a maker gives none: zinc white in oil (standard-white.csv).
import { readTable } from '../tables.js';
import type { Spectrum } from './spectrum.js';

export const standardWhiteName = 'zinc white in oil';

let white: Spectrum | undefined;

/** Reflectance of a measured zinc white, 400 to 700 nm. */
export function standardWhite(): Spectrum {
  if (!white) {
    const rows = readTable('colour/standard-white.csv');
    white = {
      wavelengths: rows.map((row) => Number(row.wavelength)),
      reflectance: rows.map((row) => Number(row.reflectance)),
    };
  }
  return white;
}
