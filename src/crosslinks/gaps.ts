// What next: pigments that the trade knows and the journal has not made, set against the shelf.
import { composition, parseFormula } from '../chemistry/index.js';
import type { Entry } from '../journal/entry.js';
import { dangersByReaction, jarsAtHand, meansOf, type DangersByReaction, type Means } from '../reckoning/means.js';
import { preparedAnswers } from '../tables/prepared.js';
import { byPigment, knownPigments } from './known-pigments.js';
import { lotsIn } from './lots.js';
import type { JournalModel, KnownPigment } from './model.js';

/** A pigment that the journal lacks. */
export interface Gap extends Means {
  readonly pigment: string;
  readonly formula: string;
  readonly colourIndex?: string;
  readonly family: string;
  /** Its colour-giving elements. */
  readonly elements: readonly string[];
  /** Numbers of entries that tried it and did not get there. */
  readonly tried: readonly number[];
}

export interface GapsAsked {
  /** Only pigments of this element; default: those of the journal's series, of every element where it has none. */
  readonly element?: string;
  /** Only those for which nothing is lacking. */
  readonly fromShelf?: boolean;
}

/** How much of a pigment's making stands on the shelf. */
export type AtHand = 'all' | 'some' | 'nothing';

const atHand = ({ have, lack }: Gap): AtHand => {
  if (have.length === 0) return 'nothing';
  return lack.length === 0 ? 'all' : 'some';
};

/** Why some come before others, in the order in which they come. */
const atHandWords: readonly (readonly [AtHand, string])[] = [
  ['all', 'First what nothing is missing for: all that an equation of the table asks for is on the shelf.'],
  ['some', 'Then what some of it is on the shelf for; where the least is missing comes first.'],
  ['nothing', 'Last what nothing of it is on the shelf for.'],
];

/** Gaps of which as much is on the shelf, with the sentence that says so. */
export interface GapsAtHand {
  readonly words: string;
  readonly gaps: readonly Gap[];
}

/** Gaps by what of them stands on the shelf. */
export const gapsByShelf = (gaps: readonly Gap[]): readonly GapsAtHand[] =>
  atHandWords
    .map(([which, words]) => ({ words, gaps: gaps.filter((gap) => atHand(gap) === which) }))
    .filter((group) => group.gaps.length > 0);

/** Fewer come first; what has nothing on the shelf comes last. */
const missing = (gap: Gap): number => (atHand(gap) === 'nothing' ? Number.MAX_SAFE_INTEGER : gap.lack.length);

/** Statuses of entries that tried nothing yet. */
const untried = new Set(['planned']);

/** Numbers of the entries that are about a pigment, by whether they made it. */
function numbersOf(about: readonly Entry[]): { made: boolean; tried: readonly number[] } {
  return {
    made: about.some(({ status }) => status === 'finished'),
    tried: about
      .filter(({ status }) => status !== 'finished' && !untried.has(status))
      .map(({ number }) => number)
      .sort((a, b) => a - b),
  };
}

const wayOf = ({ id }: KnownPigment, reaction: string): string => `${id}: ${reaction}`;

/** Dangers of every way that the table has an equation for. */
const dangersOfWays = preparedAnswers<DangersByReaction>('dangers of ways to pigments', function* () {
  for (const known of knownPigments())
    for (const reaction of known.reactions) yield [wayOf(known, reaction), dangersByReaction(known, reaction)];
});

/** Whether an element gives the colour or stands in a formula: lead does not colour white lead. */
const has = ({ elements, formulas }: KnownPigment, element: string): boolean =>
  elements.includes(element) ||
  formulas.some((written) => {
    const read = parseFormula(written);
    return read.ok && composition(read.value).has(element);
  });

/**
 * What the trade knows and the journal lacks: first what can be made from the shelf, then what the least is missing
 * for, each in the order of the journal's series.
 * @example gapsOf(model, { element: 'Mn' })[0]?.elements // ['Mn']
 */
export function gapsOf(model: JournalModel, { element, fromShelf = false }: GapsAsked = {}): readonly Gap[] {
  const own = model.series.map((series) => series.element);
  const wanted = (known: KnownPigment): boolean => {
    if (element !== undefined) return has(known, element);
    return own.length === 0 || known.elements.some((one) => own.includes(one));
  };
  const jars = jarsAtHand(model.journal.shelf.reagents, lotsIn(model));
  const entries = model.entries.map(({ entry }) => entry);
  const about = byPigment(entries, ({ pigment }) => pigment && { ...pigment, colourIndex: pigment['colour-index'] });
  const placeOf = (one: string): number => (own.includes(one) ? own.indexOf(one) : own.length);
  const place = ({ elements }: Gap): number => Math.min(own.length, ...elements.map(placeOf));
  const gaps = knownPigments()
    .filter(wanted)
    .flatMap((known): readonly Gap[] => {
      const { made, tried } = numbersOf(about(known));
      if (made) return [];
      const means = meansOf(known, jars, (reaction) => dangersOfWays(wayOf(known, reaction)));
      if (fromShelf && means.lack.length > 0) return [];
      return [
        {
          pigment: known.names[0]!,
          formula: known.formulas[0]!,
          ...(known.colourIndex !== undefined && { colourIndex: known.colourIndex }),
          family: known.family,
          elements: known.elements,
          ...means,
          tried,
        },
      ];
    });
  const bySeries = element === undefined ? gaps.sort((a, b) => place(a) - place(b)) : gaps;
  return bySeries.sort((a, b) => missing(a) - missing(b));
}
