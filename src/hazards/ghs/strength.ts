// Strength of a solution as the classification needs it: percent by weight.
import { Decimal, exact, parseQuantity, type Quantity } from '../../chemistry/index.js';
import { bad, good, type Outcome } from '../../outcome.js';
import { assumedDensitiesTable } from '../../tables/compiled/hazards/ghs/assumed-densities.js';
import type { Strength } from './contracts.js';

const densityIn = (quantity: Quantity | undefined): { readonly density?: string } =>
  quantity?.dimension === 'density' ? { density: quantity.base.toString() } : {};

/**
 * A strength as a maker writes it; of a range the upper end is taken.
 * @param written `60 %`, `10 % w/v`, `2.0 mol/L`
 * @param density `1.18 g/mL`
 */
export function readStrength(written: string, density?: string): Outcome<Strength> {
  const quantity = parseQuantity(written);
  if (!quantity.ok) return quantity;
  const heavy = density === undefined ? undefined : parseQuantity(density);
  if (heavy && !heavy.ok) return heavy;
  const stated = densityIn(heavy?.value);
  const value = (quantity.value.high ?? quantity.value.base).toString();
  switch (quantity.value.dimension) {
    case 'mass-percent':
      return good({ of: 'mass', percent: value });
    case 'mass-volume-percent':
      return good({ of: 'mass-per-volume', percent: value, ...stated });
    case 'concentration':
      return good({ of: 'amount', molPerLitre: value, ...stated });
    case 'density':
      return good({ of: 'mass-per-volume', percent: exact(value).times(100).toString(), ...stated });
    default:
      return bad({
        code: 'strength',
        message: `'${written}' is not a strength.`,
        expected: '60 %, 10 % w/v or 2.0 mol/L',
        cure: 'Write the strength by mass, by mass in volume, or in mol/L.',
      });
  }
}

export interface MassPercent {
  /** Percent by weight, between 0 and 100, decimal as text. */
  readonly percent: string;
  /** Where none was given: g/mL, and of what it is the density. */
  readonly assumedDensity?: { readonly gramsPerMillilitre: string; readonly of: string };
}

/** g of solute in 1 L of solution. */
function gramsPerLitre(
  strength: Exclude<Strength, { of: 'mass' }>,
  molarMass: string | undefined,
): Decimal | undefined {
  if (strength.of === 'mass-per-volume') return exact(strength.percent).times(10);
  return molarMass === undefined ? undefined : exact(strength.molPerLitre).times(molarMass);
}

/**
 * A strength in percent by weight, between 0 and 100, with the density that had to be assumed.
 * @param molarMass g/mol of the solute, for a strength in mol/L
 * @param hill composition of the solute in Hill order, which tells the density to assume where none is given
 */
export function massPercent(strength: Strength, molarMass?: string, hill = ''): Outcome<MassPercent> {
  if (strength.of === 'mass') return good({ percent: Decimal.min(100, strength.percent).toString() });
  const rows = assumedDensitiesTable();
  const assumed = rows.find((row) => row.hill === hill && hill !== '') ?? rows.find((row) => row.hill === '')!;
  const density = exact(strength.density ?? assumed.density_g_ml);
  if (!density.isPositive() || density.isZero())
    return bad({ code: 'density', message: 'A density must be more than nothing.' });
  const grams = gramsPerLitre(strength, molarMass);
  if (!grams)
    return bad({
      code: 'molar-mass',
      message: 'A strength in mol/L needs the formula of what is dissolved.',
      cure: 'Give the formula, or the strength in percent by mass.',
    });
  const percent = Decimal.min(100, grams.div(density.times(1000)).times(100)).toString();
  const { density_g_ml: gramsPerMillilitre, of } = assumed;
  return good({ percent, ...(!strength.density && { assumedDensity: { gramsPerMillilitre, of } }) });
}
