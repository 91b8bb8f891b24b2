// Hot water that the words of steps put to something dry by its name: `poured boiling water on the caustic soda`.
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import { namesInWords, type NameInWords } from '../../reagents/index.js';
import { says, wordsThatTell } from './around-words.js';
import { itemsFor } from './told-around.js';
import { tellsWashing } from './told-work.js';
import { deniesIt } from './water-onto-acid.js';
import type { VesselItem } from '../vessels.js';
import { wordsOfStep } from '../steps.js';

/** A step that brings hot water. */
export interface HotWater {
  /** The first is 0. */
  readonly step: number;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /** What stands for the water. */
  readonly items: readonly VesselItem[];
  /** What the same step names, and the one before where a word stands for it. */
  readonly names: readonly NameInWords[];
}

/** Asked before the words of the tables are looked for. */
const mayTell = /water|wasser|eau|agua|acqua/i;
const standsForIt = /(?<![a-zß-ɏ])(?:it|them|es|sie|ihn|darauf|darüber|dazu|dessus|encima|sopra|l[aoe]s?)(?![a-zß-ɏ])/i;

/** Whether words put hot water in: not what stands in a bath of it, is rinsed with it, or is kept from it. */
const putsHotWater = (words: string): boolean =>
  mayTell.test(words) &&
  says('hot-water', words) &&
  says('hot-water', wordsThatTell('no-hot-water').replacedIn(words, ' ')) &&
  !tellsWashing(words) &&
  !deniesIt.test(words);

/** Steps of an entry that put hot water to something. */
export const hotWaterIn = forEntry(({ steps = [] }: Pick<Entry, 'steps'>): readonly HotWater[] => {
  const words = steps.map(wordsOfStep);
  return steps.flatMap((step, at): readonly HotWater[] => {
    const here = words[at]!;
    if (!putsHotWater(here)) return [];
    const before = at > 0 && standsForIt.test(here) ? namesInWords(words[at - 1]!) : [];
    const names = [...before, ...namesInWords(here)].filter((one) => !one.onlySpokenOf);
    const sample = typeof step === 'string' ? undefined : step.sample;
    return [
      { step: at, items: itemsFor('hot-water', ['steps', at], at), names, ...(sample !== undefined && { sample }) },
    ];
  });
});
