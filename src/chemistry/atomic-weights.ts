// Atomic weights: the abridged IUPAC values of 2021 with their stated uncertainty, and the full ones beside them.
import { atomicWeightsTable } from '../tables/compiled/chemistry/atomic-weights.js';
import { exact, UncertaintyDecimal, type Decimal } from './exact.js';
import { rectangular } from './uncertainty.js';

/** One chemical element. */
export interface Element {
  readonly symbol: string;
  readonly number: number;
  readonly name: string;
  readonly kind: 'metal' | 'metalloid' | 'nonmetal';
  /** Abridged standard atomic weight, g/mol; absent where the element has none. */
  readonly weight?: Decimal;
  /** Stated uncertainty of the abridged weight, read as the half-width of a rectangle. */
  readonly halfWidth?: Decimal;
  /** Full standard weight; the conventional one where the standard is an interval. */
  readonly standardWeight?: Decimal;
  /** Standard uncertainty of the full weight: U/√3 for x(U), (b−a)/(2√3) for [a, b]. */
  readonly standardWeightUncertainty?: number;
}

let table: ReadonlyMap<string, Element> | undefined;

/**
 * All elements by symbol.
 * Source: Prohaska et al., Pure Appl. Chem. 94 (2022) 573, Tables 1 and 2; one row an element in atomic-weights.csv.
 * @example elements().get('Cu')?.weight?.toString() // '63.546'
 */
export function elements(): ReadonlyMap<string, Element> {
  table ??= new Map(
    atomicWeightsTable().map((row): [string, Element] => {
      const { symbol } = row;
      const base = { symbol, number: row.Z, name: row.name, kind: row.class };
      if (!row.abridged_2021) return [symbol, base];
      const interval = row.kind === 'interval';
      return [
        symbol,
        {
          ...base,
          weight: exact(row.abridged_2021),
          halfWidth: new UncertaintyDecimal(row.abridged_uncertainty!),
          standardWeight: exact(interval ? row.conventional! : row.standard_2021),
          standardWeightUncertainty: rectangular(
            interval
              ? new UncertaintyDecimal(row.interval_high!).minus(row.interval_low!).div(2)
              : row.standard_uncertainty_2021!,
          ),
        },
      ];
    }),
  );
  return table;
}

/**
 * Name of an element by its symbol; the symbol itself where there is none of it.
 * @example elementName('Cu') // 'copper'
 */
export const elementName = (symbol: string): string => elements().get(symbol)?.name ?? symbol;
