// What can be foreseen when the things in a mixture meet and are heated: rules on groups, never on names.
import { lastFor, onceFor } from '../../once.js';
import { carriedIn, onlyIfCarried, withCarried } from './carried.js';
import { closedVesselHazards } from './closed-vessel.js';
import { takenSentence, type ContentsTaken, type Foresight, type Mixture } from './contracts.js';
import { bySeverity, type FoundHazard } from './hazard.js';
import { heatingHazards } from './heating.js';
import { madeOnTheWay } from './made-on-the-way.js';
import { mixingHazards } from './mixing.js';
import { byProductsOf, reactionGasHazards } from './reaction-gas.js';
import { resolverOfMixtures, type ResolvedMixture } from './resolve-mixture.js';

/**
 * What can be foreseen of mixing and heating. Amounts, strengths and heats that are not given are taken at their worst;
 * every ingredient meets every other; `unknown` names what could not be judged, and an empty `foreseen` is no
 * all-clear.
 * Order never matters, and one more ingredient never takes a hazard away.
 * @example
 * foresee({ ingredients: [{ reagent: resolveNamed('sodium nitrite') }, { reagent: resolveNamed('vinegar') }] })
 *   .foreseen[0]?.rule // 'nitrite-weak-acid'
 */
export const foresee = (mixture: Mixture): Foresight => foreseer()(mixture);

/**
 * Foresees mixtures of which several have one and the same list of ingredients and get other heat: what does not depend
 * on the heat is looked at once. A list must not change meanwhile.
 */
export function foreseer(): (mixture: Mixture) => Foresight {
  const before: Before = {
    resolve: resolverOfMixtures(),
    withByProducts: onceFor((ingredients: Mixture['ingredients']) =>
      lastFor((reaction: string | undefined) => {
        const made = byProductsOf({ ingredients, ...(reaction !== undefined && { reaction }) });
        return made.length > 0 ? [...ingredients, ...made] : ingredients;
      }),
    ),
  };
  return (mixture) => {
    const plain = foreseeMixed(mixture, before);
    const carried = carriedIn(mixture);
    if (carried.length === 0) return plain;
    const known = new Set(plain.foreseen.map(({ rule }) => rule));
    const further = foreseeMixed(withCarried(mixture, carried), before)
      .foreseen.filter(({ rule }) => !known.has(rule))
      .map((one) => onlyIfCarried(one, carried));
    return { ...plain, foreseen: [...plain.foreseen, ...further].sort(bySeverity) };
  };
}

/** What was looked at before, found again by the list of ingredients. */
interface Before {
  readonly resolve: (mixture: Mixture) => ResolvedMixture;
  readonly withByProducts: (
    ingredients: Mixture['ingredients'],
  ) => (reaction: string | undefined) => Mixture['ingredients'];
}

function foreseeMixed(mixture: Mixture, { resolve, withByProducts }: Before): Foresight {
  const ingredients = withByProducts(mixture.ingredients)(mixture.reaction);
  const whole: Mixture = ingredients === mixture.ingredients ? mixture : { ...mixture, ingredients };
  const resolved = resolve(whole);
  const first = [...mixingHazards(resolved, mixture), ...heatingHazards(resolved, mixture)];
  const further = madeOnTheWay(whole, first, resolved);
  const raised = new Set(further.map(({ rule }) => rule));
  const byRules = [...first.map(({ foreseen }) => foreseen).filter(({ rule }) => !raised.has(rule)), ...further];
  const found = [...byRules, ...reactionGasHazards(mixture, byRules)];
  const taken = worstFirst(resolved.taken, first);
  return {
    foreseen: [...found, ...closedVesselHazards(resolved, found)].sort(bySeverity),
    unknown: [...new Set(resolved.unknown)].sort(),
    cautions: [...new Set([...resolved.cautions, ...taken.map(takenSentence)])].sort(),
    taken,
  };
}

/** What a name was taken as where it stands in the pot more than once, in whatever order. */
const allOf = (before: readonly string[] | undefined, contents: readonly string[]): readonly string[] =>
  before ? [...new Set([...before, ...contents])].sort() : contents;

/** What names were taken as: first the content that the gravest hazard comes from; what threatens nothing, last. */
function worstFirst(taken: readonly ContentsTaken[], found: readonly FoundHazard[]): readonly ContentsTaken[] {
  if (taken.length === 0) return taken;
  const gravestFirst = [...found].sort((a, b) => bySeverity(a.foreseen, b.foreseen));
  const byName = new Map<string, readonly string[]>();
  for (const { name, contents } of taken) byName.set(name, allOf(byName.get(name), contents));
  return [...byName].sort().map(([name, contents]) => {
    const placeOf = (content: string): number => {
      const place = gravestFirst.findIndex(({ members }) =>
        members.some((member) => member.name === name && member.takenAs === content),
      );
      return place < 0 ? gravestFirst.length : place;
    };
    return { name, contents: [...contents].sort((a, b) => placeOf(a) - placeOf(b)) };
  });
}
