// What a colour difference means to a maker: whether it can be told at all, whether it is seen. Thresholds:
// verdicts.csv.
import { repeatabilityTable } from '../tables/compiled/colour/repeatability.js';
import { verdictsTable, type VerdictsRow } from '../tables/compiled/colour/verdicts.js';
import { deltaE00 } from './difference.js';
import type { Triple } from './numbers.js';

export type VerdictCode =
  | 'same'
  | 'cannot-be-told'
  | 'no-verdict'
  | 'repeats'
  | 'measured'
  | 'visible-side-by-side'
  | 'visible-apart';

export interface Verdict {
  readonly code: VerdictCode;
  /**
   * `no difference`, `cannot be told`, `no verdict`, `repeats`, `measured`, `visible side by side`, `visible apart`;
   * with `perhaps` before the last two where the uncertainty of the method reaches below their threshold
   */
  readonly words: string;
  readonly sentence: string;
  /** What the readings cannot tell, however they differ. */
  readonly caveat?: string;
  /** Where the thresholds come from. */
  readonly source: string;
}

/**
 * Said where one drawdown was read of one or both of two samples. Several are written as `readings:` of a colour.
 * @param whom of which of the two, by name; undefined where it is so of both
 */
export const oneDrawdownOf = (whom?: string): string =>
  `One drawdown of ${whom ?? 'each'} cannot tell pigment from brushwork: write several as readings.`;

/** A difference from which something is said of it: what kind of threshold it is, and of what field. */
export interface Threshold {
  readonly code: VerdictsRow['code'];
  readonly de00: number;
  /** `50:50 perceptibility: half of observers see a difference` */
  readonly kind: string;
  /** `tooth ceramics; none found for paint` */
  readonly field: string;
  readonly source: string;
}

/** What may hide a difference, CIEDE2000. */
export interface Doubt {
  /** What scatter of the readings alone can make of it; undefined where both are single. */
  readonly repeatability?: number | undefined;
  /** How far the instrument usually repeats, where the readings are single. */
  readonly usual?: number | undefined;
  /** The stated uncertainty of the difference by its method (a photograph). */
  readonly uncertainty?: number | undefined;
}

/** CIEDE2000 from which a difference is seen, or no longer called the same. */
export const thresholdOf = (code: VerdictsRow['code']): number =>
  verdictsTable().find((row) => row.code === code)!.from_de00;

let table: { readonly thresholds: readonly Threshold[]; readonly source: string } | undefined;

/** The thresholds in rising order and their sources in one text, made once: every verdict of a journal shares it. */
function known(): { readonly thresholds: readonly Threshold[]; readonly source: string } {
  if (!table) {
    const rows = verdictsTable().map(({ code, from_de00, kind, field, source }) => ({
      code,
      de00: from_de00,
      kind,
      field,
      source,
    }));
    const thresholds = rows.sort((a, b) => a.de00 - b.de00);
    const told = thresholds.map(({ de00, kind, field, source }) => `${de00}: ${kind} (${field}); ${source}`);
    table = { thresholds, source: told.join(' · ') };
  }
  return table;
}

/** Every threshold that verdicts rest on, in rising order. */
export const thresholds = (): readonly Threshold[] => known().thresholds;

/** How far an instrument that gives such readings usually repeats on paint, CIEDE2000; undefined for other readings. */
export const usualRepeatability = (basis: string): number | undefined =>
  repeatabilityTable().find((row) => row.basis === basis)?.de00;

/** A single reading is warned of up to so many times the usual repeatability. Common practice, no source. */
const warnedUpTo = 3;

const size = (de00: number): string => `ΔE00 ${de00.toFixed(de00 < 10 ? 2 : 1)}`;

const cannotBeTold = (de00: number, within: string): Omit<Verdict, 'source'> => ({
  code: 'cannot-be-told',
  words: 'cannot be told',
  sentence: `Whether they differ cannot be told: ${size(de00)} is within ${within}.`,
});

