// Pots that hold the same and are as hot are foreseen once.
import type { Foreseen, Foresight, MixedReagent, Mixture } from '../../hazards/foresee/contracts.js';
import { foreseer } from '../../hazards/foresee/foresee.js';
import { onceFor } from '../../once.js';
import type { VesselItem } from '../vessels.js';

/**
 * The pots of an entry: where several hold the same uses and are as hot, one is foreseen for all; where they get other
 * heat, what does not depend on it is.
 */
export class Pots {
  /** A number for each use and what else goes into them, and for each that is made in them. */
  private readonly numbers = new Map<object, number>();
  private readonly numbersOfMade = new Map<object, number>();
  /** By those numbers, the first that was put into a pot. */
  private readonly first: MixedReagent[] = [];
  private readonly lists = new Map<string, readonly MixedReagent[]>();
  private readonly foreseen = new Map<string, Foresight>();
  private readonly furtherTo = onceFor((_: Foresight) => new Map<string, readonly Foreseen[]>());
  private readonly foreseer = foreseer();

  /** @param items those of its ingredients that are uses, in the same order; others follow them */
  foresee(mixture: Mixture, items: readonly VesselItem[]): Foresight {
    const pot = this.potOf(mixture, items);
    let foresight = this.foreseen.get(pot.key);
    if (!foresight) this.foreseen.set(pot.key, (foresight = this.foreseer.foresee(pot.mixture())));
    return foresight;
  }

  /** What is foreseen by rules that are asked for. */
  foreseeOnly(mixture: Mixture, items: readonly VesselItem[], isAsked: (rule: string) => boolean): readonly Foreseen[] {
    const pot = this.potOf(mixture, items);
    const foresight = this.foreseen.get(pot.key);
    if (foresight) return foresight.foreseen.filter(({ rule }) => isAsked(rule));
    return this.foreseer.foreseeOnly(pot.mixture(), isAsked);
  }

  /** What is foreseen by rules of which a foresight tells nothing. */
  foreseeFurther(before: Foresight, mixture: Mixture, items: readonly VesselItem[]): readonly Foreseen[] {
    const known = this.furtherTo(before);
    const { key } = this.potOf(mixture, items);
    let further = known.get(key);
    if (!further) {
      const told = new Set(before.foreseen.map(({ rule }) => rule));
      known.set(key, (further = this.foreseeOnly(mixture, items, (rule) => !told.has(rule))));
    }
    return further;
  }

  private potOf(
    mixture: Mixture,
    items: readonly VesselItem[],
  ): { readonly key: string; readonly mixture: () => Mixture } {
    const { ingredients, ...around } = mixture;
    const held = ingredients.map((one, at) => this.numberOf(items[at]?.use ?? one.reagent, one));
    const list = held.join(' ');
    // All that is around them counts, whatever a mixture comes to be told of besides.
    return {
      key: `${list} ${JSON.stringify(around)}`,
      mixture: () => ({ ...mixture, ingredients: this.listOf(list, held) }),
    };
  }

  private numberOf(held: object, one: MixedReagent): number {
    const numbers = one.made === undefined ? this.numbers : this.numbersOfMade;
    const before = numbers.get(held);
    if (before !== undefined) return before;
    numbers.set(held, this.first.length);
    return this.first.push(one) - 1;
  }

  private listOf(list: string, held: readonly number[]): readonly MixedReagent[] {
    let ingredients = this.lists.get(list);
    if (!ingredients) this.lists.set(list, (ingredients = held.map((number) => this.first[number]!)));
    return ingredients;
  }
}
