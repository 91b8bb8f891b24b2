// Hazards of mixing: the rules of pairs held against a mixture, each with its gas at worst.
import type { Decimal } from '../../chemistry/index.js';
import { lastFor, once, onceFor } from '../../once.js';
import { contentShown } from '../../reagents/index.js';
import type { Side } from './conditions.js';
import type { Foreseen, Mixture, WorstCase } from './contracts.js';
import { namesOf, toForeseenHazard, type FoundHazard } from './hazard.js';
import { everyoneIn, isOneOf, matchRule, namedIn, unitsOf, waterBeside, type RuleMatch } from './match-rule.js';
import type { ResolvedMixture, StandingMixture } from './resolve-mixture.js';
import type { RuledIngredient } from './ruled-ingredient.js';
import { pairRulesAmong, type PairRule } from './rules.js';
import { warmthOf, type MixingWarmth } from './mixing-heat.js';
import { severityByAmount, type AmountsBehind } from './severity-by-amount.js';
import { litresPerMole, worstCase } from './worst-case-gas.js';

const acids = ['strong_acid', 'weak_acid', 'acidic_salt'];
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
  const isAcid = any.some((group) => acids.includes(group));
  const pool = isAcid ? acids : any;
  const givers = isAcid
    ? resolved.ingredients.filter((ingredient) => isOneOf(resolved.units, pool, ingredient))
    : members[side];
  const brought = unitsOf(resolved, givers, pool);
  return side === 'a' ? brought : brought?.div(needs!);
}

interface GasAtWorst {
  readonly worst: WorstCase;
  readonly litres: AmountsBehind['litres'];
}

/** How far a rule can go, and the side that runs out first. */
interface Limit {
  readonly extent: Decimal;
  readonly side: Side;
}

/** The partner that limits; partners of unknown amount are taken as plenty, undefined where all are. */
function limitOf(rule: PairRule, { members }: RuleMatch, resolved: ResolvedMixture): Limit | undefined {
  let limit: Limit | undefined;
  for (const group of rule.groups) {
    if (group.side !== 'a' && group.needs === undefined) continue;
    const extent = extentOf(group, members, resolved);
    if (extent !== undefined && (!limit || extent.lt(limit.extent))) limit = { extent, side: group.side };
  }
  return limit;
}

/** Gas of a rule at worst, from the partner that limits. */
function worstCaseGas(
  rule: PairRule,
  { members }: RuleMatch,
  limit: Limit | undefined,
  mixture: Mixture,
): GasAtWorst | undefined {
  if (rule.gases.length === 0 || !limit || limit.extent.isZero()) return undefined;
  const { extent, side } = limit;
  const amounts = rule.gases.map(({ formula, perUnit }) => ({ formula, mol: perUnit.times(extent) }));
  return {
    worst: worstCase(amounts, namesOf(members[side]).join(', '), mixture),
    litres: amounts.map(({ formula, mol }) => [formula, mol.times(litresPerMole).toNumber()] as const),
  };
}

const sides = ['a', 'b', 'c'] as const;

/** What names were taken as: `descaler taken as HCl or HCOOH`. */
function takenWords(everyone: readonly RuledIngredient[]): readonly string[] {
  if (everyone.every(({ takenAs }) => takenAs === undefined)) return [];
  const contents = new Map<string, Set<string>>();
  for (const { name, takenAs } of everyone)
    if (takenAs !== undefined) contents.set(name, (contents.get(name) ?? new Set()).add(takenAs));
  return [...contents]
    .map(([name, taken]) => `${name} taken as ${[...taken].sort().map(contentShown).join(' or ')}`)
    .sort();
}

/** What the words were taken as, where that is not what they say, and how much all of it would warm. */
function circumstancesOf(everyone: readonly RuledIngredient[], warmth: MixingWarmth | undefined): readonly string[] {
  const vague = everyone.filter(isVague);
  return [
    ...takenWords(everyone),
    ...(vague.length > 0 ? [`${namesOf(vague).join(', ')}: no strength was given, taken as concentrated`] : []),
    ...(warmth ? [warmthWords(warmth)] : []),
  ];
}

