// Stuffs that a write-up sets up in two vessels and leaves there: `In the first jar sulfide, in the second citric acid.
// Both stay shut.`
import { once } from '../../once.js';
import { anyToldWord as any } from './told-work-words.js';
import { SmallLetterPattern } from './words-as-pattern.js';

const patterns = {
  first: once(() => new SmallLetterPattern(any('first-vessel'))),
  other: once(() => new SmallLetterPattern(any('other-vessel'))),
  /** Whatever moves something may bring one to the other. */
  moves: once(() => new SmallLetterPattern(any('puts', 'ends', 'ends-in', 'together', 'fetched', 'deed', 'goes'))),
  notSo: once(() => new SmallLetterPattern(any('not'))),
  shut: once(() => new SmallLetterPattern(any('stays-apart'))),
};

/**
 * Whether sentences set up two vessels and say that they stay apart, and nothing in them brings one to the other.
 * @example standApart(['In the first jar bleach.', 'In the second acid.', 'Both stay shut.']) // true
 */
export function standApart(sentences: readonly string[]): boolean {
  const all = sentences.join(' ');
  const first = patterns.first().placeIn(all);
  if (!first || !patterns.other().placeIn(all, first.to) || !patterns.shut().test(all)) return false;
  return sentences.every((one) => !patterns.moves().test(one) || patterns.notSo().test(one) || isVessel(one));
}

/** What is put into its own vessel is not moved from it. */
const isVessel = (sentence: string): boolean => patterns.first().test(sentence) !== patterns.other().test(sentence);
