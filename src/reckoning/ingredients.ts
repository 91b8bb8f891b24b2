// What goes into each sample: the entry's reagents with what the sample adds, omits and changes, each looked up.
import type { Decimal } from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { ShelfReagent, Use } from '../journal/schema.js';
import {
  cupboardOf,
  isWater,
  resolverOfUses,
  takePortion,
  type Cupboard,
  type Measuring,
  type Portion,
  type ResolvedReagent,
  type TakenPortion,
} from '../reagents/index.js';
import { assayFigure } from './treatment/assays.js';
import type { LotFacts, ReckoningContext } from './contracts.js';
import type { AssayedFigure } from './treatment/treatment-contracts.js';

/** One reagent or lot in one sample, with everything the journal says of it. */
export interface Ingredient {
  /** Shelf id, lot or name, as the entry refers to it. */
  readonly id: string;
  readonly name: string;
  readonly use: Use;
  /** Where it is written. */
  readonly path: Path;
  readonly formula?: string;
  readonly shelf?: ShelfReagent;
  /** Name of the lot it is, `9/A`. */
  readonly lot?: string;
  readonly lotFacts?: LotFacts;
  readonly reagent: ResolvedReagent;
  /** What the assay of its jar or lot came to. */
  readonly assayed?: AssayedFigure;
  /** What was measured out and what that comes to; without a formula where it is only roughly of one. */
  readonly measure: Portion;
  readonly taken: TakenPortion;
}

const nameOf = (use: Use): string =>
  use.lot ?? (typeof use.reagent === 'string' ? use.reagent : (use.reagent?.name ?? 'unnamed'));

interface Placed {
  readonly use: Use;
  readonly path: Path;
}

/** Uses of one sample, in the order in which they are written. */
export function usesOf(entry: Pick<Entry, 'reagents' | 'samples'>, index: number | undefined): readonly Placed[] {
  const common: Placed[] = entry.reagents.map((use, at) => ({ use, path: ['reagents', at] }));
  const sample = index === undefined ? undefined : entry.samples[index];
  if (!sample || index === undefined) return common;
  const omitted = new Set(sample.omit ?? []);
  const kept = common.filter(({ use }) => !omitted.has(nameOf(use)));
  for (const [at, change] of (sample.change ?? []).entries()) {
    const where = kept.findIndex(({ use }) => nameOf(use) === nameOf(change));
    const path: Path = ['samples', index, 'change', at];
    // The schema fills in nothing here, so that what a change leaves out stays as it was.
    if (where >= 0)
      kept[where] = {
        use: {
          ...kept[where]!.use,
          ...Object.fromEntries(Object.entries(change).filter(([, value]) => value !== undefined)),
        },
        path,
      };
    else kept.push({ use: change, path });
  }
  (sample.add ?? []).forEach((use, at) => kept.push({ use, path: ['samples', index, 'add', at] }));
  return kept;
}

const cupboards = new WeakMap<ReckoningContext, Cupboard>();
/** The shelf and the earlier lots of a journal. */
export function cupboardOfContext(context: ReckoningContext): Cupboard {
  let cupboard = context.cupboard ?? cupboards.get(context);
  if (!cupboard) cupboards.set(context, (cupboard = cupboardOf(context.shelf, (name) => context.lot(name))));
  return cupboard;
}

/** Whether it is water, however that is written. */
export const isWaterReagent = ({ substance }: ResolvedReagent): boolean =>
  substance !== undefined && isWater(substance.parsed);

type JarAssay = Pick<Ingredient, 'assayed'>;

const jarAssays = new WeakMap<ShelfReagent, JarAssay>();

/** The assay of a jar; nothing where it has none, or one that cannot be reckoned. */
export function assayOfJar(shelf: ShelfReagent | undefined): JarAssay {
  if (!shelf?.assay) return {};
  let known = jarAssays.get(shelf);
  if (!known) {
    const found = assayFigure(shelf.formula, shelf.assay);
    jarAssays.set(shelf, (known = found.ok ? { assayed: found.value } : {}));
  }
  return known;
}

type WithUses = Pick<Entry, 'reagents' | 'samples'>;

