// The words by which a write-up tells of work, as patterns.
import { once } from '../../once.js';
import { toldWorkTable, type ToldWorkRow } from '../../tables/compiled/reckoning/told/told-work.js';
import { fromItsBeginning } from './words-as-pattern.js';

type Says = ToldWorkRow['says'];

/** Words of the table that say one of these. */
export const toldWordsFor = (...what: readonly Says[]): readonly string[] =>
  toldWorkTable().flatMap(({ words, says }) => (what.includes(says) ? [words] : []));

/** Words of the table, each to its end, for a pattern. */
export const anyToldWord = (...what: readonly Says[]): string => `${fromItsBeginning(toldWordsFor(...what))}[a-zß-ɏ]*`;

/** What may stand between a verb and what it puts in: `a good dose of`; for a pattern that ends there. */
export const gapToName = once(
  () => String.raw`(?:[\s'’]+(?:\d+(?:[.,]\d+)?(?:\s?(?:ml|g|l))?|${anyToldWord('gap', 'much', 'about')}))*[\s'’]*$`,
);
