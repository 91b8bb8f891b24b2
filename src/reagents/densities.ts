// Density of a solution against its strength at 20 °C: one table with a source for each row, read in both directions.
import {
  exact,
  hillFormula,
  ionsOf,
  molarMass,
  parseFormula,
  waterDensity,
  withoutWater,
  type Decimal,
  type Formula,
} from '../chemistry/index.js';
import { densityTable } from '../tables/compiled/reagents/density.js';
import { densityUnlistedTable } from '../tables/compiled/reagents/density-unlisted.js';
import { prepared } from '../tables/prepared.js';

interface Point {
  /** g of the dry solute in 100 g. */
  readonly percent: Decimal;
  /** g/mL */
  readonly density: Decimal;
}

/** What is published of one solute's solutions. */
export interface DensityTable {
  readonly substance: string;
  /** What the undiluted substance is at 20 °C, or what it is only met as: phosphoric acid is poured. */
  readonly undiluted: 'gas' | 'liquid' | 'solid';
  /** From water on, by rising percent. */
  readonly points: readonly Point[];
  readonly source: string;
  /** Some of its rows are from memory or reckoned with a model. */
  readonly basis: 'seen' | 'derived' | 'memory';
}

/** How a solution's density rises with its strength: from a table, or by what most solutes do. */
export interface DensityRule {
  readonly from: 'table' | 'unlisted';
  readonly source: string;
  /** The strongest solution that the rule was read from, % of the dry solute. */
  readonly upTo: Decimal;
  readonly table?: DensityTable;
  /** Share of the dry solute in the formula as written, by mass: 0.639 for CuSO4·5H2O. */
  readonly dryShare: Decimal;
  /** g/mL at so many percent of the dry solute, and the rise of it with one percent more. */
  readonly at: (percent: Decimal) => { readonly density: Decimal; readonly rise: Decimal };
  /** Percent of the dry solute at which a mL holds so many grams of it. */
  readonly percentHolding: (gramsPerMillilitre: Decimal) => Decimal;
  /** Half-width of what a density of the rule may be off, g/mL at so many percent. */
  readonly doubtAt: (percent: Decimal) => Decimal;
}

/** The mark on a table's doubt: the rows themselves, and a room that is not at 20 °C. Common practice, no source. */
const tableDoubt = exact('0.003');
const worst = { seen: 0, derived: 1, memory: 2 } as const;

/** A table as data: its points as texts of percent and density. */
interface TableData extends Omit<DensityTable, 'points'> {
  readonly points: readonly (readonly [percent: string, density: string])[];
}

function gather(): readonly (readonly [hill: string, table: TableData])[] {
  const found = new Map<string, Omit<TableData, 'points' | 'source'> & { points: Point[]; sources: string[] }>();
  for (const row of densityTable()) {
    const formula = parseFormula(row.formula);
    if (!formula.ok) throw new Error(`reagents/density.csv: ${row.formula}`);
    const key = hillFormula(formula.value);
    const basis = row.basis;
    let table = found.get(key);
    if (!table) {
      table = {
        substance: row.substance,
        undiluted: row.undiluted,
        points: [{ percent: exact(0), density: waterDensity }],
        sources: [],
        basis,
      };
      found.set(key, table);
    }
    table.points.push({ percent: exact(row.mass_percent), density: exact(row.density_g_per_mL) });
    if (!table.sources.includes(row.source_title)) table.sources.push(row.source_title);
    if (worst[basis] > worst[table.basis]) found.set(key, { ...table, basis });
  }
  return [...found].map(([key, { points, sources, ...table }]) => [
    key,
    {
      ...table,
      source: sources.join('; '),
      points: points
        .sort((a, b) => a.percent.cmp(b.percent))
        .map(({ percent, density }) => [percent.toString(), density.toString()]),
    },
  ]);
}

const tableData = prepared<ReturnType<typeof gather>>('densities', gather);
let dataByHill: ReadonlyMap<string, TableData> | undefined;
const tables = new Map<string, DensityTable>();

