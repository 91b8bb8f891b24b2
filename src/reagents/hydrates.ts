// Salts that are sold with water of crystallisation: written without it they get a question, and where nobody knows how
// much there is, it is between none and that.
import { exact, hillFormula, parseFormula, withCounts, type Decimal, type Formula } from '../chemistry/index.js';
import { hydratesTable } from '../tables/compiled/reagents/hydrates.js';
import { prepared } from '../tables/prepared.js';

interface Sold {
  readonly as: string;
  readonly mostWater?: string;
}
const hydrates = prepared<readonly (readonly [dry: string, sold: Sold])[]>('hydrates', () =>
  hydratesTable().map((row) => [
    dryKey(row.anhydrous) ?? row.anhydrous,
    { as: row.usually_sold_as, ...(row.most_water !== undefined && { mostWater: row.most_water }) },
  ]),
);
let soldAs: ReadonlyMap<string, Sold> | undefined;

/** How a salt is sold, by the formula of the dry salt in any spelling. */
function soldOf(formula: string): Sold | undefined {
  soldAs ??= new Map(hydrates());
  const key = dryKey(formula);
  return key === undefined ? undefined : soldAs.get(key);
}

/**
 * One spelling for all of a formula: `Cu(C2H3O2)2` is `Cu(CH3COO)2`. Undefined where it already has water, or is
 * none.
 */
function dryKey(formula: string): string | undefined {
  const parsed = parseFormula(formula);
  return parsed.ok && parsed.value.parts.length === 1 ? hillFormula(parsed.value) : undefined;
}

/**
 * The hydrate in which a salt is usually sold, by the formula of the dry salt in any spelling.
 * @example usualHydrate('CuSO4') // 'CuSO4·5H2O'
 */
export const usualHydrate = (formula: string): string | undefined => soldOf(formula)?.as;

/** The ends of a hydrate of unknown water: the dry salt, and the hydrate that is known to hold the most. */
export interface WaterEnds {
  readonly dry: Formula;
  readonly hydrate: Formula;
  /** Molecules of water of that hydrate. */
  readonly most: Decimal;
}

const isWaterPart = (part: Formula['parts'][number]): boolean =>
  hillFormula({
    written: '',
    parts: [{ ...part, multiplier: { low: exact(1), high: exact(1) } }],
    charge: 0,
    doubts: [],
  }) === 'H2O';

/** The letter that only water has, `x` of Na2CO3·xH2O; undefined where more is open, or nothing is. */
function letterOfWater(formula: Formula): string | undefined {
  const open = formula.parts.filter(({ multiplier }) => multiplier.unknown !== undefined);
  const [water] = open;
  const letters = Object.keys(water?.multiplier.unknown ?? {});
  return open.length === 1 && letters.length === 1 && isWaterPart(water!) ? letters[0] : undefined;
}

/**
 * Between what `Na2CO3·xH2O` lies; undefined where its water is known, or no hydrate of it is in the table.
 * @example Number(waterEnds(parseFormula('Na2CO3·xH2O').value).most) // 10
 */
export function waterEnds(formula: Formula): WaterEnds | undefined {
  const letter = letterOfWater(formula);
  const dry = letter === undefined ? undefined : withCounts(formula, { [letter]: exact(0) });
  const sold = dry && soldOf(hillFormula(dry));
  const hydrate = sold === undefined ? undefined : parseFormula(sold.as);
  const inSold = hydrate?.ok ? hydrate.value.parts.find(isWaterPart)?.multiplier.high : undefined;
  const most = sold?.mostWater === undefined ? inSold : exact(sold.mostWater);
  return letter === undefined || !dry || !most
    ? undefined
    : { dry, hydrate: withCounts(formula, { [letter]: most }), most };
}
