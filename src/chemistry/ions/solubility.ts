// Whether a salt dissolves in cold water, by the usual rules on its ions.
import { onceFor } from '../../once.js';
import { solubilityRulesTable } from '../../tables/compiled/chemistry/ions/solubility-rules.js';
import type { Formula } from '../formula/index.js';
import { ionsOf } from './dissociation.js';

/** Molecules that go into water whole. */
const moleculesThatDissolve = new Set(['ammonia', 'hydrogen peroxide']);

/**
 * Whether a substance dissolves in cold water so that washing takes it out: by the usual rules on its ions, the first
 * rule that names one of them. What no rule names is taken not to dissolve.
 * @example dissolves('Na2SO4') // true
 */
export const dissolves = (formula: string | Formula): boolean =>
  typeof formula === 'string' ? byTheRules(formula) : formulaDissolves(formula);

const formulaDissolves = onceFor((formula: Formula) => byTheRules(formula));

function byTheRules(formula: string | Formula): boolean {
  const read = ionsOf(formula);
  if (!read.ok) return false;
  const { kind, ions, molecules } = read.value;
  if (kind === 'oxide' || kind === 'element' || kind === 'water') return false;
  if (ions.length === 0) return molecules.length > 0 && molecules.every(({ id }) => moleculesThatDissolve.has(id));
  const cations = ions.filter(({ charge }) => charge > 0);
  const anions = ions.filter(({ charge }) => charge < 0);
  const rules = solubilityRulesTable();
  return anions.every((anion) =>
    cations.every((cation) => {
      const rule = rules.find(({ ion, kind: of }) => ion === (of === 'cation' ? cation.id : anion.id));
      if (!rule?.dissolves) return false;
      const other = rule.kind === 'cation' ? anion : cation;
      return !rule.except.includes(other.id) && !rule.except.includes(other.formula);
    }),
  );
}