/** The table of a solute by its composition in Hill order; its numbers are read when it is first asked for. */
function tableOf(hill: string): DensityTable | undefined {
  dataByHill ??= new Map(tableData());
  const data = dataByHill.get(hill);
  let table = tables.get(hill);
  if (!table && data) {
    const points = data.points.map(([percent, density]) => ({ percent: exact(percent), density: exact(density) }));
    tables.set(hill, (table = { ...data, points }));
  }
  return table;
}

/** Every solute with a table, by its composition in Hill order. */
export const densityTables = (): ReadonlyMap<string, DensityTable> =>
  new Map(tableData().map(([hill]) => [hill, tableOf(hill)!]));

const riseBetween = (a: Point, b: Point): Decimal => b.density.minus(a.density).div(b.percent.minus(a.percent));

/** The stretch of a table on which something holds; the last one goes on beyond its end. */
function stretch(points: readonly Point[], holds: (from: Point, to: Point) => boolean): readonly [Point, Point] {
  for (let at = 1; at < points.length; at += 1) {
    const pair = [points[at - 1]!, points[at]!] as const;
    if (holds(...pair)) return pair;
  }
  return [points.at(-2)!, points.at(-1)!];
}

/** Density and its rise; between two rows on a straight line, beyond the last one on the same line. */
function densityAt(points: readonly Point[], percent: Decimal): { readonly density: Decimal; readonly rise: Decimal } {
  const [from, to] = stretch(points, (_, end) => percent.lte(end.percent));
  const rise = riseBetween(from, to);
  return { density: from.density.plus(rise.times(percent.minus(from.percent))), rise };
}

/** On a line ρ = ρ₀ + k·(p − p₀), the percent p at which p·ρ/100 is the content: k·p² + (ρ₀ − k·p₀)·p = 100·content. */
function percentOnLine({ percent, density }: Point, rise: Decimal, content: Decimal): Decimal {
  const linear = density.minus(rise.times(percent));
  const hundredfold = content.times(100);
  if (rise.isZero()) return hundredfold.div(linear);
  const root = linear.pow(2).plus(rise.times(hundredfold).times(4));
  return root.isNegative() ? hundredfold.div(density) : root.sqrt().minus(linear).div(rise.times(2));
}

const contentAt = ({ percent, density }: Point): Decimal => percent.times(density).div(100);
function percentHolding(points: readonly Point[], content: Decimal): Decimal {
  const [from, to] = stretch(points, (_, end) => content.lte(contentAt(end)));
  return percentOnLine(from, riseBetween(from, to), content);
}

interface Unlisted {
  readonly least: Decimal;
  readonly usual: Decimal;
  readonly greatest: Decimal;
  readonly source: string;
}
let unlisted: ReadonlyMap<string, Unlisted> | undefined;
function unlistedOf(kind: 'salt' | 'molecule'): Unlisted {
  unlisted ??= new Map(
    densityUnlistedTable().map((row) => [
      row.kind,
      {
        least: exact(row.least_rise),
        usual: exact(row.usual_rise),
        greatest: exact(row.greatest_rise),
        source: row.source,
      },
    ]),
  );
  return unlisted.get(kind)!;
}

/** Share of the dry part of a hydrate by mass; 1 where there is no water in it or its amount is not told. */
function dryShareOf(formula: Formula, dry: Formula): Decimal {
  if (dry === formula) return exact(1);
  const [whole, part] = [molarMass(formula), molarMass(dry)];
  return whole.ok && part.ok ? part.value.middle.value.div(whole.value.middle.value) : exact(1);
}

const ionic = (formula: Formula): boolean => {
  const ions = ionsOf(formula);
  return ions.ok && ions.value.ions.length > 0;
};

const rules = new WeakMap<Formula, DensityRule>();

/**
 * How the density of this substance's solutions rises with their strength: by the table where it lists the substance,
 * else by what most salts or molecules do, which is far less sure.
 * @example densityRuleOf(nitricAcid).at(exact(50)).density // 1.31 g/mL
 */
export function densityRuleOf(formula: Formula): DensityRule {
  let rule = rules.get(formula);
  if (!rule) rules.set(formula, (rule = findRule(formula)));
  return rule;
}

