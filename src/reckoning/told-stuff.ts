// Stuff that only the write-up or words beside the steps tell of, and that could be a danger with what the entry lists.
import { once, onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import { reactiveWordsTable } from '../tables/compiled/reckoning/reactive-words.js';
import { textsIn } from './left-out.js';
import { heatTold } from './told-heat.js';
import { anyOfWords } from './words-as-pattern.js';

/** Words before a class that name no member of it: `of the nitrate`. */
const beforeClass = 'the|a|an|of|with|and|or|by|no|any|its|this|that|as|in|into|to|for|more|some';
const noMember = String.raw`(?<!(?<!\p{L})(?:${beforeClass})\s+)`;

/** What names something that reacts with much; `bleach*` of the table stands for `bleaching` too. */
const reactive = once(() => {
  const words = (isClass: boolean): string =>
    anyOfWords(reactiveWordsTable().flatMap((row) => (row.needs_another === isClass ? [row.word] : [])));
  return new RegExp(String.raw`(?<!\p{L})(?:${words(false)}|${noMember}(?<=\p{L}\s+)${words(true)})`, 'iu');
});

/** Whether words name something that reacts with much. @example isReactive('household bleach') // true */
export const isReactive = (words: string): boolean => reactive().test(words);

/** Words as they are read: of a link and a part its label. */
const asRead = (body: string): string => body.replace(/\]\([^)]*\)/g, ']').replace(/:[a-z]+\[([^\]]*)\]/g, '$1');

/** Sentences of the write-up that name something reactive, as they are read. */
export const reactiveSentences = onceFor(({ body }: Pick<Entry, 'body'>): readonly string[] =>
  isReactive(body)
    ? asRead(body)
        .split(/(?<=[.!?])\s+|\n+/)
        .filter(isReactive)
    : [],
);

/** All of a write-up that has a part in what is reckoned: its hottest word of heat, what it names that reacts. */
export const toldInWords = onceFor((entry: Entry): string =>
  [heatTold(entry)?.words ?? '', ...reactiveSentences(entry)].join('\n').trim(),
);

/** Words under a key that is none of the work's own. */
export interface WordsBeside {
  readonly words: string;
  readonly path: Path;
}

/** What keys beside the steps tell: precautions, notes, incidents, what was seen. Ideas are not done yet. */
function wordsBeside(entry: Entry): readonly WordsBeside[] {
  const { precautions, samples, heating, reagents, incidents, corrections = [] } = entry;
  const keys = ['question', 'answer', 'if-it-goes-wrong', 'failed', 'abandoned', 'withdrawn'] as const;
  const all: readonly (readonly [words: unknown, ...path: Path])[] = [
    ...keys.map((key) => [entry[key], key] as const),
    ...precautions.map((one, at) => [one.do, 'precautions', at, 'do'] as const),
    ...samples.flatMap((one, at) => [
      [one.note, 'samples', at, 'note'] as const,
      [one.looks, 'samples', at, 'looks'] as const,
    ]),
    ...heating.map((one, at) => [one.note, 'heating', at, 'note'] as const),
    ...reagents.map((one, at) => [one.note, 'reagents', at, 'note'] as const),
    ...incidents.flatMap((one, at) => [
      [one.what, 'incidents', at, 'what'] as const,
      [one.learned, 'incidents', at, 'learned'] as const,
    ]),
    ...corrections.map((one, at) => [one, 'corrections', at] as const),
  ];
  return all.flatMap(([value, ...path]) => textsIn(value).map((words) => ({ words, path })));
}

/** Those of the words beside the steps that name something reactive. */
export const reactiveBeside = onceFor((entry: Entry): readonly WordsBeside[] =>
  wordsBeside(entry).filter(({ words }) => isReactive(words)),
);
