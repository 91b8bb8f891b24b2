// Where the metals go: how much of each hazardous or colour-giving metal went in, is in the product, and is left over.
import {
  composition,
  elementMasses,
  elementName,
  expandedUncertainty,
  minus,
  dividedBy,
  plus,
  scaled,
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

/** Followed metals of what is more than a wash. */
const metalsIn = (ingredients: readonly Ingredient[]): ReadonlySet<string> =>
  new Set(
    ingredients
      .flatMap(({ taken, use }) => (taken.formula && use.role !== 'wash' ? [...composition(taken.formula).keys()] : []))
      .filter((symbol) => metals().has(symbol)),
  );

/** g of a metal in all that went in; undefined where one of its sources has no known amount. */
function massIn(ingredients: readonly Ingredient[], symbol: string): UncertainDecimal | undefined {
  let total = withoutUncertainty(0);
  for (const { taken } of ingredients) {
    const { formula, substance } = taken;
    if (!formula || !composition(formula).has(symbol)) continue;
    if (!substance) return undefined;
    total = plus(total, massOf(symbol, { formula, substance }));
  }
  return total;
}

function accountOf(symbol: string, total: UncertainDecimal, product: Product, wet: boolean): MetalAccount | undefined {
  const inProduct = massOf(symbol, product);
  const rest = minus(total, inProduct);
  const uncertainty = expandedUncertainty(rest);
  const restOfTotal = dividedBy(rest, total);
  const productOfTotal = dividedBy(inProduct, total);
  if (!restOfTotal || !productOfTotal) return undefined;
  const restShare = scaled(restOfTotal, 100);
  const name = elementName(symbol);
  const place = wet ? 'Filtrate, washings and losses hold' : 'Not in the product, lost or left in the vessel:';
  return {
    symbol,
    name,
    hazardous: metals().get(symbol)!,
    exceeds: rest.value.isNegative() && rest.value.abs().gt(uncertainty),
    in: bareFigure(total, 'g'),
    inProduct: bareFigure(inProduct, 'g'),
    inProductShare: figure(scaled(productOfTotal, 100), '%'),
    rest: bareFigure(rest, 'g'),
    restShare: figure(restShare, '%'),
    ...(rest.value.gt(uncertainty) && {
      wasteLine: `${place} ${bareFigure(rest, 'g').text} ${name} (${bareFigure(restShare, '%').text} of what went in).`,
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
