// What stands together on the bench: the uses of a sample as ingredients of pots, and the heat that each pot gets.
import type { Foreseen, PotHeating, PotIngredient } from '../hazards/foreseen.js';
import { statedStrength } from '../hazards/ingredient-text.js';
import type { Path } from '../journal/place.js';
import type { Heating, Use } from '../journal/schema.js';
import type { IngredientAmounts, ReckoningContext } from './contracts.js';
import { quantityOf } from './remembered.js';

/** One use of a reagent or lot, as something that stands in a pot. */
export interface PotItem {
  readonly id: string;
  readonly use: Use;
  readonly path: Path;
  readonly ingredient: PotIngredient;
  /** g of the pure substance, where known. */
  readonly grams?: number;
}

export interface BaseQuantity {
  /** Decimal as text, in the base unit of its dimension. */
  readonly value: string;
  readonly dimension: string;
}

/** A written quantity in its base unit; undefined where there is none or it cannot be read. */
export function inBaseUnit(text: string | undefined): BaseQuantity | undefined {
  const read = text === undefined ? undefined : quantityOf(text);
  return read?.ok ? { value: read.value.base.toFixed(), dimension: read.value.dimension } : undefined;
}

function amountOf(
  amount: BaseQuantity | undefined,
  mol: string | undefined,
): Pick<PotIngredient, 'mol' | 'grams' | 'millilitres'> {
  if (mol !== undefined) return { mol };
  if (amount?.dimension === 'mass') return { grams: amount.value };
  if (amount?.dimension === 'volume') return { millilitres: amount.value };
  return amount?.dimension === 'amount' ? { mol: amount.value } : {};
}

function pureGrams(amount: BaseQuantity | undefined, reckoned: IngredientAmounts | undefined): number | undefined {
  if (reckoned?.pure) return Number(reckoned.pure.value);
  return amount?.dimension === 'mass' ? Number(amount.value) : undefined;
}

const idOf = (use: Use): string =>
  use.lot ?? (typeof use.reagent === 'string' ? use.reagent : (use.reagent?.name ?? 'unnamed'));

/** What the journal says of the substance behind a use. */
function substanceOf(
  use: Use,
  context: ReckoningContext,
): { readonly name: string; readonly formula?: string; readonly strength?: string; readonly density?: string } {
  const shelf = typeof use.reagent === 'string' ? context.shelf.get(use.reagent) : undefined;
  const stuff = typeof use.reagent === 'object' ? use.reagent : shelf;
  const lotName = use.lot ?? shelf?.lot;
  const lot = lotName === undefined ? undefined : context.lot(lotName);
  return {
    name: stuff?.name ?? lot?.name ?? idOf(use),
    formula: stuff?.formula ?? lot?.formula,
    strength: use.strength ?? stuff?.strength,
    density: use.density ?? stuff?.density,
  };
}

export function potItemOf(
  { use, path }: { readonly use: Use; readonly path: Path },
  reckoned: IngredientAmounts | undefined,
  context: ReckoningContext,
): PotItem {
  const { name, formula, strength: strengthText, density: densityText } = substanceOf(use, context);
  const strength = strengthText === undefined ? undefined : quantityOf(strengthText);
  const stated = strength?.ok ? statedStrength(strength.value) : undefined;
  const density = inBaseUnit(densityText);
  const amount = inBaseUnit(use.amount);
  const grams = pureGrams(amount, reckoned);
  return {
    id: idOf(use),
    use,
    path,
    ingredient: {
      name,
      ...(formula !== undefined && { formula }),
      ...(stated && { strength: stated }),
      ...(density?.dimension === 'density' && { density: density.value }),
      ...amountOf(amount, reckoned?.amount?.value),
    },
    ...(grams !== undefined && { grams }),
  };
}

/** What stands together: by vessel; what is kept `separately` without a vessel stands alone; washes meet the product. */
export function potsOf(items: readonly PotItem[]): {
  readonly main: readonly PotItem[];
  readonly apart: readonly (readonly PotItem[])[];
  readonly washes: readonly PotItem[];
} {
  const washes = items.filter(({ use }) => use.role === 'wash');
  const vessels = new Map<string, PotItem[]>();
  items
    .filter(({ use }) => use.role !== 'wash')
    .forEach((item, at) => {
      const vessel = item.use.vessel ?? (item.use.separately ? `apart ${at}` : '');
      vessels.set(vessel, [...(vessels.get(vessel) ?? []), item]);
    });
  const main = vessels.get('') ?? [];
  return { main, apart: [...vessels].filter(([vessel]) => vessel !== '').map(([, group]) => group), washes };
}

function celsius(text: string): number | undefined {
  const read = quantityOf(text);
  if (!read.ok || read.value.dimension !== 'temperature') return undefined;
  const { base, high } = read.value;
  return (high ?? base).toNumber();
}

/** Words by which a maker calls the product of a preparation. */
const productWords = /^(?:product|pigment|precipitate|solid)$/i;

/** The heat that each thing gets; a word that names nothing here (`paste`, `filtrate`) is taken for the whole mixture. */
export function heatingOf(list: readonly Heating[], items: readonly PotItem[]): readonly PotHeating[] {
  return list.flatMap(({ of, to }) => {
    const toCelsius = celsius(to);
    if (toCelsius === undefined) return [];
    const item = items.find(({ id, ingredient }) =>
      [id, ingredient.name].some((name) => name.toLowerCase() === of.toLowerCase()),
    );
    const whole = productWords.test(of) ? 'product' : 'mixture';
    return [{ of: item?.ingredient.name ?? whole, toCelsius }];
  });
}

/** Whether it brings water, so that what forms is precipitated and not fired. */
export const bringsWater = ({ ingredient, use }: PotItem): boolean =>
  ingredient.formula === 'H2O' ||
  /^water\b/i.test(ingredient.name) ||
  use.role === 'solvent' ||
  ingredient.strength !== undefined;

export const severityRank: Readonly<Record<Foreseen['severity'], number>> = { danger: 0, warning: 1, note: 2 };
