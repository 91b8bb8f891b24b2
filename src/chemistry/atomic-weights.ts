// Atomic weights: the abridged IUPAC values of 2021 with their stated uncertainty, and the full ones beside them.
import { once } from '../once.js';
import {
  atomicWeightsRow,
  atomicWeightsTable,
  type AtomicWeightsRow,
} from '../tables/compiled/chemistry/atomic-weights.js';
import { prepared } from '../tables/prepared.js';
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

type Weights = Pick<Element, 'weight' | 'halfWidth' | 'standardWeight' | 'standardWeightUncertainty'>;

function weightsOf(row: AtomicWeightsRow): Weights {
  if (!row.abridged_2021) return {};
  const interval = row.kind === 'interval';
  return {
    weight: exact(row.abridged_2021),
    halfWidth: new UncertaintyDecimal(row.abridged_uncertainty!),
    standardWeight: exact(interval ? row.conventional! : row.standard_2021),
    standardWeightUncertainty: rectangular(
      interval
        ? new UncertaintyDecimal(row.interval_high!).minus(row.interval_low!).div(2)
        : row.standard_uncertainty_2021!,
    ),
  };
}

type Listed = readonly [symbol: string, number: number, name: string, kind: Element['kind']];

/** An element of the table, whose weights are read when one is asked for: few of all elements are weighed. */
class ListedElement implements Element {
  readonly symbol: string;
  readonly number: number;
  readonly name: string;
  readonly kind: Element['kind'];
  private weights: Weights | undefined;

  constructor(
    [symbol, number, name, kind]: Listed,
    private readonly place: number,
  ) {
    this.symbol = symbol;
    this.number = number;
    this.name = name;
    this.kind = kind;
  }

  private get asWeighed(): Weights {
    this.weights ??= weightsOf(atomicWeightsRow(this.place));
    return this.weights;
  }

  get weight(): Decimal | undefined {
    return this.asWeighed.weight;
  }

  get halfWidth(): Decimal | undefined {
    return this.asWeighed.halfWidth;
  }

  get standardWeight(): Decimal | undefined {
    return this.asWeighed.standardWeight;
  }

  get standardWeightUncertainty(): number | undefined {
    return this.asWeighed.standardWeightUncertainty;
  }
}

const listed = prepared<readonly Listed[]>('elements', () =>
  atomicWeightsTable().map(({ symbol, Z, name, class: kind }): Listed => [symbol, Z, name, kind]),
);
const bySymbol = once(
  (): ReadonlyMap<string, Element> =>
    new Map(listed().map((one, place): [string, Element] => [one[0], new ListedElement(one, place)])),
);

/**
 * All elements by symbol.
 * Source: Prohaska et al., Pure Appl. Chem. 94 (2022) 573, Tables 1 and 2; one row an element in atomic-weights.csv.
 * @example elements().get('Cu')?.weight?.toString() // '63.546'
 */
export const elements = (): ReadonlyMap<string, Element> => bySymbol();

/**
 * Name of an element by its symbol; the symbol itself where there is none of it.
 * @example elementName('Cu') // 'copper'
 */
export const elementName = (symbol: string): string => elements().get(symbol)?.name ?? symbol;
