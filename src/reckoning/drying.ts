// How dry a product is, what it lost on ignition, and what its yield is without that.
import {
  composition,
  exact,
  expandedUncertainty,
  minus,
  printFormula,
  productInResidue,
  reading,
  scaled,
  dividedBy,
  waterInResidue,
  weighingInput,
  withoutWater,
  type Decimal,
  type Formula,
  type UncertainDecimal,
} from '../chemistry/index.js';
import type { Sample } from '../journal/schema.js';
import { heldWaterRow, heldWaterTable } from '../tables/compiled/reckoning/held-water.js';
import { preparedByKey } from '../tables/prepared.js';
import { onceFor } from '../once.js';
import type { Balance } from './balance.js';
import { figure } from './figures.js';
import { formulaOf, quantityOf } from './parse-cache.js';
import type { DryingReckoning, HeldWater, IgnitionReckoning } from './treatment-contracts.js';

/** Smallest step of a balance of which nothing is said, g. */
const usualStep = exact('0.01');

function weighed(
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

/** Weighings in a dish while a product dried; undefined where there are none that can be read. */
export function reckonDrying({ sample, dried = [] }: Sample, balance: Balance | undefined): DryingReckoned | undefined {
  if (typeof dried === 'string') return undefined;
  let dish: string | undefined;
  const masses = dried.flatMap(({ dish: own, 'with-product': full, after }, at) => {
    dish = own ?? dish;
    const empty = weighed(dish, `${sample}/dish ${dish}`, balance);
    const whole = weighed(full, `${sample}/dried/${at}`, balance);
    if (!empty || !whole) return [];
    return [{ mass: minus(whole, empty), ...(after !== undefined && { after }) }];
  });
  const [last, before] = [masses.at(-1), masses.at(-2)];
  if (!last) return undefined;
  const apart = before && last.mass.value.minus(before.mass.value).abs();
  const step = balance?.step ?? usualStep;
  return {
    mass: last.mass,
    drying: {
      dryMass: figure(last.mass, 'g'),
      constant: apart?.lte(step.times(2)) ?? false,
      weighings: masses.map(({ mass, ...rest }) => ({ mass: figure(mass, 'g'), ...rest })),
    },
  };
}

export interface IgnitionReckoned {
  readonly ignition: IgnitionReckoning;
  /** mol of product in a gram of what was ignited; undefined where the residue does not tell. */
  readonly productPerGram?: UncertainDecimal;
  /** More came out of the fire than went in. */
  readonly gained: boolean;
}

const plain = (value: Decimal, digits = 12): string => value.toSignificantDigits(digits).toFixed();

/** What a portion lost on ignition, and what that says of its water. */
export function reckonIgnition(
  { sample, ignition: written }: Sample,
  product: string | undefined,
  balance: Balance | undefined,
): IgnitionReckoned | undefined {
  const ignition = typeof written === 'string' ? undefined : written;
  const before = weighed(ignition?.before, `${sample}/before ignition`, balance);
  const after = weighed(ignition?.after, `${sample}/after ignition`, balance);
  if (!ignition || !before || !after || !before.value.gt(0)) return undefined;
  const made = product === undefined ? undefined : formulaOf(product);
  const dry = made?.ok ? (withoutWater(made.value) ?? made.value) : undefined;
  const named = ignition.residue === undefined ? undefined : formulaOf(ignition.residue);
  const residue = named?.ok ? named.value : dry;
  const water = residue && after.value.gt(0) ? waterInResidue(before, after, residue) : undefined;
  const left = residue && dry ? productInResidue(after, residue, dry) : undefined;
  const perGram = left && dividedBy(left, before);
  const loss = minus(before, after).value.div(before.value).times(100);
  const residueText = ignition.residue ?? (dry && printFormula(dry));
  return {
    gained: after.value.gt(before.value),
    ...(perGram && { productPerGram: perGram }),
    ignition: {
      lossPercent: plain(loss),
      ...(water && {
        waterPerFormula: { value: plain(water.value), uncertainty: plain(expandedUncertainty(water), 3) },
      }),
      asIf: 'water',
      ...(residueText !== undefined && { residue: residueText }),
      ...(ignition.to !== undefined && { to: ignition.to }),
    },
  };
}

/** Atoms of a formula in any spelling. */
const atomsOf = onceFor((formula: Formula): string =>
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
 */
export function heldWaterOf(
  product: string | undefined,
  percent: UncertainDecimal | undefined,
  perMole: Decimal | undefined,
): HeldWater | undefined {
  const read = product === undefined ? undefined : formulaOf(product);
  if (!read?.ok || withoutWater(read.value) !== undefined) return undefined;
  const place = placeOfKnown(atomsOf(read.value));
  if (place === undefined) return undefined;
  const row = heldWaterRow(place);
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
