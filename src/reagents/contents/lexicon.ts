// Every name that a phrase may hold, from all tables of names: a stuff, a product with all that is sold under its name,
// a class, or a word that says in what state it is.
import { exact, type Decimal } from '../../chemistry/index.js';
import { classWordsTable } from '../../tables/compiled/reagents/contents/class-words.js';
import { phraseWordsTable, type PhraseWordsRow } from '../../tables/compiled/reagents/contents/phrase-words.js';
import { productsTable } from '../../tables/compiled/reagents/contents/products.js';
import { heatWordsTable } from '../../tables/compiled/reagents/heat-words.js';
import { knownSubstancesTable } from '../../tables/compiled/reagents/known-substances.js';
import { namedMaterialsTable } from '../../tables/compiled/reagents/named-materials.js';
import { soldAsTable } from '../../tables/compiled/reagents/sold-as.js';
import { memoise } from '../../memoise.js';
import { preparedByKey, preparedList } from '../../tables/prepared.js';
import { constituents, dryComposition } from '../constituents.js';
import { formulaInAnyCase } from '../formulae-in-any-case.js';
import { materialNamed, mayBeginName } from '../names.js';
import { phraseKey } from './phrase-key.js';
import type { KnownWords } from './spelling.js';

/** One substance that is in a product. */
export interface ProductContent {
  readonly formula: string;
  readonly groups: readonly string[];
  /** Percent by mass at most. */
  readonly percentHigh?: Decimal;
}

/** What is sold together; the variants of a product are sold instead of one another. */
export interface ProductVariant {
  readonly name: string;
  readonly contents: readonly ProductContent[];
}

export type Meaning =
  /** One stuff, under a name that the other tables of this room know. */
  | {
      readonly kind: 'stuff';
      readonly name: string;
      readonly formula: string;
      /** Groups that products.csv adds to what the other tables know. */
      readonly groups?: readonly string[];
    }
  | { readonly kind: 'product'; readonly name: string; readonly variants: readonly ProductVariant[] }
  /** A word for a whole class: each of these is judged. */
  | { readonly kind: 'class'; readonly name: string; readonly formulas: readonly string[] };

export type PhraseWordKind = PhraseWordsRow['kinds'][number];
export interface PhraseWord {
  readonly kinds: ReadonlySet<PhraseWordKind>;
  readonly celsius?: number;
}

type Variants = Map<string, Map<string, ProductContent[]>>;

function productVariants(): Variants {
  const products: Variants = new Map();
  for (const { product, also, variant, formula, groups, percent_high } of productsTable()) {
    const content = { formula, groups, ...(percent_high !== undefined && { percentHigh: exact(percent_high) }) };
    for (const key of new Set([product, ...also].map(phraseKey))) {
      const variants = products.get(key) ?? new Map<string, ProductContent[]>();
      const name = `${product}: ${variant}`;
      variants.set(name, [...(variants.get(name) ?? []), content]);
      products.set(key, variants);
    }
  }
  return products;
}

const contentsKey = (variant: readonly ProductContent[]): string =>
  variant
    .map(({ formula }) => dryComposition(formula))
    .sort()
    .join('+');

/** The same contents under two names of a variant count once, at the strongest. */
function distinctVariants(variants: ReadonlyMap<string, readonly ProductContent[]>): readonly ProductVariant[] {
  const byContents = new Map<string, ProductVariant>();
  for (const [name, contents] of variants) {
    const key = contentsKey(contents);
    const before = byContents.get(key);
    byContents.set(
      key,
      before ? { name: before.name, contents: strongestOf(before.contents, contents) } : { name, contents },
    );
  }
  return [...byContents.values()];
}

const strongestOf = (a: readonly ProductContent[], b: readonly ProductContent[]): readonly ProductContent[] =>
  a.map((content) => {
    const other = b.find(({ formula }) => dryComposition(formula) === dryComposition(content.formula));
    const groups = [...new Set([...content.groups, ...(other?.groups ?? [])])];
    const [own, theirs] = [content.percentHigh, other?.percentHigh];
    if (!own || !theirs) return { formula: content.formula, groups };
    return { formula: content.formula, groups, percentHigh: theirs.gt(own) ? theirs : own };
  });

interface Lexicon {
  readonly meanings: ReadonlyMap<string, Meaning>;
  readonly words: ReadonlyMap<string, PhraseWord>;
}

/** % from which a second content of a blend counts: the zinc of brass, not the drier of an oil. Judgement. */
const countsFrom = exact(10);

const isBlend = ([only]: readonly ProductVariant[]): boolean =>
  only !== undefined &&
  only.contents.length > 1 &&
  only.contents.every(({ percentHigh }) => percentHigh?.gte(countsFrom));

const groupsAdded = (formula: string, variants: readonly ProductVariant[]): readonly string[] =>
  variants
    .flatMap(({ contents }) => contents)
    .filter((content) => dryComposition(content.formula) === dryComposition(formula))
    .flatMap(({ groups }) => groups);

