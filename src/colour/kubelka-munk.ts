// Kubelka–Munk: absorption and scattering of opaque layers, and the reflection at their surface.

/** Reflectance lower than this is taken as this, so that K/S stays finite. */
const darkest = 1e-4;
export const clampedReflectance = (r: number): number => Math.min(Math.max(r, darkest), 1);

/**
 * K/S of an opaque layer from its reflectance (0 … 1). Kubelka and Munk 1931.
 * @example kOverS(0.2) // 1.6
 */
export function kOverS(reflectance: number): number {
  const clamped = clampedReflectance(reflectance);
  return (1 - clamped) ** 2 / (2 * clamped);
}

/** Reflectance of an opaque layer from its K/S: the way back. */
export const reflectanceOf = (ks: number): number => 1 + ks - Math.sqrt(ks * ks + 2 * ks);

/** Saunderson's correction for reflection at the surface: what the instrument reads (k1 outside, k2 inside). */
export const throughSurface = (reflectance: number, k1: number, k2: number): number =>
  k1 + ((1 - k1) * (1 - k2) * reflectance) / (1 - k2 * reflectance);

/** Saunderson's correction, the way back: reflectance within the layer from what the instrument reads. */
export const beneathSurface = (measured: number, k1: number, k2: number): number =>
  (measured - k1) / (1 - k1 - k2 * (1 - measured));
