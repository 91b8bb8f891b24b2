// The words of a phrase as what they are: names, quantities, words of state, and words that nothing knows.
import { parseQuantity, type Quantity } from '../../chemistry/index.js';
import { memoise } from '../../memoise.js';
import { once } from '../../once.js';
import {
  beginningWith,
  longestName,
  meaningOf,
  phraseWordOf,
  wordsKnown,
  isWordKnown,
  type Meaning,
  type PhraseWord,
} from './lexicon.js';
import { phraseKey } from './phrase-key.js';
import { wordsThatSay } from './sentence-words.js';
import { nearestWords } from './spelling.js';
import { isDeedWord } from './stems.js';
import type { Token } from './tokens.js';

export type Item =
  | {
      readonly kind: 'name';
      readonly meaning: Meaning;
      readonly text: string;
      readonly depth: number;
      readonly respelt?: true;
    }
  | {
      readonly kind: 'state';
      readonly word: PhraseWord;
      readonly text: string;
      readonly depth: number;
      readonly byForm?: true;
    }
  | { readonly kind: 'quantity'; readonly quantity: Quantity; readonly depth: number }
  | { readonly kind: 'unknown'; readonly text: string; readonly depth: number }
  | { readonly kind: 'comma' | 'open' | 'close'; readonly depth: number };

const textAt = (tokens: readonly Token[], from: number, to: number): string | undefined => {
  const words = tokens.slice(from, to);
  return words.length === to - from && words.every((word) => word.kind === 'word')
    ? words.map((word) => (word.kind === 'word' ? word.text : '')).join(' ')
    : undefined;
};

interface Taken {
  readonly item: Item;
  readonly words: number;
}

/** `200 C`, `180 degrees`, `350 F`: a temperature, as it is typed. */
const degrees =
  /^([~≈<>≥≤]?)(\d+(?:[.,]\d+)?)\s*(?:(?:°|º|deg\.?|degrees?)\s*(C|celsius|centigrade|F|fahrenheit)?|(C|celsius|F|fahrenheit))$/i;

function withDegrees(text: string): string {
  const [, sign = '', value = '', scale, alone] = degrees.exec(text) ?? [];
  if (value === '' || /\d\s*[cf]$/.test(text)) return text;
  const isFahrenheit = /^f/i.test(scale ?? alone ?? '');
  return isFahrenheit ? `${sign}${Math.round((Number(value) - 32) / 1.8)} °C` : `${sign}${value} °C`;
}

/** A quantity that begins at a word. */
function quantityAt(tokens: readonly Token[], at: number): Taken | undefined {
  const first = textAt(tokens, at, at + 1);
  if (first === undefined || !/^[~≈<>≥≤]?\.?\d/.test(first)) return undefined;
  for (const words of [3, 2, 1]) {
    const text = textAt(tokens, at, at + words);
    const read = text === undefined ? undefined : parseQuantity(withDegrees(text));
    if (read?.ok) return { item: { kind: 'quantity', quantity: read.value, depth: tokens[at]!.depth }, words };
  }
  return undefined;
}

/** The words that stand together from a place on, as many as a name has at most. */
function wordsFrom(tokens: readonly Token[], at: number): readonly string[] {
  const words: string[] = [];
  for (let next = at; next < at + longestName; next += 1) {
    const token = tokens[next];
    if (token?.kind !== 'word') break;
    words.push(token.text);
  }
  return words;
}

/** How many of some words are in the longest that the tables have of what begins with the first. */
function longestOf(words: readonly string[], longest: number): number {
  let keyed = 0;
  for (const [at, word] of words.entries()) {
    // An apostrophe alone is no word of a key.
    if (beginningWith(word).key !== '') keyed += 1;
    if (keyed > longest) return at;
  }
  return words.length;
}

/** The longest name or words of state that begin at a word; a name goes before words of state of the same length. */
function knownAt(tokens: readonly Token[], at: number): Taken | undefined {
  const texts = wordsFrom(tokens, at);
  if (texts.length === 0) return undefined;
  const { depth } = tokens[at]!;
  const { longest, isComposed } = beginningWith(texts[0]!);
  const inTables = longestOf(texts, longest);
  // `nitrate of lead` begins with no metal.
  const isComposable = isComposed || texts[1]?.toLowerCase() === 'of';
  for (let words = isComposable ? texts.length : Math.max(inTables, 1); words > 0; words -= 1) {
    const text = words === 1 ? texts[0]! : texts.slice(0, words).join(' ');
    const meaning = meaningOf(text);
    if (meaning) return stateBeforeName(tokens, at, words) ?? { item: { kind: 'name', meaning, text, depth }, words };
    const word = words <= inTables ? phraseWordOf(text) : undefined;
    if (word) return { item: { kind: 'state', word, text, depth }, words };
  }
  return undefined;
}

