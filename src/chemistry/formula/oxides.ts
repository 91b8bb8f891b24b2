// Oxide equivalents: a silicate, spinel or hydroxide as the oxides by which minerals and glazes are reported.
import { oxidesTable } from '../../tables/compiled/chemistry/formula/oxides.js';
import { exact, type Decimal } from '../exact.js';
import { composition } from './composition.js';
import type { Formula } from './model.js';
import { molarMass } from './molar-mass.js';
import { parseFormula } from './parse.js';

export interface OxideShare {
  readonly oxide: string;
  readonly percent: Decimal;
}

/**
 * The oxides whose sum the formula is, with their percent by mass; empty where it is no such sum (a sulfide, another
 * valency).
 * @example oxideEquivalents(parse('CaCuSi4O10')) // CaO 14.92 %, CuO 21.16 %, SiO2 63.93 %
 */
export function oxideEquivalents(formula: Formula): readonly OxideShare[] {
  const mass = molarMass(formula);
  const atoms = composition(formula);
  if (!mass.ok || mass.value.ranged || formula.charge !== 0 || !atoms.has('O')) return [];
  const usual = new Map(oxidesTable().map((row) => [row.symbol, row.oxide]));
  let oxygen = exact(0);
  const shares: OxideShare[] = [];
  for (const [symbol, { low }] of atoms) {
    if (symbol === 'O') continue;
    const oxide = usual.get(symbol);
    const parsed = oxide === undefined ? undefined : parseFormula(oxide);
    const weight = parsed?.ok ? molarMass(parsed.value) : undefined;
    if (!parsed?.ok || !weight?.ok) return [];
    const inside = composition(parsed.value);
    const units = low.div(inside.get(symbol)!.low);
    oxygen = oxygen.plus(units.times(inside.get('O')!.low));
    shares.push({ oxide: oxide!, percent: units.times(weight.value.low).div(mass.value.low).times(100) });
  }
  return oxygen.minus(atoms.get('O')!.low).abs().lt('1e-20') ? shares : [];
}
