// Whether samples differ in yield: who is compared with whom, and what many comparisons do to a verdict.
import { grubbs, holm } from '../../chemistry/index.js';
import { named, pair, repeatsAs, shownP, significance } from '../comparison-verdicts.js';
import type { Measure, Pair, Result } from '../comparison-verdicts.js';
import type { Comparison, Outlier, Repeats } from '../contracts.js';
import { preparationsOf } from '../repeats.js';

export type { Result } from '../comparison-verdicts.js';

const percentYield: Measure = {
  measure: 'percent yield',
  of: (result) => result.percentYield,
  noun: 'yield',
  unit: '%',
  differenceUnit: 'percentage points',
  places: 1,
};
const massObtained: Measure = {
  measure: 'mass obtained',
  of: (result) => result.obtained,
  noun: 'mass',
  unit: 'g',
  differenceUnit: 'g',
  places: 3,
};

type Preparation = readonly Result[];

/** Samples with their replicates, as far as there is anything to compare of them. */
const preparations = (results: readonly Result[], { of }: Measure): readonly Preparation[] =>
  preparationsOf(results, (result) => of(result) !== undefined);

/** Repeats of a preparation that lie far from the others: the furthest by Grubbs’s test, two-sided. */
function outliersIn(preparation: Preparation, { of }: Measure): readonly Outlier[] {
  // Of two none lies further from the other than the other from it.
  if (preparation.length < 3) return [];
  const test = grubbs(preparation.map((result) => of(result)!.value.toNumber()));
  if (!test?.isOutlier) return [];
  const { index, statistic, critical } = test;
  return [{ sample: preparation[index]!.sample, rule: 'Grubbs', statistic, critical, alpha: 0.05 }];
}

const isAbove100 = (preparation: Preparation): boolean => preparation.some(({ above100 }) => above100);

/** Two preparations with what is compared of them: above 100 % there is no yield to compare, only what was weighed. */
function comparedPair(first: Preparation, second: Preparation, measure: Measure): readonly Pair[] {
  const noYield = measure === percentYield && (isAbove100(first) || isAbove100(second));
  if (noYield && ![...first, ...second].every(({ obtained }) => obtained)) return [];
  const used = noYield ? massObtained : measure;
  const { comparison, unshown } = pair([first, second], used);
  const outliers = [first, second].flatMap((group) => outliersIn(group, used));
  const why = noYield ? ' Above 100 % they are not compared as yields.' : '';
  const lone = outliers.length > 0 ? ` ${outlierWords(outliers)}` : '';
  const more = `${why}${lone}`;
  return [
    {
      comparison: {
        ...comparison,
        ...(outliers.length > 0 && { outliers }),
        verdict: `${comparison.verdict}${more}`,
      },
      ...(unshown !== undefined && { unshown: `${unshown}${more}` }),
    },
  ];
}

/** `C lies far from its repeats (Grubbs’s test, …); it is named and stays in.` */
function outlierWords(outliers: readonly Outlier[]): string {
  const [lies, stays] =
    outliers.length > 1 ? ['lie', 'they are named here and stay'] : ['lies', 'it is named here and stays'];
  const who = named(outliers.map(({ sample }) => sample));
  return `${who} ${lies} far from the repeats (Grubbs’s test, two-sided, 5 %); ${stays} in the figures.`;
}

/** Verdicts with regard to how many there are. Source: S. Holm, Scand. J. Statist. 6 (1979) 65. */
function corrected(pairs: readonly Pair[]): readonly Comparison[] {
  const all = pairs.map(({ comparison }) => comparison);
  const tested = all.filter(({ p }) => p !== undefined);
  if (tested.length < 2) return all;
  const adjusted = holm(tested.map(({ p }) => Number(p)));
  return pairs.map(({ comparison: one, unshown }) => {
    const at = tested.indexOf(one);
    if (at < 0) return one;
    const p = adjusted[at]!;
    const differs = p < significance;
    const verdict =
      one.differs && !differs
        ? `${unshown!} With ${tested.length} comparisons chance alone may well give one as large: corrected by Holm ` +
          `${shownP(p)}.`
        : `${one.verdict} Corrected for ${tested.length} comparisons by Holm: ${shownP(p)}.`;
    return { ...one, differs, adjustedP: p.toPrecision(3), correction: 'Holm', verdict };
  });
}

/** Which pairs are compared: each with the control where one is stated, else every one. */
function pairsOf(
  all: readonly Preparation[],
  control: string | undefined,
): readonly (readonly [Preparation, Preparation])[] {
  const stated = all.find((preparation) => preparation.some(({ sample }) => sample === control));
  if (stated) return all.filter((one) => one !== stated).map((one) => [stated, one] as const);
  return all.flatMap((first, at) => all.slice(at + 1).map((second) => [first, second] as const));
}

/** What is compared: the yield where two have one, else what was obtained. */
function measureOf(results: readonly Result[]): Measure {
  return results.filter((result) => percentYield.of(result)).length >= 2 ? percentYield : massObtained;
}

/**
 * Compares samples two by two: every pair, or each with the stated control.
 * Limit for a difference: 95 % (expanded uncertainty k = 2, or p < 0.05 after Holm’s correction).
 * Source: GUM 6.2 for single samples; Welch's test for replicates; for one against several, the t test of a single case
 * against a small sample (J. R. Crawford, D. C. Howell, Clin. Neuropsychol. 12 (1998) 482, from memory).
 * @param control id of the sample that the others are held against
 */
export function compare(results: readonly Result[], control?: string): readonly Comparison[] {
  const measure = measureOf(results);
  const all = preparations(results, measure);
  return corrected(pairsOf(all, control).flatMap(([first, second]) => comparedPair(first, second, measure)));
}

/** Repeats that lie far from the others of their preparation, whether or not anything is compared with them. */
export function outliersOf(results: readonly Result[]): readonly Outlier[] {
  const measure = measureOf(results);
  return preparations(results, measure).flatMap((one) => outliersIn(one, measure));
}

/** Preparations that were made more than once, with mean and scatter: of masses where any yield lies above 100 %. */
export function repeatsOf(results: readonly Result[]): readonly Repeats[] {
  const measure = measureOf(results);
  return preparations(results, measure)
    .filter((one) => one.length > 1)
    .map((one) => {
      const noYield = measure === percentYield && isAbove100(one) && one.every(({ obtained }) => obtained);
      return repeatsAs(one, noYield ? massObtained : measure);
    });
}
