// The rules of mixing and heating, read from their tables.
import { exact, type Decimal } from '../../chemistry/index.js';
import { once, onceFor } from '../../once.js';
import { alsoInTables } from '../../reagents/table-formulae.js';
import { acidsTable } from '../../tables/compiled/hazards/foresee/acids.js';
import { gasesTable } from '../../tables/compiled/hazards/foresee/gases.js';
import { groupsTable } from '../../tables/compiled/hazards/foresee/groups.js';
import { mixingHeatsTable } from '../../tables/compiled/hazards/foresee/mixing-heats.js';
import { pairsRow, pairsTable, type PairsRow } from '../../tables/compiled/hazards/foresee/pairs.js';
import { thermalRow, thermalTable, type ThermalRow } from '../../tables/compiled/hazards/foresee/thermal.js';
import { prepared, preparedByKey } from '../../tables/prepared.js';
import { readConditions, type Condition, type Side } from './conditions.js';
import type { ForeseenSeverity } from './contracts.js';

/** What the rules of mixing and those of heating both say. */
export interface RuleBase {
  readonly id: string;
  readonly pair?: string;
  readonly title: string;
  readonly severity: ForeseenSeverity;
  readonly consequence: string;
  readonly gas: string;
  /** Gas formula and mol of it for one unit of the first partner. */
  readonly gases: readonly { readonly formula: string; readonly perUnit: Decimal }[];
  readonly equation: string;
  readonly condition: string;
  readonly precaution: string;
  readonly answers: readonly string[];
  readonly source: string;
  readonly url: string;
  readonly basis: string;
  /** Its own examples, as written in the table: one list on which it fires, one on which it must not. */
  readonly fires: readonly string[];
  readonly quiet: readonly string[];
}

export interface PairRule extends RuleBase {
  readonly groups: readonly {
    readonly side: Side;
    readonly any: readonly string[] /** Units needed for one unit of the first partner. */;
    readonly needs?: Decimal;
  }[];
  readonly when: readonly (readonly Condition[])[];
  readonly otherwise?: ForeseenSeverity;
  /** One substance can hold both halves. */
  readonly alone: boolean;
}

export interface HeatRule extends RuleBase {
  readonly family: string;
  readonly of: readonly string[];
  readonly formulae: readonly string[];
  readonly from: number;
  readonly inWater: boolean;
  readonly abovePercent: number;
}

const ruleBase = (row: PairsRow | ThermalRow): RuleBase => ({
  id: row.rule,
  title: row.title,
  severity: row.severity,
  consequence: row.consequence,
  gas: row.gas,
  gases: row.gases.map(({ formula, perUnit }) => ({ formula, perUnit: exact(perUnit) })),
  equation: row.equation,
  condition: row.condition,
  precaution: row.precaution,
  answers: row.answers,
  source: row.source_title,
  url: row.source_url,
  basis: row.basis,
  fires: row.fires,
  quiet: row.quiet,
});

const sides = ['a', 'b', 'c'] as const;

const pairRuleOf = (row: PairsRow): PairRule => ({
  ...ruleBase(row),
  ...(row.pair && { pair: row.pair.replace(/[a-z]$/, '') }),
  groups: sides
    .filter((side) => row[side].length > 0)
    .map((side) => {
      const needs = side === 'a' ? undefined : row[`${side}_per_a`];
      return { side, any: row[side], ...(needs !== undefined && { needs: exact(needs) }) };
    }),
  when: readConditions(row.when),
  ...(row.otherwise && { otherwise: row.otherwise }),
  alone: row.alone,
});

const heatRuleOf = (row: ThermalRow): HeatRule => ({
  ...ruleBase(row),
  family: row.family,
  of: row.of,
  formulae: row.formulae,
  from: row.warns_from,
  inWater: row.in_water,
  abovePercent: row.only_above_percent ?? 0,
});

const pairRuleOfRow = onceFor(pairRuleOf);
const heatRuleOfRow = onceFor(heatRuleOf);

export const pairRules = once((): readonly PairRule[] => pairsTable().map(pairRuleOfRow));
/** Groups of what stands for something dry that flies about, is rubbed or swept. */
export const dustGroups: ReadonlySet<string> = new Set(['dust_cloud', 'rubbed', 'swept_up']);
/** Whether a rule, by its id, is of what flies about, or is rubbed or swept. */
export const isOfDust = (id: string): boolean =>
  pairRuleNamed(id)?.groups.some(({ any }) => any.some((group) => dustGroups.has(group))) ?? false;

const watery: ReadonlySet<string> = new Set(['water', 'water_any']);
/** Acid and lye are put into water as a matter of course; that water went onto them is told by other words. */
const putIntoWater: ReadonlySet<string> = new Set(['conc_sulfuric_acid', 'solid_strong_base']);
/** Whether a rule, by its id, is of what water does to something: carbide, phosphide, quicklime, an alkali metal. */
export const isOfWater = (id: string): boolean => {
  const rule = pairRuleNamed(id);
  if (!rule) return false;
  const has = (names: ReadonlySet<string>) => rule.groups.some(({ any }) => any.some((group) => names.has(group)));
  return has(watery) && !has(putIntoWater) && !holdsOnlyHot(id);
};

/** Whether a rule, by its id, is of hot water on what is put into cold water as a matter of course. */
export const isOfHotWater = (id: string): boolean => {
  const groups = pairRuleNamed(id)?.groups.flatMap(({ any }) => any) ?? [];
  return groups.some((one) => watery.has(one)) && groups.some((one) => putIntoWater.has(one)) && holdsOnlyHot(id);
};

