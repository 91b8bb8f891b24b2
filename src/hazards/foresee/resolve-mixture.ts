// What stands in a mixture, as the rules look at it: each resolved reagent with its groups, its strength and its
// amount.
import { once } from '../../once.js';
import type { Circumstance } from '../../reagents/index.js';
import type { ContentsTaken, MixedReagent, Mixture } from './contracts.js';
import { gatherIn, isWet, withMade, type Gathered } from './gathered.js';
import { alikeOf, groupsIn, strongest, unitsIn, type Alike, type Pot } from './groups-of-pot.js';
import { membershipsOf, type Concentration } from './groups.js';
import { heatOfMixture, heatOfOne, heatedAtWorst, heatedToMelt, plainHeats } from './heat-at-worst.js';
import { boilsDryFrom, type RuledIngredient } from './ruled-ingredient.js';

/** What stands in a mixture, whatever heat it gets. */
export interface StandingMixture {
  readonly ingredients: readonly RuledIngredient[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  readonly taken: readonly ContentsTaken[];
  readonly wet: boolean;
  /** What the words say of the vessel and what is around it. */
  readonly circumstances: ReadonlySet<Circumstance>;
  /** Groups that anything in the mixture belongs to. */
  readonly present: ReadonlySet<string>;
  /** By the index of an ingredient its groups are the same in all that are alike; absent where words tell of them. */
  readonly alike?: Alike;
  /** Units of a group in one formula unit of an ingredient of this mixture. */
  readonly units: (group: string, ingredient: RuledIngredient) => number;
  readonly strengthIn: (group: string, ingredient: RuledIngredient) => Concentration;
}

export interface ResolvedMixture extends StandingMixture {
  /** What stands there whatever heat it gets: the same for all of the same things that only get other heat. */
  readonly standing: StandingMixture;
  /** °C of the mixture. */
  readonly heat: number;
  /** °C of one ingredient. */
  readonly heatOf: (ingredient: RuledIngredient) => number;
  /** It stands on a hob at most: what is wet stays as hot as water until it is boiled dry. */
  readonly onHobAtMost: boolean;
  /** The same mixture with what it makes in it. */
  readonly joinedBy: (made: readonly MixedReagent[]) => ResolvedMixture;
}

interface Standing {
  readonly pot: Pot;
  readonly told: StandingMixture;
}

/** Resolves a mixture for the rules. What could not be told what it is stands in `unknown`. */
export const resolveMixture = (mixture: Mixture): ResolvedMixture => heated(standIn(gatherIn(mixture)), mixture);

/**
 * The same for several mixtures of which some have one and the same list of ingredients: what the heat that they get
 * does not change is resolved once.
 */
export function resolverOfMixtures(): (mixture: Mixture) => ResolvedMixture {
  const standings = new Map<
    Mixture['ingredients'],
    { readonly room: string | undefined; readonly standing: Standing }
  >();
  return (mixture) => {
    const { ingredients, roomCubicMetres: room } = mixture;
    const before = standings.get(ingredients);
    if (before && before.room === room) return heated(before.standing, mixture);
    const standing = standIn(gatherIn(mixture));
    standings.set(ingredients, { room, standing });
    return heated(standing, mixture);
  };
}

function standIn(gathered: Gathered): Standing {
  const { unknown, cautions, taken, circumstances } = gathered;
  const wet = isWet(gathered);
  const atWorst = heatedAtWorst(gathered, wet);
  const ingredients = gathered.melted ? atWorst.map(heatedToMelt) : atWorst;
  const groupsOf = ingredients.map(({ substance, strength }) => membershipsOf(substance, strength));
  const pot: Pot = { gathered, ingredients, groupsOf };
  const alike = gathered.own.length === 0 ? alikeOf(pot) : undefined;
  return {
    pot,
    told: {
      ingredients,
      unknown,
      cautions,
      taken,
      circumstances,
      wet,
      present: alike?.present ?? groupsIn(pot),
      ...(alike && { alike }),
      units: (group, ingredient) => unitsIn(pot, group, ingredient),
      strengthIn: (group, ingredient) =>
        group === 'chloride_in_acid' ? strongest(pot, 'strong_acid') : ingredient.strength,
    },
  };
}

/** What stands in a pot at the heat that it gets. */
function heated({ pot, told }: Standing, mixture: Mixture): ResolvedMixture {
  const { gathered, ingredients } = pot;
  const heats = plainHeats(mixture.heating ?? []);
  const heat = Math.max(gathered.heat, heatOfMixture(ingredients, heats));
  const heatsOf = once(() => ingredients.map((one) => heatOfOne(one, heat, heats)));
  return {
    ...told,
    standing: told,
    heat,
    heatOf: ({ index }) => heatsOf()[index]!,
    onHobAtMost: !gathered.hotterThanHob && heats.every(({ toCelsius }) => toCelsius <= boilsDryFrom),
    joinedBy: (made) => heated(standIn(withMade(gathered, made, mixture.ingredients.length)), mixture),
  };
}
