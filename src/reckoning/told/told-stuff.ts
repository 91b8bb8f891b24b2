// Stuff that only the write-up or words beside the steps tell of, and that could be a danger with what the entry lists.
import { dangerGroupsIn } from '../../hazards/index.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import { textsIn } from './left-out.js';
import { isReactive } from './reactive.js';
import { sentencesOf } from './told-work.js';

/** Whether words name what reacts with much, or what takes part in any danger. */
const mayBeADanger = (words: string): boolean => isReactive(words) || dangerGroupsIn(words).size > 0;

/** Sentences of the write-up that name something that could be a danger, as they are read. */
export const dangerousSentences = forEntry(({ body }: Pick<Entry, 'body'>): readonly string[] =>
  sentencesOf(body).filter(mayBeADanger),
);

/** Words under a key that is none of the work's own. */
export interface WordsBeside {
  readonly words: string;
  readonly path: Path;
}

const keysBeside = ['question', 'answer', 'if-it-goes-wrong', 'failed', 'abandoned', 'withdrawn'] as const;

/** What keys beside the steps tell: precautions, notes, incidents, what was seen. Ideas are not done yet. */
function wordsBeside(entry: Entry): readonly WordsBeside[] {
  const { precautions, samples, heating, reagents, incidents, corrections = [] } = entry;
  const beside: WordsBeside[] = [];
  const told = (value: unknown, ...path: Path): void => {
    if (value === undefined) return;
    for (const words of textsIn(value)) beside.push({ words, path });
  };
  for (const key of keysBeside) told(entry[key], key);
  precautions.forEach((one, at) => told(one.do, 'precautions', at, 'do'));
  samples.forEach(({ note, looks }, at) => {
    told(note, 'samples', at, 'note');
    told(looks, 'samples', at, 'looks');
  });
  heating.forEach(({ note }, at) => told(note, 'heating', at, 'note'));
  reagents.forEach(({ note }, at) => told(note, 'reagents', at, 'note'));
  incidents.forEach(({ what, learned }, at) => {
    told(what, 'incidents', at, 'what');
    told(learned, 'incidents', at, 'learned');
  });
  corrections.forEach((one, at) => told(one, 'corrections', at));
  return beside;
}

/** What the words of samples tell: in what they differ, what was noted. What goes in there meets what they hold. */
export const wordsOfSamples = forEntry(({ samples }: Entry): readonly (WordsBeside & { readonly sample: string })[] =>
  samples.flatMap(({ sample, differs, note }, at) =>
    Object.entries({ differs, note }).flatMap(([key, value]) =>
      value === undefined ? [] : textsIn(value).map((words) => ({ words, path: ['samples', at, key], sample })),
    ),
  ),
);

/** Those of the words beside the steps that name something that could be a danger. */
export const dangerousBeside = forEntry((entry: Entry): readonly WordsBeside[] =>
  wordsBeside(entry).filter(({ words }) => mayBeADanger(words)),
);
