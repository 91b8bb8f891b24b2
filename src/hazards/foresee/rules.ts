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

alsoInTables(() => [
  // Words of the tests that are no formulae do no harm among them.
  ...groupsTable().flatMap(({ test }) => test.split(/[\s|]+/)),
  ...acidsTable().map(({ formula }) => formula),
  ...gasesTable().map(({ formula }) => formula),
  ...mixingHeatsTable().flatMap(({ formula }) => formula ?? []),
  ...thermalTable().flatMap(({ formulae }) => formulae),
]);
