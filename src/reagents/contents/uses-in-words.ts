// Products that nobody calls by their names: `the stuff for the drains`, `what you clean brickwork with`, `das Zeug für
// den Abfluss`. What is said of their use stands for the product that is sold for it.
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { inSmallLetters } from '../../small-letters.js';
import { usesTable, type UsesRow } from '../../tables/compiled/reagents/contents/uses.js';

/** Words of the table that stand one behind the other; the last may be the beginning of a longer one. */
interface Words {
  readonly words: readonly string[];
  readonly isBeginning: boolean;
  readonly product: string | undefined;
}

interface Saying {
  /** By their first word, the longest first. */
  readonly byFirst: ReadonlyMap<string, readonly Words[]>;
  /** Beginnings of one word. */
  readonly beginnings: readonly Words[];
}

function sayingOf(what: UsesRow['says']): Saying {
  const byFirst = new Map<string, Words[]>();
  const beginnings: Words[] = [];
  for (const { word, says, product } of usesTable()) {
    if (says !== what) continue;
    const small = inSmallLetters(word);
    const one = { words: small.replace('*', '').split(' '), isBeginning: small.endsWith('*'), product };
    if (one.isBeginning && one.words.length === 1) beginnings.push(one);
    else byFirst.set(one.words[0]!, [...(byFirst.get(one.words[0]!) ?? []), one]);
  }
  for (const all of byFirst.values()) all.sort((one, other) => other.words.length - one.words.length);
  return { byFirst, beginnings };
}

const said = memoise((what: UsesRow['says']) => what, sayingOf, 20);

const firstWords = (what: UsesRow['says']) => once((): ReadonlySet<string> => new Set(said(what).byFirst.keys()));
const things = firstWords('thing');
const behind = firstWords('stuff');
const firstOfWhat = firstWords('what');

/** The most words from a place on that say this, if any do. A mark between words is `undefined`. */
function longestAt(
  words: readonly (string | undefined)[],
  at: number,
  ...what: readonly UsesRow['says'][]
): Words | undefined {
  const first = words[at];
  if (first === undefined) return undefined;
  const fits = ({ words: told, isBeginning }: Words): boolean =>
    told.every((word, place) => {
      const here = words[at + place];
      return here === word || (isBeginning && place === told.length - 1 && here?.startsWith(word) === true);
    });
  let longest: Words | undefined;
  for (const one of what) {
    const { byFirst, beginnings } = said(one);
    const found = byFirst.get(first)?.find(fits) ?? beginnings.find(fits);
    if (found && found.words.length > (longest?.words.length ?? 0)) longest = found;
  }
  return longest;
}

const reach = (words: readonly (string | undefined)[], at: number, ...what: readonly UsesRow['says'][]): number =>
  longestAt(words, at, ...what)?.words.length ?? 0;

/** The first place of at most so many words on where one of these stands; no `not` and no mark lies before it. */
function within(
  words: readonly (string | undefined)[],
  from: number,
  most: number,
  ...what: readonly UsesRow['says'][]
): { readonly to: number; readonly product: string | undefined } | undefined {
  for (let at = from; at <= from + most && words[at] !== undefined; at += 1) {
    const found = longestAt(words, at, ...what);
    if (found) return { to: at + found.words.length, product: found.product };
    if (reach(words, at, 'not') > 0) return undefined;
  }
  return undefined;
}

/** A `with` that ends what somebody does with it: `you top up a car battery with`. */
function behindWith(words: readonly (string | undefined)[], at: number): number {
  const next = words[at] === 'with' ? at + 1 : at + 2;
  const isLast = words[next] === undefined || words[next] === 'and' || words[next] === 'then';
  return words[next - 1] === 'with' && isLast ? next : at;
}

interface Use {
  readonly from: number;
  readonly to: number;
  readonly product: string;
}

const use = (
  from: number,
  found: { readonly to: number; readonly product: string | undefined } | undefined,
): Use | undefined => (found?.product === undefined ? undefined : { from, to: found.to, product: found.product });

/** What is done, and few words on where. */
function doneAt(words: readonly (string | undefined)[], at: number): ReturnType<typeof within> {
  const done = reach(words, at, 'cleans');
  return done === 0 ? undefined : within(words, at + done, 5, 'use', 'place');
}

function useAt(words: readonly (string | undefined)[], at: number): Use | undefined {
  const word = words[at]!;
  if (behind().has(words[at + 1] ?? '') || behind().has(words[at + 2] ?? '')) {
    const found = longestAt(words, at, 'use');
    if (found && behind().has(words[at + found.words.length] ?? ''))
      return use(at, { to: at + found.words.length + 1, product: found.product });
  }
  const isThing = things().has(word);
  const what = !isThing && firstOfWhat().has(word) ? reach(words, at, 'what') : 0;
  if (!isThing && what === 0) return undefined;
  let next = at + (isThing ? 1 : what);
  const meant = isThing ? reach(words, next, 'for') : 0;
  if (meant > 0) {
    const done = within(words, next + meant, 3, 'cleans');
    const place = done && within(words, done.to, 5, 'use', 'place');
    const found = use(at, place ?? within(words, next + meant, 4, 'use'));
    if (found) return found;
  }
  for (let whom = 0; whom < 3; whom += 1) next += reach(words, next, 'whom');
  const found = use(at, doneAt(words, next));
  return found && { ...found, to: behindWith(words, found.to) };
}

/** `l'évier`: the article in short. */
const elided = /^(?:l|d|qu|dell|all)['’]/;

function inSmall(text: string): string {
  const small = inSmallLetters(text);
  return small.includes("'") || small.includes('’') ? small.replace(elided, '') : small;
}

/** Where nothing begins a use, there is none: most sentences are asked no more than that. */
const beginsUse = once((): ReadonlySet<string> => new Set([...things(), ...behind(), ...firstOfWhat()]));

/**
 * Which words name a product by its use alone.
 * @param texts words in any letters, a mark between them as `undefined`
 */
export function usesIn(texts: readonly (string | undefined)[]): readonly Use[] {
  const words = texts.map((text) => text && inSmall(text));
  const found: Use[] = [];
  if (!words.some((word) => word !== undefined && beginsUse().has(word))) return found;
  for (let at = 0; at < words.length; at += 1) {
    const here = words[at] === undefined ? undefined : useAt(words, at);
    if (!here) continue;
    found.push(here);
    at = here.to - 1;
  }
  return found;
}

/** What begins a use, anywhere in small letters: most sentences are asked no more than that. */
const mayTellUse = once(() => {
  const begins = usesTable().filter(({ says }) => says === 'thing' || says === 'stuff' || says === 'what');
  return new RegExp(begins.map(({ word }) => inSmallLetters(word).replace('*', '')).join('|'));
});

const wordOrMark = /[^\s,;:.!?()[\]]+|[,;:.!?()[\]]/g;
const isMark = (one: string): boolean => one.length === 1 && ',;:.!?()[]'.includes(one);

/**
 * What a text names by its use alone.
 * @example productsByUse('a tub of the stuff for the drains') // ['drain cleaner']
 */
export function productsByUse(text: string): readonly string[] {
  const small = inSmallLetters(text);
  if (!mayTellUse().test(small)) return [];
  return usesIn((small.match(wordOrMark) ?? []).map((one) => (isMark(one) ? undefined : one))).map(
    ({ product }) => product,
  );
}
