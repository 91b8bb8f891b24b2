// Words of a sentence that say how a name beside them is meant, or that are part of none.
import { sentenceWordsTable, type SentenceWordsRow } from '../../tables/compiled/reagents/contents/sentence-words.js';
import { inSmallLetters } from '../../small-letters.js';
import { preparedByKey } from '../../tables/prepared.js';

type SentenceWord = SentenceWordsRow['says'];

const bySaying = preparedByKey<readonly string[]>('words-of-sentences', () => {
  const found = new Map<string, string[]>();
  for (const { word, says } of sentenceWordsTable()) found.set(says, [...(found.get(says) ?? []), word]);
  return found;
});

/** The words that say this. @example wordsThatSay('not-there').includes('instead of') // true */
export const wordsThatSay = (what: SentenceWord): readonly string[] => bySaying(what) ?? [];

/** As a pattern for text in small letters, in which `*` of the table stands for any one word. */
export const patternThatSays = (what: SentenceWord): string =>
  wordsThatSay(what)
    .map((words) => inSmallLetters(words).replaceAll('*', String.raw`\w+`))
    .join('|');
