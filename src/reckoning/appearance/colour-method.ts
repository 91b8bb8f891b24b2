// What is told of the ways in which colours are read and named: published accuracy, thresholds, the families' map.
import { familyCut, type FamilyCut } from '../../colour/family-map.js';
import { chartNames, coverageFactor, doublingChroma, leastUncertainty } from '../../colour/photograph/index.js';
import { thresholds, type Threshold } from '../../colour/verdict.js';
import { standardTestsTable } from '../../tables/compiled/colour/standard-tests.js';
import { familiesTable } from '../../tables/compiled/colour/families.js';
import {
  publishedAccuracyTable,
  type PublishedAccuracyRow,
} from '../../tables/compiled/colour/photograph/published-accuracy.js';
import { prepared } from '../../tables/prepared.js';

export interface StandardTestFacts {
  readonly name: string;
  readonly range: string;
  readonly standard?: string;
  readonly note?: string;
  readonly source: string;
}

export interface ColourMethod {
  readonly charts: readonly string[];
  /** What the uncertainty of a photograph's colours is made with. */
  readonly uncertainty: { readonly factor: number; readonly least: number; readonly chroma: number };
  readonly accuracy: readonly PublishedAccuracyRow[];
  readonly thresholds: readonly Threshold[];
  /** Standard tests, with their usual ranges. */
  readonly tests: readonly StandardTestFacts[];
  readonly families: { readonly cuts: readonly FamilyCut[]; readonly source: string };
}

/** Dark, middle and light: lightnesses at which the families are cut. */
const cutAt = [30, 55, 80] as const;

/** Where the families' boundaries come from, each source once. */
const familiesSource = (): string => [...new Set(familiesTable().map(({ source }) => source))].join('; ');

const familyCuts = prepared<readonly FamilyCut[]>('family-cuts', () => cutAt.map((one) => familyCut(one)));

let told: ColourMethod | undefined;

/** The same for every journal, and made once. */
export function colourMethod(): ColourMethod {
  told ??= {
    charts: chartNames,
    uncertainty: { factor: coverageFactor, least: leastUncertainty, chroma: doublingChroma },
    accuracy: publishedAccuracyTable(),
    thresholds: thresholds(),
    tests: standardTestsTable().map(({ name, range, standard, note, source }) => ({
      name,
      range,
      standard,
      note,
      source,
    })),
    families: { cuts: familyCuts(), source: familiesSource() },
  };
  return told;
}