/** What single readings leave open of a small difference. */
function singleReadings(de00: number, { repeatability, usual, uncertainty }: Doubt): string {
  if (repeatability !== undefined || uncertainty !== undefined) return '';
  if (usual !== undefined && de00 <= warnedUpTo * usual)
    return (
      ` Single readings: such instruments usually repeat to about ΔE00 ${usual}, so up to ` +
      `${(warnedUpTo * usual).toFixed(1)} may be the instrument’s own.`
    );
  return de00 < thresholdOf('visible-side-by-side') ? ' Single readings: how far they repeat is not known.' : '';
}

/** Where the method leaves open whether a threshold is passed, that is said, and how wide the doubt is. */
function atLeast(code: 'visible-side-by-side' | 'visible-apart', de00: number, doubt: Doubt): Omit<Verdict, 'source'> {
  const { uncertainty } = doubt;
  const [words, sentence, perhaps] = seenAs[code];
  const of = uncertainty === undefined ? size(de00) : `ΔE00 ${de00.toFixed(1)} ± ${uncertainty.toFixed(1)}`;
  const single = code === 'visible-side-by-side' ? singleReadings(de00, doubt) : '';
  if (uncertainty === undefined || de00 - uncertainty >= thresholdOf(code))
    return { code, words, sentence: `${sentence}: ${of}.${single}` };
  return { code, words: `perhaps ${words}`, sentence: `${perhaps}: ${of}; it begins at about ${thresholdOf(code)}.` };
}

const seenAs = {
  'visible-side-by-side': [
    'visible side by side',
    'Visible side by side, hardly apart',
    'Perhaps visible side by side',
  ],
  'visible-apart': ['visible apart', 'Visible even apart', 'Visible side by side, perhaps apart'],
} as const;

function judged(de00: number, doubt: Doubt): Omit<Verdict, 'source'> {
  const { repeatability, uncertainty } = doubt;
  if (uncertainty !== undefined && de00 <= uncertainty)
    return cannotBeTold(de00, `the uncertainty of the method (${uncertainty.toFixed(1)})`);
  if (repeatability !== undefined && de00 <= repeatability)
    return cannotBeTold(de00, `the scatter of the readings (${repeatability.toFixed(2)})`);
  if (de00 === 0)
    return { code: 'same', words: 'no difference', sentence: 'No difference: the readings are the same.' };
  const single = singleReadings(de00, doubt);
  if (de00 >= thresholdOf('visible-apart')) return atLeast('visible-apart', de00, doubt);
  if (de00 >= thresholdOf('visible-side-by-side')) return atLeast('visible-side-by-side', de00, doubt);
  return { code: 'measured', words: 'measured', sentence: `Measured, but too small to see: ${size(de00)}.${single}` };
}

/**
 * The verdict on a difference. Scatter or uncertainty wider than the difference: it cannot be told.
 * @example verdict(1.2, {}).words // 'visible side by side'
 */
export const verdict = (de00: number, doubt: Doubt = {}): Verdict => ({
  ...judged(de00, doubt),
  source: known().source,
});

/** What is said of a difference from a rough estimate: a colour picked from a photograph without a chart. */
export const noVerdict = (de00: number): Verdict => ({
  code: 'no-verdict',
  words: 'no verdict',
  sentence:
    `No verdict: ${size(de00)} comes from a rough estimate; a picture without a chart is off by more than ΔE00 ` +
    '10 on average.',
  source:
    'phone cameras without a chart: mean over ΔE00 10 (mobile phone camera study, abstract, lawdata article 475787)',
});

/** A difference as it was judged by the scatter of repeats. */
export interface RepeatsJudged {
  /** What their scatter alone can make of a difference, CIEDE2000, in 95 of 100 cases. */
  readonly limit: number;
  /** It is larger than chance would have it, with regard to how many comparisons there are. */
  readonly differs: boolean;
  readonly degreesOfFreedom: number;
  /** Where the number of comparisons alone decided: how many, and the corrected probability in words. */
  readonly corrected?: { readonly comparisons: number; readonly p: string };
}