const varying = (): ReadonlySet<string> =>
  new Set(
    namedMaterialsTable()
      .filter(({ varies }) => varies)
      .flatMap(({ name, also }) => [name, ...also].map(phraseKey)),
  );

function stuffs(): Map<string, Meaning> {
  const found = new Map<string, Meaning>();
  const add = (written: string, name: string, formula: string): void => {
    const key = phraseKey(written);
    if (key !== '' && !found.has(key)) found.set(key, { kind: 'stuff', name, formula });
  };
  for (const { name, also, formula } of namedMaterialsTable())
    for (const one of [name, ...also]) add(one, one, formula);
  for (const { name, also, formula } of soldAsTable())
    if (formula !== undefined) for (const one of [name, ...also]) add(one, one, formula);
  for (const { name, synonyms, formula, group } of knownSubstancesTable())
    if (!group && formula[0] !== undefined)
      for (const one of [name, ...synonyms]) add(one.replace(/…\s*%/g, ''), name, formula[0]);
  return found;
}

function build(): Lexicon {
  const meanings = stuffs();
  const soldAsSeveral = varying();
  for (const [key, named] of productVariants()) {
    const variants = distinctVariants(named);
    const known = meanings.get(key);
    if (known?.kind === 'stuff' && !soldAsSeveral.has(key) && variants.length < 2 && !isBlend(variants)) {
      meanings.set(key, { ...known, groups: groupsAdded(known.formula, variants) });
      continue;
    }
    meanings.set(key, { kind: 'product', name: key, variants });
  }
  for (const { word, also, formulas } of classWordsTable())
    for (const key of [word, ...also].map(phraseKey))
      if (!meanings.has(key)) meanings.set(key, { kind: 'class', name: word, formulas });
  const words = new Map<string, PhraseWord>(
    phraseWordsTable().map(({ word, kinds, celsius }) => [
      phraseKey(word),
      { kinds: new Set(kinds), ...(celsius !== undefined && { celsius }) },
    ]),
  );
  for (const { word, also, high_C } of heatWordsTable())
    for (const key of [word, ...also].map(phraseKey))
      if (!words.has(key)) words.set(key, { kinds: new Set(['heat']), celsius: Number(high_C) });
  return { meanings, words };
}

type ProductMeaning = Extract<Meaning, { kind: 'product' }>;

/** A key's entry as data: what it means (a product by its place), and what it says of a state. */
interface EntryData {
  readonly means?: Exclude<Meaning, ProductMeaning> | number;
  readonly word?: readonly [kinds: readonly PhraseWordKind[], celsius: number | null];
}

let built: (Lexicon & { readonly products: readonly ProductMeaning['variants'][] }) | undefined;

/** The lexicon, with each list of variants once. */
function builtOnce(): NonNullable<typeof built> {
  if (built) return built;
  const lexicon = build();
  const products = new Map<string, ProductMeaning['variants']>();
  for (const meaning of lexicon.meanings.values())
    if (meaning.kind === 'product') products.set(JSON.stringify(meaning.variants), meaning.variants);
  built = { ...lexicon, products: [...products.values()] };
  return built;
}

function* entries(): Iterable<readonly [string, EntryData]> {
  const { meanings, words, products } = builtOnce();
  const places = new Map(products.map((variants, place) => [JSON.stringify(variants), place]));
  for (const key of new Set([...meanings.keys(), ...words.keys()])) {
    const [meaning, word] = [meanings.get(key), words.get(key)];
    const means = meaning?.kind === 'product' ? places.get(JSON.stringify(meaning.variants))! : meaning;
    yield [
      key,
      { ...(means !== undefined && { means }), ...(word && { word: [[...word.kinds], word.celsius ?? null] }) },
    ];
  }
}

const entryOf = preparedByKey<EntryData>('lexicon', entries);
/** Decimals as text, and what is sold under several names once. */
const productVariantsAt = preparedList<ProductMeaning['variants']>('lexicon-products', () => builtOnce().products);

/** A product by its place among the data, under a name that it is sold by. */
function productAt(place: number, name: string): ProductMeaning {
  const variants = productVariantsAt(place).map(({ name: variant, contents }) => ({
    name: variant,
    contents: contents.map(({ percentHigh, ...content }) => ({
      ...content,
      ...(percentHigh !== undefined && { percentHigh: exact(percentHigh) }),
    })),
  }));
  return { kind: 'product', name, variants };
}

/** What a key of the tables means. */
function meaningOfKey(key: string): Meaning | undefined {
  const meaning = key === '' ? undefined : entryOf(key)?.means;
  return typeof meaning === 'number' ? productAt(meaning, key) : meaning;
}

/** How many words the longest name or words of state have that begin with a word, up to `longestName`. */
const lengthByBeginning = preparedByKey<number>('lexicon-beginnings', () => {
  const { meanings, words: ofState } = builtOnce();
  const longest = new Map<string, number>();
  for (const key of [...meanings.keys(), ...ofState.keys()]) {
    const words = key.split(' ');
    longest.set(words[0]!, Math.min(Math.max(words.length, longest.get(words[0]!) ?? 0), longestName));
  }
  return longest;
});