function findRule(formula: Formula): DensityRule {
  const dry = withoutWater(formula) ?? formula;
  const dryShare = dryShareOf(formula, dry);
  const table = tableOf(hillFormula(dry));
  if (table) {
    const { points, source } = table;
    return {
      from: 'table',
      source,
      table,
      dryShare,
      upTo: points.at(-1)!.percent,
      at: (percent) => densityAt(points, percent),
      percentHolding: (content) => percentHolding(points, content),
      doubtAt: () => tableDoubt,
    };
  }
  const { least, usual, greatest, source } = unlistedOf(ionic(formula) ? 'salt' : 'molecule');
  const water: Point = { percent: exact(0), density: waterDensity };
  return {
    from: 'unlisted',
    source,
    dryShare,
    upTo: exact(100),
    at: (percent) => ({ density: waterDensity.plus(usual.times(percent)), rise: usual }),
    percentHolding: (content) => percentOnLine(water, usual, content),
    doubtAt: (percent) => greatest.minus(least).div(2).times(percent),
  };
}

/** Strengths at which a table has a density, within half a reading: percent of the dry solute. */
export interface StrengthsAtDensity {
  /** Each on its own stretch, rising; the nearest one where none is met exactly. */
  readonly percents: readonly Decimal[];
  /** Ends of all that lies within the reading. */
  readonly low: Decimal;
  readonly high: Decimal;
  /** It is the density of the undiluted substance, which the table lists. */
  readonly undiluted: boolean;
}

/** A reading beyond the last row is followed so far, as a share of the last row's percent: 0.880 ammonia, 52 % lye. */
const beyond = exact('0.2');

/**
 * The way back from a density to a strength; undefined where no solution of the table can have it.
 * @param halfReading g/mL that the reading may be off either way
 * @example strengthsAtDensity(table, exact('1.18'), exact('0.005'))!.percents[0] // 36.2 for hydrochloric acid
 */
export function strengthsAtDensity(
  { points }: DensityTable,
  density: Decimal,
  halfReading: Decimal,
): StrengthsAtDensity | undefined {
  const last = points.at(-1)!;
  const undiluted = last.percent.eq(100) && last.density.minus(density).abs().lte(halfReading);
  const extended = last.percent.eq(100) ? points : [...points, beyondLast(points)];
  const crossings = [density.minus(halfReading), density, density.plus(halfReading)].map((wanted) =>
    percentsAt(extended, wanted),
  );
  const nearest = nearestPoint(extended, density);
  const within = nearest.density.minus(density).abs().lte(halfReading);
  const met = crossings[1]!;
  if (met.length === 0 && !within) return undefined;
  const percents = met.length > 0 ? met : [nearest.percent];
  const ends = [...crossings.flat(), ...percents, ...(undiluted ? [last.percent] : [])];
  return {
    percents,
    undiluted,
    low: ends.reduce((a, b) => (a.lt(b) ? a : b)),
    high: ends.reduce((a, b) => (a.gt(b) ? a : b)),
  };
}

function beyondLast(points: readonly Point[]): Point {
  const last = points.at(-1)!;
  const percent = last.percent.times(beyond.plus(1));
  const further = percent.gt(100) ? exact(100) : percent;
  return { percent: further, density: densityAt(points, further).density };
}

/** Every percent at which the broken line through the points has this density, rising. */
function percentsAt(points: readonly Point[], density: Decimal): readonly Decimal[] {
  const found: Decimal[] = [];
  for (let at = 1; at < points.length; at += 1) {
    const [from, to] = [points[at - 1]!, points[at]!];
    const [low, high] = from.density.lt(to.density) ? [from.density, to.density] : [to.density, from.density];
    if (density.lt(low) || density.gt(high) || from.density.eq(to.density)) continue;
    const percent = from.percent.plus(density.minus(from.density).div(riseBetween(from, to)));
    if (!found.some((earlier) => earlier.minus(percent).abs().lt('0.01'))) found.push(percent);
  }
  return found;
}

const nearestPoint = (points: readonly Point[], density: Decimal): Point =>
  points.reduce((a, b) => (b.density.minus(density).abs().lt(a.density.minus(density).abs()) ? b : a));

/** g/mL of the undiluted liquid where the table goes that far, as for ethanol; undefined for others. */
export function undilutedDensity(formula: Formula): Decimal | undefined {
  const last = tableOf(hillFormula(formula))?.points.at(-1);
  return last?.percent.eq(100) ? last.density : undefined;
}
