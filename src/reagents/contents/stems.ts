// What words say by their stems, wherever they stand in a phrase: `shaken through the fine sieve`, `sieve it, shaking`.
import { stemReadingsTable, type StemReadingsRow } from '../../tables/compiled/reagents/contents/stem-readings.js';
import { stemWordsTable } from '../../tables/compiled/reagents/contents/stem-words.js';
import { preparedByKey } from '../../tables/prepared.js';

export type StemKind = StemReadingsRow['kinds'][number];

/** Forms of a verb: `sieve`, `sieves`, `sieved`, `sieving`; `cut`, `cutting`; forms that no verb has do no harm. */
function formsOf(verb: string): readonly string[] {
  const last = verb.at(-1)!;
  const forms = [verb, `${verb}s`, `${verb}es`, `${verb}ed`, `${verb}ing`, `${verb}${last}ed`, `${verb}${last}ing`];
  if (last === 'e') return [...forms, `${verb}d`, `${verb.slice(0, -1)}ing`];
  return last === 'y' ? [...forms, `${verb.slice(0, -1)}ies`, `${verb.slice(0, -1)}ied`] : forms;
}

/** The stems that each word belongs to. */
const stemsOfWord = preparedByKey<readonly string[]>('stems-by-word', () => {
  const found = new Map<string, string[]>();
  for (const { stem, verbs, words } of stemWordsTable())
    for (const word of new Set([...verbs.flatMap(formsOf), ...words]))
      found.set(word, [...(found.get(word) ?? []), stem]);
  return found;
});

/** A year of a label: what bears it is old. */
const yearLongAgo = /^(?:1[89]\d\d|200\d)s?$/;

const stemsOf = (word: string): readonly string[] => stemsOfWord(yearLongAgo.test(word) ? '<year>' : word) ?? [];

/** Words that take back one of the two behind them: `not sieved`, `never quite shut`. */
const takesBack = /^(?:not|never|without|no|nor|un|isnt|wasnt|dont|wont)$/;
const reach = 2;

const wordsOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .replace(/['’]/g, '')
    .split(/[^a-z0-9-]+/)
    .filter((word) => word !== '');

function isTold({ all_of: all, unless }: StemReadingsRow, stems: ReadonlySet<string>): boolean {
  for (const one of all) if (!stems.has(one)) return false;
  return !unless.some((one) => stems.has(one));
}

export interface ToldByStems {
  readonly kinds: readonly StemKind[];
  readonly celsius?: number;
}

/**
 * What the stems in a phrase say of what is done, and of what is around it.
 * @example toldByStems('shaken through the fine sieve').kinds // ['airborne']
 */
export function toldByStems(text: string): ToldByStems {
  const words = wordsOf(text);
  const stems = new Set(
    words
      .filter((_, at) => !words.slice(Math.max(0, at - reach), at).some((before) => takesBack.test(before)))
      .flatMap(stemsOf),
  );
  if (stems.size === 0) return { kinds: [] };
  const readings = stemReadingsTable().filter((reading) => isTold(reading, stems));
  const hottest = Math.max(...readings.map(({ celsius }) => celsius ?? -Infinity));
  return {
    kinds: [...new Set(readings.flatMap(({ kinds }) => kinds))],
    ...(Number.isFinite(hottest) && { celsius: hottest }),
  };
}

const isFormOfVerb = preparedByKey<true>('verb-forms', () =>
  stemWordsTable().flatMap(({ verbs }) => verbs.flatMap(formsOf).map((form) => [form, true] as const)),
);

/** Whether a word says what is done: a form of one of those verbs. @example isDeedWord('hacksawing') // true */
export const isDeedWord = (word: string): boolean => isFormOfVerb(word.toLowerCase()) === true;
