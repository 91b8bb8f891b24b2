// What of a write-up has a part in what is reckoned.
import type { Entry } from '../../journal/entry.js';
import { usesInBody } from '../../journal/uses-in-body.js';
import { dustOfSteps } from './dust-of-steps.js';
import { forEntry } from './for-entry.js';
import { tellingOfOthers } from './not-of-work.js';
import { aroundTold, wateringBeside } from './told-around.js';
import { heatTold } from './told-heat.js';
import { dangerousSentences } from './told-stuff.js';
import { liquorGoingAway } from './told-waste.js';
import { asToldAround, sentencesOf, setApart, workTold } from './told-work.js';

/** Reagents that only a list or a table of the write-up names; they stand among what was left out. */
const listedInBody = ({ reagents, body }: Entry): readonly string[] =>
  reagents.length > 0 ? [] : usesInBody({ body }).map(({ text }) => text);

/** Whether the write-up tells, beside reagents, what is around a pot, what flies about or what is poured away. */
function tellsAround(entry: Entry): boolean {
  const told = asToldAround(entry);
  if (told === entry) return false;
  return aroundTold(entry).length > 0 || dustOfSteps(told).length > 0 || liquorGoingAway(entry).length > 0;
}

/** Whole and in their order: a word of heat by itself would tell what its sentence does not. */
function sentencesThatMatter(entry: Entry): readonly string[] {
  const dangerous = new Set([...dangerousSentences(entry), ...wateringBeside(entry)]);
  const heat = heatTold(entry)?.words;
  if (heat === undefined && dangerous.size === 0) return [];
  const all = sentencesOf(entry.body);
  const matters = dangerous.size === 0 ? dangerous : new Set([...dangerous, ...tellingOfOthers(all)]);
  const ofHeat = heat === undefined ? undefined : all.find((sentence) => sentence.includes(heat));
  const found = all.filter((one) => one === ofHeat || matters.has(one));
  return heat === undefined || ofHeat !== undefined ? found : [heat, ...found];
}

/**
 * All of a write-up that has a part in what is reckoned, as paragraphs: the sentences of its hottest heat and of what
 * it names that could be a danger; where it tells the work by itself, or what is around the pots, all of it. Read again
 * it tells the same.
 */
export const toldInWords = forEntry((entry: Entry): string => {
  const told =
    workTold(entry).length > 0 || setApart(entry).length > 0 || tellsAround(entry)
      ? sentencesOf(entry.body)
      : [...sentencesThatMatter(entry), ...listedInBody(entry)];
  return told.join('\n\n').trim();
});
