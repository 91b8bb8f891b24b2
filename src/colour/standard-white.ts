// The white that tints are computed with when a maker gives none: zinc white in oil (standard-white.csv).
import { standardWhiteTable } from '../tables/compiled/colour/standard-white.js';
import type { Spectrum } from './spectrum.js';

export const standardWhiteName = 'zinc white in oil';

let white: Spectrum | undefined;

/** Reflectance of a measured zinc white, 400 to 700 nm. */
export function standardWhite(): Spectrum {
  if (!white) {
    const rows = standardWhiteTable();
    white = {
      wavelengths: rows.map((row) => row.wavelength),
      reflectance: rows.map((row) => row.reflectance),
    };
  }
  return white;
}
