// What a reagent refers to: a jar of the shelf, a lot that was made here, or nothing but its own words.
import { parseQuantity, type Quantity } from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import { onceFor } from '../once.js';
import { readAmountWords } from './rough.js';
import { readReagentText } from './text.js';
import type {
  AmountWritten,
  CarriedReagent,
  Cupboard,
  LotProduct,
  ReagentFacts,
  ReagentWritten,
  ResolvedOrigin,
  ShelfFacts,
  SupplierSheet,
} from './contracts.js';

/** One use of a reagent in an entry, as text: a jar of the shelf, a description, or a lot. */
export interface UseFacts {
  /** An id on the shelf, or a description. */
  readonly reagent?: string | ReagentFacts;
  readonly lot?: string;
  readonly amount?: string;
  readonly strength?: string;
  readonly purity?: string;
  readonly density?: string;
  readonly 'drop-volume'?: string;
}

/** A quantity, or nothing where the text is none: the journal has said so at its place. */
function quantity(text: string | undefined): Quantity | undefined {
  const read = text === undefined ? undefined : parseQuantity(text);
  return read?.ok ? read.value : undefined;
}

/** How much was taken, as the entry says it. */
const amountOf = (text: string | undefined): AmountWritten | undefined =>
  text === undefined ? undefined : readAmountWords(text);

function sheetOf({ sds, strength }: ShelfFacts, used: string | undefined): SupplierSheet | undefined {
  if (!sds) return undefined;
  const { 'signal-word': signalWord, ...rest } = sds;
  const other = used !== undefined && used !== strength;
  return {
    ...rest,
    ...(signalWord && { signalWord }),
    ...(other && { isForStrength: strength ?? 'the undiluted substance' }),
  };
}

/** Where a reagent comes from, beside its words. */
export interface Traced {
  readonly written: ReagentWritten;
  /** The same without its amount, where other uses of its jar say no more either. */
  readonly kind?: ReagentWritten;
  readonly origin?: ResolvedOrigin;
}

/** What is said to be left in a lot by an id of the shelf is what that jar holds. */
function asOnShelf(one: CarriedReagent, cupboard: Cupboard): CarriedReagent {
  const jar = one.formula === undefined ? cupboard.shelf(one.name) : undefined;
  return jar ? { ...one, name: jar.name, ...(jar.formula !== undefined && { formula: jar.formula }) } : one;
}

function originOf(
  lot: string | undefined,
  product: LotProduct | undefined,
  cupboard: Cupboard,
): { readonly origin?: ResolvedOrigin } {
  if (lot === undefined) return {};
  const carries = (product?.carries ?? []).map((one) => asOnShelf(one, cupboard));
  return { origin: { lot, known: product !== undefined, carries } };
}

interface Facts {
  readonly jar?: ShelfFacts;
  readonly described?: ReagentFacts;
  readonly product?: LotProduct;
  readonly lot?: string;
  /** How the use refers to it. */
  readonly reference: string;
}

/** Names, the first of which it goes by. */
function namesOf({ jar, described, product, reference, lot }: Facts): readonly string[] {
  const direct = lot !== undefined && jar?.lot === lot && reference === lot;
  const own = direct ? [product?.name, jar.name] : [jar?.name ?? described?.name, product?.name];
  const called = (jar ?? described)?.['also-called'] ?? [];
  const names = [...own, ...called].filter((name): name is string => name !== undefined);
  return names.length > 0 ? [...new Set(names)] : [lot === undefined ? reference : `lot ${lot}`];
}

/** A name as a line of its own: `conc. sulfuric acid`, `ammonia (25 %)`; undefined where it says an amount. */
const readInName = memoise(
  (name: string) => name,
  (name): ReagentWritten | undefined => {
    const outcome = readReagentText(name);
    return outcome.ok && !outcome.value.amount ? outcome.value : undefined;
  },
  4000,
);

/** What keys say goes before what the name says beside. */
function withWordsOfName(written: ReagentWritten): ReagentWritten {
  const said = readInName(written.name);
  if (!said) return written;
  const { name: plainName, formula, strength, purity, density, state } = said;
  const stated = written.strength ?? written.density;
  return {
    ...written,
    plainName: plainName === written.name ? undefined : plainName,
    formula: written.formula ?? (formula === written.name ? undefined : formula),
    strength: stated ? written.strength : strength,
    density: stated ? written.density : density,
    purity: written.purity ?? purity,
    state,
  };
}

/** What is said of its kind: the jar's words go before the lot's, and the use's own before both. */
const factsOf = (facts: Facts, use: MeasuredFacts): ReagentWritten =>
  withWordsOfName({ ...namedBy(facts), ...measuredBy(facts, use), ...shelfKeys(facts, use) });

type MeasuredFacts = Omit<UseFacts, 'reagent' | 'lot'>;

