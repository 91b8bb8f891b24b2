// Whether samples differ in colour: each with its repeats, whose scatter is what a difference is judged by.
import {
  holm,
  singleAgainst,
  studentCritical,
  welchOf,
  type Spread,
  type WelchTest,
  type SingleAgainstSample,
} from '../../chemistry/index.js';
import {
  colourFromLab,
  colourFromSpectra,
  compare,
  deltaE00,
  repeatsOfOneAnother,
  verdictByRepeats,
  type Difference,
  type Illuminant,
  type Observer,
  type RepeatsJudged,
  type SampleColour,
  type Triple,
  type Verdict,
} from '../../colour/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Findings } from '../../remarks/findings.js';
import type { ColourComparison, ColourPair, ColourRepeats } from './appearance-contracts.js';
import { differenceOf, round, roundAll } from './appearance-figures.js';
import { named, shownP, significance } from '../comparison-verdicts.js';
import { preparationsOf, repeatedBy } from '../repeats.js';

/** A sample whose colour was read. */
export interface ColouredSample {
  readonly sample: string;
  readonly colour: SampleColour;
}

/** What an entry says of its colours' differences. */
export interface ColoursCompared {
  /** Every two samples whose readings can be compared. */
  readonly pairs: readonly ColourPair[];
  /** Preparations two by two, or each with the control: where there are repeats or a control. */
  readonly comparisons?: readonly ColourComparison[];
  readonly repeats?: readonly ColourRepeats[];
}

/** A sample, or a sample with its repeats and the mean of them. */
interface Preparation {
  readonly samples: readonly string[];
  readonly colour: SampleColour;
  /** How far its samples lie from their mean, CIEDE2000. */
  readonly spread?: Spread;
}

/** Lamp and observer for which repeats are brought to a mean: those for which Lab was given, else daylight. */
interface Conditions {
  readonly illuminant: Illuminant;
  readonly observer: Observer;
}

/** The Lab of a reading for these conditions, where it is known without carrying it over. */
function labFor({ given, spectrum, observer, under }: SampleColour, wanted: Conditions): Triple | undefined {
  if (given)
    return given.illuminant === wanted.illuminant && given.observer === wanted.observer ? given.lab : undefined;
  if (!spectrum || observer !== wanted.observer) return undefined;
  return under.find(({ lamp }) => lamp === wanted.illuminant)?.lab;
}

const isMeasured = ({ basis }: SampleColour): boolean => ['spectrum', 'lab', 'xyz'].includes(basis);

/** Readings of one kind: measured, or all from photographs, or all estimates. */
const ofOneKind = (colours: readonly SampleColour[]): boolean =>
  colours.every(isMeasured) || colours.every(({ basis }) => basis === colours[0]!.basis);

/** Several colours with their mean. */
interface Mean {
  readonly colour: SampleColour;
  /** The mean, and what it is of, for the same conditions. */
  readonly lab: Triple;
  readonly labs: readonly Triple[];
}

/** The mean colour of several that were read in the same way; undefined for others. */
function meanOf(colours: readonly SampleColour[]): Mean | undefined {
  if (!ofOneKind(colours)) return undefined;
  const given = colours.find((one) => one.given)?.given;
  const conditions: Conditions = given ?? { illuminant: 'D65', observer: colours[0]!.observer };
  const known = colours.map((colour) => labFor(colour, conditions));
  if (known.includes(undefined)) return undefined;
  const labs = known as readonly Triple[];
  if (!given) {
    const colour = colourFromSpectra(
      colours.map(({ spectrum }) => spectrum!),
      conditions.observer,
    );
    return { colour, lab: colour.lab!, labs };
  }
  const basis = isMeasured(colours[0]!) ? 'lab' : colours[0]!.basis;
  const uncertain = colours.flatMap(({ uncertainty }) => uncertainty ?? []).sort((a, b) => b.de00 - a.de00)[0];
  const colour = {
    ...colourFromLab(labs, conditions.illuminant, conditions.observer, basis),
    approximate: colours.some(({ approximate }) => approximate),
    ...(uncertain && { uncertainty: uncertain }),
  };
  return { colour, lab: colour.given!.lab, labs };
}

