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
  inText: boolean;
}

/** Gathers words thing by thing. */
export class VocabularyCount {
  private readonly counted = new Map<string, Counted>();

  take({ texts, names }: CountedWords): void {
    this.count(names, nameCounts, false);
    this.count(texts, 1, true);
  }

  /** Words by their first letter; numbers are nobody's misspelling, but are known. */
  end(): ReadonlyMap<string, Vocabulary> {
    const byLetter = new Map<string, { texts: string[]; names: string[] }>();
    const inOrder = [...this.counted].sort(([one, x], [other, y]) => y.times - x.times || (one < other ? -1 : 1));
    for (const [word, { inText }] of inOrder) {
      const letter = shelfOf(word, 1);
      const shelf = byLetter.get(letter) ?? { texts: [], names: [] };
      const list = inText ? shelf.texts : shelf.names;
      if (list.length < mostWords) list.push(word);
      byLetter.set(letter, shelf);
    }
    return byLetter;
  }

  private count(words: CountedWords['texts'], worth: number, inText: boolean): void {
    for (const [word, times] of words) {
      let one = this.counted.get(word);
      if (!one) this.counted.set(word, (one = { times: 0, inText: false }));
      one.times += times * worth;
      one.inText ||= inText && !/^\d{1,3}$/.test(word);
    }
  }
}