/** `strong nitric acid`: a state before a name that is longer than what both begin, `strong nitric`. */
function stateBeforeName(tokens: readonly Token[], at: number, words: number): Taken | undefined {
  const first = words > 1 ? textAt(tokens, at, at + 1) : undefined;
  const word = first === undefined ? undefined : phraseWordOf(first);
  if (first === undefined || !word) return undefined;
  const next = knownAt(tokens, at + 1);
  if (next?.item.kind !== 'name' || next.item.meaning.kind !== 'stuff' || next.words < words) return undefined;
  return { item: { kind: 'state', word, text: first, depth: tokens[at]!.depth }, words: 1 };
}

const ignored: PhraseWord = { kinds: new Set(['ignore']) };

/** Words of these kinds say nothing of what a thing is or what is done with it. */
const saysLittle: ReadonlySet<string> = new Set(['ignore', 'shape', 'product']);

/** `lime-fast`, `vinegar-coloured`, `acid-proof`: what it bears or looks like, and not what it is. */
const saysOnlyHow = /^(?:fast|proof|resistant|coloured|colored|like|tinted|hued|kettle|stable)$/i;

/**
 * A compound that nothing knows as a whole: the stuff that it begins with (`cadmium-plated`), or what its last word
 * says of a state (`screw-capped`).
 */
function ofCompound(text: string, depth: number): Item | undefined {
  const [, first = '', last = ''] = /^([A-Za-z]+(?:-[a-z]+)*)-([a-z]{4,})$/.exec(text) ?? [];
  const word = last === '' || saysOnlyHow.test(last) ? undefined : phraseWordOf(last);
  if (!word) return undefined;
  const meaning = meaningOf(first);
  if (meaning) return { kind: 'name', meaning, text: first, depth };
  const isState = [...word.kinds].some((kind) => !saysLittle.has(kind));
  return isState ? { kind: 'state', word, text: last, depth } : undefined;
}

/**
 * Words by their form that name no stuff: numbers, what was done with it (`poured`, `standing`), how (`slowly`), and
 * what is said not to be in it (`lead-free`).
 */
const isPlainByForm = (text: string): boolean =>
  /^[\d\W_]+$/.test(text) ||
  /^\d+(?:[.,]\d+)?[a-zA-Z%°³]{1,3}$/.test(text) ||
  /^[a-z]{3,}(?:ed|ing|ly)$/i.test(text) ||
  /^.{2,}-free$/i.test(text) ||
  /^non-/i.test(text) ||
  /^[A-Za-z]$/.test(text);

/** How far behind the first word of a name a misspelt one is put right: `black oxide of manganes`. */
const respeltWithin = 4;

/**
 * Spellings of a word that nothing knows: as it stands, and without the `s` that may be no plural. Every name that it
 * may be part of asks for them.
 */
const spellingsOf: (word: string) => readonly string[] = memoise((word) => word, lookForSpellings, 2000);

function lookForSpellings(word: string): readonly string[] {
  const key = phraseKey(word);
  if (isWordKnown(key)) return [];
  const plain = word.toLowerCase();
  const asItStands = plain === key ? [] : nearestWords(plain, wordsKnown);
  return [...new Set([...nearestWords(key, wordsKnown), ...asItStands])];
}

/** A misspelt word put right in the name that begins here, the first of its words or one of the next; or undefined. */
function respeltAt(tokens: readonly Token[], at: number): Taken | undefined {
  for (let wrong = at; wrong < at + respeltWithin; wrong += 1) {
    const word = textAt(tokens, wrong, wrong + 1);
    if (word === undefined) return undefined;
    for (const spelling of spellingsOf(word)) {
      const tried = tokens.map(
        (token, place): Token => (place === wrong && token.kind === 'word' ? { ...token, text: spelling } : token),
      );
      const taken = knownAt(tried, at);
      if (taken?.item.kind === 'name' && taken.words > wrong - at)
        return { item: { ...taken.item, respelt: true }, words: taken.words };
    }
  }
  return undefined;
}

/** Endings of the second word of a salt's name, also where the last letter was forgotten. */
const endsAsSalt = /[a-z]{2}(?:[aiy]te?|[iy]de?|[a-z]te)s?$/i;

const radical = /^[a-z]{2,}yl$/i;

const isElement = ({ meaning }: Extract<Item, { kind: 'name' }>): boolean =>
  meaning.kind === 'stuff' && /^[A-Z][a-z]?$/.test(meaning.formula);

