// How much alkali a hydroxide makes of water: all of it, as much as water takes, or none to speak of.
import { slightAlkalisTable } from '../../tables/compiled/chemistry/ions/slight-alkalis.js';
import { prepared } from '../../tables/prepared.js';
import { exact, type Decimal } from '../exact.js';
import { parseFormula, type Formula } from '../formula/index.js';
import { dissolves } from './solubility.js';
import { speciesKey, withoutWater } from './supply.js';

/** pH of saturated solutions near 25 °C, by composition. */
const saturated = prepared<readonly (readonly [species: string, pH: string])[]>('slight-alkalis', () =>
  slightAlkalisTable().flatMap(({ hydroxide, saturated_ph: pH }) => {
    const read = parseFormula(hydroxide);
    return read.ok ? [[speciesKey(read.value), pH] as const] : [];
  }),
);

/**
 * What water takes of a hydroxide: `all` of it, so much of it that the pH is no more than the one told, or too little
 * to make an alkali (`none`), as of hydroxides and basic carbonates of heavy metals.
 * @example alkaliInWater('Ca(OH)2').toString() // '12.45'
 */
export function alkaliInWater(written: string | Formula): 'all' | 'none' | Decimal {
  const read = typeof written === 'string' ? parseFormula(written) : undefined;
  const formula = typeof written === 'string' ? read?.ok && read.value : written;
  if (!formula) return 'none';
  const key = speciesKey(withoutWater(formula) ?? formula);
  const pH = saturated().find(([species]) => species === key)?.[1];
  if (pH !== undefined) return exact(pH);
  return dissolves(formula) ? 'all' : 'none';
}
