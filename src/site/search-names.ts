// The index of names: every name of every thing, on shelves by the first letters of each of its words, so that a
// question loads only a few of them.
import { relations, type Findable } from './search-things.js';
import { searchWords, shelfOf } from './search-key.js';

/** A name in a shelf's file: its text, then number and relation of each thing that bears it, in turns. */
type ShelvedName = readonly [text: string, bearers: readonly number[]];

/** So many things of one relation bear a name in the index, the last made; a word borne by more tells little. */
const mostBearers = 60;

/** Gathers names thing by thing, and puts them on shelves. */
export class NameShelves {
  private readonly bearers = new Map<string, Map<number, number>>();

  /** @param thing its number in the index */
  take(thing: number, names: Findable['names']): void {
    for (const { text, as } of names) {
      let borne = this.bearers.get(text);
      if (!borne) this.bearers.set(text, (borne = new Map()));
      // A thing bears a name once, in the relation that says most.
      const relation = relations.indexOf(as);
      const before = borne.get(thing);
      if (before === undefined || before > relation) borne.set(thing, relation);
    }
  }

  /** Names by shelf. @param letters by how many letters shelves are told apart */
  end(letters: number): ReadonlyMap<string, readonly ShelvedName[]> {
    const shelves = new Map<string, ShelvedName[]>();
    for (const [text, borne] of this.bearers) {
      const kept = relations.flatMap((_, relation) =>
        [...borne].filter(([, as]) => as === relation).slice(-mostBearers),
      );
      const name: ShelvedName = [text, kept.flat()];
      for (const shelf of new Set(searchWords(text).map((word) => shelfOf(word, letters)))) {
        const names = shelves.get(shelf);
        if (names) names.push(name);
        else shelves.set(shelf, [name]);
      }
    }
    return shelves;
  }
}
