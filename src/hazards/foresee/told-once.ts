// One danger of one thing is told once: where dust of lead is told as such, it is not told again as poisonous dust and
// as a poisonous pigment that was ground.
import { once } from '../../once.js';
import { toldOnceTable } from '../../tables/compiled/hazards/foresee/told-once.js';
import { compareSeverity, type Foreseen } from './contracts.js';

const tellers = once(() => {
  const by = new Map<string, string[]>();
  for (const { rule, by: teller } of toldOnceTable()) by.set(rule, [...(by.get(rule) ?? []), teller]);
  return by;
});

/** Whether dangers, each as grave, are together of all that another is of. */
const tellAllOf = (those: readonly Foreseen[], { partners }: Foreseen): boolean =>
  those.length > 0 && partners.every((partner) => those.some((other) => other.partners.includes(partner)));

/**
 * Dangers in their order without those that another of them tells; whatever answers one that is left out answers the
 * one that tells it.
 * @param foreseenOf the danger of an item
 * @param put an item with another danger
 * @param isBeside whether two items are of the same pots; default: all are
 */
export function toldOnce<T>(
  all: readonly T[],
  foreseenOf: (item: T) => Foreseen,
  put: (item: T, foreseen: Foreseen) => T,
  isBeside: (teller: T, item: T) => boolean = () => true,
): readonly T[] {
  const left = new Map<T, readonly T[]>();
  for (const item of all) {
    const one = foreseenOf(item);
    const by = tellers().get(one.rule);
    if (!by) continue;
    const those = all.filter((other) => isTeller(foreseenOf(other), one, by) && isBeside(other, item));
    if (tellAllOf(those.map(foreseenOf), one)) left.set(item, those);
  }
  if (left.size === 0) return all;
  return all.flatMap((item) => {
    if (left.has(item)) return [];
    const own = foreseenOf(item);
    const told = [...left].filter(([, those]) => those.includes(item)).map(([one]) => foreseenOf(one));
    const answers = told.flatMap(({ rule, title, answers: words }) => [rule, title, ...words]);
    return [answers.length === 0 ? item : put(item, { ...own, answers: [...new Set([...own.answers, ...answers])] })];
  });
}

const isTeller = (other: Foreseen, one: Foreseen, by: readonly string[]): boolean =>
  by.includes(other.rule) && compareSeverity(other.severity, one.severity) <= 0;

/** The same of a plain list. */
export const foreseenOnce = (all: readonly Foreseen[]): readonly Foreseen[] =>
  toldOnce(
    all,
    (one) => one,
    (_, foreseen) => foreseen,
  );
