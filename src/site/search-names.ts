// The index of names: every name of every thing, on shelves by the first letters of each of its words, so that a
// question loads only a few of them.
import { relations, type Findable } from './search-things.js';
import { searchWords, shelfOf } from './search-key.js';

/** A name in a shelf's file: its text, then number and relation of each thing that bears it, in turns. */
type ShelvedName = readonly [text: string, bearers: readonly number[]];

/** So many things of one relation bear a name in the index, the last made; a word borne by more tells little. */
const mostBearers = 60;

/** Names by shelf. */
export function shelveNames(all: readonly Findable[], letters: number): ReadonlyMap<string, readonly ShelvedName[]> {
  const bearers = new Map<string, Map<string, [thing: number, relation: number]>>();
  all.forEach(({ names }, thing) => {
    for (const { text, as } of names) {
      const borne = bearers.get(text) ?? new Map<string, [number, number]>();
      // A thing bears a name once, in the relation that says most.
      const relation = relations.indexOf(as);
      const before = borne.get(String(thing));
      if (!before || before[1] > relation) borne.set(String(thing), [thing, relation]);
      bearers.set(text, borne);
    }
  });
  const shelves = new Map<string, ShelvedName[]>();
  for (const [text, borne] of bearers) {
    const kept = relations.flatMap((_, relation) =>
      [...borne.values()].filter(([, as]) => as === relation).slice(-mostBearers),
    );
    const name: ShelvedName = [text, kept.flat()];
    for (const shelf of new Set(searchWords(text).map((word) => shelfOf(word, letters))))
      shelves.set(shelf, [...(shelves.get(shelf) ?? []), name]);
  }
  return shelves;
}
