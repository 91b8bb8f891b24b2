// Hazards of heating: what each ingredient gives off at the heat it is brought to.
import type { Decimal } from '../../chemistry/index.js';
import { dryComposition } from '../../reagents/index.js';
import { once, onceFor } from '../../once.js';
import type { Foreseen, Mixture } from './contracts.js';
import { namesOf, toForeseenHazard, type FoundHazard } from './hazard.js';
import { isOneOf, unitsOf } from './match-rule.js';
import { type Alike } from './groups-of-pot.js';
import { type ResolvedMixture } from './resolve-mixture.js';
import { boilsDryFrom, roomCelsius, type RuledIngredient } from './ruled-ingredient.js';
import { heatRulesAmong, type HeatRule } from './rules.js';
import { severityByAmount } from './severity-by-amount.js';
import { litresPerMole, worstCase, type GasAmount } from './worst-case-gas.js';

const isOf = (rule: HeatRule, dry: string): boolean =>
  rule.formulae.length === 0 || rule.formulae.some((formula) => dryComposition(formula) === dry);

/**
 * The rules that hold for one substance, however hot it is: within a family the row of the substance itself goes before
 * the general one.
 */
function heatRulesAnew(
  ingredient: RuledIngredient,
  { units }: ResolvedMixture,
  among: readonly HeatRule[],
): readonly HeatRule[] {
  const fitting = among.filter((rule) => isOneOf(units, rule.of, ingredient) && isOf(rule, ingredient.substance.dry));
  const own = fitting.filter(isOwn);
  if (own.length === 0) return fitting;
  return fitting.filter((rule) => isOwn(rule) || !own.some(({ family }) => family === rule.family));
}

const heatRulesIn = onceFor((_: Alike) => new Map<number, readonly HeatRule[]>());

function heatRulesFor(
  ingredient: RuledIngredient,
  resolved: ResolvedMixture,
  among: readonly HeatRule[],
): readonly HeatRule[] {
  const { alike } = resolved;
  if (!alike) return heatRulesAnew(ingredient, resolved, among);
  const known = heatRulesIn(alike);
  const { index } = ingredient;
  let rules = known.get(index);
  if (!rules) known.set(index, (rules = heatRulesAnew(ingredient, resolved, among)));
  return rules;
}
const isOwn = ({ formulae }: HeatRule): boolean => formulae.length > 0;

interface HeatMatch {
  readonly rule: HeatRule;
  readonly members: RuledIngredient[];
  hottest: number;
  /** It comes to be dry, so that it breaks down. */
  dry: boolean;
}

/** Spirit of 94 %: the little water that it holds keeps nothing from it, where no other is there. */
const mostly = 50;
const isMostlyItself = (one: RuledIngredient, { ingredients }: ResolvedMixture): boolean =>
  one.strength.percent >= mostly && one.wets && !ingredients.some((other) => other.wets && other.index !== one.index);

function matchesIn(resolved: ResolvedMixture): readonly HeatMatch[] {
  const found = new Map<string, HeatMatch>();
  const hot = resolved.ingredients.filter((ingredient) => resolved.heatOf(ingredient) > roomCelsius);
  const among = hot.length > 0 ? heatRulesAmong(resolved.present) : [];
  if (among.length === 0) return [];
  for (const ingredient of hot) {
    const heat = resolved.heatOf(ingredient);
    const cannotDry = heat <= boilsDryFrom || resolved.onHobAtMost;
    const hasWater = resolved.wet && ingredient.made !== 'product' && !isMostlyItself(ingredient, resolved);
    const staysWet = hasWater && cannotDry;
    for (const rule of heatRulesFor(ingredient, resolved, among)) {
      if (heat < rule.from || ingredient.strength.percent < rule.abovePercent) continue;
      const match = found.get(rule.id) ?? { rule, members: [], hottest: 0, dry: false };
      match.members.push(ingredient);
      match.dry ||= rule.inWater || !staysWet;
      match.hottest = Math.max(match.hottest, heat);
      found.set(rule.id, match);
    }
  }
  return [...found.values()];
}

const gasesOf = ({ gases }: HeatRule, units: Decimal): readonly GasAmount[] =>
  gases.map(({ formula, perUnit }) => ({ formula, mol: perUnit.times(units) }));

function toldOfMatch(
  { rule, members, hottest, dry }: HeatMatch,
  units: Decimal | undefined,
  mixture: Mixture,
): Foreseen {
  const partners = namesOf(members);
  if (!dry) {
    const circumstances = ['not while it is still a solution, but when it boils dry or the solid is dried hot'];
    return toForeseenHazard(rule, { severity: 'note', partners, circumstances });
  }
  const gases = units && rule.gases.length > 0 ? gasesOf(rule, units) : undefined;
  const worst = gases && worstCase(gases, partners.join(', '), mixture);
  const litres = (gases ?? []).map(({ formula, mol }) => [formula, mol.times(litresPerMole).toNumber()] as const);
  const { consequence } = rule;
  return toForeseenHazard(rule, {
    severity: rule.severity,
    byAmount: severityByAmount(rule.severity, { consequence, sides: [], litres, ...(worst && { worst }) }),
    partners,
    ...(worst && { worst }),
    circumstances: [
      `heated to ${Math.round(hottest)} °C; told from ${rule.from} °C on, below the lowest published onset`,
    ],
  });
}

function hazardOf(match: HeatMatch, resolved: ResolvedMixture, mixture: Mixture): FoundHazard {
  const { rule, members, dry } = match;
  const extent = once(() => unitsOf(resolved, members, rule.of));
  return { foreseen: once(() => toldOfMatch(match, extent(), mixture)), rule, members, extent, holds: dry };
}

/** The hazards of heating in a mixture. */
export const heatingHazards = (resolved: ResolvedMixture, mixture: Mixture): readonly FoundHazard[] =>
  matchesIn(resolved).map((match) => hazardOf(match, resolved, mixture));
