// Whether samples differ in yield: who is compared with whom, and what many comparisons do to a verdict.
import { grubbs, holm } from '../chemistry/index.js';
import { named, pair, shownP, significance, type Measure, type Result } from './comparison-verdicts.js';
import type { Comparison, Outlier } from './contracts.js';

export type { Result } from './comparison-verdicts.js';

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

/**
 * The sample that a replicate repeats in the end, whether or not it gave anything itself; a ring of replicates ends
 * where it began.
 */
function rootOf(sample: string, parents: ReadonlyMap<string, string | undefined>): string {
  let root = sample;
  const passed = new Set([root]);
  for (let parent = parents.get(root); parent !== undefined; parent = parents.get(root)) {
    if (passed.has(parent)) return root;
    passed.add(parent);
    root = parent;
  }
  return root;
}

type Preparation = readonly Result[];

/** Samples with their replicates, as far as there is anything to compare of them. */
function preparations(results: readonly Result[], { of }: Measure): readonly Preparation[] {
  const parents = new Map(results.map(({ sample, replicateOf }) => [sample, replicateOf]));
  const byRoot = new Map<string, Result[]>();
  for (const result of results.filter(of)) {
    const root = rootOf(result.sample, parents);
    byRoot.set(root, [...(byRoot.get(root) ?? []), result]);
  }
  return [...byRoot.values()];
}

/** Repeats of a preparation that lie far from the others: the furthest by Grubbs’s test, two-sided. */
function outliersIn(preparation: Preparation, { of }: Measure): readonly Outlier[] {
  const test = grubbs(preparation.map((result) => of(result)!.value.toNumber()));
  if (!test?.isOutlier) return [];
  const { index, statistic, critical } = test;
  return [{ sample: preparation[index]!.sample, rule: 'Grubbs', statistic, critical, alpha: 0.05 }];
}

const isAbove100 = (preparation: Preparation): boolean => preparation.some(({ above100 }) => above100);

/** Two preparations with what is compared of them: above 100 % there is no yield to compare, only what was weighed. */
function comparedPair(first: Preparation, second: Preparation, measure: Measure): readonly Comparison[] {
  const noYield = measure === percentYield && (isAbove100(first) || isAbove100(second));
  if (noYield && ![...first, ...second].every(({ obtained }) => obtained)) return [];
  const used = noYield ? massObtained : measure;
  const found = pair([first, second], used);
  const outliers = [first, second].flatMap((group) => outliersIn(group, used));
  const why = noYield ? ' Above 100 % they are not compared as yields.' : '';
  const lone = outliers.length > 0 ? ` ${outlierWords(outliers)}` : '';
  return [{ ...found, ...(outliers.length > 0 && { outliers }), verdict: `${found.verdict}${why}${lone}` }];
}

/** `C lies far from its repeats (Grubbs’s test, …); it is named and stays in.` */
function outlierWords(outliers: readonly Outlier[]): string {
  const [lies, stays] =
    outliers.length > 1 ? ['lie', 'they are named here and stay'] : ['lies', 'it is named here and stays'];
  const who = named(outliers.map(({ sample }) => sample));
  return `${who} ${lies} far from the repeats (Grubbs’s test, two-sided, 5 %); ${stays} in the figures.`;
}

/** Verdicts with regard to how many there are. Source: S. Holm, Scand. J. Statist. 6 (1979) 65. */
function corrected(comparisons: readonly Comparison[]): readonly Comparison[] {
  const tested = comparisons.filter(({ p }) => p !== undefined);
  if (tested.length < 2) return comparisons;
  const adjusted = holm(tested.map(({ p }) => Number(p)));
  return comparisons.map((one) => {
    const at = tested.indexOf(one);
    if (at < 0) return one;
    const p = adjusted[at]!;
    const differs = p < significance;
    const note =
      one.differs && !differs
        ? ` With ${tested.length} comparisons chance alone would give as much: corrected by Holm ${shownP(p)}, no ` +
          'difference is shown.'
        : ` Corrected for ${tested.length} comparisons by Holm: ${shownP(p)}.`;
    const verdict = `${one.verdict}${note}`;
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
