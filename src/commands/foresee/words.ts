// What is foreseen, as lines for somebody at a bench: what to do now, then each danger, and last where it is from.
import { actionOn, firstAction, isOrder } from '../../hazards/foresee/action.js';
import type { Foreseen } from '../../hazards/foresee/contracts.js';
import type { ForeseenAtStep, ForeseenIfAdded } from './of-entry.js';

export const nothingMatched = 'Nothing on our list matched. The list is incomplete; that is no all-clear.';

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const unique = (words: readonly string[]): readonly string[] => [...new Set(words)];
const sentence = (words: string): string => `${words}.`.replace(/\.\.$/, '.');

/** Rules that tell of the same gas, as gravely and with the same precaution, are told together. */
function alike(foreseen: readonly Foreseen[]): readonly (readonly Foreseen[])[] {
  const told = new Map<string, Foreseen[]>();
  for (const one of foreseen) {
    const { samples = [], added, step } = one as Partial<ForeseenIfAdded>;
    const key = JSON.stringify([
      one.severity,
      one.consequence,
      one.gas ?? one.rule,
      one.precaution,
      samples,
      added,
      step,
    ]);
    told.set(key, [...(told.get(key) ?? []), one]);
  }
  return [...told.values()];
}

const gasShown = ({ gas, gases }: Foreseen): string =>
  gas === undefined ? '' : ` (${gas}${gases ? `: ${gases.map(({ name }) => name).join(', ')}` : ''})`;

/** What to do and to leave; an order of the first line is not turned into a recipe by what follows it. */
function precautionLine({ severity, precaution }: Foreseen): string {
  const isRecipe = severity === 'danger' && !isOrder(precaution);
  return sentence(`${isRecipe ? 'Only so, if at all' : 'Do'}: ${precaution}`);
}

const smellLines = (group: readonly Foreseen[]): readonly string[] =>
  group[0]!.severity === 'note'
    ? []
    : unique(
        group.flatMap(({ gases = [] }) =>
          gases
            .filter(({ smellWarns }) => smellWarns !== '')
            .map(({ name, smellWarns, late }) =>
              sentence(`${upper(name)}: does its smell warn? ${upper(smellWarns)}. Harm hours later? ${upper(late)}`),
            ),
        ),
      );

/** Hazards that are told together, in one paragraph; what has been said already is not said again. */
function groupWords(group: readonly Foreseen[], said?: ReadonlySet<string>): string {
  const one = group[0]!;
  const action = actionOn(one, said);
  const lines = [
    `${one.severity.toUpperCase()}: ${group.map(({ title }) => title).join('; ')}. ` +
      `${upper(one.consequence)}${gasShown(one)}.`,
    ...(action === undefined ? [] : [action]),
    precautionLine(one),
    `Concerns: ${unique(group.flatMap(({ partners }) => partners)).join(', ')}.`,
    ...unique(group.map(({ condition }) => sentence(`When: ${condition}`))),
    ...unique(group.flatMap(({ worstCase }) => (worstCase ? [`At worst: ${worstCase.words}`] : []))),
    ...smellLines(group),
  ];
  return lines.map((line, at) => `${at === 0 ? '' : '  '}${line}`).join('\n');
}

const sourcesOf = (foreseen: readonly Foreseen[]): readonly string[] =>
  foreseen.length === 0 ? [] : [`From: ${unique(foreseen.map(({ source }) => source)).join('; ')}.`];

/** One hazard, with where it is from. */
export const hazardWords = (one: Foreseen): string => `${groupWords([one])}\n  ${sourcesOf([one])[0]}`;

/** What holds in an entry only: in which samples, from which step, and whether only with what is added. */
function ofEntryWords({ samples = [], step, added }: Partial<ForeseenIfAdded>): readonly string[] {
  return [
    ...(samples.length > 0 ? [`  Samples: ${samples.join(', ')}.`] : []),
    ...(step === undefined ? [] : [`  Begins at step ${step}.`]),
    ...(added ? ['  Only with what is added.'] : []),
  ];
}

const notKnown = (unknown: readonly string[]): string => unknown.map((name) => `‘${name}’`).join(' and ');

/** What comes first where something is not known: nothing can be said of it. */
function unknownFirst(unknown: readonly string[], elseMatched: boolean): readonly string[] {
  if (unknown.length === 0) return [];
  const what = `Not recognised, and so not judged: ${notKnown(unknown)}.`;
  if (elseMatched)
    return [`${what} Until that is known it cannot be called safe: give a formula, or look in the safety data sheet.`];
  return [
    `Do not mix these yet. ${what} Give a formula, or look in the safety data sheet. If it is mixed already ` +
      'and smells, fizzes or warms: leave at once; let in air only on your way out; ring the emergency number ' +
      '(112 or 911).',
  ];
}

function nothingWords(unknown: readonly string[], inPart: boolean, toldNotJudged: readonly string[]): string {
  if (unknown.length + toldNotJudged.length > 0) return `Of the rest n${nothingMatched.slice(1)}`;
  return inPart ? `Of what could be read n${nothingMatched.slice(1)}` : nothingMatched;
}

/** What would be a danger if it were there, which only words tell. */
const ifItIsThere = (told: readonly string[]): readonly string[] =>
  told.length === 0 ? [] : [['TOLD IN WORDS ALONE, AND NOT JUDGED:', ...told].join('\n')];

/**
 * An answer as paragraphs: what to do now, the hazards, the gravest first, and what is not known.
 * @param inPart not all that was given could be read
 * @param toldNotJudged what words tell that was not judged, in sentences
 */
export function answerWords(
  foreseen: readonly (Foreseen | ForeseenIfAdded)[],
  unknown: readonly string[],
  inPart = false,
  toldNotJudged: readonly string[] = [],
): readonly string[] {
  const first = firstAction(foreseen);
  const unknownWords = unknownFirst(unknown, first !== undefined);
  return [
    ...(first ? [first.words] : unknownWords),
    ...alike(foreseen).map((group) => [groupWords(group, first?.acts), ...ofEntryWords(group[0]!)].join('\n')),
    ...ifItIsThere(toldNotJudged),
    ...(foreseen.length === 0 ? [nothingWords(unknown, inPart, toldNotJudged)] : []),
    ...(first ? unknownWords : []),
    ...sourcesOf(foreseen),
  ];
}

/** One step: what is done, what is in the pot, how hot it is, what begins there. */
function stepWords({ step, do: done, sample, inThePot, heat, begins }: ForeseenAtStep): string {
  const lines = [
    `${step}. ${sample === undefined ? '' : `${sample}: `}${done}`,
    `In the vessels so far: ${inThePot.length === 0 ? 'nothing that is known' : inThePot.join(', ')}.`,
    ...(heat ? [`Heat: ${heat.written}, judged at ${Math.round(heat.toCelsius)} °C.`] : []),
    ...begins.map(({ severity, title }) => `Begins here: ${severity.toUpperCase()}: ${title}.`),
  ];
  return lines.map((line, at) => `${at === 0 ? '' : '   '}${line}`).join('\n');
}

/** An entry's steps as paragraphs. */
export const stepsWords = (steps: readonly ForeseenAtStep[]): readonly string[] =>
  steps.length === 0
    ? []
    : [
        'Step by step. What no step names is taken to be there from the first, and what was poured off or washed out ' +
          'to be there still; what stands above holds for the whole of it.',
        ...steps.map(stepWords),
      ];
