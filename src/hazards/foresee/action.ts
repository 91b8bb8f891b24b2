// The first line of an answer: what to do now, before why. It says nothing new; the rule's own precaution follows it.
import type { Foreseen } from './contracts.js';
import { circumstanceGroups } from './resolve-mixture.js';
import { pairRuleNamed } from './rules.js';

/** A rule whose own precaution already begins with what not to do, or with getting out. */
const beginsWithAction = /^(?:do not|don't|never|not\b|now:|out\b|keep it under water)/i;

/** What it is to have happened, the worst first. */
const aftermaths: readonly (readonly [RegExp, string])[] = [
  [/explosion|bursting/, 'do not touch it, leave, keep others away, call for help'],
  [
    /heats itself/,
    'while it is cool, outdoors with it and spread it flat or put it under water; warm or smoking: out and call',
  ],
  [
    /toxic|poison|asphyxiant|carcinogenic/,
    'leave at once, let in air from outside, call for help; nobody goes back in',
  ],
  [/fire|flammable/, 'no switch, no flame; if it burns, out and call for help'],
  [/heat|spattering/, 'step back, add nothing more, let it cool behind a screen'],
];

/** A rule of which a side is no substance, but a flame, a vessel or a place. */
const isOfPlace = (rule: string): boolean =>
  pairRuleNamed(rule)?.groups.some(({ any }) => any.some((group) => circumstanceGroups.has(group))) ?? false;

/**
 * What to do now about a danger, in one sentence; undefined for what is only a warning or a note.
 * @example
 * actionOn({
 *   rule: 'acid-base', severity: 'danger', consequence: 'heat', precaution: 'Hood.', partners: ['acid', 'lye'],
 * })?.slice(0, 10) // 'Do not mix'
 */
export function actionOn({
  rule,
  severity,
  consequence,
  precaution,
  partners,
}: Pick<Foreseen, 'rule' | 'severity' | 'consequence' | 'precaution' | 'partners'>): string | undefined {
  if (severity !== 'danger') return undefined;
  const after = aftermaths.find(([pattern]) => pattern.test(consequence))?.[1] ?? 'leave, let in air, call for help';
  const isMixing = partners.length > 1 && !isOfPlace(rule);
  const refrain = isMixing ? 'Do not mix these' : 'Do not do this';
  const first = beginsWithAction.test(precaution) ? 'If it has happened' : `${refrain}. If it has happened`;
  return `${first}: ${after}.`;
}
