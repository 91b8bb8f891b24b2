// What a sentence names: every stuff, product or class that its words hold, and whether it is said to be there or is
// only spoken of (`instead of bleach`, `smells of ammonia`, `a bleach bottle`).
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import { dryComposition } from '../constituents.js';
import { inEnglish } from '../other-languages.js';
import { itemsOf, type Item } from './items.js';
import type { Meaning } from './lexicon.js';
import { patternThatSays, wordsThatSay } from './sentence-words.js';
import { tokensOf } from './tokens.js';

/** Something that a sentence names. */
export interface NameInWords {
  /** Its name, in English; with the strength or the amount that stands beside it. */
  readonly text: string;
  readonly name: string;
  /** What it may be: dry compositions of all that is in it together, one list for each thing that it may mean. */
  readonly mayBe: readonly (readonly string[])[];
  /** It is a word for a whole class: `acid`, `nitrite`. */
  readonly isClass: boolean;
  /** Spoken of, and not said to be there. */
  readonly onlySpokenOf: boolean;
}

type NameItem = Extract<Item, { kind: 'name' }>;

function compositionsOf(meaning: Meaning): readonly (readonly string[])[] {
  if (meaning.kind === 'stuff') return [[dryComposition(meaning.formula)]];
  if (meaning.kind === 'class') return meaning.formulas.map((formula) => [dryComposition(formula)]);
  return meaning.variants.map(({ contents }) => contents.map(({ formula }) => dryComposition(formula)));
}

/** Before a name these say that it is not there, or only what something is like. */
const notThere = once(
  () =>
    new RegExp(String.raw`\b(?:${patternThatSays('not-there')})(?: (?:${patternThatSays('between')}))*(?: \w+)?$`, 'i'),
);

/** Behind a name these make it something else: a vessel, a colour, a smell. */
const isOfIt = once(() => new RegExp(String.raw`^(?:${patternThatSays('of-it')})\b`, 'i'));

/** Stuffs that vessels and tools are made of, and words that mean something else besides. */
const ordinary = once((): ReadonlySet<string> => new Set(wordsThatSay('ordinary')));

/** Names in a list of reagents that are none in a sentence. */
const noNames = once((): ReadonlySet<string> => new Set(wordsThatSay('no-name')));

/** `d'acide`, `l'eau`: the French article in short. */
const elided = /(?<!\p{L})(?:d|l|qu)['’](?=\p{L})/giu;

const wordsOf = (items: readonly Item[]): string => items.map((item) => ('text' in item ? item.text : '')).join(' ');

/** How far before a name it is looked for what is said of it. */
const reach = 6;

function isOnlySpokenOf(items: readonly Item[], at: number, { text }: NameItem): boolean {
  const since = items.slice(0, at).findLastIndex(({ kind }) => kind === 'comma') + 1;
  const before = wordsOf(items.slice(Math.max(since, at - reach), at)).trim();
  const after = wordsOf(items.slice(at + 1, at + 3)).trim();
  // Behind a name of another language it is an adjective: `vinaigre blanc`.
  const isOfAnother = isOfIt().test(after) && inEnglish(text) === undefined;
  return notThere().test(before) || isOfAnother || ordinary().has(text.toLowerCase());
}

const told: ReadonlySet<string> = new Set([
  'mass',
  'volume',
  'drops',
  'mass-percent',
  'mass-volume-percent',
  'concentration',
]);

/** A quantity that stands beside a name: `sulfuric acid 20 %`. */
function besides(items: readonly Item[], at: number): string {
  const beside = items[at + 1];
  return beside?.kind === 'quantity' && told.has(beside.quantity.dimension) ? ` ${beside.quantity.written}` : '';
}

/**
 * What a sentence names.
 * @example namesInWords('Boiled out with battery acid.').map(({ name }) => name) // ['battery acid']
 */
export const namesInWords = memoise(
  (sentence: string) => sentence,
  (sentence): readonly NameInWords[] => {
    const items = itemsOf(tokensOf(sentence.replace(elided, '')), true);
    return items.flatMap((item, at): NameInWords[] => {
      if (item.kind !== 'name' || noNames().has(item.text.toLowerCase())) return [];
      const { meaning, text } = item;
      return [
        {
          text: `${text}${besides(items, at)}`,
          name: text,
          mayBe: compositionsOf(meaning),
          isClass: meaning.kind === 'class',
          onlySpokenOf: isOnlySpokenOf(items, at, item),
        },
      ];
    });
  },
  2000,
);
