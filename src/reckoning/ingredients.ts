// What goes into each sample: the entry's reagents with what the sample adds, omits and changes, each looked up.
import { take, type Decimal, type Measure, type Quantity, type Taken } from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { ShelfReagent, Use } from '../journal/schema.js';
import type { LotFacts, ReckoningContext } from './contracts.js';
import { formulaOf, quantityOf } from './remembered.js';

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
  readonly measure: Measure;
  readonly taken: Taken;
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

const quantity = (text: string | undefined): Quantity | undefined => {
  if (text === undefined) return undefined;
  const outcome = quantityOf(text);
  return outcome.ok ? outcome.value : undefined;
};

/** Looks up what a sample uses; `sample` keeps its readings apart from those of the others. */
export function ingredientsOf(
  entry: Pick<Entry, 'reagents' | 'samples'>,
  index: number | undefined,
  context: ReckoningContext,
  balance: Decimal | undefined,
): readonly Ingredient[] {
  const sample = index === undefined ? '' : entry.samples[index]!.sample;
  return usesOf(entry, index).map(({ use, path }, at): Ingredient => {
    const id = nameOf(use);
    const shelf = typeof use.reagent === 'string' ? context.shelf.get(use.reagent) : undefined;
    const described = typeof use.reagent === 'object' ? use.reagent : undefined;
    const lot = use.lot ?? shelf?.lot;
    const lotFacts = lot === undefined ? undefined : context.lot(lot);
    const stuff = shelf ?? described;
    const formulaText = stuff?.formula ?? lotFacts?.formula;
    const formula = formulaText === undefined ? undefined : formulaOf(formulaText);
    const parsed = formula?.ok ? formula.value : undefined;
    const density = quantity(use.density ?? stuff?.density);
    const name = stuff?.name ?? lotFacts?.name ?? (use.lot === undefined ? id : `lot ${use.lot}`);
    const measure: Measure = {
      id: `${sample}/${at}/${id}`,
      stuff: id,
      name,
      formula: parsed,
      balance,
      density,
      amount: quantity(use.amount),
      strength: quantity(use.strength ?? stuff?.strength),
      purity: quantity(use.purity ?? stuff?.purity),
      dropVolume: quantity(use['drop-volume'] ?? shelf?.['drop-volume']),
    };
    return { id, name, use, path, formula: formulaText, shelf, lot, lotFacts, measure, taken: take(measure) };
  });
}
