// The warmth of mixing: published heats of solution, dilution and neutralisation, all of it set free at once in the
// mixture itself.
import { onceFor } from '../../once.js';
import { dryComposition } from '../../reagents/index.js';
import { mixingHeatsTable } from '../../tables/compiled/hazards/foresee/mixing-heats.js';
import type { Side } from './conditions.js';
import type { Members } from './match-rule.js';
import { unitsOf } from './match-rule.js';
import type { ResolvedMixture } from './resolve-mixture.js';
import type { RuledIngredient } from './ruled-ingredient.js';
import type { PairRule } from './rules.js';

/** J/(g K), of strong brines and lyes; that of water is 4.18, so that the rise is rather too high. From memory. */
const heatCapacity = 3.3;

/** Warmth set free at once, and the mass that it warms. */
export interface MixingWarmth {
  /** K */
  readonly rise: number;
  /** g */
  readonly grams: number;
}

const heatsOf = onceFor((rule: PairRule) => mixingHeatsTable().filter((row) => row.rule === rule.id));

function kilojoulesOf(
  rule: PairRule,
  side: Side,
  members: readonly RuledIngredient[],
  resolved: ResolvedMixture,
): number | undefined {
  const rows = heatsOf(rule).filter((row) => row.side === side);
  if (rows.length === 0) return undefined;
  const any = rule.groups.find((group) => group.side === side)!.any;
  let sum = 0;
  for (const member of members) {
    const row =
      rows.find(({ formula }) => formula !== undefined && dryComposition(formula) === member.substance.dry) ??
      rows.find(({ formula }) => formula === undefined);
    const units = unitsOf(resolved, [member], any);
    if (!row || units === undefined) return undefined;
    sum += units.toNumber() * row.kJ_per_unit;
  }
  return sum;
}

/** g of everyone on some sides; undefined where one is not known. */
function gramsOn(members: readonly RuledIngredient[]): number | undefined {
  let grams = 0;
  for (const member of members) {
    if (member.grams === undefined) return undefined;
    grams += member.grams;
  }
  return grams;
}

/** K to the boiling point: what is taken where it is not known how much there is to take up the heat. */
const toBoiling = 80;

/** So little of what warms slowly that nobody feels it. */
function isTooLittle(rule: PairRule, members: Members): boolean {
  const least = Math.max(0, ...heatsOf(rule).map((row) => row.felt_from_grams ?? 0));
  return (gramsOn(members.a) ?? Infinity) < least;
}

/**
 * How much a mixture would warm by a rule. Where only what brings the heat is known, the rest is taken as little;
 * undefined where that is not known either.
 */
export function warmthOf(rule: PairRule, members: Members, resolved: ResolvedMixture): MixingWarmth | undefined {
  const heats = (['a', 'b', 'c'] as const).flatMap((side) => kilojoulesOf(rule, side, members[side], resolved) ?? []);
  if (heats.length === 0 || isTooLittle(rule, members)) return undefined;
  const grams = gramsOn([...new Set([...members.a, ...members.b, ...members.c])]);
  if (grams !== undefined)
    return grams > 0 ? { rise: (Math.min(...heats) * 1000) / (grams * heatCapacity), grams } : undefined;
  const known = gramsOn(members.a);
  return known === undefined || known === 0 ? undefined : { rise: toBoiling, grams: known };
}
