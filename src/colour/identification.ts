// Curves by which pigments are told apart, and how strongly one tints against another.
import { bad, good, type Outcome } from '../outcome.js';
import { kOverS } from './kubelka-munk.js';
import { atTableWavelengths, tableRange, type Spectrum } from './spectrum.js';
import { xyzFromTableValues } from './tristimulus.js';

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
  /** Of the sample against the reference, per cent: 100 tints as strongly. By the strongest absorption. */
  readonly percent: number;
  /** Where the reference absorbs most, nm: there the two are compared. */
  readonly nm: number;
  /** The same by lightness, the tristimulus value Y (D65, 10°), which is usual for inorganic pigments. */
  readonly byLightness: number;
  /** What the figures rest on. */
  readonly method: string;
}

/** Absorption of the reference under this, over the white's, is too little to compare by. */
const leastAbsorption = 0.02;

/** Y of a reflectance at the table wavelengths, as a share of white. */
const lightness = (reflectance: Float64Array): number => xyzFromTableValues(reflectance, 'D65', 10)[1] / 100;

/** Place of the strongest absorption from 420 to 700 nm; at the ends of the table the values are only held. */
function strongest(absorption: Float64Array): number {
  let most = -1;
  absorption.forEach((ks, i) => {
    const nm = tableRange.first + i * tableRange.step;
    if (nm >= 420 && nm <= 700 && (most < 0 || ks > absorption[most]!)) most = i;
  });
  return most;
}

/**
 * Relative tinting strength of two tints of the same share in the same white: the ratio of their absorption, K/S less
 * that of the white, where the reference absorbs most, and by lightness. ISO 787-24 (1985), as its equivalent GB/T
 * 13451.2 has it: the absorption of the sample over that of the reference, per cent. Which criterion is taken changes
 * the figure, so both are told (Industrial Inorganic Pigments, section 1.3.3, Tinting Strength).
 * @param white the white by itself; without it its absorption is taken as none
 */
export function tintingStrength(sample: Spectrum, reference: Spectrum, white?: Spectrum): Outcome<TintingStrength> {
  const [one, other] = [sample, reference].map(atTableWavelengths) as [Float64Array, Float64Array];
  const base = white ? atTableWavelengths(white) : new Float64Array(tableRange.count).fill(1);
  const absorption = (tint: Float64Array): Float64Array => tint.map((r, i) => kOverS(r) - kOverS(base[i]!));
  const [ofSample, ofReference] = [absorption(one), absorption(other)];
  const most = strongest(ofReference);
  const byY = (tint: Float64Array): number => kOverS(lightness(tint)) - kOverS(lightness(base));
  if (ofReference[most]! < leastAbsorption || byY(other) <= 0)
    return bad({
      code: 'no-tinting',
      message: 'The reference hardly absorbs: a tinting strength against it says nothing.',
      cure: 'Give tints of both pigments with white, of the same share.',
    });
  return good({
    percent: (100 * ofSample[most]!) / ofReference[most]!,
    nm: tableRange.first + most * tableRange.step,
    byLightness: (100 * byY(one)) / byY(other),
    method:
      `K/S at the reference’s strongest absorption${white ? ', less that of the white' : ''}, after ISO 787-24; by ` +
      'lightness: the same of Y (D65, 10°)',
  });
}
