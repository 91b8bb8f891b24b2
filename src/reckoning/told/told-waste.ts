// What the words of a waste tell: whether anything is done before it goes away.
import { once } from '../../once.js';
import { wasteWordsTable, type WasteWordsRow } from '../../tables/compiled/reckoning/told/waste-words.js';
import { patternOfWords, type SmallLetterPattern } from './words-as-pattern.js';

/** Words that say so; `neutral*` of the table stands for `neutralised` too. */
const pattern = (says: WasteWordsRow['says']): SmallLetterPattern =>
  patternOfWords(wasteWordsTable().flatMap((row) => (row.says === says ? [row.words] : [])));
const patterns = once(() => ({
  away: pattern('away'),
  ground: pattern('ground'),
  kept: pattern('kept'),
  stands: pattern('stands'),
}));

/**
 * Whether all that is said of a waste is that it goes away: nothing of it is kept, collected or made harmless before.
 * @example goesAwayAsItIs('Down the sink.') // true
 * @example goesAwayAsItIs('Dried in a bucket, the rest feeds the tomatoes.') // true
 * @example goesAwayAsItIs('Copper is brought down with soda, the clear liquor goes to the drain.') // false
 */
export function goesAwayAsItIs(waste: string): boolean {
  const { away, ground, kept, stands } = patterns();
  if (kept.test(waste)) return false;
  return ground.test(waste) || (away.test(waste) && !stands.test(waste));
}
