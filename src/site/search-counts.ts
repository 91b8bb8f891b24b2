// The words of what can be found, as they are compared, and how often each stands there.
import { searchWords } from './search-key.js';

/** How often each word stands in what a page shows, and in what a thing is called. */
export interface CountedWords {
  readonly texts: readonly (readonly [word: string, times: number])[];
  readonly names: readonly (readonly [word: string, times: number])[];
}

/** What words are counted in. */
interface Worded {
  readonly thing: { readonly title: string };
  readonly names: readonly { readonly text: string }[];
  readonly words: string;
}

export function countWords({ thing, names, words }: Worded): CountedWords {
  return {
    texts: timesOf(searchWords(`${thing.title} ${words}`)),
    names: timesOf(names.flatMap(({ text }) => searchWords(text))),
  };
}

function timesOf(words: readonly string[]): readonly (readonly [word: string, times: number])[] {
  const times = new Map<string, number>();
  for (const word of words) times.set(word, (times.get(word) ?? 0) + 1);
  return [...times];
}
