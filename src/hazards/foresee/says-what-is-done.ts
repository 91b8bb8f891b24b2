// Whether the words under `do:` say what is done about a hazard: `ok`, `careful` and `see above` do not, and fewer than
// four words do not either.
import { emptyAnswersTable } from '../../tables/compiled/hazards/foresee/empty-answers.js';

/** Fewer words than these are no answer: common practice, no source. */
const fewestWords = 4;

let segmenter: Intl.Segmenter | undefined;

/** Words of letters, in small letters; scripts written without spaces are divided as well. */
function wordsOf(text: string): readonly string[] {
  segmenter ??= new Intl.Segmenter('en', { granularity: 'word' });
  return [...segmenter.segment(text.normalize('NFC').toLowerCase().replaceAll('’', "'"))]
    .filter(({ isWordLike, segment }) => isWordLike && /\p{L}/u.test(segment))
    .map(({ segment }) => segment);
}

let phrases: readonly string[] | undefined;
/** The longest first, so that `not needed` is taken out whole. */
const emptyPhrases = (): readonly string[] =>
  (phrases ??= emptyAnswersTable()
    .map(({ words }) => ` ${words.replaceAll(' ', '  ')} `)
    .sort((a, b) => b.length - a.length));

/** Words that are left when those that say nothing are taken out. */
function tellingWords(words: readonly string[], against: string): readonly string[] {
  const hazard = new Set(wordsOf(against));
  let left = ` ${words.filter((word) => !hazard.has(word)).join('  ')} `;
  for (const phrase of emptyPhrases()) left = left.replaceAll(phrase, '  ');
  return left.split(' ').filter((word) => /\p{L}{2}|\p{Script=Han}/u.test(word));
}

/** Why words are no answer: they say nothing of what is done, or they are too few to say it. */
export type NoAnswer = 'nothing' | 'too-short';

/**
 * Why the words under `do:` do not say what is done; undefined where they may. Repeating the hazard's own name says
 * nothing either.
 * @param against what the words are to answer
 * @example whyNoAnswer('be careful with the fumes', 'brown fumes') // 'nothing'
 * @example whyNoAnswer('A mask.', 'dust') // 'too-short'
 * @example whyNoAnswer('Outdoors, a drop at a time.', 'brown fumes') // undefined
 */
export function whyNoAnswer(words: string, against = ''): NoAnswer | undefined {
  const all = wordsOf(words);
  if (tellingWords(all, against).length === 0) return 'nothing';
  return all.length < fewestWords ? 'too-short' : undefined;
}

/** Whether the words under `do:` say what is done. */
export const isAnswer = (words: string, against = ''): boolean => whyNoAnswer(words, against) === undefined;
