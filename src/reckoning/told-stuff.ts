// Stuff that only the write-up tells of, and that could be a danger with what the entry lists.
import { once, onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import { reactiveWordsTable } from '../tables/compiled/reckoning/reactive-words.js';
import { heatTold } from './told-heat.js';

/** Words before a class that name no member of it: `of the nitrate`. */
const beforeClass = 'the|a|an|of|with|and|or|by|no|any|its|this|that|as|in|into|to|for|more|some';
const noMember = String.raw`(?<!(?<!\p{L})(?:${beforeClass})\s+)`;

/** What names something that reacts with much; `bleach*` of the table stands for `bleaching` too. */
const reactive = once(() => {
  const words = (isClass: boolean): string =>
    reactiveWordsTable()
      .flatMap((row) => (row.needs_another === isClass ? [row.word.replace('*', String.raw`\p{L}*`)] : []))
      .join('|');
  const names = String.raw`(?:${words(false)})|${noMember}(?<=\p{L}\s+)(?:${words(true)})`;
  return new RegExp(String.raw`(?<!\p{L})(?:${names})(?!\p{L})`, 'iu');
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
