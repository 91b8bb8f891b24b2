// Where a colour family comes from, in words: measured, seen in a photograph, or declared.
import type { FamilyBasis } from '../../src/reckoning/appearance/appearance-contracts.js';

/** Behind the family of an entry. */
export const familyBasisWords: Readonly<Record<FamilyBasis, string>> = {
  measured: ' (measured)',
  photograph: ' (from a photograph)',
  estimate: ' (estimated)',
  declared: ' (declared, not measured)',
};

/** Behind the family of a sample in a list: what is measured is said by silence. */
export function familyRemark(basis: FamilyBasis | undefined): string {
  if (basis === 'declared') return ' (declared)';
  return basis === 'photograph' || basis === 'estimate' ? familyBasisWords[basis] : '';
}
