// What can be foreseen when the things in a mixture meet and are heated: rules on groups, never on names.
import { carriedIn, carriedNotJudged, isOfTraceAlone, onlyIfCarried, withCarried } from './carried.js';
import { closedVesselHazards } from './closed-vessel.js';
import { takenSentence, type ContentsTaken, type Foreseen, type Foresight, type Mixture } from './contracts.js';
import { bySeverity, type FoundHazard } from './hazard.js';
import { heatingHazards } from './heating.js';
import { madeOnTheWay, makesSomething } from './made-on-the-way.js';
import { mixingHazards } from './mixing.js';
import { byProductsOf, givesGas, reactionGasHazards, withGasOfReaction } from './reaction-gas.js';
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

/** What foresees several mixtures. */
export interface Foreseer {
  readonly foresee: (mixture: Mixture) => Foresight;
  /** The same, of the rules that are asked for by their ids: others are not looked at further than they have to be. */
  readonly foreseeOnly: (mixture: Mixture, isAsked: (rule: string) => boolean) => readonly Foreseen[];
}

/**
 * Foresees mixtures of which several have one and the same list of ingredients and get other heat: what does not depend
 * on the heat is looked at once. A list must not change meanwhile.
 */
export function foreseer(): Foreseer {
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
  return {
    foresee: (mixture) => foreseeWith(mixture, known),
    foreseeOnly: (mixture, isAsked) => foreseeAsked(mixture, known, isAsked),
  };
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

function foreseeAsked(mixture: Mixture, lookedAt: LookedAt, isAsked: (rule: string) => boolean): readonly Foreseen[] {
  // What is left in a lot tells only what all the rest does not.
  if (carriedIn(mixture).length > 0) return foreseeWith(mixture, lookedAt).foreseen.filter(({ rule }) => isAsked(rule));
  return hazardsIn(mixture, lookedAt, isAsked).foreseen;
}

interface HazardsFound {
  /** By rules, of the mixture as it stands. */
  readonly first: readonly FoundHazard[];
  readonly foreseen: readonly Foreseen[];
  readonly resolved: ResolvedMixture;
}

/** The hazards of a mixture, of the rules that are asked for, the gravest first. */
function hazardsIn(mixture: Mixture, lookedAt: LookedAt, isAsked: (rule: string) => boolean): HazardsFound {
  const all = lookedAt.whole(mixture);
  const resolved = lookedAt.resolve(all);
  // A closed vessel, and a gas of the reaction, ask for all that rules tell.
  const isAll = resolved.circumstances.has('closed') || givesGas(mixture);
  const isHeld = (rule: string): boolean => isAll || isAsked(rule) || makesSomething(rule);
  const first = [...mixingHazards(resolved, mixture, isHeld), ...heatingHazards(resolved, mixture)];
  const further = madeOnTheWay(all, first, resolved);
  const raised = new Set(further.map(({ rule }) => rule.id));
  const byRules = [...first.filter(({ rule }) => !raised.has(rule.id)), ...further].filter(
    ({ rule }) => isAll || isAsked(rule.id),
  );
  const told = withGasOfReaction(
    mixture,
    byRules.map(({ foreseen }) => foreseen()),
  );
  const found = isAll ? [...told, ...reactionGasHazards(mixture, told)] : told;
  const foreseen = isAll
    ? [...found, ...closedVesselHazards(resolved, found)].filter(({ rule }) => isAsked(rule))
    : found;
  return { first, resolved, foreseen: [...foreseen].sort(bySeverity) };
}

const everyRule = (): boolean => true;

/** `Egg yolk: taken as egg yolk` is none. */
const isNews = ({ name, contents }: ContentsTaken): boolean => contents.length !== 1 || contents[0] !== name;

function foreseeMixed(mixture: Mixture, lookedAt: LookedAt): Foresight {
  const { first, foreseen, resolved } = hazardsIn(mixture, lookedAt, everyRule);
  const taken = worstFirst(resolved.taken, first);
  return {
    foreseen,
    unknown: [...new Set(resolved.unknown)].sort(),
    cautions: [...new Set([...resolved.cautions, ...taken.filter(isNews).map(takenSentence)])].sort(),
    taken,
  };
}

/** What a name was taken as where it stands in the pot more than once, in whatever order. */
const allOf = (before: readonly string[] | undefined, contents: readonly string[]): readonly string[] =>
  before ? [...new Set([...before, ...contents])].sort() : contents;

/** What names were taken as: first the content that the gravest hazard comes from; what threatens nothing, last. */
function worstFirst(taken: readonly ContentsTaken[], found: readonly FoundHazard[]): readonly ContentsTaken[] {
  if (taken.length === 0) return taken;
  const gravestFirst = [...found].sort((a, b) => bySeverity(a.foreseen(), b.foreseen()));
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
