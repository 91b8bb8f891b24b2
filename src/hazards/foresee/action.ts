// The first line of an answer: what to do now, before why. It says nothing new; the rule's own precaution follows it.
import { aftermathsTable } from '../../tables/compiled/hazards/foresee/aftermaths.js';
import { consequenceKindsTable } from '../../tables/compiled/hazards/foresee/consequence-kinds.js';
import type { Foreseen } from './contracts.js';
import { gasNamed } from './gases.js';
import { circumstanceGroups, isToldAfterwards } from './circumstance-groups.js';
import { pairRuleNamed } from './rules.js';
import { aboveDangerLevel } from './worst-case-gas.js';

/** A rule whose own precaution already begins with what not to do, or with getting out. */
const beginsWithAction = /^(?:do not|don't|never|not\b|now:|out\b|leave\b|keep it under water)/i;

/** Whether a precaution says itself what not to do, so that it is an order and no recipe. */
export const isOrder = (precaution: string): boolean => beginsWithAction.test(precaution);

type Acted = Pick<Foreseen, 'rule' | 'severity' | 'consequence' | 'precaution' | 'partners' | 'worstCase'>;

let kinds: ReadonlyMap<string, string> | undefined;

/** Names of what comes after each part of a consequence. */
function afterwardsOf(consequence: string): readonly string[] {
  kinds ??= new Map(consequenceKindsTable().map((row) => [row.consequence, row.afterwards]));
  return consequence.split(';').flatMap((one) => {
    const part = one.trim();
    return kinds!.get(part) ?? kinds!.get(part.replace(/ \(.*\)$/, '')) ?? [];
  });
}

/** An explosion is told with the gas that may come of it; of others, the gravest alone. */
const toldTogether = new Set(['explosion', 'away']);

/** What to do when any of these consequences has come, each act once and the call for help last. */
function actsAfter(consequences: readonly string[]): readonly string[] {
  const happened = new Set(consequences.flatMap(afterwardsOf));
  const all = aftermathsTable().filter(({ afterwards }) => happened.has(afterwards));
  const [worst] = all;
  if (!worst) return ['leave at once', 'ring the emergency number (112 or 911)'];
  const told = toldTogether.has(worst.afterwards) ? all.filter((row) => toldTogether.has(row.afterwards)) : [worst];
  const acts = told.flatMap((row) => row.acts);
  return acts.filter((act, at) => acts.lastIndexOf(act) === at);
}

/** What it comes to, and where its gas would be above what is at once dangerous, that too. */
const comesTo = ({ consequence, worstCase }: Acted): string =>
  worstCase !== undefined && aboveDangerLevel(worstCase) ? `${consequence}; toxic gas` : consequence;

/** A rule of which a side is no substance, but a flame, a vessel or a place. */
const isOfPlace = (rule: string): boolean =>
  pairRuleNamed(rule)?.groups.some(({ any }) => any.some((group) => circumstanceGroups.has(group))) ?? false;

/** What is told has happened already: a smell, a fume, somebody who feels ill. */
const hasHappened = ({ rule }: Acted): boolean =>
  pairRuleNamed(rule)?.groups.some(({ any }) => any.some(isToldAfterwards)) ?? false;

const refrainFrom = ({ partners, rule }: Acted): string =>
  partners.length > 1 && !isOfPlace(rule) ? 'Do not mix these' : 'Do not do this';

/**
 * What to do now about a danger, in one sentence; undefined for what is only a warning or a note, and where it has all
 * been said.
 * @param said acts that the first line has told already: only others are told
 * @example
 * actionOn({
 *   rule: 'acid-base', severity: 'danger', consequence: 'heat', precaution: 'Hood.', partners: ['acid', 'lye'],
 * })?.slice(0, 10) // 'Do not mix'
 */
export function actionOn(one: Acted, said?: ReadonlySet<string>): string | undefined {
  const acts = actsAfter([comesTo(one)]).filter((act) => !said?.has(act));
  if (one.severity !== 'danger' || acts.length === 0) return undefined;
  if (hasHappened(one)) return `Now: ${acts.join('; ')}.`;
  const refrains = isOrder(one.precaution) || said !== undefined;
  return `${refrains ? '' : `${refrainFrom(one)}. `}If it has happened: ${acts.join('; ')}.`;
}

const doctor = 'Whoever breathed it sees a doctor the same day, even feeling well: the harm can come hours later.';

/** Of these some gas harms hours after it was breathed. */
const harmsLater = (foreseen: readonly Pick<Foreseen, 'gases'>[]): boolean =>
  foreseen.some(({ gases = [] }) => gases.some(({ formula }) => gasNamed(formula)?.harmLater === true));

/** What is not to be done, unless it is done already. */
function beforeActs(dangers: readonly Acted[]): string {
  if (dangers.every(hasHappened)) return 'Now: ';
  const refrain = refrainFrom(dangers[0]!);
  return dangers.some(hasHappened) ? `${refrain}. It has happened: ` : `${refrain}. If it has happened: `;
}

/** The first line of an answer. */
export interface FirstAction {
  readonly words: string;
  /** What it tells to do when it has happened. */
  readonly acts: ReadonlySet<string>;
}

/**
 * What to do now about everything that is foreseen, in one to three sentences, for somebody in haste; undefined where
 * there are only notes.
 * @param foreseen the worst first
 * @example firstAction([]) // undefined
 */
export function firstAction(foreseen: readonly (Acted & Pick<Foreseen, 'gases'>)[]): FirstAction | undefined {
  const [worst] = foreseen;
  if (!worst || worst.severity === 'note') return undefined;
  const alike = foreseen.filter(({ severity }) => severity === worst.severity);
  const acts = actsAfter(alike.map(comesTo));
  const isDanger = worst.severity === 'danger';
  const now = `${isDanger ? beforeActs(alike) : 'With care, or not at all. If it goes wrong: '}${acts.join('; ')}.`;
  return { words: isDanger && harmsLater(alike) ? `${now} ${doctor}` : now, acts: new Set(acts) };
}