const warmthWords = ({ rise }: MixingWarmth): string =>
  rise >= 80
    ? 'all at once it would boil'
    : `all at once it would warm by about ${Math.max(1, Math.round(rise))} °C at most`;

/** Sold at many strengths, and none was given. */
const isVague = ({ strength, watery, made, substance }: RuledIngredient): boolean =>
  strength.percent === Infinity &&
  !watery &&
  made === undefined &&
  ['acid', 'molecule'].includes(substance.kind) &&
  liquids.has(substance.dry);

const isWaterItself = ({ substance }: RuledIngredient): boolean => substance.dry === 'H2O';

/** What a rule tells of those who match it. */
function toldOfMatch(
  rule: PairRule,
  match: RuleMatch,
  limit: Limit | undefined,
  resolved: ResolvedMixture,
  mixture: Mixture,
): Foreseen {
  const everyone = everyoneIn(match.members);
  const gas = worstCaseGas(rule, match, limit, mixture);
  const warmth = warmthOf(rule, match.members, resolved);
  const besides = everyone.some(isWaterItself) ? undefined : waterBeside(match.members, resolved);
  const byAmount = severityByAmount(match.severity, {
    consequence: rule.consequence,
    sides: sides.map((side) => match.members[side]),
    litres: gas?.litres ?? [],
    isLiquid: resolved.wet || resolved.circumstances.has('liquid') || everyone.some(isVague),
    ...(gas && { worst: gas.worst }),
    ...(besides && { besides }),
    ...warmth,
  });
  return toForeseenHazard(rule, {
    severity: match.severity,
    byAmount,
    partners: namesOf(namedIn(rule, match.members)),
    ...(gas && { worst: gas.worst }),
    circumstances: circumstancesOf(everyone, warmth),
  });
}

/** The hazard that a rule finds in those who match it. */
export function hazardOfMatch(
  rule: PairRule,
  match: RuleMatch,
  resolved: ResolvedMixture,
  mixture: Mixture,
): FoundHazard {
  const limit = once(() => limitOf(rule, match, resolved));
  return {
    foreseen: once(() => toldOfMatch(rule, match, limit(), resolved, mixture)),
    rule,
    members: everyoneIn(match.members),
    extent: () => limit()?.extent,
    holds: match.severity === rule.severity,
  };
}

function hazardOf(rule: PairRule, resolved: ResolvedMixture, mixture: Mixture): FoundHazard | undefined {
  const match = matchRule(rule, resolved);
  return match && hazardOfMatch(rule, match, resolved, mixture);
}

/** Whether the heat of a mixture decides if a rule holds. */
const asksForHeat = onceFor((rule: PairRule) => rule.when.some((all) => all.some(({ kind }) => kind === 'hot')));

/** What rules tell of what stands in a mixture, with or without extraction, whatever heat it gets. */
const toldOfStanding = onceFor((_standing: StandingMixture) =>
  lastFor((_extraction: boolean | undefined) => new Map<PairRule, FoundHazard | undefined>()),
);

/** The hazards of mixing in a mixture. @param isAsked whether a rule is asked for, by its id */
export function mixingHazards(
  resolved: ResolvedMixture,
  mixture: Mixture,
  isAsked: (rule: string) => boolean,
): readonly FoundHazard[] {
  const known = toldOfStanding(resolved.standing)(mixture.extraction);
  const found: FoundHazard[] = [];
  for (const rule of pairRulesAmong(resolved.present)) {
    if (!isAsked(rule.id)) continue;
    const before = known.has(rule);
    const hazard = before ? known.get(rule) : hazardOf(rule, resolved, mixture);
    if (!before && !asksForHeat(rule)) known.set(rule, hazard);
    if (hazard) found.push(hazard);
  }
  return found;
}