/** What is looked for behind a word. */
export interface Beginning {
  /** As keys have it. */
  readonly key: string;
  /** Words of the longest name, or words of state, in the tables that begins with it; 0 where none does. */
  readonly longest: number;
  /** A name that stands in no table may begin with it: a salt by its ions, one with a word before it. */
  readonly isComposed: boolean;
}

/**
 * What may begin with a word: of most words of a sentence nothing that is longer than they are themselves.
 * @example beginningWith('which').longest // 1
 */
export const beginningWith: (word: string) => Beginning = memoise(
  (word) => word,
  (word) => {
    const key = phraseKey(word);
    const longest = key === '' ? longestName : (lengthByBeginning(key.split(' ', 1)[0]!) ?? 0);
    return { key, longest, isComposed: key === '' || mayBeginName(word) };
  },
  5000,
);

const phraseWords = new Map<string, PhraseWord | undefined>();

function phraseWordOfKey(key: string): PhraseWord | undefined {
  if (!phraseWords.has(key)) {
    const told = key === '' ? undefined : entryOf(key)?.word;
    if (phraseWords.size >= 20_000) phraseWords.clear();
    phraseWords.set(key, told && { kinds: new Set(told[0]), ...(told[1] !== null && { celsius: told[1] }) });
  }
  return phraseWords.get(key);
}

/** Words in the longest name that is looked for. */
export const longestName = 7;

/** Symbols of metals that a maker writes alone; others are words too (`as`, `in`, `no`). */
const metalSymbols = /^(?:Na|Mg|Al|Ca|Ti|Mn|Fe|Ni|Cu|Zn|Ag|Cd|Sn|Sb|Hg|Pb|Bi|Li|Cr)$/;
/** A formula that cannot be a word: it has a digit, a bracket or two capitals with small letters or few of them. */
const surelyFormula = /^(?=.*(?:\d|[([]|[A-Z].*[A-Z]))[A-Z([{][A-Za-z0-9()[\]{}.·*]*$/;

/** What a formula means that cannot be a word; undefined where it is none. */
export function formulaMeaning(text: string): Meaning | undefined {
  if (!metalSymbols.test(text) && !surelyFormula.test(text)) return undefined;
  if (/^[A-Z]{3,}$/.test(text) && !/^(?:HCN|KCN|KOH|KSCN|HNO|COS)$/.test(text)) return undefined;
  const meant = formulaInAnyCase(text);
  if (meant !== undefined) return { kind: 'stuff', name: meant, formula: meant };
  const read = constituents(text);
  return read.ok && read.value.kind !== 'unknown' ? { kind: 'stuff', name: text, formula: text } : undefined;
}

/** A salt put together from the words of its ions, or a hydrate. */
function composedMeaning(text: string): Meaning | undefined {
  const words = text.split(' ');
  // Words of state beside a name are read by themselves: `old` of `old zinc nitrate`.
  const isOldSalt = /^hydrate of [a-z]+$/i.test(text);
  const ends = words.length > 1 && !isOldSalt ? [words[0]!, words.at(-1)!] : [];
  if (ends.some((word) => phraseWordOf(word) && !meaningOf(word))) return undefined;
  const material = materialNamed(text.toLowerCase());
  return material && { kind: 'stuff', name: text.toLowerCase(), formula: material.formula };
}

const looked = new Map<string, Meaning | undefined>();

/** What some words name; undefined where nothing knows them. @example meaningOf('drain opener')?.kind // 'product' */
export function meaningOf(text: string): Meaning | undefined {
  if (!looked.has(text)) {
    if (looked.size >= 20_000) looked.clear();
    const single = !text.includes(' ');
    looked.set(
      text,
      meaningOfKey(phraseKey(text)) ?? (single ? formulaMeaning(text) : undefined) ?? composedMeaning(text),
    );
  }
  return looked.get(text);
}

/** What some words say of a state. @example phraseWordOf('screw-top')?.kinds.has('closed') // true */
export const phraseWordOf = (text: string): PhraseWord | undefined => phraseWordOfKey(phraseKey(text));

const vocabulary = preparedByKey<string>('vocabulary', () => {
  const alike = new Map<string, string[]>();
  for (const word of new Set([...entries()].flatMap(([key]) => key.split(' ')))) {
    const key = `${word[0]} ${word.length}`;
    alike.set(key, [...(alike.get(key) ?? []), word]);
  }
  return [...alike].map(([key, words]) => [key, words.join(' ')] as const);
});
const wordsAlike = memoise(
  (key: string) => key,
  (key): readonly string[] => vocabulary(key)?.split(' ') ?? [],
  2000,
);

/** Every single word of every name and of every word of state, by its first letter and how many it has. */
export const wordsKnown: KnownWords = (first, length) => wordsAlike(`${first} ${length}`);

/** Whether a word stands in a name or among words of state. @example isWordKnown('chlorine') // true */
export const isWordKnown = (word: string): boolean => wordsKnown(word[0] ?? '', word.length).includes(word);

/** Every name of the tables, as keys have it, with what it means. */
export const everyName = (): ReadonlyMap<string, Meaning> => builtOnce().meanings;
