// Samples that differ in more than one thing at once: what comes of it cannot be put down to one of them.
import { once } from '../once.js';
import { inSmallLetters } from '../small-letters.js';
import { differsWordsTable } from '../tables/compiled/journal/differs-words.js';
import type { Entry } from './entry.js';

type Sample = Entry['samples'][number];

/** A pattern of the words of each kind, about small letters. */
const kinds = once(() => {
  const words = new Map<string, string[]>();
  for (const { word, kind } of differsWordsTable()) words.set(kind, [...(words.get(kind) ?? []), inSmallLetters(word)]);
  return Array.from(words, ([kind, all]): readonly [string, RegExp] => {
    const each = all.map((word) => (word.endsWith('*') ? word.slice(0, -1) : `${word}(?![a-zß-ɏ])`));
    return [kind, new RegExp(`(?<![a-zß-ɏ])(?:${each.join('|')})`)];
  });
});

/** The parts of what a sample differs in: `20 °C, slow addition` has two. */
const clausesOf = ({ differs = '' }: Sample): readonly string[] =>
  inSmallLetters(differs)
    .split(/[,;+/]|(?<![a-zß-ɏ])(?:and|und|et|y|for|für|with|mit)(?![a-zß-ɏ])/)
    .map((clause) => clause.trim())
    .filter((clause) => clause !== '');

/** What is done in one clause has its own heat, time and measure: `washed with warm water`, `stirred twice as long`. */
const work = new Set(['washing', 'drying', 'stirring', 'grinding']);
const measureOfWork = new Set(['temperature', 'time', 'amount', 'concentration']);
/** `more slowly` is no amount. */
const measuredByMore = new Set(['time', 'speed of adding', 'concentration', 'pH']);

/** The kinds of things that one clause tells. */
function kindsIn(clause: string): readonly string[] {
  const told = kinds().flatMap(([kind, words]) => (words.test(clause) ? [kind] : []));
  if (told.some((kind) => work.has(kind))) return told.filter((kind) => !measureOfWork.has(kind));
  return told.some((kind) => measuredByMore.has(kind)) ? told.filter((kind) => kind !== 'amount') : told;
}

/** Kinds of things in which two samples are not the same, as far as words and keys tell. */
function kindsBetween(one: Sample, other: Sample): ReadonlySet<string> {
  const [mine, yours] = [clausesOf(one), clausesOf(other)];
  const apart = [
    ...mine.filter((clause) => !yours.includes(clause)),
    ...yours.filter((clause) => !mine.includes(clause)),
  ];
  const told = apart.flatMap(kindsIn);
  const same = (key: 'add' | 'omit' | 'change' | 'heating'): boolean =>
    JSON.stringify(one[key] ?? []) === JSON.stringify(other[key] ?? []);
  const isOtherwiseMade = !same('add') || !same('omit') || !same('change');
  return new Set([
    ...told,
    ...(same('heating') ? [] : ['temperature']),
    // Where words tell something, it is mostly the same that the keys say.
    ...(isOtherwiseMade && told.length === 0 ? ['what went in'] : []),
  ]);
}

/** Two samples of an entry that differ in several things, and no others lie between them. */
export interface DifferInSeveral {
  readonly one: string;
  readonly other: string;
  readonly kinds: readonly string[];
}

/** More samples than these are not compared. */
const mostCompared = 40;

/**
 * The first two samples that differ in several things, where no others lead from one to the other by one thing at a
 * time; undefined where there are none.
 */
export function differInSeveral({ samples }: Pick<Entry, 'samples'>): DifferInSeveral | undefined {
  if (samples.length < 2 || samples.length > mostCompared) return undefined;
  const reached = new Set([0]);
  for (const at of reached)
    for (const [index, sample] of samples.entries())
      if (!reached.has(index) && kindsBetween(samples[at]!, sample).size < 2) reached.add(index);
  const apart = samples.find((_, index) => !reached.has(index));
  if (!apart) return undefined;
  const [first] = samples as [Sample, ...Sample[]];
  return { one: first.sample, other: apart.sample, kinds: [...kindsBetween(first, apart)] };
}
