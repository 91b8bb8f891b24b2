// Hazards of mixing: the rules of pairs held against a mixture, each with its gas at worst.
import type { Decimal } from '../../chemistry/index.js';
import type { Side } from './conditions.js';
import type { Foreseen, Mixture, WorstCase } from './contracts.js';
import { namesOf, toForeseenHazard } from './hazard.js';
import { everyoneIn, matchRule, unitsOf, type RuleMatch } from './match-rule.js';
import type { ResolvedMixture, RuledIngredient } from './resolve-mixture.js';
import { pairRules, type PairRule } from './rules.js';
import { worstCase } from './worst-case-gas.js';

const acids = new Set(['strong_acid', 'weak_acid', 'acidic_salt']);
/** Acids and others sold at many strengths. */
const liquids = new Set(['ClH', 'HNO3', 'H2O4S', 'C2H4O2', 'H3N', 'H2O2', 'H3O4P', 'CH2O2', 'FH', 'ClHO4']);

type RuleSide = PairRule['groups'][number];

/** mol of reaction that one side allows; undefined where its amount is not known. */
function extentOf(
  { side, any, needs }: RuleSide,
  members: RuleMatch['members'],
  resolved: ResolvedMixture,
): Decimal | undefined {
  // All acids of the mixture give their protons to the worst case.
  const isAcid = any.some((group) => acids.has(group));
  const pool = isAcid ? [...acids] : any;
  const givers = isAcid
    ? resolved.ingredients.filter((ingredient) => pool.some((group) => resolved.units(group, ingredient) > 0))
    : members[side];
  const brought = unitsOf(resolved, givers, pool);
  return side === 'a' ? brought : brought?.div(needs!);
}

/** Gas of a rule at worst, from the partner that limits; partners of unknown amount are taken as plenty. */
function worstCaseGas(
  rule: PairRule,
  { members }: RuleMatch,
  resolved: ResolvedMixture,
  mixture: Mixture,
): WorstCase | undefined {
  if (rule.gases.length === 0) return undefined;
  let limit: { readonly extent: Decimal; readonly side: Side } | undefined;
  for (const group of rule.groups) {
    if (group.side !== 'a' && group.needs === undefined) continue;
    const extent = extentOf(group, members, resolved);
    if (extent !== undefined && (!limit || extent.lt(limit.extent))) limit = { extent, side: group.side };
  }
  if (!limit || limit.extent.isZero()) return undefined;
  const { extent, side } = limit;
  return worstCase(
    rule.gases.map(({ formula, perUnit }) => ({ formula, mol: perUnit.times(extent) })),
    namesOf(members[side]).join(', '),
    mixture,
  );
}

/** Sold at many strengths, and none was given. */
const isVague = ({ strength, watery, made, substance }: RuledIngredient): boolean =>
  strength.percent === Infinity &&
  !watery &&
  made === undefined &&
  ['acid', 'molecule'].includes(substance.kind) &&
  liquids.has(substance.dry);

/** The hazards of mixing in a mixture. */
export function mixingHazards(resolved: ResolvedMixture, mixture: Mixture): readonly Foreseen[] {
  return pairRules().flatMap((rule) => {
    const match = matchRule(rule, resolved);
    if (!match) return [];
    const everyone = everyoneIn(match.members);
    const vague = everyone.filter(isVague);
    return [
      toForeseenHazard(rule, {
        severity: match.severity,
        partners: namesOf(everyone),
        worst: worstCaseGas(rule, match, resolved, mixture),
        circumstances:
          vague.length > 0 ? [`${namesOf(vague).join(', ')}: no strength was given, taken as concentrated`] : [],
      }),
    ];
  });
}
