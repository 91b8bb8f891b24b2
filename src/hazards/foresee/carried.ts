// What a lot may bring along of the reagents that it was made with, and how that is told: with less certainty.
import type { CarriedReagent } from '../../reagents/index.js';
import { resolveNamed } from '../../reagents/index.js';
import type { Foreseen, MixedReagent, Mixture } from './contracts.js';

/** Reagents that were in excess when a lot in the mixture was made, and may be left in it. */
export const carriedIn = ({ ingredients }: Mixture): readonly CarriedReagent[] =>
  ingredients.flatMap(({ reagent }) => reagent.origin?.carries ?? []);

/** The mixture with all of them in it. */
export const withCarried = (mixture: Mixture, carried: readonly CarriedReagent[]): Mixture => ({
  ...mixture,
  ingredients: [
    ...mixture.ingredients,
    ...carried.map(({ name, formula }): MixedReagent => ({ reagent: resolveNamed(name, formula), made: 'carried' })),
  ],
});

const lesser = { danger: 'warning', warning: 'note', note: 'note' } as const;

/** A hazard that arises only if a reagent was left in a lot; how much of it there is nobody knows. */
export function onlyIfCarried({ worstCase: _, ...one }: Foreseen, carried: readonly CarriedReagent[]): Foreseen {
  const left = carried.filter(({ name }) => one.partners.includes(name));
  const words = left.map(({ name, lot }) => `${name} was not washed out of lot ${lot}`).join(' or ');
  return {
    ...one,
    severity: lesser[one.severity],
    condition: `only if ${words}${one.condition === '' ? '' : `; ${one.condition}`}`,
  };
}
