// The dangers foreseen for what is weighed, printed before any list.
import { takenSentence, type Foreseen, type Foresight } from '../../hazards/foresee/contracts.js';

/** Dangers of what is weighed, as `foresee` prints them. */
export interface DangersShown extends Pick<Foresight, 'foreseen' | 'unknown' | 'taken'> {
  /** What words tell that was not judged and would be a danger, in sentences. */
  readonly toldNotJudged?: readonly string[];
}

const last = 'What is not named here is not thereby safe. Safety data sheets, local rules and licences come first.';

/** The dangers as lines that stand before a list, at any size; a note in one line. */
export async function dangerLines({
  foreseen,
  unknown,
  taken,
  toldNotJudged = [],
}: DangersShown): Promise<readonly string[]> {
  const { hazardWords, nothingMatched } = await import('../foresee/words.js');
  const grave = foreseen.filter(({ severity }) => severity !== 'note');
  const notes = foreseen.filter(({ severity }) => severity === 'note');
  return [
    ...(grave.length > 0 ? ['BEFORE ANYTHING IS WEIGHED', ...grave.map((one) => hazardWords(one))] : []),
    ...notes.map(({ title, condition }) => `NOTE: ${title}. When: ${condition}.`.replace(/\.\.$/, '.')),
    ...toldNotJudged.map((words) => `NOT JUDGED: ${words}`),
    ...(foreseen.length + toldNotJudged.length === 0 ? [nothingMatched] : []),
    ...taken.map(takenSentence),
    ...(unknown.length > 0 ? [`Not recognised, and so not judged: ${unknown.join(', ')}.`] : []),
    last,
  ];
}

/** The dangers as JSON has them. */
export const jsonDangers = ({
  foreseen,
  unknown,
  taken,
  toldNotJudged = [],
}: DangersShown): Readonly<Record<string, unknown>> => ({
  foreseen: foreseen satisfies readonly Foreseen[],
  ...(unknown.length > 0 && { notJudged: unknown }),
  ...(taken.length > 0 && { takenAs: taken }),
  ...(toldNotJudged.length > 0 && { toldNotJudged }),
});
