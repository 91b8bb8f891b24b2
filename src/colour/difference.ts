// How far two colours lie apart. Both must be Lab of the same illuminant and observer; nothing is converted.
import { differenceCiede2000, differenceCmc } from './culori.js';
import type { Triple } from './numbers.js';

// culori turns what it is given into its own D65 Lab; marked as `lab65` the numbers pass through untouched.
const asIs = ([l, a, b]: Triple) => ({ mode: 'lab65' as const, l, a, b });
const ciede2000 = differenceCiede2000();
const cmc11 = differenceCmc(1, 1);

/**
 * CIEDE2000 colour difference (k_L = k_C = k_H = 1). ISO/CIE 11664-6; Sharma, Wu, Dalal 2005.
 * @example deltaE00([50, 2.6772, -79.7751], [50, 0, -82.7485]) // 2.0425
 */
export const deltaE00 = (first: Triple, second: Triple): number => ciede2000(asIs(first), asIs(second));

/** CIELAB 1976 colour difference: the plain distance. ISO/CIE 11664-4. */
export const deltaE76 = (first: Triple, second: Triple): number =>
  Math.hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2]);

/** CMC(1:1) colour difference of the second colour from the first, the standard (not symmetric). ISO 105-J03. */
export const deltaECmc = (standard: Triple, sample: Triple): number => cmc11(asIs(standard), asIs(sample));

/** A difference in lightness, chroma and hue. */
export interface LchDifference {
  readonly dL: number;
  readonly dC: number;
  /** Positive towards a larger hue angle. */
  readonly dH: number;
}

/**
 * ΔL*, ΔC*, ΔH* of the second colour less the first. ISO/CIE 11664-4: ΔH*² = Δa*² + Δb*² − ΔC*².
 * @example lchDifference([50, 10, 0], [50, 0, 10]) // { dL: 0, dC: 0, dH: 14.14 }
 */
export function lchDifference(first: Triple, second: Triple): LchDifference {
  const [da, db] = [second[1] - first[1], second[2] - first[2]];
  const dC = Math.hypot(second[1], second[2]) - Math.hypot(first[1], first[2]);
  const dH = Math.sqrt(Math.max(0, da * da + db * db - dC * dC));
  const turns = first[1] * second[2] - first[2] * second[1];
  return { dL: second[0] - first[0], dC, dH: turns < 0 ? -dH : dH };
}
