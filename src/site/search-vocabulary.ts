// The journal's own words: by them a misspelt one is noticed, and the nearest is offered.
import type { CountedWords } from './search-counts.js';
import { shelfOf } from './search-key.js';

/** Words under one letter, the commonest first. */
export interface Vocabulary {
  /** Words that stand in texts. */
  readonly texts: readonly string[];
  /** Words that stand in names only. */
  readonly names: readonly string[];
}

/** So many words are kept of one letter. */
const mostWords = 1500;

/** A word of a name counts as much as so many in a text: names are what is looked for. */
const nameCounts = 4;

interface Counted {
  times: number;
  /** How many things have it in their texts. */
  texts: number;
}

/** How much each word counts, and how many things have it in their texts. */
export type Counts = readonly (readonly [word: string, times: number, texts: number])[];

/** Gathers words thing by thing. */
export class VocabularyCount {
  private readonly counted: Map<string, Counted>;

  /** @param counts of things that were taken before */
  constructor(counts: Counts = []) {
    this.counted = new Map(counts.map(([word, times, texts]) => [word, { times, texts }]));
  }

  take({ texts, names }: CountedWords): void {
    this.count(names, nameCounts, 0);
    this.count(texts, 1, 1);
  }

  /** Takes back what a thing was counted with. */
  takeBack({ texts, names }: CountedWords): void {
    this.count(names, -nameCounts, 0);
    this.count(texts, -1, -1);
  }

  get counts(): Counts {
    return [...this.counted].map(([word, { times, texts }]) => [word, times, texts]);
  }

  /** Words by their first letter; numbers are nobody's misspelling, but are known. */
  end(): ReadonlyMap<string, Vocabulary> {
    const byLetter = new Map<string, { texts: string[]; names: string[] }>();
    const inOrder = [...this.counted].sort(([one, x], [other, y]) => y.times - x.times || (one < other ? -1 : 1));
    for (const [word, { texts }] of inOrder) {
      const letter = shelfOf(word, 1);
      const shelf = byLetter.get(letter) ?? { texts: [], names: [] };
      const list = texts > 0 && !/^\d{1,3}$/.test(word) ? shelf.texts : shelf.names;
      if (list.length < mostWords) list.push(word);
      byLetter.set(letter, shelf);
    }
    return byLetter;
  }

  /** @param worth of each time @param things by how many things more */
  private count(words: CountedWords['texts'], worth: number, things: number): void {
    for (const [word, times] of words) {
      let one = this.counted.get(word);
      if (!one) this.counted.set(word, (one = { times: 0, texts: 0 }));
      one.times += times * worth;
      one.texts += things;
      if (one.times === 0) this.counted.delete(word);
    }
  }
}
