// How strongly the samples of an entry tint white, against one of them or a bought pigment: where tints of one share in
// one white were read.
import { tintingStrength } from '../../colour/index.js';
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

/** Whether two have a tint of one share in one white. */
const comparable = (one: Tinted, other: Tinted): boolean =>
  sharedTint(one, other) !== undefined && one.white?.name === other.white?.name;

function against(reference: Tinted, sample: Tinted): TintingAppearance | undefined {
  const share = sharedTint(sample, reference)!;
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

export interface TintingFound {
  /** By sample; none for what there is nothing to set against. */
  readonly strengths: ReadonlyMap<string, TintingAppearance>;
  /** Samples of which tints were read, though none of the same share in the same white. */
  readonly apart: readonly { readonly sample: string; readonly against: string }[];
}

/**
 * Tinting strength of the samples against the bought pigment; where no tint of that was read, against the control, or
 * the first sample that has one.
 */
export function tintingOf(
  samples: readonly Tinted[],
  reference: Tinted | undefined,
  control: string | undefined,
): TintingFound {
  const read = samples.filter(({ tints }) => tints.length > 0);
  const standard = reference && reference.tints.length > 0 ? reference : undefined;
  const base = standard ?? read.find(({ name }) => name === control) ?? read[0];
  if (!base) return { strengths: new Map(), apart: [] };
  const others = read.filter((one) => one !== base);
  const strengths = others
    .filter((one) => comparable(one, base))
    .flatMap((one) => {
      const found = against(base, one);
      return found ? [[one.name, found] as const] : [];
    });
  const apart = others
    .filter((one) => !comparable(one, base))
    .map(({ name }) => ({ sample: name, against: base.name }));
  return { strengths: new Map(strengths), apart };
}
