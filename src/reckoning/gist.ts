// So much of a reckoning as lists, links and stocks ask for: small, so that it is at hand for every entry of a journal.
import type { Entry } from '../journal/entry.js';
import type { AppearanceReckoning, FamilyBasis, SampleAppearance } from './appearance-contracts.js';
import type { AmountsReckoning, ReckoningGist, SampleGist } from './contracts.js';

const basisOf = (basis: SampleAppearance['basis']): FamilyBasis =>
  basis === 'photograph' || basis === 'srgb-estimate' ? 'photograph' : 'measured';

export function gistOf(
  { samples }: Pick<Entry, 'samples'>,
  amounts: AmountsReckoning,
  appearance: AppearanceReckoning,
): ReckoningGist {
  return {
    samples: samples.map(({ sample }): SampleGist => {
      const seen = appearance.samples.find((one) => one.sample === sample);
      const obtained = amounts.samples.find((one) => one.sample === sample)?.obtained;
      const family = seen?.family ?? appearance.family;
      const familyBasis = seen?.family ? basisOf(seen.basis) : appearance.familyBasis;
      return {
        sample,
        ...(family !== undefined && { family }),
        ...(familyBasis && { familyBasis }),
        ...(obtained && { obtained }),
        ...((seen?.curve ?? []).length > 1 && { curve: true as const }),
      };
    }),
    lotsTaken: amounts.lotsTaken ?? [],
    ...(amounts.jarsTaken && { jarsTaken: amounts.jarsTaken }),
  };
}
