// What a sentence names: every stuff, product or class that its words hold, and whether it is said to be there or is
// only spoken of (`instead of bleach`, `smells of ammonia`, `a bleach bottle`).
import { memoise } from '../../memoise.js';
import { dryComposition } from '../constituents.js';
import { itemsOf, type Item } from './items.js';
import type { Meaning } from './lexicon.js';
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
const notThere = new RegExp(
  String.raw`\b(?:no|not|never|without|instead of|rather than|in place of|unlike|free of|free from|avoid(?:ing)?|nor|` +
    String.raw`neither|don't|dont|do not|away from|apart from|like|than|smell(?:s|ed|ing)?(?: \w+)? (?:of|like)|` +
    String.raw`st(?:inks?|ank|inking) of|reek(?:s|ed|ing)? of|colour of|color of|look of|looks?|` +
    String.raw`keep(?:s|ing)? from|kept from|near|nothing that|as \w+ as|test(?:s|ed)? for|` +
    String.raw`ohne|kein\w*|nie|niemals|nicht|statt|wie|sans|pas de|jamais|au lieu de|comme)` +
    String.raw`(?: (?:the|a|an|any|some|more|to|into|in|with|of|der|die|das|dem|den|le|la|les|du|de|d'))*(?: \w+)?$`,
  'i',
);

/** Behind a name these make it something else: a vessel, a colour, a smell. */
const isOfIt = new RegExp(
  String.raw`^(?:` +
    String.raw`bottles?|jars?|jugs?|cans?|tins?|beakers?|dish(?:es)?|spoons?|rods?|spatulas?|pans?|` +
    String.raw`plates?|trays?|sheets?|wires?|pots?|crucibles?|tubes?|funnels?|filters?|papers?|cloths?|` +
    String.raw`vessels?|bowls?|mortars?|pestles?|lids?|foil|tongs|hotplate|muffle|kiln|oven|yellow|` +
    String.raw`green|blue|red|brown|white|black|violet|coloured|colored|smells?|stinks?|odou?rs?|` +
    String.raw`fumes?|colou?rs?|shade|free|proof|resistant|side|works?|shed|test` +
    String.raw`)\b`,
  'i',
);

/** Stuffs that vessels and tools are made of, and words that mean something else besides. */
const ordinary: ReadonlySet<string> = new Set(
  (
    'glass, paper, filter paper, wood, brick, stone, sand, plastic, steel, stainless steel, iron, cast ' +
    'iron, copper, tin, lead, silver, gold, brass, bronze, aluminium, aluminum, foil, porcelain, ceramic, ' +
    'clay, cloth, cotton, linen, muslin, wool, cork, rubber, wax, oil, salt, metal, rust, air, oxygen, ' +
    'ash, ashes, dust, milk, tea, coffee, sugar, butter, cream, lime, chalk, spirit, spirits, base, gas, ' +
    'soot, coal, charcoal, straw, leather, tape, nylon, polythene, polyethylene, mud, soil, earth, ' +
    'mercury, fat, honey, egg, bread, flour, rice, fabric, felt, cardboard, newspaper, kitchen paper, ' +
    'coffee filter, tissue, towel, tea towel, crucible, crucibles, moss, pottery, compost, compost heap, ' +
    'mortar'
  ).split(', '),
);

/** Names in a list of reagents that are none in a sentence. */
const noNames: ReadonlySet<string> = new Set(
  (
    'leaf, leave, leaves, sink, sinks, drain, drains, ph, no, sweepings, slime, solution, solid, solids, ' +
    'powder, precipitate, side, skin, hair'
  ).split(', '),
);

const wordsOf = (items: readonly Item[]): string => items.map((item) => ('text' in item ? item.text : '')).join(' ');

/** How far before a name it is looked for what is said of it. */
const reach = 6;

function isOnlySpokenOf(items: readonly Item[], at: number, { text }: NameItem): boolean {
  const since = items.slice(0, at).findLastIndex(({ kind }) => kind === 'comma') + 1;
  const before = wordsOf(items.slice(Math.max(since, at - reach), at)).trim();
  const after = wordsOf(items.slice(at + 1, at + 3)).trim();
  return notThere.test(before) || isOfIt.test(after) || ordinary.has(text.toLowerCase());
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
    const items = itemsOf(tokensOf(sentence), true);
    return items.flatMap((item, at): NameInWords[] => {
      if (item.kind !== 'name' || noNames.has(item.text.toLowerCase())) return [];
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
