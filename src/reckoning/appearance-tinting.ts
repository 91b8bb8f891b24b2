// How strongly the samples of an entry tint white, against one of them or a bought pigment: where tints of one share in
// one white were read.
import { tintingStrength } from '../colour/index.js';
import type { TintingAppearance } from './appearance-contracts.js';
import { round, type NamedTint, type NamedWhite } from './appearance-figures.js';

/** A sample or a bought pigment with the tints of it that were read. */
export interface Tinted {
  readonly name: string;
  readonly white: NamedWhite | undefined;
  readonly tints: readonly NamedTint[];
}

/** The share of which both have a tint; the least, where there are several: there K/S is best known to add up. */
function sharedTint(one: Tinted, other: Tinted): number | undefined {
  const shares = one.tints
    .map(({ share }) => share)
    .filter((share) => other.tints.some((tint) => tint.share === share));
  return shares.length > 0 ? Math.min(...shares) : undefined;
}

function against(reference: Tinted, sample: Tinted): TintingAppearance | undefined {
  const share = sharedTint(sample, reference);
  if (share === undefined || sample.white?.name !== reference.white?.name) return undefined;
  const tintOf = ({ tints }: Tinted) => tints.find((tint) => tint.share === share)!.spectrum;
  const found = tintingStrength(tintOf(sample), tintOf(reference), reference.white?.spectrum);
  // A pigment that hardly absorbs has no tinting strength.
  if (!found.ok) return undefined;
  const { percent, byLightness, nm, method } = found.value;
  return {
    against: reference.name,
    share,
    percent: round(percent, 1),
    byLightness: round(byLightness, 1),
    nm,
    ...(reference.white && { white: reference.white.name }),
    method,
  };
}

/**
 * Tinting strength of the samples against the bought pigment; where no tint of that was read, against the control, or
 * the first sample that has one.
 * @returns by sample; none for what there is nothing to set against
 */
export function tintingOf(
  samples: readonly Tinted[],
  reference: Tinted | undefined,
  control: string | undefined,
): ReadonlyMap<string, TintingAppearance> {
  const read = samples.filter(({ tints }) => tints.length > 0);
  const standard = reference && reference.tints.length > 0 ? reference : undefined;
  const base = standard ?? read.find(({ name }) => name === control) ?? read[0];
  if (!base) return new Map();
  const others = read.filter((one) => one !== base);
  return new Map(
    others.flatMap((one) => {
      const found = against(base, one);
      return found ? [[one.name, found] as const] : [];
    }),
  );
}
