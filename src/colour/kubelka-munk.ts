// Kubelka–Munk: absorption and scattering of opaque layers, tints with white, films over a backing.
import { atTableWavelengths, type Spectrum } from './spectrum.js';

/** Reflectance lower than this is taken as this, so that K/S stays finite. */
const darkest = 1e-4;
const within = (r: number): number => Math.min(Math.max(r, darkest), 1);

/**
 * K/S of an opaque layer from its reflectance (0 … 1). Kubelka and Munk 1931.
 * @example kOverS(0.2) // 1.6
 */
export const kOverS = (reflectance: number): number => (1 - within(reflectance)) ** 2 / (2 * within(reflectance));

/** Reflectance of an opaque layer from its K/S: the way back. */
export const reflectanceOf = (ks: number): number => 1 + ks - Math.sqrt(ks * ks + 2 * ks);

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

/** Saunderson's correction for reflection at the surface: what the instrument reads (k1 outside, k2 inside). */
export const throughSurface = (reflectance: number, k1: number, k2: number): number =>
  k1 + ((1 - k1) * (1 - k2) * reflectance) / (1 - k2 * reflectance);

/** Saunderson's correction, the way back: reflectance within the layer from what the instrument reads. */
export const beneathSurface = (measured: number, k1: number, k2: number): number =>
  (measured - k1) / (1 - k1 - k2 * (1 - measured));

/**
 * Reflectance of a film over a backing.
 * @param opaque reflectance of the same paint at full hiding, 0 … 1
 * @param scatter scattering power of the film, S times thickness
 * @param backing reflectance of what is beneath, 0 … 1
 * @example filmOver(0.53668, 0.8, 0.05) // 0.40087
 */
export function filmOver(opaque: number, scatter: number, backing: number): number {
  const a = 1 + kOverS(opaque);
  const b = Math.sqrt(a * a - 1);
  if (scatter <= 0) return backing;
  // For a white that absorbs nothing, b is 0 and b·coth(b·SX) is 1/SX.
  const x = b * scatter;
  const cot = x < 1e-6 ? 1 / scatter : b / Math.tanh(x);
  return (1 - backing * (a - cot)) / (a - backing + cot);
}

/** A film known from its readings over two backings: reflectance at full hiding, and scattering power. */
export interface Film {
  readonly opaque: number;
  /** S times thickness; Infinity when the film hides. */
  readonly scatter: number;
}

/**
 * A film from two readings over two backings (0 … 1); when the two hardly differ the film hides, and is its own masstone.
 * Own derivation from the Kubelka–Munk solution, checked against `filmOver`.
 * @example filmFromBackings(0.40087, 0.05, 0.64138, 0.8) // { opaque: 0.5367, scatter: 0.8 }
 */
export function filmFromBackings(overBlack: number, black: number, overWhite: number, white: number): Film {
  const hiding: Film = { opaque: within((overBlack + overWhite) / 2), scatter: Infinity };
  if (overWhite - overBlack < 0.002) return hiding;
  const above = (1 + overBlack * black) * (overWhite - white) - (1 + overWhite * white) * (overBlack - black);
  const below = (overBlack + black) * (overWhite - white) - (overWhite + white) * (overBlack - black);
  const a = above / below;
  if (!Number.isFinite(a) || a < 1) return hiding;
  const b = Math.sqrt(a * a - 1);
  const opaque = a - b;
  // R = [1 − G(a − c)] / (a − G + c), with c = b·coth(b·SX), solved for c over black.
  const c = (1 - black * a - overBlack * (a - black)) / (overBlack - black);
  if (!Number.isFinite(c) || c <= b) return { opaque, scatter: Infinity };
  return { opaque, scatter: b < 1e-9 ? 1 / c : Math.atanh(b / c) / b };
}

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
