// An answer to trouble that makes it worse: water on hot oil, on burning metal, on hot strong acid.
import { foreseer } from '../../hazards/foresee/foresee.js';
import type { MixtureHeating } from '../../hazards/foresee/contracts.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import { once } from '../../once.js';
import { judgedCelsius, resolveNamed } from '../../reagents/index.js';
import { answerWordsTable, type AnswerWordsRow } from '../../tables/compiled/reckoning/dangers/answer-words.js';
import { heatsTold } from '../told/told-heat.js';
import type { VesselItem } from '../vessels.js';
import { patternOfWords, type SmallLetterPattern } from '../told/words-as-pattern.js';
import { heatOfStep } from '../steps.js';

/** An answer that would make it worse, with what it would do. */
export interface WorseByWater {
  readonly path: Path;
  readonly words: string;
  readonly titles: readonly string[];
}

const pattern = (says: AnswerWordsRow['says']): SmallLetterPattern =>
  patternOfWords(answerWordsTable().flatMap((row) => (row.says === says ? [row.words] : [])));
const patterns = once(() => ({
  water: pattern('water'),
  pours: pattern('pours'),
  fire: pattern('fire'),
  aside: pattern('aside'),
  not: pattern('not'),
}));

/** Asked before anything is put together: words of water begin so. */
const mayTellWater = /wat|hose|wet|dous|wass|nass|eau|agu|acq/i;

/** The sentence of an answer that puts water on what stands there; undefined where none does. */
function withWater(answer: string): string | undefined {
  if (!mayTellWater.test(answer)) return undefined;
  const { water, pours, aside, not } = patterns();
  const isMeant = (sentence: string): boolean => water.test(sentence) && pours.test(sentence);
  return answer
    .split(/[.;!?\n]+/)
    .map((sentence) => sentence.trim())
    .find((sentence) => isMeant(sentence) && !aside.test(sentence) && !not.test(sentence));
}

function answersOf(entry: Entry): readonly { readonly path: Path; readonly words: string }[] {
  const { precautions, 'if-it-goes-wrong': answer = '' } = entry;
  return [
    { path: ['if-it-goes-wrong'] as Path, words: answer },
    ...precautions.map(({ do: done }, at) => ({ path: ['precautions', at, 'do'] as Path, words: done })),
  ];
}

/** The hottest that keys and words tell. */
function hottestTold(entry: Entry): readonly MixtureHeating[] {
  const { heating, samples, steps = [] } = entry;
  const keys = [...heating, ...samples.flatMap((one) => one.heating ?? [])].map(({ to }) => judgedCelsius(to));
  const ofSteps = steps.flatMap(heatOfStep);
  const toCelsius = Math.max(...keys, ...ofSteps, ...heatsTold(entry).map(({ celsius }) => celsius));
  return toCelsius > -Infinity ? [{ of: 'mixture', toCelsius }] : [];
}

/** Answers of an entry that put water where it brings on what was no danger before, as grave as a warning. */
export function worseByWater(entry: Entry, items: readonly VesselItem[]): readonly WorseByWater[] {
  if (items.length === 0) return [];
  return answersOf(entry).flatMap(({ path, words }): readonly WorseByWater[] => {
    const sentence = withWater(words);
    if (sentence === undefined) return [];
    const heating = hottestTold(entry);
    const burning = patterns().fire.test(words) ? [{ reagent: resolveNamed('burning') }] : [];
    const before = [...items.map(({ reagent }) => ({ reagent })), ...burning];
    const after = [...before, { reagent: resolveNamed('water poured onto it') }, { reagent: resolveNamed('water') }];
    const { foresee } = foreseer();
    const known = new Set(foresee({ ingredients: before, heating }).foreseen.map(({ rule }) => rule));
    const worse = foresee({ ingredients: after, heating }).foreseen.filter(
      ({ rule, severity }) => severity !== 'note' && !known.has(rule),
    );
    return worse.length === 0 ? [] : [{ path, words: sentence, titles: worse.map(({ title }) => title) }];
  });
}
