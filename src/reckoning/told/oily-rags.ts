// Oily rags as words tell of them: what lies spread flat, hangs singly or is under water does not heat itself.
import { says } from './around-words.js';
import { sentencesOf } from './told-work.js';

/** Whether a name is that of rags. */
export const isRags = (name: string): boolean => says('rags', name);

/**
 * Whether all that words say of rags is that they lie spread or under water.
 * @example ragsLieSafely('Oily rags spread flat on the line.') // true
 * @example ragsLieSafely('Oily rags in a heap by the bucket of water.') // false
 */
export function ragsLieSafely(words: string): boolean {
  const sentences = sentencesOf(words);
  const ofRags = sentences.filter(isRags);
  // `Then I put them in a bag.`
  const ofThem = sentences.filter((one, at) => at > 0 && isRags(sentences[at - 1]!) && says('rags-again', one));
  return (
    ofRags.length > 0 &&
    ofRags.every((one) => says('rags-safe', one)) &&
    ![...ofRags, ...ofThem].some((one) => says('rags-unsafe', one))
  );
}
