// Tints of a pigment with white, computed by Kubelka–Munk with one constant.
import { kOverS, reflectanceOf } from './kubelka-munk.js';
import { onceFor } from '../once.js';
import { atTableWavelengths, type Spectrum } from './spectrum.js';

/**
 * K/S of a tint: the white's scattering rules, each part adds its own in proportion.
 * @param share share of the pigment, 0 … 1
 * @param unit K/S that the pigment brings at share 1 (of its masstone, or fitted from a tint with `unitFromTint`)
 */
export const tintKs = (share: number, unit: number, white: number): number => (1 - share) * white + share * unit;

/**
 * What a pigment brings at share 1, from one measured tint.
 * @example unitFromTint(6.6202, 0.5, 0.01043) // 13.23
 */
export const unitFromTint = (tint: number, share: number, white: number): number =>
  (tint - (1 - share) * white) / share;

/** A tint that was read: the pigment's share of pigment and white, and its reflectance at the 81 table wavelengths. */
export interface MeasuredTint {
  readonly share: number;
  readonly reflectance: Float64Array;
}

/** Absorption and scattering that a pigment brings, the white's scattering being 1. */
interface PigmentConstants {
  readonly absorption: number;
  readonly scattering: number;
}

/**
 * The two constants of a pigment at one wavelength, of which the index is given, from tints of it: of
 * c·K − θ·c·S = (1 − c)·(θ − θw) the closest by least squares, θ being K/S of a tint. One constant (scattering as the
 * white's) from one tint, or where two give no sense.
 */
function constantsFrom(
  tints: readonly { readonly share: number; readonly ks: Float64Array }[],
  at: number,
  white: number,
): PigmentConstants {
  let kk = 0;
  let ks = 0;
  let ss = 0;
  let kr = 0;
  let sr = 0;
  for (const { share: k, ks: theta } of tints) {
    const tint = theta[at]!;
    const s = -tint * k;
    const right = (1 - k) * (tint - white);
    kk += k * k;
    ks += k * s;
    ss += s * s;
    kr += k * right;
    sr += s * right;
  }
  const determinant = kk * ss - ks * ks;
  const absorption = (kr * ss - sr * ks) / determinant;
  const scattering = (kk * sr - ks * kr) / determinant;
  if (tints.length > 1 && determinant > 1e-12 && absorption >= 0 && scattering > 0) return { absorption, scattering };
  const units = tints.map(({ share, ks: theta }) => Math.max(0, unitFromTint(theta[at]!, share, white)));
  return { absorption: units.reduce((total, unit) => total + unit, 0) / units.length, scattering: 1 };
}

/**
 * Reflectance of a pigment's tints at other shares, from tints of it that were read: with one constant from one, with
 * two from several (Kubelka and Munk; Duncan's additivity of absorption and scattering).
 * @example tintsFromMeasured(white, [{ share: 0.5, reflectance }, { share: 0.05, reflectance: pale }])(0.1)
 */
export function tintsFromMeasured(
  white: Float64Array,
  measured: readonly MeasuredTint[],
): (share: number) => Float64Array {
  const base = white.map(kOverS);
  const tints = measured.map(({ share, reflectance }) => ({ share, ks: reflectance.map(kOverS) }));
  const constants = Array.from(base, (ks, i) => constantsFrom(tints, i, ks));
  return (share) => {
    const values = new Float64Array(base.length);
    for (let i = 0; i < values.length; i += 1) {
      const { absorption, scattering } = constants[i]!;
      values[i] = reflectanceOf((share * absorption + (1 - share) * base[i]!) / (share * scattering + 1 - share));
    }
    return values;
  };
}

/** Shares of pigment that a ladder is shown at, masstone first. */
export const ladderShares = [1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01] as const;

/** K/S at the 81 table wavelengths. */
const tableKs = onceFor((spectrum: Spectrum): Float64Array => atTableWavelengths(spectrum).map(kOverS));

function tinted(share: number, units: Float64Array, whites: Float64Array): Float64Array {
  const values = new Float64Array(units.length);
  for (let i = 0; i < values.length; i += 1) values[i] = reflectanceOf(tintKs(share, units[i]!, whites[i]!));
  return values;
}

/**
 * Reflectance at the 81 table wavelengths of tints of a pigment with a white, by the one-constant formula from the
 * masstone. An estimate: measured tints differ by 5 to 30 CIEDE2000 when the masstone is the source.
 */
export function tintLadder(
  masstone: Spectrum,
  white: Spectrum,
  shares: readonly number[] = ladderShares,
): { readonly share: number; readonly reflectance: Float64Array }[] {
  const [unit, base] = [tableKs(masstone), tableKs(white)];
  return shares.map((share) => ({
    share,
    reflectance: share === 1 ? atTableWavelengths(masstone) : tinted(share, unit, base),
  }));
}
