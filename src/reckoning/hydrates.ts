// Salts that are usually sold with water of crystallisation: written without it, they get a question.
import { once } from '../once.js';
import { dryWordsTable } from '../tables/compiled/reckoning/dry-words.js';

export { usualHydrate } from '../reagents/index.js';

const dryWords = once(() => {
  const words = dryWordsTable().map(({ words: one }) => (one.endsWith('*') ? one.slice(0, -1) : `${one}(?![a-z])`));
  return new RegExp(`(?<![a-z])(?:${words.join('|')})`);
});

/**
 * Whether words of a maker say that a salt is free of water.
 * @example saysDry('Natriumcarbonat wasserfrei') // true
 */
export const saysDry = (words: string): boolean => dryWords().test(words.toLowerCase());
