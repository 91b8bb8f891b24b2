// What the words of a waste tell: whether anything is done before it goes away.
import { once } from '../../once.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import { wasteWordsTable, type WasteWordsRow } from '../../tables/compiled/reckoning/told/waste-words.js';
import { asToldAround, asWorked } from './told-work.js';
import { patternOfWords, type SmallLetterPattern } from './words-as-pattern.js';
import { wordsOfStep } from '../steps.js';

/** Words that say so; `neutral*` of the table stands for `neutralised` too. */
const pattern = (says: WasteWordsRow['says']): SmallLetterPattern =>
  patternOfWords(wasteWordsTable().flatMap((row) => (row.says === says ? [row.words] : [])));
const patterns = once(() => ({
  away: pattern('away'),
  ground: pattern('ground'),
  kept: pattern('kept'),
  stands: pattern('stands'),
  liquor: pattern('liquor'),
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

/**
 * Whether a waste that is not kept goes to soil, plants or animals.
 * @example goesOntoGround('The washings feed the tomatoes.') // true
 */
export const goesOntoGround = (waste: string): boolean => patterns().ground.test(waste) && !patterns().kept.test(waste);

/** Other water that runs to a drain. */
const otherWater = /cool|condens|bath|kühl|refroid|refriger|raffredd|hands|hände|mains|manos|mani/i;

/**
 * The sentences of steps in which washings or another liquor goes away as it is; where no step is listed, those of the
 * write-up.
 */
export const liquorGoingAway = forEntry((entry: Entry): readonly string[] =>
  (asToldAround(asWorked(entry)).steps ?? [])
    .map(wordsOfStep)
    .filter((words) => patterns().liquor.test(words) && goesAwayAsItIs(words) && !otherWater.test(words)),
);
