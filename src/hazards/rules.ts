// The rules of mixing and heating, read from their tables.
import { exact, type Decimal } from '../chemistry/index.js';
import { readTable, type Row } from '../tables.js';
import { readConditions, type Condition, type Side } from './conditions.js';
import type { ForeseenSeverity } from './foreseen.js';

interface Told {
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

export interface PairRule extends Told {
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

export interface HeatRule extends Told {
  readonly family: string;
  readonly of: readonly string[];
  readonly formulae: readonly string[];
  readonly from: number;
  readonly inWater: boolean;
  readonly abovePercent: number;
}

const list = (text: string | undefined, mark: string): readonly string[] =>
  (text ?? '')
    .split(mark)
    .map((part) => part.trim())
    .filter(Boolean);

const told = (row: Row): Told => ({
  id: row.rule!,
  ...(row.pair && { pair: row.pair.replace(/[a-z]$/, '') }),
  title: row.title!,
  severity: row.severity as ForeseenSeverity,
  consequence: row.consequence!,
  gas: row.gas!,
  gases: list(row.gases, ';').map((part) => {
    const [formula = '', perUnit = '0'] = part.split(':');
    return { formula, perUnit: exact(perUnit) };
  }),
  equation: row.equation!,
  condition: row.condition!,
  precaution: row.precaution!,
  answers: list(row.answers, ';'),
  source: row.source_title!,
  url: row.source_url!,
  basis: row.basis!,
  fires: list(row.fires, ';'),
  quiet: list(row.quiet, ';'),
});

let pairs: readonly PairRule[] | undefined;
let heats: readonly HeatRule[] | undefined;

export function pairRules(): readonly PairRule[] {
  pairs ??= readTable('hazards/pairs.csv').map((row) => ({
    ...told(row),
    groups: (['a', 'b', 'c'] as const)
      .filter((side) => row[side] !== '')
      .map((side) => ({
        side,
        any: list(row[side], '|'),
        ...(side !== 'a' && row[`${side}_per_a`] && { needs: exact(row[`${side}_per_a`]!) }),
      })),
    when: readConditions(row.when!),
    ...(row.otherwise && { otherwise: row.otherwise as ForeseenSeverity }),
    alone: row.alone === 'yes',
  }));
  return pairs;
}

export function heatRules(): readonly HeatRule[] {
  heats ??= readTable('hazards/thermal.csv').map((row) => ({
    ...told(row),
    family: row.family!,
    of: list(row.of, '|'),
    formulae: list(row.formulae, ' '),
    from: Number(row.warns_from),
    inWater: row.in_water === 'yes',
    abovePercent: Number(row.only_above_percent || 0),
  }));
  return heats;
}
