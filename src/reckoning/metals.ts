// Where the metals go: how much of each hazardous or colour-giving metal went in, is in the product, and is left over.
import {
  composition,
  elementMasses,
  elementName,
  isBeyondItsUncertainty,
  minus,
  dividedBy,
  scaled,
  sum,
  withoutUncertainty,
  type Formula,
  type UncertainDecimal,
} from '../chemistry/index.js';
import { metalsTable } from '../tables/compiled/chemistry/metals.js';
import { bareFigure, figure } from './figures.js';
import type { Ingredient } from './ingredients.js';
import type { MetalAccount } from './contracts.js';

let watched: ReadonlyMap<string, boolean> | undefined;
/** Metals that are followed, and whether they are hazardous. */
function metals(): ReadonlyMap<string, boolean> {
  watched ??= new Map(metalsTable().map((row) => [row.symbol, row.hazardous]));
  return watched;
}

interface Product {
  readonly formula: Formula;
  /** In mol. */
  readonly substance: UncertainDecimal;
}

const massOf = (symbol: string, { formula, substance }: Product): UncertainDecimal =>
  elementMasses(substance, formula, symbol) ?? withoutUncertainty(0);

/** Whether it is told where an element goes. */
export const isFollowed = (symbol: string): boolean => metals().has(symbol);

/** Followed metals of what is more than a wash. */
const metalsIn = (ingredients: readonly Ingredient[]): ReadonlySet<string> =>
  new Set(
    ingredients
      .flatMap(({ taken, use }) => (taken.formula && use.role !== 'wash' ? [...composition(taken.formula).keys()] : []))
      .filter((symbol) => metals().has(symbol)),
  );

/** g of a metal in all that went in; undefined where one of its sources has no known amount. */
function massIn(ingredients: readonly Ingredient[], symbol: string): UncertainDecimal | undefined {
  const masses: UncertainDecimal[] = [];
  for (const { taken } of ingredients) {
    const { formula, substance } = taken;
    if (!formula || !composition(formula).has(symbol)) continue;
    if (!substance) return undefined;
    masses.push(massOf(symbol, { formula, substance }));
  }
  return sum(masses);
}

function accountOf(symbol: string, total: UncertainDecimal, product: Product, wet: boolean): MetalAccount | undefined {
  const inProduct = massOf(symbol, product);
  const rest = minus(total, inProduct);
  const isCertain = isBeyondItsUncertainty(rest);
  const restOfTotal = dividedBy(rest, total);
  const productOfTotal = dividedBy(inProduct, total);
  if (!restOfTotal || !productOfTotal) return undefined;
  const isLeft = isCertain && rest.value.isPositive();
  const left = bareFigure(rest, 'g');
  const restShare = scaled(restOfTotal, 100);
  const name = elementName(symbol);
  const place = wet ? 'Filtrate, washings and losses hold' : 'Not in the product, lost or left in the vessel:';
  return {
    symbol,
    name,
    hazardous: metals().get(symbol)!,
    exceeds: isCertain && rest.value.isNegative(),
    in: bareFigure(total, 'g'),
    inProduct: bareFigure(inProduct, 'g'),
    inProductShare: figure(scaled(productOfTotal, 100), '%'),
    rest: left,
    restShare: figure(restShare, '%'),
    ...(isLeft && {
      wasteLine: `${place} ${left.text} ${name} (${bareFigure(restShare, '%').text} of what went in).`,
    }),
  };
}

/**
 * Accounts of a sample's metals. A metal is left out where one of its sources has no known amount.
 * @param product what was obtained, in mol, with its formula
 * @param wet the preparation had a liquid, so that the rest is in filtrate and washings
 */
export function metalAccounts(
  ingredients: readonly Ingredient[],
  product: Product | undefined,
  wet: boolean,
): readonly MetalAccount[] {
  if (!product) return [];
  return [...metalsIn(ingredients)]
    .flatMap((symbol) => {
      const total = massIn(ingredients, symbol);
      return (total && accountOf(symbol, total, product, wet)) ?? [];
    })
    .sort((a, b) => Number(b.hazardous) - Number(a.hazardous) || a.symbol.localeCompare(b.symbol));
}
