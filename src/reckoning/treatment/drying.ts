// How dry a product is, and what water it is known to hold.
import {
  composition,
  exact,
  minus,
  reading,
  scaled,
  dividedBy,
  weighingInput,
  withoutWater,
  type Decimal,
  type Formula,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import type { Sample } from '../../journal/schema.js';
import { heldWaterRow, heldWaterTable } from '../../tables/compiled/reckoning/treatment/held-water.js';
import { preparedByKey } from '../../tables/prepared.js';
import { onceFor } from '../../once.js';
import type { Balance } from '../balance.js';
import { figure } from '../figures.js';
import { formulaOf, quantityOf } from '../parse-cache.js';
import type { DryingReckoning, HeldWater } from './treatment-contracts.js';

/** Smallest step of a balance of which nothing is said, g. */
const usualStep = exact('0.01');

/** A weighing as it is written, g; undefined where it is none. */
export function weighed(
  written: string | undefined,
  input: string,
  balance: Balance | undefined,
): UncertainDecimal | undefined {
  const read = written === undefined ? undefined : quantityOf(written);
  return read?.ok && read.value.dimension === 'mass'
    ? reading(read.value, weighingInput(input), balance?.halfWidth)
    : undefined;
}

export interface DryingReckoned {
  readonly drying: DryingReckoning;
  /** g of the last weighing. */
  readonly mass: UncertainDecimal;
}

/** A weighing while a product dried. */
interface DryingWeighed {
  /** g without the dish. */
  readonly mass: UncertainDecimal;
  readonly after?: string;
  /** As they are written. */
  readonly dish: string;
  readonly full: string;
}

function weighingsOf({ sample, dried = [] }: Sample, balance: Balance | undefined): readonly DryingWeighed[] {
  if (typeof dried === 'string') return [];
  let dish: string | undefined;
  return dried.flatMap(({ dish: own, 'with-product': full, after }, at) => {
    dish = own ?? dish;
    const empty = weighed(dish, `${sample}/dish ${dish}`, balance);
    const whole = weighed(full, `${sample}/dried/${at}`, balance);
    if (!empty || !whole) return [];
    return [{ mass: minus(whole, empty), dish: dish!, full, ...(after !== undefined && { after }) }];
  });
}

const isBelow = ({ mass }: DryingWeighed): boolean => mass.value.isNegative() && !mass.value.isZero();

/** The first weighing in which the dish by itself weighs more than with the product; undefined where there is none. */
export const belowTheDish = (sample: Sample): Pick<DryingWeighed, 'dish' | 'full'> | undefined =>
  weighingsOf(sample, undefined).find(isBelow);

/**
 * Weighings in a dish while a product dried; undefined where there are none that can be read, and where one of them is
 * less than the dish: which of its figures is meant nobody knows.
 */
export function reckonDrying(sample: Sample, balance: Balance | undefined): DryingReckoned | undefined {
  const masses = weighingsOf(sample, balance);
  const [last, before] = [masses.at(-1), masses.at(-2)];
  if (!last || masses.some(isBelow)) return undefined;
  const apart = before && last.mass.value.minus(before.mass.value).abs();
  const step = balance?.step ?? usualStep;
  return {
    mass: last.mass,
    drying: {
      dryMass: figure(last.mass, 'g'),
      constant: apart?.lte(step.times(2)) ?? false,
      weighings: masses.map(({ mass, after }) => ({ mass: figure(mass, 'g'), ...(after !== undefined && { after }) })),
    },
  };
}

const plain = (value: Decimal, digits = 12): string => value.toSignificantDigits(digits).toFixed();

/** Atoms of a formula in any spelling. */
export const atomsOf = onceFor((formula: Formula): string =>
  [...composition(formula)]
    .map(([symbol, { low }]) => `${symbol}${low}`)
    .sort()
    .join(' '),
);

/** Places of rows of what is known to hold water, by its atoms. */
const placeOfKnown = preparedByKey<number>('held-water', () =>
  heldWaterTable().flatMap((row, place) => {
    const formula = formulaOf(row.formula);
    return formula.ok ? [[atomsOf(formula.value), place] as const] : [];
  }),
);

/**
 * Water that a product is known to hold though its formula says none; undefined where nothing is known or it says so
 * itself.
 * @param percent percent yield, as if it held none
 * @param perMole g/mol of the product as written
 * @param firedTo tells the least that its hottest fire was, °C: none is held from some heat on
 */
export function heldWaterOf(
  product: string | undefined,
  percent: UncertainDecimal | undefined,
  perMole: Decimal | undefined,
  firedTo: () => number,
): HeldWater | undefined {
  const read = product === undefined ? undefined : formulaOf(product);
  if (!read?.ok || withoutWater(read.value) !== undefined) return undefined;
  const place = placeOfKnown(atomsOf(read.value));
  if (place === undefined) return undefined;
  const row = heldWaterRow(place);
  if (row.gone_by !== undefined && firedTo() >= row.gone_by) return undefined;
  const { name, low, high, condition, finding } = row;
  const ifItHolds = (molecules: string): string | undefined =>
    percent && perMole && plain(percent.value.times(perMole).div(perMole.plus(exact(molecules).times('18.015'))), 3);
  const [most, least] = low !== undefined && high !== undefined ? [ifItHolds(low), ifItHolds(high)] : [];
  return {
    name,
    ...(low !== undefined && { low }),
    ...(high !== undefined && { high }),
    condition,
    ...(finding !== '' && { finding }),
    source: row.basis === 'memory' ? `${row.source_title}, from memory` : row.source_title,
    ...(row.source_url !== '' && { sourceUrl: row.source_url }),
    ...(least !== undefined && most !== undefined && { yieldIfSo: { low: least, high: most } }),
  };
}

/** Percent yield of a mass by weight, or of an amount of substance. */
export const shareOf = (made: UncertainDecimal, possible: UncertainDecimal): UncertainDecimal | undefined => {
  const share = dividedBy(made, possible);
  return share && scaled(share, 100);
};
