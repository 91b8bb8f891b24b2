// Tints of a pigment with white, computed by Kubelka–Munk with one constant.
import { kOverS, reflectanceOf } from './kubelka-munk.js';
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

/** Shares of pigment that a ladder is shown at, masstone first. */
export const ladderShares = [1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01] as const;

/**
 * Reflectance at the 81 table wavelengths of tints of a pigment with a white, by the one-constant formula from the
 * masstone. An estimate: measured tints differ by 5 to 30 CIEDE2000 when the masstone is the source.
 */
export function tintLadder(
  masstone: Spectrum,
  white: Spectrum,
  shares: readonly number[] = ladderShares,
): { readonly share: number; readonly reflectance: Float64Array }[] {
  const pigment = atTableWavelengths(masstone);
  const unit = pigment.map(kOverS);
  const base = atTableWavelengths(white).map(kOverS);
  return shares.map((share) => ({
    share,
    reflectance: share === 1 ? pigment : unit.map((ks, i) => reflectanceOf(tintKs(share, ks, base[i]!))),
  }));
}