function preparationOf(group: readonly ColouredSample[]): readonly Preparation[] {
  const mean = group.length > 1 ? meanOf(group.map(({ colour }) => colour)) : undefined;
  // What cannot be brought to a mean stays one by one.
  if (!mean) return group.map(({ sample, colour }) => ({ samples: [sample], colour }));
  const sum = mean.labs.reduce((all, lab) => all + deltaE00(mean.lab, lab) ** 2, 0);
  const spread = { standardDeviation: Math.sqrt(sum / (group.length - 1)), n: group.length };
  return [{ samples: group.map(({ sample }) => sample), colour: mean.colour, spread }];
}

type Two = readonly [Preparation, Preparation];

/** What the scatter of repeats can make of a difference, and how likely one as large is by chance. */
interface Test {
  readonly limit: number;
  readonly degreesOfFreedom: number;
  readonly t: number;
  readonly p: number;
}

const ofWelch = ({ t, degreesOfFreedom, p, interval }: WelchTest): Test => ({
  t,
  degreesOfFreedom,
  p,
  limit: (interval.high - interval.low) / 2,
});

const ofSingle = (test: SingleAgainstSample, distance: number): Test => ({
  ...test,
  limit: (distance / test.t) * studentCritical(test.degreesOfFreedom, significance),
});

/**
 * The test on the distance of two means. Distances from a mean are taken for its scatter, as if all of it lay along the
 * line between the two: where it lies in all directions, less would be needed, so that this is the cautious end.
 * Source: Welch's test and Crawford's, as for yields; distances in place of values: M. J. Anderson, Austral Ecol. 26
 * (2001) 32, from memory.
 */
function testOf([first, second]: Two, de00: number): Test | undefined {
  if (first.spread && second.spread) {
    const test = welchOf(de00, first.spread, second.spread);
    return test && ofWelch(test);
  }
  const several = first.spread ?? second.spread;
  const test = several && de00 > 0 ? singleAgainst(de00, several) : undefined;
  return test && ofSingle(test, de00);
}

/** Two preparations, before the number of comparisons is regarded. */
interface Judged {
  readonly of: Two;
  readonly found: Difference;
  readonly test?: Test;
}

const nameOf = ({ samples }: Preparation): string => named(samples);

function judge(of: Two): Judged | undefined {
  const found = compare(of[0].colour, of[1].colour, [nameOf(of[0]), nameOf(of[1])]);
  // What cannot be compared is found in its pairs.
  if (!found.ok) return undefined;
  const { uncertainty = 0 } = found.value.doubt;
  const told = found.value.verdict.code === 'no-verdict' || found.value.de00 <= uncertainty;
  const test = told ? undefined : testOf(of, found.value.de00);
  return { of, found: found.value, ...(test && { test }) };
}

/** What a verdict by repeats leaves out. */
function caveatOf([first, second]: Two): string | undefined {
  if (first.spread && second.spread) return undefined;
  return `${nameOf(first.spread ? second : first)} was made only once.`;
}

/** The verdict by the repeats where they tell anything, else by the readings. */
function verdictOf({ of, found, test }: Judged, adjusted: number | undefined, comparisons: number): Verdict {
  if (!test) return found.verdict;
  const { limit, degreesOfFreedom, p } = test;
  const differs = (adjusted ?? p) < significance;
  const corrected = p < significance && !differs ? { comparisons, p: shownP(adjusted!) } : undefined;
  const by: RepeatsJudged = { limit, degreesOfFreedom, differs, ...(corrected && { corrected }) };
  const caveat = caveatOf(of);
  return { ...verdictByRepeats(found.de00, by), ...(caveat !== undefined && { caveat }) };
}

function comparisonOf(judged: Judged, adjusted: number | undefined, comparisons: number): ColourComparison {
  const { of, found, test } = judged;
  return {
    a: of[0].samples,
    b: of[1].samples,
    ...differenceOf(found),
    verdict: verdictOf(judged, adjusted, comparisons),
    ...(test && {
      repeatability: round(test.limit, 4),
      t: test.t.toFixed(3),
      degreesOfFreedom: test.degreesOfFreedom.toFixed(2),
      p: test.p.toPrecision(3),
    }),
    ...(adjusted !== undefined && { adjustedP: adjusted.toPrecision(3), correction: 'Holm' as const }),
  };
}

