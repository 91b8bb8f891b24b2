// One foreseen hazard, put together from the rule that tells it, its partners and the gas at worst.
import { compareSeverity, type Foreseen, type ForeseenSeverity, type WorstCase } from './contracts.js';
import { gasFacts, gasFormulae, gasNamed } from './gases.js';
import type { RuledIngredient } from './resolve-mixture.js';
import type { HeatRule, PairRule, RuleBase } from './rules.js';
import { aboveDangerLevel } from './worst-case-gas.js';

/** Dangers first; then by the name of the rule, so that the order of ingredients never matters. */
export const bySeverity = (a: Foreseen, b: Foreseen): number =>
  compareSeverity(a.severity, b.severity) || (a.rule < b.rule ? -1 : Number(a.rule > b.rule));

export const namesOf = (members: readonly RuledIngredient[]): readonly string[] =>
  [...new Set(members.map(({ name }) => name))].sort();

const aliasesOf = (shown: string): readonly string[] =>
  gasFormulae(shown).flatMap((formula) => {
    const gas = gasNamed(formula);
    return gas ? [formula, gas.name, ...gas.aliases] : [];
  });

const sourceText = ({ source, basis }: RuleBase): string =>
  basis === 'memory' && !source.includes('not seen') ? `${source} (from memory)` : source;

const raisedWords = 'raised to danger: all at once it would be above the level immediately dangerous to life or health';

const answersTo = (rule: RuleBase): readonly string[] => {
  const words = [rule.id.replaceAll('-', ' '), rule.title, ...rule.answers, ...aliasesOf(rule.gas)];
  return [...new Set(words.map((text) => text.toLowerCase()))];
};

/** What is found of a rule in one mixture. */
export interface RuleFound {
  readonly severity: ForeseenSeverity;
  readonly partners: readonly string[];
  readonly worst?: WorstCase;
  /** What this mixture adds to the rule's own condition. */
  readonly circumstances: readonly string[];
}

/** The hazard that a rule tells; a warning is a danger where its gas would be above the level dangerous to life. */
export function toForeseenHazard(
  rule: PairRule | HeatRule,
  { severity, partners, worst, circumstances }: RuleFound,
): Foreseen {
  const raised = severity === 'warning' && worst !== undefined && aboveDangerLevel(worst);
  const facts = gasFacts(rule.gas);
  const condition = [rule.condition, ...circumstances, ...(raised ? [raisedWords] : [])];
  return {
    rule: rule.id,
    ...(rule.pair && { pair: rule.pair }),
    severity: raised ? 'danger' : severity,
    title: rule.title,
    consequence: rule.consequence,
    partners,
    ...(rule.gas && { gas: rule.gas }),
    ...(facts.length > 0 && { gases: facts }),
    ...(rule.equation && { equation: rule.equation }),
    ...(worst && { worstCase: worst }),
    condition: condition.filter(Boolean).join('; '),
    precaution: rule.precaution,
    source: sourceText(rule),
    ...(rule.url && { sourceUrl: rule.url }),
    basis: rule.basis,
    answers: answersTo(rule),
  };
}
