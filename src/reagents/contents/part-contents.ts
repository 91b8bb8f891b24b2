// What one thing of a phrase may be or hold: every content that is sold under its name, the stuffs that are named, or
// the members of a class.
import type { Decimal } from '../../chemistry/index.js';
import { constituents, dryComposition } from '../constituents.js';
import type { Meaning, ProductVariant } from './lexicon.js';
import type { NamedThing, PhrasePart } from './read-phrase.js';

/** One substance to be judged. */
export interface PossibleContent {
  readonly formula: string;
  /**
   * The name by which the tables of this room know it, with its strength and groups; absent for what has only a
   * formula.
   */
  readonly name?: string;
  readonly groups: readonly string[];
  readonly percentHigh?: Decimal;
  /** Contents of one variant are there together; other variants are there instead. */
  readonly variant: string;
}

type ProductMeaning = Extract<Meaning, { kind: 'product' }>;

const named = ({ meaning, text }: NamedThing): PossibleContent[] => {
  switch (meaning.kind) {
    case 'stuff':
      return [{ formula: meaning.formula, name: meaning.name, groups: meaning.groups ?? [], variant: 'named' }];
    case 'class':
      return meaning.formulas.map((formula) => ({ formula, groups: [], variant: `${text}: ${formula}` }));
    case 'product':
      return [];
  }
};

const ofVariant = (variant: ProductVariant): PossibleContent[] =>
  variant.contents.map(({ formula, groups, percentHigh }) => ({
    formula,
    groups,
    variant: variant.name,
    ...(percentHigh && { percentHigh }),
  }));

const isSame = (a: string, b: string): boolean => dryComposition(a) === dryComposition(b);

/** Variants that hold something of what is named beside the product; all of them where none does. */
function variantsFor({ variants }: ProductMeaning, told: readonly PossibleContent[]): readonly ProductVariant[] {
  const fitting = variants.filter(({ contents }) =>
    contents.some(({ formula }) => told.some((one) => isSame(one.formula, formula))),
  );
  if (fitting.length > 0) return fitting;
  return isKindOf(variants, told) ? [] : variants;
}

const ionsOf = (formula: string): readonly string[] => {
  const read = constituents(formula);
  if (!read.ok) return [];
  return read.value.kind === 'acid' ? ['acid'] : [...read.value.ions.keys()];
};

/** A class that a stuff beside it belongs to says no more than that stuff: the `nitrite` of `sodium nitrite`. */
const isMemberOf = (stuff: PossibleContent, formulas: readonly string[]): boolean => {
  const own = new Set(ionsOf(stuff.formula));
  return formulas.some((formula) => isSame(formula, stuff.formula) || ionsOf(formula).some((ion) => own.has(ion)));
};

const cations =
  /^(?:Li|Na|K|Rb|Cs|Mg|Ca|Sr|Ba|NH4|lithium|sodium|potassium|magnesium|calcium|strontium|barium|ammonium|hydrogen|hydroxide)$/i;
const anionsOf = (formula: string): readonly string[] =>
  ionsOf(formula).filter((ion) => ion !== 'acid' && !cations.test(ion));

/** `sodium persulfate etchant`: the stuff beside the product is one of a kind that is sold under its name. */
const isKindOf = (variants: ProductMeaning['variants'], told: readonly PossibleContent[]): boolean => {
  const own = new Set(told.flatMap(({ formula }) => anionsOf(formula)));
  return variants.some(({ contents }) => contents.some(({ formula }) => anionsOf(formula).some((ion) => own.has(ion))));
};

/** What is surely there stands beside everything else that is. */
const asNamed = (content: PossibleContent): PossibleContent => ({ ...content, variant: 'named' });

/** A product of which one thing alone is sold says as much as the name of that thing. */
const isPlain = ({ variants }: ProductMeaning): boolean => variants.length === 1;

/**
 * What a thing of a phrase may be. What is named beside a product says which kind of it this is; where that kind is not
 * sold under the name, both are judged.
 */
export function contentsOfPart({ names }: Pick<PhrasePart, 'names'>): readonly PossibleContent[] {
  const stuffs = names.filter(({ meaning }) => meaning.kind === 'stuff').flatMap(named);
  const classes = names.filter(({ meaning }) => meaning.kind === 'class');
  const products = names.flatMap(({ meaning }) => (meaning.kind === 'product' ? [meaning] : []));
  const plain = products
    .filter(isPlain)
    .flatMap(({ variants }) => variants.flatMap(ofVariant))
    .map(asNamed);
  const told = [...stuffs, ...plain];
  const free = classes.filter(
    ({ meaning }) => meaning.kind === 'class' && !told.some((one) => isMemberOf(one, meaning.formulas)),
  );
  const several = products.filter((product) => !isPlain(product));
  const narrowing = [...told, ...classes.flatMap(named)];
  const sold = several.flatMap((product) => variantsFor(product, narrowing).flatMap(ofVariant));
  const narrowed = free.filter(
    (one) => !named(one).some(({ formula }) => sold.some((other) => isSame(other.formula, formula))),
  );
  const extra = told.filter(({ formula }) => !sold.some((other) => isSame(other.formula, formula)));
  return [...extra, ...sold, ...narrowed.flatMap(named)];
}
