// Every name that a sentence may hold, by one of its words: who looks for names finds none of them in a sentence that
// lacks that word.
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { inSmallLetters } from '../../small-letters.js';
import { misspeltWordsTable } from '../../tables/compiled/reagents/contents/misspelt-words.js';
import { everyForeignName, foreignKey, inEnglish } from '../other-languages.js';
import { everyName, formulaMeaning, meaningOf, type Meaning } from './lexicon.js';
import { phraseKey } from './phrase-key.js';
import { respeltWord } from './respelt-in-words.js';
import { patternThatSays, wordsThatSay } from './sentence-words.js';

/** A name in its table, with the words that it is found by. */
export interface NameByWord {
  /** Its other words, which a sentence has to hold too. */
  readonly others: readonly string[];
  readonly meaning: Meaning;
  /** It is an ordinary word too, and only named where something is put in: `iron`, `paper`. */
  readonly isOrdinary: boolean;
}

/** Where words of names in other languages lie: none is taken for an English one. */
const inOtherLanguage = (word: string): string => `~${word}`;

/** A word without its marks: `d.o.v.`, `fort.`. */
const withoutMarks = (word: string): string => word.replace(/[^\p{L}\p{N}]/gu, '');

/** Every name by its words. */
function* everyNameByWords(): Iterable<readonly [words: readonly string[], meaning: Meaning]> {
  for (const [key, meaning] of everyName()) yield [key.split(' ').map(withoutMarks), meaning];
  for (const { word, meant } of misspeltWordsTable()) {
    const meaning = meaningOf(meant);
    if (meaning) yield [phraseKey(word).split(' ').map(withoutMarks), meaning];
  }
  for (const [name, english] of everyForeignName()) {
    const meaning = meaningOf(english);
    if (meaning) yield [name.split(' ').map(inOtherLanguage), meaning];
  }
}

/** No name is found by these: they stand in sentence after sentence. */
const joins = once((): ReadonlySet<string> => new Set(wordsThatSay('joins')));

/** By each word the names that are found by it, of several words by that which stands in fewest names. */
export const namesByWord = once((): ReadonlyMap<string, readonly NameByWord[]> => {
  const ordinary = new Set(wordsThatSay('ordinary').map(phraseKey));
  const all = [...everyNameByWords()];
  const often = new Map<string, number>();
  for (const [words] of all) for (const word of words) often.set(word, (often.get(word) ?? 0) + 1);
  const howCommon = (word: string): number => (joins().has(word) || word.length < 3 ? Infinity : often.get(word)!);
  const found = new Map<string, NameByWord[]>();
  for (const [words, meaning] of all) {
    const rarest = words.reduce((one, other) => (howCommon(other) < howCommon(one) ? other : one));
    const others = words.filter((word) => word !== rarest);
    const one = { others, meaning, isOrdinary: ordinary.has(words.join(' ')) };
    found.set(rarest, [...(found.get(rarest) ?? []), one]);
  }
  return found;
});

/** What a word has to be looked up by: as a word of an English name, of another language's, as it is in English. */
const keysOfWord = memoise(
  (written: string) => written,
  (written): readonly string[] => {
    // `l'acide`: what stands before the apostrophe may be an article.
    const asWritten = written.replace(/^[a-z]{1,5}['’](?=[a-zß-ɏ]{3})/, '');
    const word = respeltWord(asWritten) ?? asWritten;
    const [key, foreign, english] = [phraseKey(word), foreignKey(word), inEnglish(word)];
    const inEnglishWords = english === undefined ? [] : phraseKey(english).split(' ');
    const own = [...key.split(' ').map(withoutMarks), ...foreign.split(' ').map(inOtherLanguage)];
    return [...new Set([...own, ...inEnglishWords])].filter((one) => one !== '');
  },
  20_000,
);

const word = /[a-zß-ɏ\d]+(?:[.'’‘`´-][a-zß-ɏ\d]+)*(?:\([iv]+\))?/g;

/** Each key that a name which stands in some words is found by, and more. */
export const keysInWords = (words: string): ReadonlySet<string> =>
  new Set((inSmallLetters(words).match(word) ?? []).flatMap(keysOfWord));

/** `KMnO4`, `HCl`: two capitals, or a capital and a figure. */
const mayBeFormula = /(?<![\p{L}\d])[A-Z(][A-Za-z(]*[A-Z\d][\w()[\]{}.·*]*/gu;

/** Formulae in words, as what they mean. */
export const formulaeInWords = (words: string): readonly Meaning[] =>
  (words.match(mayBeFormula) ?? []).flatMap((text) => formulaMeaning(text) ?? []);

/** `sulfuro de sodio`, `nitrato di potassio`: put together from parts, and in no table. */
const saltOf = /(?<![a-zß-ɏ])[a-zß-ɏ]+(?:uro|ato|ito|ido|ure|ate|ite|yde) d(?:[ei]l? |['’])[a-zß-ɏ]+/g;

/** Salts in words of other languages that no table has as a whole, as what they mean. */
export const saltsInWords = (words: string): readonly Meaning[] =>
  (inSmallLetters(words).match(saltOf) ?? []).flatMap((name) => meaningOf(inEnglish(name) ?? '') ?? []);

const putsIn = once(() => new RegExp(String.raw`\b(?:${patternThatSays('put-in')})\b`));

/** Whether words say of anything that it goes in, so that an ordinary word may name a stuff. */
export const saysOfAnythingThatItGoesIn = (words: string): boolean => putsIn().test(inSmallLetters(words));
