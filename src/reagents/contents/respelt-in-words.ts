// Words of a sentence that are one slip away from what reacts with much: `Salzäure`, `candegina`.
//
// Most words of a sentence name no stuff, so that only long ones are looked at, of few stuffs, and none whose beginning
// or ending is another: `entkalken` is no misspelt `Entkalker`, but a deed.
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { inSmallLetters } from '../../small-letters.js';
import { respeltWordsTable } from '../../tables/compiled/reagents/contents/respelt-words.js';
import { foreignKey, inEnglish } from '../other-languages.js';
import { isWordKnown } from './lexicon.js';
import { phraseKey } from './phrase-key.js';
import { slipsBetween } from './spelling.js';

const shortest = 7;

/** What ends otherwise is another form of a word, or another word (`Salzsäule`); the last two may be swapped. */
function endsAlike(word: string, meant: string): boolean {
  const [last, ofMeant] = [word.slice(-2), meant.slice(-2)];
  if (last === ofMeant || [...last].reverse().join('') === ofMeant) return true;
  return meant.length >= 10 && word.length !== meant.length && last.at(-1) === ofMeant.at(-1);
}

const byFirst = once((): ReadonlyMap<string, readonly string[]> => {
  const found = new Map<string, string[]>();
  for (const { word } of respeltWordsTable()) found.set(word[0]!, [...(found.get(word[0]!) ?? []), word]);
  return found;
});

const isKnown = (word: string): boolean =>
  isWordKnown(phraseKey(word)) || isWordKnown(word) || inEnglish(word) !== undefined || foreignKey(word) === '';

/**
 * What a word of a sentence is meant as, where it is one slip away from what reacts with much; undefined where it is
 * a word of its own.
 * @example respeltWord('salzäure') // 'salzsäure'
 * @example respeltWord('entkalken') // undefined
 */
export const respeltWord: (word: string) => string | undefined = memoise(
  (word: string) => word,
  (word) => {
    const meant = byFirst().get(word[0]!) ?? [];
    if (word.length < shortest || meant.includes(word)) return undefined;
    const near = meant.filter(
      (one) => Math.abs(one.length - word.length) < 2 && endsAlike(word, one) && slipsBetween(word, one, 1) === 1,
    );
    return near.length === 1 && !isKnown(word) ? near[0] : undefined;
  },
  20_000,
);

const longWords = new RegExp(String.raw`[A-Za-zÀ-ɏ]{${shortest},}`, 'g');

/** Words with those put right that are one slip away from what reacts with much. */
export const respeltInWords = (words: string): string =>
  words.replace(longWords, (word) => respeltWord(inSmallLetters(word)) ?? word);