/** Whether a rule, by its id, holds only of what is hot: a rule of heating, or one that names a heat in every case. */
export const holdsOnlyHot = (id: string): boolean => {
  const rule = pairRuleNamed(id);
  return rule
    ? rule.when.every((all) => all.some(({ kind }) => kind === 'hot' || kind === 'flame'))
    : heatRules().some((one) => one.id === id);
};

export const heatRules = once((): readonly HeatRule[] => thermalTable().map(heatRuleOfRow));

const heatRuleIds = once((): ReadonlySet<string> => new Set(heatRules().map(({ id }) => id)));
/** Whether a rule is of what heat does to one thing. @param id of a rule */
export const isHeatRule = (id: string): boolean => heatRuleIds().has(id);

const placeOfRule = preparedByKey<number>('pairs-by-rule', () =>
  pairsTable().map(({ rule }, place) => [rule, place] as const),
);

/** The rule of mixing that goes by an id. */
export function pairRuleNamed(id: string): PairRule | undefined {
  const place = placeOfRule(id);
  return place === undefined ? undefined : pairRuleOfRow(pairsRow(place));
}

const sidesOf = (row: PairsRow): readonly (readonly string[])[] =>
  sides.map((side) => row[side]).filter((any) => any.length > 0);

/** Where rules are found by the groups that are present. */
interface RulePlaces {
  /** Under each group the rules of which it stands on the rarest side: without one of that side they never hold. */
  readonly byGroup: Readonly<Record<string, readonly number[]>>;
  /** For each rule its other sides. */
  readonly others: readonly (readonly (readonly string[])[])[];
}

/** Where each group stands in a list of groups. */
function placesByGroup(lists: readonly (readonly string[])[]): RulePlaces['byGroup'] {
  const places: Record<string, number[]> = {};
  for (const [at, groups] of lists.entries()) for (const group of new Set(groups)) (places[group] ??= []).push(at);
  return places;
}

/** The rarest side of a rule is that whose groups stand in fewest rules. */
function placesOfPairs(rows: readonly PairsRow[]): RulePlaces {
  const often = new Map<string, number>();
  for (const row of rows) for (const group of sidesOf(row).flat()) often.set(group, (often.get(group) ?? 0) + 1);
  const howOften = (any: readonly string[]): number => any.reduce((sum, group) => sum + (often.get(group) ?? 0), 0);
  const rarest = rows.map((row) =>
    sidesOf(row).reduce((one, other) => (howOften(other) < howOften(one) ? other : one)),
  );
  const others = rows.map((row, at) => sidesOf(row).filter((side) => side !== rarest[at]));
  return { byGroup: placesByGroup(rarest), others };
}

const pairPlaces = prepared<RulePlaces>('pairs-by-group', () => placesOfPairs(pairsTable()));
const heatPlaces = prepared<RulePlaces['byGroup']>('heats-by-group', () =>
  placesByGroup(thermalTable().map(({ of }) => of)),
);

/** One of each side's groups is present. */
function areMet(sidesOfRule: readonly (readonly string[])[], present: ReadonlySet<string>): boolean {
  for (const side of sidesOfRule) if (!isMet(side, present)) return false;
  return true;
}

/** Whether a side of a rule has one of the groups that are present. */
export function isMet(side: readonly string[], present: ReadonlySet<string>): boolean {
  for (const group of side) if (present.has(group)) return true;
  return false;
}

const inOrder = (places: ReadonlySet<number>): readonly number[] => [...places].sort((a, b) => a - b);

/** The rules of mixing of which every side has one of the groups that are present, in the table's order. */
export const pairRulesAmong = onceFor((present: ReadonlySet<string>): readonly PairRule[] => {
  const { byGroup, others } = pairPlaces();
  const found = new Set<number>();
  for (const group of present) for (const at of byGroup[group] ?? []) if (areMet(others[at]!, present)) found.add(at);
  return inOrder(found).map((at) => pairRuleOfRow(pairsRow(at)));
});

/** Places under any of the groups, in order. */
function placesUnder(groups: ReadonlySet<string>, byGroup: RulePlaces['byGroup']): readonly number[] {
  const found = new Set<number>();
  for (const group of groups) for (const at of byGroup[group] ?? []) found.add(at);
  return inOrder(found);
}

const placesOnAnySide = prepared<RulePlaces['byGroup']>('pairs-naming-group', () =>
  placesByGroup(pairsTable().map((row) => sidesOf(row).flat())),
);

/** The rules of mixing of which any side names one of the groups, in the table's order. */
export const pairRulesNaming = (groups: ReadonlySet<string>): readonly PairRule[] =>
  placesUnder(groups, placesOnAnySide()).map((at) => pairRuleOfRow(pairsRow(at)));

/** The rules of heating of which one of the groups is present, in the table's order. */
export const heatRulesAmong = onceFor((present: ReadonlySet<string>): readonly HeatRule[] =>
  placesUnder(present, heatPlaces()).map((at) => heatRuleOfRow(thermalRow(at))),
);

alsoInTables(() => [
  // Words of the tests that are no formulae do no harm among them.
  ...groupsTable().flatMap(({ test }) => test.split(/[\s|]+/)),
  ...acidsTable().map(({ formula }) => formula),
  ...gasesTable().map(({ formula }) => formula),
  ...mixingHeatsTable().flatMap(({ formula }) => formula ?? []),
  ...thermalTable().flatMap(({ formulae }) => formulae),
]);
