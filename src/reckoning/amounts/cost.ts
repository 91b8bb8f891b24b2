// What a sample cost: prices of the shelf and the shares of lots that went into it.
import { exact, forMachines, inPlaces, isOne, type Decimal, type Quantity } from '../../chemistry/index.js';
import type { ShelfReagent } from '../../journal/schema.js';
import { onceFor } from '../../once.js';
import type { Figure } from '../contracts.js';
import { isWaterReagent, type Ingredient } from '../ingredients.js';
import { quantityOf } from '../parse-cache.js';

export interface Money {
  readonly value: Decimal;
  readonly currency: string;
}

/** Two decimals below ten thousand, cents and pence being the smallest coins; a fraction of one is shown as such. */
export const moneyFigure = ({ value, currency }: Money): Figure => ({
  value: forMachines(value),
  unit: currency,
  text: `${value.lt(smallSum) && !value.isZero() ? toTwoDigits(value) : inPlaces(value, 2)} ${currency}`,
});
/** Below this two places would leave one digit or none: 0.0056 is told as it is, and not as 0.01. */
const smallSum = exact('0.05');
const toTwoDigits = (value: Decimal): string => value.toSignificantDigits(2).toFixed();

/** A share of the cost of a lot, by mass. */
function costOfLot({ lotFacts, taken }: Ingredient): Money | undefined {
  const { cost, obtained } = lotFacts!;
  if (!cost || !obtained || !taken.mass || Number(obtained.value) === 0) return undefined;
  return { value: exact(cost.value).times(taken.mass.value).div(obtained.value), currency: cost.unit };
}

/** A price as it is written on the shelf, in the journal's currency where it names none. */
function priceOf(written: string, currency: string | undefined): Quantity | undefined {
  const text = written.trim();
  const bare = /^\d+(?:\.\d+)?(?=\s*(?:\/|per\b))/;
  const price = quantityOf(currency === undefined ? text : text.replace(bare, `$& ${currency}`));
  return price.ok ? price.value : undefined;
}

const pricesRead = onceFor((_: ShelfReagent) => new Map<string | undefined, Quantity | undefined>());

/** The price of a jar, read once for a currency. */
function priceOfJar(jar: ShelfReagent, currency: string | undefined): Quantity | undefined {
  const read = pricesRead(jar);
  if (!read.has(currency)) read.set(currency, priceOf(jar.price!, currency));
  return read.get(currency);
}

/**
 * Cost of an amount at a price as it is written; undefined where the price is for another kind of amount.
 * @param dimension `mass` or `volume`
 * @param amount g or mL
 * @param currency the journal's, for prices that leave it out
 */
export function costOfAmount(
  written: string,
  dimension: Quantity['dimension'],
  amount: Decimal,
  currency: string | undefined,
): Money | undefined {
  const price = priceOf(written, currency);
  if (!price?.per || !price.currency || price.per.dimension !== dimension) return undefined;
  return { value: price.value.times(amount).div(price.per.base), currency: price.currency };
}

/** How much was taken, in the base unit of what a price is for. */
function takenIn(dimension: Quantity['dimension'], { taken, measure }: Ingredient): Decimal | undefined {
  switch (dimension) {
    case 'mass':
      return taken.mass?.value;
    case 'volume':
      return taken.volume?.value;
    case 'amount':
      return taken.substance?.value;
    default:
      return dimension === 'drops' && measure.amount?.dimension === 'drops' ? measure.amount.base : undefined;
  }
}

/**
 * Cost of one ingredient as it was taken; undefined where price or amount are not known. Water costs nothing here.
 * @param currency the journal's, for prices that leave it out
 */
export function costOf(ingredient: Ingredient, currency: string | undefined): Money | undefined {
  const { shelf, lotFacts, reagent, use } = ingredient;
  if (lotFacts && (use.lot !== undefined || shelf?.price === undefined)) return costOfLot(ingredient);
  if (shelf?.price === undefined)
    return isWaterReagent(reagent) ? { value: exact(0), currency: currency ?? '' } : undefined;
  const price = priceOfJar(shelf, currency);
  if (!price?.per || !price.currency) return undefined;
  const amount = takenIn(price.per.dimension, ingredient);
  const value = amount && price.value.times(amount);
  if (!value) return undefined;
  return { value: isOne(price.per.base) ? value : value.div(price.per.base), currency: price.currency };
}

/** Sum of several costs in one currency; undefined where currencies differ or there are none. */
export function sumOf(costs: readonly Money[]): Money | undefined {
  const currencies = new Set(costs.filter(({ value }) => !value.isZero()).map(({ currency }) => currency));
  if (currencies.size !== 1) return undefined;
  return { value: costs.reduce((sum, { value }) => sum.plus(value), exact(0)), currency: [...currencies][0]! };
}
