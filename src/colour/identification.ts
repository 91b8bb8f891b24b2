// Curves by which pigments are told apart, and how strongly one tints against another.
import { bad, good, type Outcome } from '../outcome.js';
import { kOverS } from './kubelka-munk.js';
import { atTableWavelengths, tableRange, type Spectrum } from './spectrum.js';

export interface CurveValue {
  /** Wavelength, nm. */
  readonly nm: number;
  readonly value: number;
}

/**
 * K/S at every wavelength read: absorption bands stand out where reflectance is low. Kubelka and Munk 1931; of an
 * opaque layer.
 * @example kubelkaMunkCurve({ wavelengths: [400], reflectance: [0.5] }) // [{ nm: 400, value: 0.25 }]
 */
export const kubelkaMunkCurve = ({ wavelengths, reflectance }: Spectrum): CurveValue[] =>
  wavelengths.map((nm, i) => ({ nm, value: kOverS(reflectance[i]!) }));

/**
 * First derivative of reflectance by wavelength, per nm, between neighbours: edges become peaks, whose places tell
 * pigments apart that look alike.
 * @example firstDerivative({ wavelengths: [400, 410], reflectance: [0.1, 0.2] }) // [{ nm: 405, value: 0.01 }]
 */
export const firstDerivative = ({ wavelengths, reflectance }: Spectrum): CurveValue[] =>
  wavelengths.slice(1).map((nm, i) => {
    const before = wavelengths[i]!;
    return { nm: (nm + before) / 2, value: (reflectance[i + 1]! - reflectance[i]!) / (nm - before) };
  });

export interface TintingStrength {
  /** Of the sample against the reference, per cent: 100 tints as strongly. */
  readonly percent: number;
  /** Where the reference absorbs most, nm: there the two are compared. */
  readonly nm: number;
  /** What the figure rests on. */
  readonly method: string;
}

/** Absorption of the reference under this, over the white's, is too little to compare by. */
const leastAbsorption = 0.02;

const tableValue = (spectrum: Spectrum): Float64Array => atTableWavelengths(spectrum).map(kOverS);

/**
 * Relative tinting strength of two tints of the same share in the same white: the ratio of their absorption where the
 * reference absorbs most (after ISO 787-24, photometric; the standard itself was not seen, from memory).
 * @param white the white by itself; without it its absorption is taken as none
 */
export function tintingStrength(sample: Spectrum, reference: Spectrum, white?: Spectrum): Outcome<TintingStrength> {
  const base = white ? tableValue(white) : new Float64Array(tableRange.count);
  const [one, other] = [sample, reference].map((spectrum) => tableValue(spectrum).map((ks, i) => ks - base[i]!));
  // At the ends of the table the values are only held.
  const within = (i: number): boolean => {
    const nm = tableRange.first + i * tableRange.step;
    return nm >= 420 && nm <= 700;
  };
  let most = -1;
  other!.forEach((ks, i) => {
    if (within(i) && (most < 0 || ks > other![most]!)) most = i;
  });
  if (other![most]! < leastAbsorption)
    return bad({
      code: 'no-tinting',
      message: 'The reference hardly absorbs: a tinting strength against it says nothing.',
      cure: 'Give tints of both pigments with white, of the same share.',
    });
  return good({
    percent: (100 * one![most]!) / other![most]!,
    nm: tableRange.first + most * tableRange.step,
    method:
      `K/S at the reference’s strongest absorption${white ? ', less that of the white' : ''}; after ISO 787-24 ` +
      '(from memory)',
  });
}
