// The words of steps that tell of what is around a pot, as patterns: a vessel, a closing, dust, what is wet or dry.
import { once } from '../../once.js';
import { aroundWordsTable, type AroundWordsRow } from '../../tables/compiled/reckoning/told/around-words.js';
import { patternOfWords, type SmallLetterPattern } from './words-as-pattern.js';

type AroundWord = AroundWordsRow['says'];

const byWhat = once((): ReadonlyMap<AroundWord, SmallLetterPattern> => {
  const words = new Map<AroundWord, string[]>();
  for (const row of aroundWordsTable()) words.set(row.says, [...(words.get(row.says) ?? []), row.words]);
  return new Map([...words].map(([what, list]) => [what, patternOfWords(list)]));
});

/** The words that tell something, for a pattern that they are a part of. */
export const aroundWordsOf = (what: AroundWord): readonly string[] =>
  aroundWordsTable().flatMap((row) => (row.says === what ? [row.words] : []));

/** The words that tell something, as a pattern. */
export const wordsThatTell = (what: AroundWord): SmallLetterPattern => byWhat().get(what)!;

/** Whether words tell something. @example says('wet', 'ground under water') // true */
export const says = (what: AroundWord, words: string): boolean => wordsThatTell(what).test(words);
