// Where the metals go: how much of each hazardous or colour-giving metal went in, is in the product, and is left over.
import {
  composition,
  elementMasses,
  elementName,
  exact,
  expandedUncertainty,
  isBeyondItsUncertainty,
  minus,
  dividedBy,
  scaled,
  sum,
  withoutUncertainty,
  type Formula,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { onceFor } from '../../once.js';
import { metalsTable } from '../../tables/compiled/chemistry/metals.js';
import { bareFigure, figure, type Figure } from '../figures.js';
import type { Ingredient } from '../ingredients.js';
import type { MetalAccount } from '../contracts.js';
import { leftUpTo } from '../undecided.js';

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

/** Metals of a formula of which it is told where they go. */
export const followedIn = onceFor((formula: Formula): readonly string[] =>
  [...composition(formula).keys()].filter((symbol) => metals().has(symbol)),
);

/** Followed metals of what is more than a wash. */
const metalsIn = (ingredients: readonly Ingredient[]): ReadonlySet<string> =>
  new Set(
    ingredients.flatMap(({ taken, use }) => (taken.formula && use.role !== 'wash' ? followedIn(taken.formula) : [])),
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

/** What went into a pot of each metal that is followed. */
export interface MetalsTaken {
  /** The preparation had a liquid, so that what is not in the product is in filtrate and washings. */
  readonly wet: boolean;
  readonly metals: readonly MetalTaken[];
}

interface MetalTaken {
  readonly symbol: string;
  readonly name: string;
  readonly hazardous: boolean;
  /** g */
  readonly total: UncertainDecimal;
  readonly in: Figure;
}

/** What went in of each metal that is followed; one of which a source has no known amount is left out. */
export function metalsTaken(ingredients: readonly Ingredient[]): MetalsTaken {
  return {
    wet: ingredients.some(({ use, taken }) => use.role === 'solvent' || taken.volume !== undefined),
    metals: [...metalsIn(ingredients)].flatMap((symbol) => {
      const total = massIn(ingredients, symbol);
      if (!total) return [];
      const hazardous = metals().get(symbol)!;
      return [{ symbol, name: elementName(symbol), hazardous, total, in: bareFigure(total, 'g') }];
    }),
  };
}

function accountOf(taken: MetalTaken, product: Product, wet: boolean): MetalAccount | undefined {
  const { symbol, name, hazardous, total } = taken;
  const inProduct = massOf(symbol, product);
  const rest = minus(total, inProduct);
  const isCertain = isBeyondItsUncertainty(rest);
  const restOfTotal = dividedBy(rest, total);
  const productOfTotal = dividedBy(inProduct, total);
  if (!restOfTotal || !productOfTotal) return undefined;
  // What weighing cannot tell from nothing is told by what it may be at most.
  const most = isCertain ? undefined : rest.value.plus(exact(expandedUncertainty(rest).toFixed()));
  const isTold = isCertain ? rest.value.isPositive() : hazardous;
  const left = most ? leftUpTo(rest, most, 'g') : bareFigure(rest, 'g');
  const share = scaled(restOfTotal, 100);
  const restShare = most ? leftUpTo(share, most.div(total.value).times(100), '%') : figure(share, '%');
  const ofAll = most ? restShare.text : bareFigure(share, '%').text;
  const place = wet ? 'Filtrate, washings and losses hold' : 'Not in the product, lost or left in the vessel:';
  return {
    symbol,
    name,
    hazardous,
    exceeds: isCertain && rest.value.isNegative(),
    in: taken.in,
    inProduct: bareFigure(inProduct, 'g'),
    inProductShare: figure(scaled(productOfTotal, 100), '%'),
    rest: left,
    restShare,
    ...(isTold && {
      wasteLine: `${place} ${left.text} ${name} (${ofAll} of what went in).`,
    }),
  };
}

/** Accounts of a sample's metals. @param product what was obtained, in mol, with its formula */
export function metalAccounts({ wet, metals: taken }: MetalsTaken, product: Product): readonly MetalAccount[] {
  return taken
    .flatMap((one) => accountOf(one, product, wet) ?? [])
    .sort((a, b) => Number(b.hazardous) - Number(a.hazardous) || a.symbol.localeCompare(b.symbol));
}
