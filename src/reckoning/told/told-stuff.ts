// Stuff that only the write-up or words beside the steps tell of, and that could be a danger with what the entry lists.
import { once, onceFor } from '../../once.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import { reactiveWordsTable } from '../../tables/compiled/reckoning/told/reactive-words.js';
import { textsIn } from './left-out.js';
import { sentencesOf } from './told-work.js';
import { anyOfWords, SmallLetterPattern } from './words-as-pattern.js';

/** Words before a class that name no member of it: `of the nitrate`. */
const beforeClass = 'the|a|an|of|with|and|or|by|no|any|its|this|that|as|in|into|to|for|more|some';
// Runs of blanks are not gone over without end.
const noMember = String.raw`(?<!(?<![a-zß-ɏ])(?:${beforeClass})\s{1,9})`;

/** What names something that reacts with much; `bleach*` of the table stands for `bleaching` too. */
const reactive = once(() => {
  const words = (isClass: boolean): string =>
    anyOfWords(reactiveWordsTable().flatMap((row) => (row.needs_another === isClass ? [row.word] : [])));
  return new SmallLetterPattern(
    String.raw`(?<![a-zß-ɏ])(?:${words(false)}|${noMember}(?<=[a-zß-ɏ]\s{1,9})${words(true)})`,
  );
});

/** Whether words name something that reacts with much. @example isReactive('household bleach') // true */
export const isReactive = (words: string): boolean => reactive().test(words);

/** Sentences of the write-up that name something reactive, as they are read. */
export const reactiveSentences = onceFor(({ body }: Pick<Entry, 'body'>): readonly string[] =>
  isReactive(body) ? sentencesOf(body).filter(isReactive) : [],
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

/** Stands between texts that are asked about at once: no name reaches over it, and none begins or ends by it. */
const between = '\n.\n';

/** Those of the words beside the steps that name something reactive; of most entries none does, which is asked once. */
export const reactiveBeside = onceFor((entry: Entry): readonly WordsBeside[] => {
  const all = wordsBeside(entry);
  if (!isReactive(all.map(({ words }) => words).join(between))) return [];
  return all.filter(({ words }) => isReactive(words));
});
