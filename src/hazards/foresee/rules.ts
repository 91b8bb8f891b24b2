// The rules of mixing and heating, read from their tables.
import { exact, type Decimal } from '../../chemistry/index.js';
import { alsoInTables } from '../../reagents/table-formulae.js';
import { acidsTable } from '../../tables/compiled/hazards/foresee/acids.js';
import { gasesTable } from '../../tables/compiled/hazards/foresee/gases.js';
import { groupsTable } from '../../tables/compiled/hazards/foresee/groups.js';
import { mixingHeatsTable } from '../../tables/compiled/hazards/foresee/mixing-heats.js';
import { pairsTable, type PairsRow } from '../../tables/compiled/hazards/foresee/pairs.js';
import { thermalTable, type ThermalRow } from '../../tables/compiled/hazards/foresee/thermal.js';
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

let pairs: readonly PairRule[] | undefined;
let heats: readonly HeatRule[] | undefined;

export function pairRules(): readonly PairRule[] {
  pairs ??= pairsTable().map((row) => ({
    ...ruleBase(row),
    ...(row.pair && { pair: row.pair.replace(/[a-z]$/, '') }),
    groups: (['a', 'b', 'c'] as const)
      .filter((side) => row[side].length > 0)
      .map((side) => {
        const needs = side === 'a' ? undefined : row[`${side}_per_a`];
        return { side, any: row[side], ...(needs !== undefined && { needs: exact(needs) }) };
      }),
    when: readConditions(row.when),
    ...(row.otherwise && { otherwise: row.otherwise }),
    alone: row.alone,
  }));
  return pairs;
}

/** Places of rules by a group without which none of them holds: one of the side whose groups stand in fewest rules. */
function byRarestSide(rules: readonly PairRule[]): ReadonlyMap<string, readonly number[]> {
  const often = new Map<string, number>();
  for (const { groups } of rules)
    for (const group of groups.flatMap(({ any }) => any)) often.set(group, (often.get(group) ?? 0) + 1);
  const howOften = ({ any }: PairRule['groups'][number]): number =>
    any.reduce((sum, group) => sum + (often.get(group) ?? 0), 0);
  const rarest = ({ groups }: PairRule): PairRule['groups'][number] =>
    groups.reduce((one, other) => (howOften(other) < howOften(one) ? other : one));
  return placesByGroup(rules.map((rule) => rarest(rule).any));
}
let rarest: ReadonlyMap<string, readonly number[]> | undefined;

/** The rules of mixing of which every side has one of the groups that are present, in the table's order. */
export function pairRulesAmong(present: ReadonlySet<string>): readonly PairRule[] {
  const rules = pairRules();
  rarest ??= byRarestSide(rules);
  const places: number[] = [];
  for (const group of present)
    for (const at of rarest.get(group) ?? [])
      if (!places.includes(at) && rules[at]!.groups.every(({ any }) => any.some((one) => present.has(one))))
        places.push(at);
  return places.sort((a, b) => a - b).map((at) => rules[at]!);
}

export function heatRules(): readonly HeatRule[] {
  heats ??= thermalTable().map((row) => ({
    ...ruleBase(row),
    family: row.family,
    of: row.of,
    formulae: row.formulae,
    from: row.warns_from,
    inWater: row.in_water,
    abovePercent: row.only_above_percent ?? 0,
  }));
  return heats;
}

let heatsByGroup: ReadonlyMap<string, readonly number[]> | undefined;

/** The rules of heating of which one of the groups is present, in the table's order. */
export function heatRulesAmong(present: ReadonlySet<string>): readonly HeatRule[] {
  const rules = heatRules();
  heatsByGroup ??= placesByGroup(rules.map(({ of }) => of));
  const places = new Set<number>();
  for (const group of present) for (const at of heatsByGroup.get(group) ?? []) places.add(at);
  return [...places].sort((a, b) => a - b).map((at) => rules[at]!);
}

/** Where each group stands in a list of groups. */
function placesByGroup(lists: readonly (readonly string[])[]): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  for (const [at, groups] of lists.entries())
    for (const group of new Set(groups)) {
      const before = places.get(group);
      if (before) before.push(at);
      else places.set(group, [at]);
    }
  return places;
}

alsoInTables(() => [
  // Words of the tests that are no formulae do no harm among them.
  ...groupsTable().flatMap(({ test }) => test.split(/[\s|]+/)),
  ...acidsTable().map(({ formula }) => formula),
  ...gasesTable().map(({ formula }) => formula),
  ...mixingHeatsTable().flatMap(({ formula }) => formula ?? []),
  ...thermalTable().flatMap(({ formulae }) => formulae),
]);