/** A name of two words of which the second is misspelt: `sodium carbnate`. */
function respeltSaltAt(tokens: readonly Token[], at: number, next: string): Taken | undefined {
  for (const spelling of nearestWords(phraseKey(next), wordsKnown)) {
    const tried = tokens.map(
      (token, place): Token => (place === at + 1 && token.kind === 'word' ? { ...token, text: spelling } : token),
    );
    const taken = knownAt(tried, at);
    if (taken?.item.kind === 'name' && taken.words > 1) return { ...taken, item: { ...taken.item, respelt: true } };
  }
  return undefined;
}

/**
 * An element's name before a word that nothing knows, and that ends as a salt's does: the salt, if it is only misspelt
 * (`sodium carbnate`), or one that nothing knows (`sodium alginate`), and never the metal.
 */
function saltOfElementAt(tokens: readonly Token[], at: number, { item, words }: Taken): Taken | undefined {
  if (item.kind !== 'name' || !isElement(item)) return undefined;
  const next = textAt(tokens, at + words, at + words + 1);
  if (next === undefined || knownAt(tokens, at + words)) return undefined;
  const last = textAt(tokens, at + words + 1, at + words + 2);
  // `potassium amyl xanthogenate`: an organic radical stands between.
  if (radical.test(next) && last !== undefined && endsAsSalt.test(last))
    return { item: { kind: 'unknown', text: `${item.text} ${next} ${last}`, depth: item.depth }, words: words + 2 };
  if (!endsAsSalt.test(next)) return undefined;
  const respelt = words === 1 ? respeltSaltAt(tokens, at, next) : undefined;
  if (respelt) return respelt;
  return { item: { kind: 'unknown', text: `${item.text} ${next}`, depth: item.depth }, words: words + 1 };
}

/** Words of a bracket that may be the rest of a name. */
const longestRest = 3;

/** `manganese (dioxide)`, `lead (red)`: a bracket behind an element that holds nothing but the rest of a name. */
function nameInBracketAt(tokens: readonly Token[], at: number, { item, words }: Taken): Taken | undefined {
  if (item.kind !== 'name' || !isElement(item) || tokens[at + words]?.kind !== 'open') return undefined;
  const from = at + words + 1;
  const close = tokens.findIndex(({ kind }, place) => place >= from && kind !== 'word');
  const rest = textAt(tokens, from, close);
  if (rest === undefined || rest === '' || tokens[close]?.kind !== 'close' || close - from > longestRest)
    return undefined;
  for (const text of [`${item.text} ${rest}`, `${rest} ${item.text}`, `${rest} of ${item.text}`]) {
    const meaning = meaningOf(text);
    if (meaning) return { item: { kind: 'name', meaning, text, depth: item.depth }, words: close + 1 - at };
  }
  return undefined;
}

const removers = /^(?:removers?|killers?|cleaners?|repell[ae]nts?|dissolvers?|strippers?|unblockers?)$/i;
/** What is cleaned, dissolved or kept away: a metal, stone, rust, or what grows; never an acid, a salt or water. */
const isCleaned = ({ meaning }: Extract<Item, { kind: 'name' }>): boolean =>
  meaning.kind === 'stuff' &&
  /^(?:[A-Z][a-z]?|CaCO3|SiO2|Fe2O3|CaSO4.*|Al2Si2.*|C\d+H\d+(?:N\d+)?O\d+)$/.test(meaning.formula);

/** `marble cleaner`, `moss remover`: something that nothing knows, and not the marble. */
function removerAt(tokens: readonly Token[], at: number, { item, words }: Taken): Taken | undefined {
  if (item.kind !== 'name' || !isCleaned(item)) return undefined;
  const next = textAt(tokens, at + words, at + words + 1);
  if (next === undefined || !removers.test(next)) return undefined;
  return { item: { kind: 'unknown', text: `${item.text} ${next}`, depth: item.depth }, words: words + 1 };
}

const without = /^(?:(.{3,})-free|non-(.{4,}?)(?:ated)?)$/i;

/** Formulae that a thing is made without; of chlorine those that bleach, for the element may be in a salt. */
function isWithout(formula: string, meaning: Meaning): boolean {
  if (meaning.kind === 'product')
    return meaning.variants.some(({ contents }) => contents.some((one) => one.formula === formula));
  if (meaning.kind === 'class') return meaning.formulas.includes(formula);
  if (meaning.formula === 'Cl2') return /ClO|OCl|Cl2O/.test(formula);
  if (!/^[A-Z][a-z]?$/.test(meaning.formula)) return meaning.formula === formula;
  return new RegExp(`${meaning.formula}(?![a-z])`).test(formula);
}

/** What `ammonia-free`, `non-ammoniated` names, as far as it is known. */
function thatIsMissing(text: string): Meaning | undefined {
  const [, free, non] = without.exec(text) ?? [];
  if (free !== undefined) return meaningOf(free);
  return non === undefined ? undefined : (meaningOf(non) ?? meaningOf(`${non}a`));
}

