// Two samples that match under one lamp and not under another: the special metamerism index, change in illuminant.
import type { Triple } from './numbers.js';
import { labFromXyz } from './tristimulus.js';

/** One sample under the reference lamp and the test lamp. */
export interface UnderTwoLamps {
  readonly reference: { readonly xyz: Triple; readonly lab: Triple };
  readonly test: { readonly xyz: Triple; readonly lab: Triple };
}

/** How the mismatch that is already there under the reference lamp is taken out. */
export type Correction = 'none' | 'additive-lab' | 'multiplicative-lab' | 'additive-xyz' | 'multiplicative-xyz';

const each = (a: Triple, b: Triple, c: Triple, join: (a: number, b: number, c: number) => number): Triple => [
  join(a[0], b[0], c[0]),
  join(a[1], b[1], c[1]),
  join(a[2], b[2], c[2]),
];

/**
 * Lab of the sample under the test lamp with its mismatch under the reference lamp taken out.
 * ISO 18314-4:2024 as summarised by colour-science (the standard recommends `additive-lab`); CIE 15.
 * Multiplying in Lab is unstable near a* = 0 or b* = 0.
 * @param testWhite XYZ of the test lamp's white, for the corrections made in XYZ
 */
export function corrected(
  standard: UnderTwoLamps,
  sample: UnderTwoLamps,
  correction: Correction,
  testWhite: Triple,
): Triple {
  const less = (t: number, r: number, s: number) => t - (r - s);
  const scaled = (t: number, r: number, s: number) => (t * s) / r;
  switch (correction) {
    case 'none':
      return sample.test.lab;
    case 'additive-lab':
      return each(sample.test.lab, sample.reference.lab, standard.reference.lab, less);
    case 'multiplicative-lab':
      return each(sample.test.lab, sample.reference.lab, standard.reference.lab, scaled);
    case 'additive-xyz':
      return labFromXyz(each(sample.test.xyz, sample.reference.xyz, standard.reference.xyz, less), testWhite);
    case 'multiplicative-xyz':
      return labFromXyz(each(sample.test.xyz, sample.reference.xyz, standard.reference.xyz, scaled), testWhite);
  }
}

/**
 * Metamerism index of a pair: the difference under the test lamp after the correction.
 * @param difference the formula, which is named with every index
 * @example metamerismIndex(standard, sample, 'additive-lab', deltaE76, white) // 3.8268 … for the pair of ISO 18314-4
 */
export const metamerismIndex = (
  standard: UnderTwoLamps,
  sample: UnderTwoLamps,
  correction: Correction,
  difference: (a: Triple, b: Triple) => number,
  testWhite: Triple,
): number => difference(standard.test.lab, corrected(standard, sample, correction, testWhite));
