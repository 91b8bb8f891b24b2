// The first line of an answer: what to do now, before why. It says nothing new; the rule's own precaution follows it.
import type { Foreseen } from './contracts.js';

/** A rule whose own precaution already begins with what not to do, or with getting out. */
const beginsWithAction = /^(?:do not|don't|never|not\b|no\b|now:|out\b|keep it under water)/i;

/** What it is to have happened, the worst first. */
const aftermaths: readonly (readonly [RegExp, string])[] = [
  [/explosion|bursting/, 'do not touch it, leave, keep others away, call for help'],
  [
    /toxic|poison|asphyxiant|carcinogenic/,
    'leave at once, let in air from outside, call for help; nobody goes back in',
  ],
  [/fire|flammable/, 'no switch, no flame; if it burns, out and call for help'],
  [/heat|spattering/, 'step back, add nothing more, let it cool behind a screen'],
];

/**
 * What to do now about a danger, in one sentence; undefined for what is only a warning or a note, or where the
 * precaution itself begins with it.
 * @example actionOn({ severity: 'danger', consequence: 'heat', precaution: 'Hood.' }, true)?.slice(0, 6) // 'Do not'
 */
export function actionOn(
  { severity, consequence, precaution }: Pick<Foreseen, 'severity' | 'consequence' | 'precaution'>,
  isMixing: boolean,
): string | undefined {
  if (severity !== 'danger') return undefined;
  const after = aftermaths.find(([pattern]) => pattern.test(consequence))?.[1] ?? 'leave, let in air, call for help';
  const refrain = isMixing ? 'Do not mix these' : 'Do not do this';
  const first = beginsWithAction.test(precaution) ? 'If it has happened' : `${refrain}. If it has happened`;
  return `${first}: ${after}.`;
}