function namedBy(facts: Facts): Pick<ReagentWritten, 'written' | 'name' | 'alsoCalled' | 'formula' | 'cas' | 'lot'> {
  const { jar, described, product, reference, lot } = facts;
  const stuff = jar ?? described;
  const [name = reference, ...alsoCalled] = namesOf(facts);
  return {
    written: reference,
    name,
    alsoCalled: alsoCalled.length > 0 ? alsoCalled : undefined,
    formula: stuff?.formula ?? product?.formula,
    cas: stuff?.cas,
    lot,
  };
}

type Measures = Pick<ReagentWritten, 'amount' | 'strength' | 'purity' | 'density' | 'dropVolume'>;

function measuredBy({ jar, described, product }: Facts, use: MeasuredFacts): Measures {
  const stuff = jar ?? described;
  const restated = use.strength !== undefined && use.strength !== stuff?.strength;
  return {
    amount: amountOf(use.amount),
    strength: quantity(use.strength ?? stuff?.strength ?? product?.strength),
    purity: quantity(use.purity ?? stuff?.purity ?? product?.purity),
    // The density on the label is that of the label's strength.
    density: quantity(use.density ?? (restated ? undefined : stuff?.density)),
    dropVolume: quantity(use['drop-volume'] ?? jar?.['drop-volume']),
  };
}

const shelfKeys = ({ jar }: Facts, use: MeasuredFacts): Pick<ReagentWritten, 'sheet' | 'price'> =>
  jar ? { sheet: sheetOf(jar, use.strength), price: jar.price } : {};

/**
 * A use of an entry with all that the shelf and earlier lots say of it. A jar that holds a lot is what that lot is:
 * its formula, where the jar has none of its own, and what it carries.
 * @example traceUse({ reagent: 'my-white', amount: '1 g' }, cupboard).written.formula // 'PbCO3', from lot 1/A
 */
export function traceUse(use: UseFacts, cupboard: Cupboard): Traced {
  const plain = traceJarAsItStands(use, cupboard);
  if (plain) return plain;
  const reference = use.lot ?? (typeof use.reagent === 'string' ? use.reagent : (use.reagent?.name ?? 'unnamed'));
  const described = typeof use.reagent === 'object' ? use.reagent : undefined;
  const jar = typeof use.reagent === 'string' ? cupboard.shelf(use.reagent) : jarOf(use.lot, cupboard);
  const lot = use.lot ?? jar?.lot;
  const product = lot === undefined ? undefined : cupboard.lot(lot);
  return { written: factsOf({ jar, described, product, lot, reference }, use), ...originOf(lot, product, cupboard) };
}

/** What is said of a jar that holds no lot. */
const saidOfJar = onceFor((jar: ShelfFacts): ReagentWritten => factsOf({ jar, reference: jar.name }, {}));

/** A use that says of a jar no more than how much is taken of it; undefined where it says more. */
function traceJarAsItStands(use: UseFacts, cupboard: Cupboard): Traced | undefined {
  const { reagent, lot, amount, strength, purity, density, 'drop-volume': dropVolume } = use;
  if (typeof reagent !== 'string' || (lot ?? strength ?? purity ?? density ?? dropVolume) !== undefined)
    return undefined;
  const jar = cupboard.shelf(reagent);
  if (!jar || jar.lot !== undefined) return undefined;
  const kind = saidOfJar(jar);
  return { written: { ...kind, written: reagent, amount: amountOf(amount) }, kind };
}

const jarOf = (lot: string | undefined, cupboard: Cupboard): ShelfFacts | undefined =>
  lot === undefined ? undefined : cupboard.jarOf?.(lot);

const nothingAtHand: Cupboard = { shelf: () => undefined, lot: () => undefined };

/** A jar of the shelf as it stands there. */
export function traceJar(jar: ShelfFacts, cupboard: Cupboard = nothingAtHand): Traced {
  const product = jar.lot === undefined ? undefined : cupboard.lot(jar.lot);
  return {
    written: factsOf({ jar, product, lot: jar.lot, reference: jar.name }, {}),
    ...originOf(jar.lot, product, cupboard),
  };
}

/** A lot named in a line at the bench: `9/A 1.20 g`. */
const lotName = /^\d{1,9}\/\S+$/;

/**
 * A line with all that the shelf and earlier lots say of what it names; its own words go first.
 * @example traceText(read('spirit 5 mL'), cupboard).written.strength // that of the jar `spirit`
 */
export function traceText(written: ReagentWritten, cupboard: Cupboard): Traced {
  const product = lotName.test(written.name) ? cupboard.lot(written.name) : undefined;
  const jar = product ? jarOf(written.name, cupboard) : cupboard.shelf(written.name);
  if (!jar && !product) return { written };
  const lot = product ? written.name : jar?.lot;
  const found = product ?? (lot === undefined ? undefined : cupboard.lot(lot));
  const use = {
    ...(written.strength && { strength: written.strength.written }),
    ...(written.density && { density: written.density.written }),
  };
  const facts = factsOf({ jar, product: found, lot, reference: written.name }, use);
  const { name, alsoCalled, ...own } = written;
  return { written: { ...facts, ...own, name: facts.name }, ...originOf(lot, found, cupboard) };
}
