// Vessels that the words of steps close before they are heated.
import { onceFor } from '../once.js';
import type { Entry } from '../journal/entry.js';
import { judgedCelsius, resolveNamed } from '../reagents/index.js';
import { clausesOf, heatsIn } from './heat-in-words.js';
import type { VesselItem } from './vessels.js';

const vessel = '(?:jar|bottle|flask|tube|vessel|container|glas|flasche|bocal|bouteille|tarro|frasco|botella)';
const shut = [
  'closed|sealed|airtight|stoppered|shut tight|screwed(?: down)? tight|taped|clamped',
  'verschlossen|zugeschraubt|fermée?|cerrad[oa]',
].join('|');
const takesBack = 'not|never|without|no|loosely|half|nicht|nie|ohne|jamais|sans|nunca|sin';
const unlessTakenBack = String.raw`(?<!\b(?:${takesBack})\b[^,.;]{0,16})`;
/** Of a crucible nothing is said: its lid lies loose. */
const isClosed = new RegExp(
  [
    String.raw`${unlessTakenBack}\b(?:${shut})\b[^.;]{0,30}\b${vessel}`,
    String.raw`\b(?:${vessel}|lid|cap|stopper)\b[^.;]{0,30}${unlessTakenBack}\b(?:${shut})\b`,
    String.raw`${unlessTakenBack}\bautoclave`,
  ].join('|'),
  'iu',
);

/** °C from which a closed vessel is judged as hot. */
const hotFrom = 60;

/** Whether words close a vessel and heat it then: what is dried and put into a closed jar afterwards is not meant. */
function closesAndHeats(words: string, keyed: number): boolean {
  if (!isClosed.test(words)) return false;
  const clauses = clausesOf(words);
  const since = clauses.slice(clauses.findIndex((clause) => isClosed.test(clause)));
  return Math.max(keyed, ...since.flatMap(heatsIn).map(({ celsius }) => celsius)) >= hotFrom;
}

/**
 * What stands for a closed vessel among the things in it, where a step heats one; nothing where none does.
 * @example closedWhileHot({ steps: ['The closed jar in the oven, 180 °C.'] }).length // 1
 */
export const closedWhileHot = onceFor(({ steps = [] }: Pick<Entry, 'steps'>): readonly VesselItem[] => {
  const at = steps.findIndex((step) =>
    typeof step === 'string'
      ? closesAndHeats(step, -Infinity)
      : closesAndHeats(step.do, step.heat === undefined ? -Infinity : judgedCelsius(step.heat)),
  );
  if (at < 0) return [];
  const id = 'closed vessel';
  return [{ id, use: { reagent: id }, path: ['steps', at], reagent: resolveNamed(id), step: at }];
});
