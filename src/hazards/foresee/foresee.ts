// What can be foreseen when the things in a mixture meet and are heated: rules on groups, never on names.
import { carriedIn, carriedNotJudged, isOfTraceAlone, onlyIfCarried, withCarried } from './carried.js';
import { closedVesselHazards } from './closed-vessel.js';
import { takenSentence, type ContentsTaken, type Foresight, type Mixture } from './contracts.js';
import { bySeverity, type FoundHazard } from './hazard.js';
import { heatingHazards } from './heating.js';
import { madeOnTheWay } from './made-on-the-way.js';
import { mixingHazards } from './mixing.js';
import { byProductsOf, reactionGasHazards } from './reaction-gas.js';
import { resolveMixture, resolverOfMixtures, type ResolvedMixture } from './resolve-mixture.js';

/**
 * What can be foreseen of mixing and heating. Amounts, strengths and heats that are not given are taken at their worst;
 * every ingredient meets every other; `unknown` names what could not be judged, and an empty `foreseen` is no
 * all-clear.
 * Order never matters, and one more ingredient never takes a hazard away.
 * @example
 * foresee({ ingredients: [{ reagent: resolveNamed('sodium nitrite') }, { reagent: resolveNamed('vinegar') }] })
 *   .foreseen[0]?.rule // 'nitrite-weak-acid'
 */
export const foresee = (mixture: Mixture): Foresight => foreseeWith(mixture, { resolve: resolveMixture, whole });

/**
 * Foresees mixtures of which several have one and the same list of ingredients and get other heat: what does not depend
 * on the heat is looked at once. A list must not change meanwhile.
 */
export function foreseer(): (mixture: Mixture) => Foresight {
  const lists = new Map<Mixture['ingredients'], Pick<Mixture, 'ingredients' | 'reaction'>>();
  const known: LookedAt = {
    resolve: resolverOfMixtures(),
    whole: (mixture) => {
      const { ingredients, reaction } = mixture;
      const before = lists.get(ingredients);
      if (before && before.reaction === reaction) return withIngredients(mixture, before.ingredients);
      const found = whole(mixture);
      lists.set(ingredients, found);
      return found;
    },
  };
  return (mixture) => foreseeWith(mixture, known);
}

/** How a mixture is looked at. */
interface LookedAt {
  readonly resolve: (mixture: Mixture) => ResolvedMixture;
  /** The mixture with the by-products of its reaction. */
  readonly whole: (mixture: Mixture) => Mixture;
}

const withIngredients = (mixture: Mixture, ingredients: Mixture['ingredients']): Mixture =>
  ingredients === mixture.ingredients ? mixture : { ...mixture, ingredients };

function whole(mixture: Mixture): Mixture {
  const made = byProductsOf(mixture);
  return made.length > 0 ? { ...mixture, ingredients: [...mixture.ingredients, ...made] } : mixture;
}

function foreseeWith(mixture: Mixture, lookedAt: LookedAt): Foresight {
  const plain = foreseeMixed(mixture, lookedAt);
  const carried = carriedIn(mixture);
  if (carried.length === 0) return plain;
  const known = new Set(plain.foreseen.map(({ rule }) => rule));
  const all = foreseeMixed(withCarried(mixture, carried), lookedAt);
  const further = all.foreseen
    .filter((one) => !known.has(one.rule) && !isOfTraceAlone(one, carried))
    .map((one) => onlyIfCarried(one, carried));
  const notJudged = carriedNotJudged(carried, all.unknown);
  return {
    ...plain,
    foreseen: [...plain.foreseen, ...further].sort(bySeverity),
    ...(notJudged.length > 0 && { cautions: [...plain.cautions, ...notJudged].sort() }),
  };
}

function foreseeMixed(mixture: Mixture, lookedAt: LookedAt): Foresight {
  const all = lookedAt.whole(mixture);
  const resolved = lookedAt.resolve(all);
  const first = [...mixingHazards(resolved, mixture), ...heatingHazards(resolved, mixture)];
  const further = madeOnTheWay(all, first, resolved);
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
