// What an entry found, as a line of short phrases: yield, whether yields and colours differ, lamplight, covering.
// Only what was reckoned is put into words; what is not known is left out.
import type { BestYield } from '../../src/crosslinks/best-yield.js';
import type {
  AppearanceReckoning,
  ColourComparison,
  ColourVerdict,
  SampleAppearance,
} from '../../src/reckoning/appearance/appearance-contracts.js';
import type { AmountsReckoning, Comparison } from '../../src/reckoning/contracts.js';

/** `best yield 95.8 ± 0.6 %`; of more than 100 % that it is. */
export const bestYieldWords = ({ text, over }: BestYield): string =>
  over ? `yield ${text}, above 100 %: wet or impure` : `best yield ${text}`;

/** `A`; `A and B`; `A, B and C`. */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)!}`;

/** A figure's text without sign and unit: `−2.66 ± 0.17 %` → `2.66 ± 0.17`. */
const size = (text: string): string => text.replace(/^[−-]/, '').replace(/\s*(?:%|percentage points|g)$/, '');

const unitOf = ({ measure }: Comparison): string => (measure === 'percent yield' ? 'points' : 'g');

/** Whether two yields differ, told of the lesser one: `A 2.66 ± 0.17 points less`. */
function yieldsApart(comparison: Comparison): string {
  const { a, b, difference } = comparison;
  const lesser = Number(difference.value) < 0 ? a : b;
  return `${listed(lesser.samples)} ${size(difference.text)} ${unitOf(comparison)} less`;
}

function yieldVerdict(comparisons: readonly Comparison[]): string[] {
  const apart = comparisons.filter(({ differs }) => differs);
  if (comparisons.length === 0) return [];
  if (apart.length === 0) return ['no difference in yield that can be shown'];
  const once = apart.every(({ basis }) => basis === 'weighing') ? ', made once each' : '';
  if (comparisons.length === 1) return [`${yieldsApart(apart[0]!)}${once}`];
  return [`yields differ in ${apart.length} of ${comparisons.length} pairs${once}`];
}

function yields({ samples, comparisons = [] }: AmountsReckoning, best: BestYield | undefined): string[] {
  if (!best) return [];
  const known = samples.filter(({ percentYield }) => percentYield);
  const words = known.length > best.samples.length ? bestYieldWords(best) : bestYieldWords(best).replace(/^best /, '');
  return [`${words}${known.length > 1 ? ` (${listed(best.samples)})` : ''}`, ...yieldVerdict(comparisons)];
}

const apartWords: Readonly<Record<string, string>> = {
  same: 'no difference in colour',
  measured: 'colours alike to the eye',
  'visible-side-by-side': 'told apart side by side',
  'visible-apart': 'visibly apart',
};

/** A verdict in a phrase, with what it leaves open. */
function verdictOf({ verdict, caveat }: { readonly verdict: ColourVerdict; readonly caveat: string }): string {
  const told = apartWords[verdict.code];
  if (told === undefined) return verdict.words;
  const words = verdict.words.startsWith('perhaps ') ? `perhaps ${told}` : told;
  return verdict.caveat ? `${words}, ${caveat}` : words;
}

const onDrawdowns = 'single drawdowns';

function colours({ pairs = [], comparisons }: AppearanceReckoning): string[] {
  if (comparisons) return preparations(comparisons);
  const [first] = pairs;
  if (!first) return [];
  if (pairs.length === 1) return [verdictOf({ ...first, caveat: onDrawdowns })];
  const furthest = furthestOf(pairs);
  return [`${furthest.a} and ${furthest.b} furthest apart: ${verdictOf({ ...furthest, caveat: onDrawdowns })}`];
}

const furthestOf = <One extends { readonly de00: number }>(all: readonly One[]): One =>
  all.reduce((most, one) => (one.de00 > most.de00 ? one : most));

/** Of samples with repeats, or held against a control, only what was told apart. */
function preparations(comparisons: readonly ColourComparison[]): string[] {
  if (comparisons.length === 0) return [];
  const told = comparisons.filter(({ verdict }) => verdict.code.startsWith('visible'));
  if (told.length === 0) return ['no difference in colour that can be shown'];
  const furthest = furthestOf(told);
  const caveat = furthest.p === undefined ? onDrawdowns : 'one of them made only once';
  return [`${listed(furthest.a)} against ${listed(furthest.b)}: ${verdictOf({ ...furthest, caveat })}`];
}

/** The same words of several samples said once; otherwise each with its sample. */
function together(
  samples: readonly SampleAppearance[],
  of: (sample: SampleAppearance) => string | undefined,
): { readonly words: string; readonly all: boolean } | undefined {
  const groups = new Map<string, string[]>();
  for (const sample of samples) {
    const words = of(sample);
    if (words !== undefined) groups.set(words, [...(groups.get(words) ?? []), sample.sample]);
  }
  if (groups.size === 0) return undefined;
  if (groups.size === 1) return { words: [...groups.keys()][0]!, all: true };
  return { words: [...groups].map(([words, names]) => `${listed(names)} ${words}`).join(', '), all: false };
}

function lamplight(samples: readonly SampleAppearance[]): string[] {
  const moves = samples.filter(({ lampMove }) => lampMove);
  const still = moves.every(({ lampMove }) => lampMove!.directions.length === 0);
  if (still) return moves.length > 0 ? ['steady under lamplight'] : [];
  const words = together(moves, ({ lampMove }) => lampMove!.directions.slice(0, 2).join(' and ') || 'steady');
  return words ? [`${words.words} by lamplight`] : [];
}

function covering(samples: readonly SampleAppearance[]): string[] {
  const words = together(samples, ({ opacity }) => opacity?.word);
  return words ? [words.words] : [];
}

/** The phrases, in the order in which a reader asks: what came out, do they differ, and how the colour behaves. */
export function findings(
  amounts: AmountsReckoning,
  appearance: AppearanceReckoning,
  best: BestYield | undefined,
): string[] {
  const { samples } = appearance;
  const [first, ...rest] = [
    ...yields(amounts, best),
    ...colours(appearance),
    ...lamplight(samples),
    ...covering(samples),
  ];
  return first === undefined ? [] : [`${first.charAt(0).toUpperCase()}${first.slice(1)}`, ...rest];
}
