// What a loss on ignition says: how much water each formula unit of what is left had held, if all of it was water.
import { exact, type Decimal } from './exact.js';
import { composition, molarMass, parseFormula, type Formula } from './formula/index.js';
import { dividedBy, minus, times, withoutUncertainty, type UncertainDecimal } from './uncertainty.js';

/** Elements that ignition may take away or bring. */
const volatile = new Set(['H', 'O', 'C', 'N']);

function molarMassOf(formula: Formula): UncertainDecimal | undefined {
  const mass = molarMass(formula);
  return mass.ok && mass.value.middle.value.gt(0) ? mass.value.middle : undefined;
}

let perMoleOfWater: UncertainDecimal | undefined;
function waterMass(): UncertainDecimal {
  if (!perMoleOfWater) {
    const water = parseFormula('H2O');
    perMoleOfWater = water.ok ? molarMassOf(water.value) : undefined;
  }
  return perMoleOfWater!;
}

/**
 * Water that was held by each formula unit of the residue, as if all that went off were water; undefined where the
 * residue weighs nothing or has no molar mass.
 * @param before g @param after g
 */
export function waterInResidue(
  before: UncertainDecimal,
  after: UncertainDecimal,
  residue: Formula,
): UncertainDecimal | undefined {
  const perMole = molarMassOf(residue);
  const left = perMole && dividedBy(after, perMole);
  const lost = dividedBy(minus(before, after), waterMass());
  return left && lost && dividedBy(lost, left);
}

/**
 * How many formula units of a product one unit of the residue comes from, by the elements that stay; undefined where
 * they have none in common or these do not agree.
 * @example unitsInResidue(parseFormula('Cu2CO3(OH)2').value, parseFormula('CuO').value)?.toNumber() // 0.5
 */
export function unitsInResidue(product: Formula, residue: Formula): Decimal | undefined {
  const [made, left] = [composition(product), composition(residue)];
  const shares = [...left]
    .filter(([symbol]) => !volatile.has(symbol) && made.has(symbol))
    .map(([symbol, count]) => exact(count.low).div(made.get(symbol)!.low));
  const [first] = shares;
  return first && shares.every((share) => share.minus(first).abs().lt('1e-9')) ? first : undefined;
}

/** Mass of the residue in mol of the product that it came from; undefined where that cannot be told. */
export function productInResidue(
  after: UncertainDecimal,
  residue: Formula,
  product: Formula,
): UncertainDecimal | undefined {
  const perMole = molarMassOf(residue);
  const units = unitsInResidue(product, residue);
  const left = perMole && dividedBy(after, perMole);
  return left && units && times(left, withoutUncertainty(units));
}
