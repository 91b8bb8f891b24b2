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

/**
 * Accounts of a sample's metals. A metal is left out where one of its sources has no known amount.
 * @param product what was obtained, in mol, with its formula
 * @param wet the preparation had a liquid, so that the rest is in filtrate and washings
 */
export function metalAccounts(
  ingredients: readonly Ingredient[],
  product: { readonly formula: Formula; readonly substance: UncertainDecimal } | undefined,
  wet: boolean,
): readonly MetalAccount[] {
  if (!product) return [];
  const symbols = new Set(
    ingredients
      .flatMap(({ taken, use }) => (taken.formula && use.role !== 'wash' ? [...composition(taken.formula).keys()] : []))
      .filter((symbol) => metals().has(symbol)),
  );
  const accounts: MetalAccount[] = [];
  for (const symbol of symbols) {
    let total = withoutUncertainty(0);
    let known = true;
    for (const { taken } of ingredients) {
      if (!taken.formula || !composition(taken.formula).has(symbol)) continue;
      if (!taken.substance) {
        known = false;
        break;
      }
      total = plus(total, elementMasses(taken.substance, taken.formula, symbol) ?? withoutUncertainty(0));
    }
    if (!known) continue;
    const inProduct = elementMasses(product.substance, product.formula, symbol) ?? withoutUncertainty(0);
    const rest = minus(total, inProduct);
    const uncertainty = expandedUncertainty(rest);
    const exceeds = rest.value.isNegative() && rest.value.abs().gt(uncertainty);
    const restOfTotal = dividedBy(rest, total);
    const productOfTotal = dividedBy(inProduct, total);
    if (!restOfTotal || !productOfTotal) continue;
    const restShare = scaled(restOfTotal, 100);
    const name = elementName(symbol);
    const place = wet ? 'Filtrate, washings and losses hold' : 'Not in the product, lost or left in the vessel:';
    accounts.push({
      symbol,
      name,
      hazardous: metals().get(symbol)!,
      exceeds,
      in: bareFigure(total, 'g'),
      inProduct: bareFigure(inProduct, 'g'),
      inProductShare: figure(scaled(productOfTotal, 100), '%'),
      rest: bareFigure(rest, 'g'),
      restShare: figure(restShare, '%'),
      ...(rest.value.gt(uncertainty) && {
        wasteLine:
          `${place} ${bareFigure(rest, 'g').text} ${name} ` + `(${bareFigure(restShare, '%').text} of what went in).`,
      }),
    });
  }
  return accounts.sort((a, b) => Number(b.hazardous) - Number(a.hazardous) || a.symbol.localeCompare(b.symbol));
}
