// What reacts with much, by its name: acids, bleaches, oxidisers, alkalis, solvents, and what is sold for a use.
import { once } from '../../once.js';
import { productsByUse, respeltInWords } from '../../reagents/index.js';
import { reactiveWordsTable } from '../../tables/compiled/reckoning/told/reactive-words.js';
import { anyOfWords, SmallLetterPattern } from './words-as-pattern.js';

/** Words before a class that name no member of it: `of the nitrate`. */
const beforeClass = 'the|a|an|of|with|and|or|by|no|any|its|this|that|as|in|into|to|for|more|some';
// Runs of blanks are not gone over without end.
const noMember = String.raw`(?<!(?<![a-zß-ɏ])(?:${beforeClass})\s{1,9})`;

/** What names something that reacts with much; `bleach*` of the table stands for `bleaching` too. */
const reactive = once(() => {
  const words = (isClass: boolean): string =>
    anyOfWords(reactiveWordsTable().flatMap((row) => (row.needs_another === isClass ? [row.word] : [])));
  return new SmallLetterPattern(
    String.raw`(?<![a-zß-ɏ])(?:${words(false)}|${noMember}(?<=[a-zß-ɏ]\s{1,9})${words(true)})`,
  );
});

function isReactiveRespelt(words: string): boolean {
  const respelt = respeltInWords(words);
  return respelt !== words && reactive().test(respelt);
}

/** Whether words name something that reacts with much. @example isReactive('household bleach') // true */
export const isReactive = (words: string): boolean =>
  reactive().test(words) || productsByUse(words).length > 0 || isReactiveRespelt(words);
