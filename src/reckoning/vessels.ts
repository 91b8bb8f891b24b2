// What stands together on the bench: the uses of a sample as ingredients by vessel, and the heat that each vessel gets.
import type { Foreseen, MixtureHeating } from '../hazards/foresee/contracts.js';
import type { Path } from '../journal/place.js';
import type { Heating, Use } from '../journal/schema.js';
import { memoise } from '../memoise.js';
import { contentsOf, judgedCelsius, resolveNamed, resolveText, type ResolvedReagent } from '../reagents/index.js';
import { isWaterReagent, type Ingredient } from './ingredients.js';
import { quantityOf } from './parse-cache.js';

/** One use of a reagent or lot, as something that stands in a vessel. */
export interface VesselItem {
  readonly id: string;
  readonly use: Use;
  readonly path: Path;
  readonly reagent: ResolvedReagent;
  /** g of the pure substance, where known; else of the stuff. */
  readonly grams?: number;
  /** The step at which it goes in, the first is 0, where nothing but the step says so. */
  readonly step?: number;
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

/** Acid that something still holds, which its formula says nothing of; undefined where none is told. */
export function freeAcidIn({ id, use, path, shelf, lotFacts }: Ingredient): VesselItem | undefined {
  const written = use['free-acid'] ?? shelf?.['free-acid'] ?? lotFacts?.freeAcid;
  const read = written === undefined ? undefined : resolveText(`free acid ${written}`);
  return read?.ok ? { id, use: { ...use, reagent: 'free acid' }, path, reagent: read.value } : undefined;
}

export function itemOf({ id, use, path, reagent }: Ingredient): VesselItem {
  const grams = reagent.taken.pure ?? reagent.taken.mass;
  return { id, use, path, reagent, ...(grams && { grams: grams.value.toNumber() }) };
}

/**
 * What stands together: by vessel; what is kept `separately` without a vessel stands alone; washes meet the product.
 */
export function byVessel(items: readonly VesselItem[]): {
  readonly main: readonly VesselItem[];
  readonly apart: readonly (readonly VesselItem[])[];
  readonly washes: readonly VesselItem[];
} {
  const washes = items.filter(({ use }) => use.role === 'wash');
  const vessels = new Map<string, VesselItem[]>();
  items
    .filter(({ use }) => use.role !== 'wash')
    .forEach((item, at) => {
      const vessel = item.use.vessel ?? (item.use.separately ? `apart ${at}` : '');
      vessels.set(vessel, [...(vessels.get(vessel) ?? []), item]);
    });
  const main = vessels.get('') ?? [];
  const named = [...vessels].filter(([vessel]) => vessel !== '');
  const [only] = named;
  // One vessel of which no more is told than that it is closed: all stands in it.
  if (only && named.length === 1 && main.length > 0 && isClosedVessel(only[0]))
    return { main: [...main, ...closedWith(only)], apart: [], washes };
  return { main, apart: named.map(closedWith), washes };
}

/** Words of a vessel that say that it is closed: `closed jar`. */
const isClosedVessel = memoise(
  (words) => words,
  (words: string) => contentsOf(resolveNamed(words)).circumstances.has('closed'),
  300,
);

/** What stands in a vessel, and that it is closed where its words say so. */
const closedWith = ([vessel, group]: readonly [string, readonly VesselItem[]]): readonly VesselItem[] =>
  isClosedVessel(vessel)
    ? [...group, { id: vessel, use: { reagent: vessel }, path: group[0]!.path, reagent: resolveNamed(vessel) }]
    : group;

/** Words by which a maker calls the product of a preparation. */
const productWords = /^(?:product|pigment|precipitate|solid)$/i;
/** Whether a heating is of what the entry makes. @example isOfProduct('precipitate') // true */
export const isOfProduct = (of: string): boolean => productWords.test(of);

/**
 * The heat that each thing gets, at the upper end of what was said; a word that names nothing here (`paste`,
 * `filtrate`) is taken for the whole mixture.
 */
export function heatingOf(list: readonly Heating[], items: readonly VesselItem[]): readonly MixtureHeating[] {
  return list.map(({ of, to }) => {
    const item = items.find(({ id, reagent }) =>
      [id, reagent.name].some((name) => name.toLowerCase() === of.toLowerCase()),
    );
    const whole = isOfProduct(of) ? 'product' : 'mixture';
    return { of: item?.reagent.name ?? whole, toCelsius: judgedCelsius(to) };
  });
}

const plain = (words: string): string =>
  ` ${words
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()} `;

/** Whether a maker's words speak of the vessel in which a group stands: `the crucible, lid on`. */
export const speaksOfVessel = (words: string, group: readonly VesselItem[]): boolean =>
  group.some(({ use: { vessel } }) => vessel !== undefined && plain(words).includes(plain(vessel)));

/**
 * The heat that a vessel beside the main one gets: that of what stands in it and its own; and where nothing stands in
 * the main one, that of the mixture too, and of a product that is not precipitated.
 * @param list as written
 * @param heats the same, and what else is heated, by what it is of
 */
export function heatOfVessel(
  group: readonly VesselItem[],
  list: readonly Heating[],
  heats: readonly MixtureHeating[],
  mainIsEmpty: boolean,
): readonly MixtureHeating[] {
  const isWhole = ({ of }: MixtureHeating): boolean =>
    of === 'mixture' || (of === 'product' && !group.some(bringsWater));
  const whole = mainIsEmpty ? heats.filter(isWhole).map(({ toCelsius }) => toCelsius) : [];
  const own = list
    .filter(({ of, in: where = '' }) => speaksOfVessel(`${of}, ${where}`, group))
    .map(({ to }) => judgedCelsius(to));
  return [
    ...heats.filter(({ of }) => of !== 'product' && of !== 'mixture'),
    ...[...own, ...whole].map((toCelsius) => ({ of: 'mixture', toCelsius })),
  ];
}

/** Whether it brings water, so that what forms is precipitated and not fired. */
export const bringsWater = ({ reagent, use }: VesselItem): boolean =>
  isWaterReagent(reagent) ||
  use.role === 'solvent' ||
  (reagent.strength.basis !== 'undiluted' && reagent.strength.basis !== 'not-given');

export const severityRank: Readonly<Record<Foreseen['severity'], number>> = { danger: 0, warning: 1, note: 2 };