/** What was looked up for an entry in a context: amounts, dangers and the hazard box all ask for the same. */
interface LookedUp {
  readonly context: ReckoningContext;
  readonly resolve: ReturnType<typeof resolverOfUses>;
  /** Of each use what it is, whichever balance it is weighed on. */
  readonly byUse: Map<Use, ResolvedReagent>;
  readonly byBalance: Map<string | undefined, Measured>;
}

/** What samples took as one balance weighs it: a use that several of them have is one ingredient. */
interface Measured {
  readonly ingredients: Map<Use, Ingredient>;
  /** By the index of a sample; what has all that the entry lists and nothing else stands under undefined. */
  readonly bySample: Map<number | undefined, readonly Ingredient[]>;
}
const lookedUp = new WeakMap<WithUses, LookedUp>();

function lookedUpFor(entry: WithUses, context: ReckoningContext): LookedUp {
  let known = lookedUp.get(entry);
  if (known?.context !== context) {
    known = { context, resolve: resolverOfUses(cupboardOfContext(context)), byUse: new Map(), byBalance: new Map() };
    lookedUp.set(entry, known);
  }
  return known;
}

function measuredOn(balance: Decimal | undefined, { byBalance }: LookedUp): Measured {
  const key = balance?.toFixed();
  let measured = byBalance.get(key);
  if (!measured) byBalance.set(key, (measured = { ingredients: new Map(), bySample: new Map() }));
  return measured;
}

/** A use of an entry as it stands there, whichever sample measures it. */
export function resolveUseOf(entry: WithUses, use: Use, context: ReckoningContext): ResolvedReagent {
  const { byUse, resolve } = lookedUpFor(entry, context);
  return byUse.get(use) ?? resolve(use, { stuff: nameOf(use) });
}

/** Whether a sample takes what the entry lists, all of it and nothing else. */
const takesAsListed = ({ add, omit, change }: Entry['samples'][number]): boolean =>
  (add ?? omit ?? change) === undefined;

/**
 * Looks up what a sample uses. Samples that take what the entry lists have the same list of ingredients, and what
 * several samples take alike is one ingredient, so that its reading has one name in all of them: whoever sets one
 * sample against another names the readings apart.
 */
export function ingredientsOf(
  entry: WithUses,
  index: number | undefined,
  context: ReckoningContext,
  balance: Decimal | undefined,
): readonly Ingredient[] {
  const known = lookedUpFor(entry, context);
  const measured = measuredOn(balance, known);
  const own = index === undefined || takesAsListed(entry.samples[index]!) ? undefined : index;
  let ingredients = measured.bySample.get(own);
  if (!ingredients) {
    ingredients = usesOf(entry, own).map((placed) => ingredientOf(placed, known, measured, balance));
    measured.bySample.set(own, ingredients);
  }
  return ingredients;
}

function ingredientOf(
  placed: Placed,
  known: LookedUp,
  { ingredients }: Measured,
  balance: Decimal | undefined,
): Ingredient {
  let ingredient = ingredients.get(placed.use);
  if (!ingredient) {
    ingredient = lookUp(placed, known, { id: `${ingredients.size}/${nameOf(placed.use)}`, balance });
    ingredients.set(placed.use, ingredient);
  }
  return ingredient;
}

function lookUp({ use, path }: Placed, { context, resolve, byUse }: LookedUp, measuring: Measuring): Ingredient {
  const id = nameOf(use);
  const shelf = typeof use.reagent === 'string' ? context.shelf.get(use.reagent) : undefined;
  const reagent = resolve(use, { ...measuring, stuff: id });
  if (!byUse.has(use)) byUse.set(use, reagent);
  const { name, substance, origin } = reagent;
  const lotFacts = origin && context.lot(origin.lot);
  // What is only roughly of a formula is not reckoned with it.
  const measure = substance?.roughly ? { ...reagent.portion, formula: undefined } : reagent.portion;
  const taken = substance?.roughly ? takePortion(measure) : reagent.taken;
  return {
    id,
    name,
    use,
    path,
    formula: substance?.roughly ? undefined : substance?.formula,
    shelf,
    lot: origin?.lot,
    lotFacts,
    assayed: assayOfJar(shelf).assayed,
    reagent,
    measure,
    taken,
  };
}