type NameItem = Extract<Item, { kind: 'name' }>;

/** Of the kinds of a product that are sold, those without something; undefined where that leaves all or none. */
function itemWithout(item: NameItem, missing: Meaning): NameItem | undefined {
  const { meaning } = item;
  if (meaning.kind !== 'product') return undefined;
  const variants = meaning.variants.filter(({ contents }) => !contents.some((one) => isWithout(one.formula, missing)));
  const isOther = variants.length > 0 && variants.length < meaning.variants.length;
  return isOther ? { ...item, meaning: { ...meaning, variants } } : undefined;
}

/** `ammonia-free glass cleaner`. */
function productWithout(tokens: readonly Token[], at: number): Taken | undefined {
  const text = textAt(tokens, at, at + 1);
  const missing = text === undefined ? undefined : thatIsMissing(text);
  const next = missing && knownAt(tokens, at + 1);
  const item = next?.item.kind === 'name' ? itemWithout(next.item, missing!) : undefined;
  return item && { item: { ...item, text: `${text} ${item.text}` }, words: next!.words + 1 };
}

/** `glass cleaner (ammonia-free)`. */
function freeBehind(tokens: readonly Token[], at: number, { item, words }: Taken): Taken | undefined {
  const [open, word, close] = tokens.slice(at + words, at + words + 3);
  if (open?.kind !== 'open' || word?.kind !== 'word' || close?.kind !== 'close') return undefined;
  const missing = thatIsMissing(word.text);
  if (!missing || item.kind !== 'name') return undefined;
  const without = itemWithout(item, missing);
  return without && { item: { ...without, text: `${item.text} (${word.text})` }, words: words + 3 };
}

/** A name that the words behind it make another thing. */
const otherThan = (tokens: readonly Token[], at: number, named: Taken): Taken | undefined =>
  nameInBracketAt(tokens, at, named) ?? saltOfElementAt(tokens, at, named) ?? removerAt(tokens, at, named);

/** No name begins with one of these words, or ends in one: most words of a sentence need not be looked up. */
const joinsWords = once((): ReadonlySet<string> => new Set(wordsThatSay('joins')));
const isJoining = (text: string): boolean => joinsWords().has(text.toLowerCase());

/** Tokens that may belong to the name that begins at a place: up to the end of what stands together. */
function upToLastWord(tokens: readonly Token[], at: number): readonly Token[] {
  let end = at;
  for (let next = at; next < at + longestName; next += 1) {
    const token = tokens[next];
    if (token?.kind !== 'word') break;
    if (!isJoining(token.text)) end = next + 1;
  }
  return tokens.slice(0, end);
}

function itemAt(all: readonly Token[], at: number, asSpelt: boolean): Taken {
  const token = all[at]!;
  if (token.kind !== 'word') return { item: token, words: 1 };
  const { text, depth } = token;
  if (asSpelt && isJoining(text)) return { item: { kind: 'unknown', text, depth }, words: 1 };
  const tokens = asSpelt ? upToLastWord(all, at) : all;
  const named = knownAt(tokens, at) ?? productWithout(tokens, at);
  const quantity = quantityAt(tokens, at);
  // `2K lacquer`, `2 pack paint`: a name that begins with a number, and no quantity of something else.
  const isName = named !== undefined && named.item.kind === 'name' && named.words > (quantity?.words ?? 0);
  const known =
    (isName ? undefined : quantity) ?? (named && (freeBehind(all, at, named) ?? otherThan(tokens, at, named) ?? named));
  if (known) return known;
  const compound = ofCompound(text, depth);
  if (compound) return { item: compound, words: 1 };
  // In a sentence only names are looked for: what a word is that names nothing makes no difference.
  if (asSpelt) return { item: { kind: 'unknown', text, depth }, words: 1 };
  if (isDeedWord(text)) return { item: { kind: 'state', word: ignored, text, depth }, words: 1 };
  if (isPlainByForm(text)) return { item: { kind: 'state', word: ignored, text, depth, byForm: true }, words: 1 };
  return respeltAt(tokens, at) ?? { item: { kind: 'unknown', text, depth }, words: 1 };
}

/**
 * Every word of a phrase, accounted for.
 * @param asSpelt a word that nothing knows is no misspelt name: in a sentence most are none
 */
export function itemsOf(tokens: readonly Token[], asSpelt = false): readonly Item[] {
  const items: Item[] = [];
  for (let at = 0; at < tokens.length; ) {
    const { item, words } = itemAt(tokens, at, asSpelt);
    items.push(item);
    at += words;
  }
  return items;
}
