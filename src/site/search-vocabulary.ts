// The journal's own words: by them a misspelt one is noticed, and the nearest is offered.
import type { CountedWords } from './search-counts.js';
import { shelfOf } from './search-key.js';
import { partOfThing, partsFor } from './search-parts.js';

/** Words under one letter, the commonest first. */
export interface Vocabulary {
  /** Words that stand in texts. */
  readonly texts: readonly string[];
  /** Words that stand in names only. */
  readonly names: readonly string[];
  /**
   * Of each word of texts the parts of the index in which it stands, as the sum of 2 to the power of their numbers: the
   * library finds something else in the others. There where there are several parts.
   */
  readonly parts?: readonly number[];
}

/** So many words are kept of one letter. */
const mostWords = 1500;

/** A word of a name counts as much as so many in a text: names are what is looked for. */
const nameCounts = 4;

interface Counted {
  times: number;
  /** How many things of each part have it in their texts. */
  readonly texts: number[];
}

/** How much each word counts, and how many things of each part have it in their texts. */
export type Counts = readonly (readonly [word: string, times: number, ...texts: number[]])[];

interface Shelf {
  readonly texts: string[];
  readonly names: string[];
  readonly parts: number[];
}

/** Gathers words thing by thing. */
export class VocabularyCount {
  private readonly counted: Map<string, Counted>;
  private readonly parts: number;

  /**
   * @param things how many there are in all
   * @param counts of things that were taken before
   */
  constructor(
    private readonly things: number,
    counts: Counts = [],
  ) {
    this.parts = partsFor(things);
    this.counted = new Map(counts.map(([word, times, ...texts]) => [word, { times, texts }]));
  }

  /** @param thing its number */
  take(thing: number, { texts, names }: CountedWords): void {
    this.count(names, nameCounts);
    this.count(texts, 1, { part: partOfThing(thing, this.things), more: 1 });
  }

  /** Takes back what a thing was counted with. */
  takeBack(thing: number, { texts, names }: CountedWords): void {
    this.count(names, -nameCounts);
    this.count(texts, -1, { part: partOfThing(thing, this.things), more: -1 });
  }

  get counts(): Counts {
    return [...this.counted].map(([word, { times, texts }]) => [word, times, ...texts]);
  }

  /** Words by their first letter; numbers are nobody's misspelling, but are known. */
  end(): ReadonlyMap<string, Vocabulary> {
    const byLetter = new Map<string, Shelf>();
    const inOrder = [...this.counted].sort(([one, x], [other, y]) => y.times - x.times || (one < other ? -1 : 1));
    for (const [word, { texts }] of inOrder) {
      const letter = shelfOf(word, 1);
      const shelf = byLetter.get(letter) ?? { texts: [], names: [], parts: [] };
      const parts = texts.reduce((sum, things, part) => (things > 0 ? sum + 2 ** part : sum), 0);
      const isOfTexts = parts > 0 && !/^\d{1,3}$/.test(word);
      const list = isOfTexts ? shelf.texts : shelf.names;
      if (list.length < mostWords) {
        list.push(word);
        if (isOfTexts) shelf.parts.push(parts);
      }
      byLetter.set(letter, shelf);
    }
    return this.parts > 1
      ? byLetter
      : new Map([...byLetter].map(([letter, { texts, names }]) => [letter, { texts, names }]));
  }

  /** @param worth of each time @param inTexts of which part so many things more have them in their texts */
  private count(words: CountedWords['texts'], worth: number, inTexts?: { part: number; more: number }): void {
    for (const [word, times] of words) {
      let one = this.counted.get(word);
      if (!one) this.counted.set(word, (one = { times: 0, texts: Array.from({ length: this.parts }, () => 0) }));
      one.times += times * worth;
      if (inTexts) one.texts[inTexts.part]! += inTexts.more;
      if (one.times === 0) this.counted.delete(word);
    }
  }
}
