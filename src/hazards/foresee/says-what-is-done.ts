// Whether the words under `do:` say what is done about a hazard: `ok`, `careful` and `see above` do not, and fewer than
// four words do not either.
import { memoise } from '../../memoise.js';
import { emptyAnswersTable } from '../../tables/compiled/hazards/foresee/empty-answers.js';

/** Fewer words than these are no answer: common practice, no source. */
const fewestWords = 4;

let segmenter: Intl.Segmenter | undefined;

/** The same words are asked about several times in one entry, and dividing them takes long. */
const divided = new Map<string, readonly string[]>();
const mostDivided = 500;

function wordsOf(text: string): readonly string[] {
  const before = divided.get(text);
  if (before) return before;
  if (divided.size >= mostDivided) divided.clear();
  const words = dividedInWords(text);
  divided.set(text, words);
  return words;
}

/** Small letters and signs that never stand within a word: every run of letters is a word. */
const plainWords = /^(?:[a-z\s,;()!?-]|\.(?=\s|$))*$/;

/** Words of letters, in small letters; scripts written without spaces are divided as well. */
function dividedInWords(text: string): readonly string[] {
  const plain = text.toLowerCase();
  // The segmenter is slow to load, and plain text does not need it.
  if (plainWords.test(plain)) return plain.match(/[a-z]+/g) ?? [];
  segmenter ??= new Intl.Segmenter('en', { granularity: 'word' });
  return [...segmenter.segment(text.normalize('NFC').toLowerCase().replaceAll('’', "'"))]
    .filter(({ isWordLike, segment }) => isWordLike && /\p{L}/u.test(segment))
    .map(({ segment }) => segment);
}

interface EmptyPhrase {
  readonly phrase: string;
  readonly first: string;
}
let phrases: readonly EmptyPhrase[] | undefined;
/** The longest first, so that `not needed` is taken out whole. */
const emptyPhrases = (): readonly EmptyPhrase[] =>
  (phrases ??= emptyAnswersTable()
    .map(({ words }) => ({ phrase: ` ${words.replaceAll(' ', '  ')} `, first: words.split(' ', 1)[0]! }))
    .sort((a, b) => b.phrase.length - a.phrase.length));

/** Words that are left when those that say nothing are taken out. */
function tellingWords(words: readonly string[], against: string): readonly string[] {
  const hazard = new Set(wordsOf(against));
  const other = words.filter((word) => !hazard.has(word));
  const there = new Set(other);
  let left = ` ${other.join('  ')} `;
  for (const { phrase, first } of emptyPhrases()) if (there.has(first)) left = left.replaceAll(phrase, '  ');
  // Classes of all scripts take long to compile, and plain text does not need them.
  const plain = /^[\0-\x7f]*$/.test(left);
  return left.split(' ').filter((word) => (plain ? /[a-z]{2}/i.test(word) : /\p{L}{2}|\p{Script=Han}/u.test(word)));
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
export const whyNoAnswer = (words: string, against = ''): NoAnswer | undefined => whyNotOnce([words, against]);

/** The same answer is asked about for each hazard that it names. */
const whyNotOnce = memoise(
  (said: readonly [words: string, against: string]) => said.join('\n'),
  ([words, against]) => whyNot(words, against),
  500,
);

function whyNot(words: string, against: string): NoAnswer | undefined {
  const all = wordsOf(words);
  if (tellingWords(all, against).length === 0) return 'nothing';
  return all.length < fewestWords ? 'too-short' : undefined;
}

/** Whether the words under `do:` say what is done. */
export const isAnswer = (words: string, against = ''): boolean => whyNoAnswer(words, against) === undefined;
