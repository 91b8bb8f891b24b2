// The rules of mixing and heating in which a substance takes part, for its own page.
import { once } from '../../once.js';
import { dryComposition, type ResolvedReagent } from '../../reagents/index.js';
import { consequenceKindsTable } from '../../tables/compiled/hazards/foresee/consequence-kinds.js';
import type { Foreseen } from './contracts.js';
import { gasFacts } from './gases.js';
import { groups, groupUnits, groupWords, undiluted } from './groups.js';
import { bySeverity } from './hazard.js';
import { heatRulesAmong, pairRulesNaming, type HeatRule, type PairRule } from './rules.js';

/** What a danger is before all else, the gravest first. */
const hazardKinds = ['explosion', 'poison', 'fire', 'heat', 'other'] as const;
export type HazardKind = (typeof hazardKinds)[number];

export interface RuleOf
  extends Pick<Foreseen, 'rule' | 'title' | 'severity' | 'consequence' | 'condition' | 'precaution' | 'source'>,
    Partial<Pick<Foreseen, 'gas' | 'sourceUrl'>> {
  readonly kind: HazardKind;
  /** Groups that have to meet it; empty where it is heated, or brings all that is needed itself. */
  readonly meets: readonly string[];
  /** It is a rule of heating. */
  readonly heated?: true;
}

const kindsOfConsequences = once(
  (): ReadonlyMap<string, HazardKind> => new Map(consequenceKindsTable().map((row) => [row.consequence, row.kind])),
);

/**
 * The gravest kind of what a rule tells.
 * @example kindOfHazard('heat; toxic gas') // 'poison'
 */
export function kindOfHazard(consequence: string): HazardKind {
  const kinds = kindsOfConsequences();
  const kindOf = (one: string): HazardKind => kinds.get(one) ?? kinds.get(one.replace(/ \(.*\)$/, '')) ?? 'other';
  const told = consequence.split(';').map((one) => kindOf(one.trim()));
  return hazardKinds.find((kind) => told.includes(kind)) ?? 'other';
}

function meetsOf({ groups: sides, alone }: PairRule, member: ReadonlySet<string>): readonly string[] {
  const isOwn = ({ any }: PairRule['groups'][number]): boolean => any.some((group) => member.has(group));
  if (alone && sides.every(isOwn)) return [];
  const own = sides.find(isOwn);
  return sides.filter((side) => side !== own).flatMap(({ any }) => any.map(groupWords));
}

const ruleOf = (rule: PairRule | HeatRule, how: Pick<RuleOf, 'meets' | 'heated'>): RuleOf => ({
  rule: rule.id,
  title: rule.title,
  severity: rule.severity,
  consequence: rule.consequence,
  condition: rule.condition,
  precaution: rule.precaution,
  source: rule.source,
  ...(rule.gas && { gas: rule.gas }),
  ...(rule.url && { sourceUrl: rule.url }),
  kind: kindOfHazard(rule.consequence),
  ...how,
});

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
  const mixed = pairRulesNaming(member);
  const heated = heatRulesAmong(member).filter(
    ({ formulae }) => formulae.length === 0 || formulae.some((one) => dryComposition(one) === constituents.dry),
  );
  return [
    ...mixed.map((rule) => ruleOf(rule, { meets: meetsOf(rule, member) })),
    ...heated.map((rule) => ruleOf(rule, { meets: [], heated: true })),
  ]
    .filter(({ severity }) => severity !== 'note')
    .map((one) => ({ one, gases: gasFacts(one.gas ?? '') }))
    .sort((a, b) => bySeverity({ ...a.one, gases: a.gases }, { ...b.one, gases: b.gases }))
    .map(({ one }) => one);
}