/** Verdicts with regard to how many there are. Source: S. Holm, Scand. J. Statist. 6 (1979) 65. */
function comparisonsOf(all: readonly Judged[]): readonly ColourComparison[] {
  const tested = all.filter(({ test }) => test);
  const adjusted = tested.length > 1 ? holm(tested.map(({ test }) => test!.p)) : [];
  return all.map((one) => comparisonOf(one, adjusted[tested.indexOf(one)], tested.length));
}

const everyTwo = <One>(all: readonly One[]): (readonly [One, One])[] =>
  all.flatMap((first, at) => all.slice(at + 1).map((second) => [first, second] as const));

/** Pairs of samples as they were read, whatever repeats what. */
function pairsOf({ samples }: Entry, coloured: readonly ColouredSample[], findings: Findings): ColourPair[] {
  return everyTwo(coloured).flatMap(([{ sample: a, colour }, { sample: b, colour: other }]) => {
    const found = compare(colour, other, [a, b]);
    if (found.ok) return [{ a, b, ...differenceOf(found.value) }];
    const index = samples.findIndex(({ sample }) => sample === b);
    findings.addFault(found.fault, ['samples', index, 'colour'], { about: `Samples ${a} and ${b}` });
    return [];
  });
}

const repeatsOf = ({ samples, colour, spread }: Preparation): readonly ColourRepeats[] =>
  spread
    ? [
        {
          samples,
          ...(colour.lab && { lab: roundAll(colour.lab) }),
          mean: round(colour.scatter!.mean, 4),
          largest: round(colour.scatter!.largest, 4),
          deviation: round(spread.standardDeviation, 4),
          ...(colour.basis === 'srgb-estimate' && { estimated: true as const }),
        },
      ]
    : [];

/** A pair is judged as its preparations are: two repeats are no two colours. */
function pairByRepeats(pair: ColourPair, all: readonly Preparation[], judged: readonly ColourComparison[]): ColourPair {
  const home = (sample: string) => all.find(({ samples }) => samples.includes(sample))!;
  const [first, second] = [home(pair.a), home(pair.b)];
  if (first === second) return { ...pair, verdict: repeatsOfOneAnother(pair.de00) };
  const comparison = judged.find(({ a, b }) => [a, b].every((one) => one === first.samples || one === second.samples));
  return comparison?.p === undefined ? pair : { ...pair, verdict: comparison.verdict };
}

/**
 * Compares colours two by two: preparations by the scatter of their repeats where there are any, else samples by their
 * readings; each with the control where one is stated.
 */
export function compareColours(entry: Entry, coloured: readonly ColouredSample[], findings: Findings): ColoursCompared {
  const pairs = pairsOf(entry, coloured, findings);
  const written = entry.samples.map(({ sample }, index) => ({
    sample,
    replicateOf: repeatedBy(entry, index)?.sample,
    colour: coloured.find((one) => one.sample === sample)?.colour,
  }));
  const groups = preparationsOf(
    written,
    ({ colour }) => colour !== undefined,
  ) as readonly (readonly ColouredSample[])[];
  const stated = coloured.some(({ sample }) => sample === entry.control);
  if (!stated && groups.every(({ length }) => length < 2)) return { pairs };
  const all = groups.flatMap(preparationOf);
  const isControl = ({ samples }: Preparation): boolean => stated && samples.includes(entry.control!);
  const judged = everyTwo(all).flatMap((two) => judge(isControl(two[1]) ? [two[1], two[0]] : two) ?? []);
  const asked = stated ? judged.filter(({ of }) => of.some(isControl)) : judged;
  const comparisons = comparisonsOf(asked);
  const others = judged.filter((one) => !asked.includes(one)).map((one) => comparisonOf(one, undefined, 1));
  const repeats = all.flatMap(repeatsOf);
  return {
    pairs: pairs.map((pair) => pairByRepeats(pair, all, [...comparisons, ...others])),
    comparisons,
    ...(repeats.length > 0 && { repeats }),
  };
}
