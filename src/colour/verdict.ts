// What a colour difference means to a maker: measured, visible side by side, visible apart. Thresholds: verdicts.csv.
import { verdictsTable, type VerdictsRow } from '../tables/compiled/colour/verdicts.js';
import { deltaE00 } from './difference.js';
import type { Triple } from './numbers.js';

export type VerdictCode = 'same' | 'measured' | 'visible-side-by-side' | 'visible-apart';

export interface Verdict {
  readonly code: VerdictCode;
  /** `no difference`, `measured`, `visible side by side`, `visible apart` */
  readonly words: string;
  readonly sentence: string;
  /** Where the thresholds come from. */
  readonly source: string;
}

/** CIEDE2000 from which a difference is seen, or no longer called the same. */
export const thresholdOf = (code: 'visible-side-by-side' | 'visible-apart' | 'called-the-same'): number =>
  verdictsTable().find((row) => row.code === code)!.from_de00;

type VisibleRow = VerdictsRow & { readonly code: Exclude<VerdictsRow['code'], 'called-the-same'> };

let table: { readonly rows: readonly VisibleRow[]; readonly source: string } | undefined;

/** The rows of visible differences and their sources in one text, made once: every verdict of a journal shares it. */
function thresholds(): { readonly rows: readonly VisibleRow[]; readonly source: string } {
  if (!table) {
    const rows = verdictsTable().filter((row): row is VisibleRow => row.code !== 'called-the-same');
    table = { rows, source: rows.map((row) => row.source).join('; ') };
  }
  return table;
}

/**
 * The verdict on a difference.
 * @param repeatability what scatter of the readings alone can make, CIEDE2000; undefined for single readings
 * @example verdict(1.2, undefined).words // 'visible side by side'
 */
export function verdict(de00: number, repeatability?: number): Verdict {
  const { rows, source } = thresholds();
  const found = [...rows].reverse().find((row) => de00 >= row.from_de00);
  const size = `ΔE00 ${de00.toFixed(de00 < 10 ? 2 : 1)}`;
  if (repeatability !== undefined && de00 <= repeatability) {
    return {
      code: 'same',
      words: 'no difference',
      sentence: `No difference can be told: ${size} is within the scatter of the readings (${repeatability.toFixed(2)}).`,
      source,
    };
  }
  if (de00 === 0)
    return { code: 'same', words: 'no difference', sentence: 'No difference: the readings are the same.', source };
  const single = repeatability === undefined ? ' Single readings: how far they repeat is not known.' : '';
  if (!found)
    return {
      code: 'measured',
      words: 'measured',
      sentence: `Measured, but too small to see: ${size}.${single}`,
      source,
    };
  const { code } = found;
  const sentence =
    code === 'visible-apart' ? `Visible even apart: ${size}.` : `Visible side by side, hardly apart: ${size}.`;
  return { code, words: found.words, sentence, source };
}

export interface Scatter {
  readonly readings: number;
  /** Mean CIEDE2000 of the readings from their mean (MCDM). */
  readonly mean: number;
  readonly largest: number;
}

/** Readings further from their mean than this, CIEDE2000, can hardly be of the same sample. Common practice, no source. */
export const disagreement = 5;

/**
 * Repeatability of several readings of one sample: their CIEDE2000 from the mean colour. ASTM E2214 (from memory).
 * @param mean Lab of the mean reading
 */
export function scatterOf(labs: readonly Triple[], mean: Triple): Scatter | undefined {
  if (labs.length < 2) return undefined;
  const distances = labs.map((lab) => deltaE00(mean, lab));
  return {
    readings: labs.length,
    mean: distances.reduce((sum, d) => sum + d, 0) / labs.length,
    largest: Math.max(...distances),
  };
}

/**
 * What scatter alone can make of the difference of two means, about 95 %: twice the root of the summed squares of
 * each one's mean distance, corrected for the number of readings and divided by its root.
 * Undefined unless both were read several times. Rule: common practice, no source.
 */
export function scatterOfDifference(first: Scatter | undefined, second: Scatter | undefined): number | undefined {
  if (!first || !second) return undefined;
  const squared = ({ readings, mean }: Scatter) => (mean * mean) / (readings - 1);
  return 2 * Math.sqrt(squared(first) + squared(second));
}
