// The words of what can be found, as they are compared, and how often each stands there.
import { memoise } from '../memoise.js';
import { littleWords, searchWords } from './search-key.js';

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

/** Most names are those of jars and pigments, which many things bear. */
const wordsOfName = memoise((text: string) => text, searchWords, 5000);

export function countWords({ thing, names, words }: Worded): CountedWords {
  return {
    texts: timesOf(searchWords(`${thing.title} ${words}`)),
    names: timesOf(names.flatMap(({ text }) => wordsOfName(text))),
  };
}

function timesOf(words: readonly string[]): readonly (readonly [word: string, times: number])[] {
  const times = new Map<string, number>();
  for (const word of words) times.set(word, (times.get(word) ?? 0) + 1);
  return [...times];
}

/** A word counts so often on one page and no oftener: what is said twice is what the page is about. */
const mostTimes = 2;

/**
 * Words as the library is given them: as they are compared, each next to its repetitions, without those that tell
 * nothing: the little ones, and the digits of decimals (the numbers of entries are names).
 * A first query loads half as much as with the text as it stands.
 */
export function indexedWords({ texts }: Pick<CountedWords, 'texts'>): string {
  return texts
    .filter(([word]) => !littleWords.has(word) && !/^\d{1,3}$/.test(word))
    .sort(([word], [other]) => (word < other ? -1 : 1))
    .map(([word, times]) => `${word} `.repeat(Math.min(mostTimes, times)))
    .join('');
}