/** With so few degrees of freedom (two repeats and one more sample) hardly any difference stands out. */
const hardlyAny = 1.5;

function hiddenByRepeats(de00: number, { limit, degreesOfFreedom, corrected }: RepeatsJudged): Omit<Verdict, 'source'> {
  const told = cannotBeTold(de00, `what the repeats scatter by (up to ${limit.toFixed(2)})`);
  if (corrected)
    return {
      ...told,
      sentence:
        `Whether they differ cannot be told: ${size(de00)}; of ${corrected.comparisons} comparisons chance alone may ` +
        `well give one as large (${corrected.p} by Holm).`,
    };
  if (degreesOfFreedom > hardlyAny) return told;
  return { ...told, sentence: `${told.sentence} Two repeats can hardly show anything: more of them could.` };
}

/**
 * The verdict on two preparations of which one or both were repeated: by how the repeats scatter.
 * @param de00 between their means
 * @example verdictByRepeats(1, { limit: 1.5, differs: false, degreesOfFreedom: 2 }).words // 'cannot be told'
 */
export function verdictByRepeats(de00: number, by: RepeatsJudged): Verdict {
  const { source } = known();
  if (!by.differs) return { ...hiddenByRepeats(de00, by), source };
  const seen = judged(de00, { repeatability: 0 });
  return { ...seen, sentence: `${seen.sentence} The repeats scatter by up to ${by.limit.toFixed(2)}.`, source };
}

/** The verdict on two repeats of one preparation: what sets them apart is its scatter. */
export const repeatsOfOneAnother = (de00: number): Verdict => ({
  code: 'repeats',
  words: 'repeats',
  sentence: `Repeats of one another: ${size(de00)} is their scatter.`,
  source: known().source,
});

/** Whether a colour lies within a tolerance of the aim. */
export interface ToleranceVerdict {
  readonly tolerance: number;
  /** Undefined where doubt is wider than the distance to the limit. */
  readonly within: boolean | undefined;
  readonly sentence: string;
}

/**
 * A difference held against a tolerance, CIEDE2000: within or outside only if doubt does not reach over the limit.
 * @example withinTolerance(0.6, 1, { repeatability: 0.2 }).within // true
 */
export function withinTolerance(de00: number, tolerance: number, doubt: Doubt = {}): ToleranceVerdict {
  const { repeatability, usual, uncertainty } = doubt;
  const reach = Math.max(uncertainty ?? 0, repeatability ?? (usual === undefined ? 0 : warnedUpTo * usual));
  const limit = `a tolerance of ΔE00 ${tolerance}`;
  if (de00 + reach <= tolerance) return { tolerance, within: true, sentence: `Within ${limit}: ${size(de00)}.` };
  if (de00 - reach > tolerance) return { tolerance, within: false, sentence: `Outside ${limit}: ${size(de00)}.` };
  return {
    tolerance,
    within: undefined,
    sentence: `Whether it is within ${limit} cannot be told: ${size(de00)} with a doubt of ${reach.toFixed(2)}.`,
  };
}

export interface Scatter {
  readonly readings: number;
  /** Mean CIEDE2000 of the readings from their mean (MCDM). */
  readonly mean: number;
  readonly largest: number;
}

/**
 * Readings further from their mean than this, CIEDE2000, can hardly be of the same sample. Common practice, no
 * source.
 */
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
 * each one's mean distance, corrected for the number of readings and divided by its root. A single reading is taken to
 * scatter as those of the other do; undefined where both are single. Rule: common practice, no source.
 */
export function scatterOfDifference(first: Scatter | undefined, second: Scatter | undefined): number | undefined {
  const one = first ?? second;
  if (!one || (one.mean === 0 && !(first && second))) return undefined;
  const variance = ({ readings, mean }: Scatter) => (mean * mean * readings) / (readings - 1);
  const ofMean = (scatter: Scatter | undefined) => (scatter ? variance(scatter) / scatter.readings : variance(one));
  return 2 * Math.sqrt(ofMean(first) + ofMean(second));
}
