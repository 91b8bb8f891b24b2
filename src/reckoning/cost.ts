// What a sample cost: prices of the shelf and the shares of lots that went into it.
import { exact, type Decimal } from '../chemistry/index.js';
import type { Figure } from './contracts.js';
import { isWaterReagent, type Ingredient } from './ingredients.js';
import { quantityOf } from './remembered.js';

export interface Money {
  readonly value: Decimal;
  readonly currency: string;
}

/** Two decimals below ten thousand, cents and pence being the smallest coins; a fraction of one is shown as such. */
export const moneyFigure = ({ value, currency }: Money): Figure => ({
  value: value.toSignificantDigits(12).toFixed(),
  unit: currency,
  text: `${value.lt('0.005') && !value.isZero() ? 'under 0.01' : value.toFixed(2)} ${currency}`,
});

/**
 * Cost of one ingredient as it was taken; undefined where price or amount are not known. Water costs nothing here.
 * @param currency the journal's, for prices that leave it out
 */
export function costOf(
  { shelf, lotFacts, taken, measure, reagent, use }: Ingredient,
  currency: string | undefined,
): Money | undefined {
  if ((lotFacts && use.lot !== undefined) || (lotFacts && shelf?.price === undefined)) {
    if (!lotFacts.cost || !lotFacts.obtained || !taken.mass || Number(lotFacts.obtained.value) === 0) return undefined;
    return {
      value: exact(lotFacts.cost.value).times(taken.mass.value).div(lotFacts.obtained.value),
      currency: lotFacts.cost.unit,
    };
  }
  if (shelf?.price === undefined)
    return isWaterReagent(reagent) ? { value: exact(0), currency: currency ?? '' } : undefined;
  const text = shelf.price.trim();
  const price = quantityOf(
    /^\d+(?:\.\d+)?\s*(?:\/|per\b)/.test(text) && currency ? text.replace(/^(\d+(?:\.\d+)?)/, `$1 ${currency}`) : text,
  );
  if (!price.ok || !price.value.per || !price.value.currency) return undefined;
  const { per } = price.value;
  const amount =
    per.dimension === 'mass'
      ? taken.mass
      : per.dimension === 'volume'
        ? taken.volume
        : per.dimension === 'amount'
          ? taken.substance
          : undefined;
  if (amount) return { value: price.value.value.times(amount.value).div(per.base), currency: price.value.currency };
  if (per.dimension === 'drops' && measure.amount?.dimension === 'drops')
    return { value: price.value.value.times(measure.amount.base).div(per.base), currency: price.value.currency };
  return undefined;
}

/** Sum of several costs in one currency; undefined where currencies differ or there are none. */
export function sumOf(costs: readonly Money[]): Money | undefined {
  const currencies = new Set(costs.filter(({ value }) => !value.isZero()).map(({ currency }) => currency));
  if (currencies.size !== 1) return undefined;
  return { value: costs.reduce((sum, { value }) => sum.plus(value), exact(0)), currency: [...currencies][0]! };
}
