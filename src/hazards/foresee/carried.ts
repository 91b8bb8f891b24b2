// What a lot may bring along of the reagents that it was made with, and how that is told: with less certainty.
import type { CarriedReagent } from '../../reagents/index.js';
import { resolveNamed } from '../../reagents/index.js';
import type { Foreseen, MixedReagent, Mixture } from './contracts.js';

/** What may be left in the lots of a mixture: reagents that were in excess, and what they were washed with. */
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

const surelyThere = ({ name, lot, made }: CarriedReagent): string =>
  made ? `the fire made ${name} in lot ${lot}` : `lot ${lot} was last washed with ${name}`;

/**
 * A hazard that arises only if a reagent was left in a lot; how much of it there is nobody knows. A lot that is still
 * wet with it, or in which a fire made it, is as dangerous as the reagent.
 */
export function onlyIfCarried({ worstCase: _, ...one }: Foreseen, carried: readonly CarriedReagent[]): Foreseen {
  const left = carried.filter(({ name }) => one.partners.includes(name));
  const sure = left.filter((each) => each.wet ?? each.made);
  const words =
    sure.length > 0
      ? sure.map(surelyThere).join(' and ')
      : `only if ${left.map(({ name, lot }) => `${name} was not washed out of lot ${lot}`).join(' or ')}`;
  return {
    ...one,
    severity: sure.length > 0 ? one.severity : lesser[one.severity],
    condition: `${words}${one.condition === '' ? '' : `; ${one.condition}`}`,
  };
}

/** It arises of the left-over alone, and not where it meets something: a trace of acid fumes no room full. */
export const isOfTraceAlone = ({ partners, severity }: Foreseen, carried: readonly CarriedReagent[]): boolean =>
  severity === 'note' && partners.length === 1 && carried.some(({ name, wet }) => name === partners[0] && !wet);

/** What nobody can judge of what lots may still hold. */
export const carriedNotJudged = (carried: readonly CarriedReagent[], unknown: readonly string[]): readonly string[] =>
  carried
    .filter(({ name }) => unknown.includes(name))
    .map(({ name, lot }) => `‘${name}’, which lot ${lot} may still hold, was not recognised, and NOT judged.`);
