// The rules of mixing and heating in which a substance takes part, for its own page.
import { dryComposition, type ResolvedReagent } from '../../reagents/index.js';
import { compareSeverity, type Foreseen } from './contracts.js';
import { groups, groupUnits, undiluted } from './groups.js';
import { heatRules, pairRules } from './rules.js';

export type RuleOf = Pick<
  Foreseen,
  'rule' | 'title' | 'severity' | 'consequence' | 'condition' | 'precaution' | 'source'
> &
  Partial<Pick<Foreseen, 'gas' | 'sourceUrl'>>;

/**
 * Rules in which a substance takes part, the serious ones first; notes are left out. Empty where nothing is known of
 * it.
 * @example rulesWith(resolveNamed('sodium nitrite')).some((one) => one.title === 'nitrite with ammonium salt') // true
 */
export function rulesWith({ substance }: ResolvedReagent): readonly RuleOf[] {
  if (!substance) return [];
  const { constituents, groups: named } = substance;
  const member = new Set(
    [...groups().values()]
      .filter(
        ({ id, test }) =>
          !test.startsWith('pot ') && (groupUnits(id, constituents, undiluted) > 0 || named.includes(id)),
      )
      .map(({ id }) => id),
  );
  const found = [
    ...pairRules().filter((rule) => rule.groups.some(({ any }) => any.some((group) => member.has(group)))),
    ...heatRules().filter(
      (rule) =>
        rule.of.some((group) => member.has(group)) &&
        (rule.formulae.length === 0 || rule.formulae.some((one) => dryComposition(one) === constituents.dry)),
    ),
  ].filter(({ severity }) => severity !== 'note');
  return found
    .map((rule) => ({
      rule: rule.id,
      title: rule.title,
      severity: rule.severity,
      consequence: rule.consequence,
      condition: rule.condition,
      precaution: rule.precaution,
      source: rule.source,
      ...(rule.gas && { gas: rule.gas }),
      ...(rule.url && { sourceUrl: rule.url }),
    }))
    .sort((a, b) => compareSeverity(a.severity, b.severity) || (a.title < b.title ? -1 : 1));
}
