// Remarks gathered by their cause: one mending is one remark, with how often it was found and where first.
import { factsOf, remark, severityOf, type Place, type Remark } from './remark.js';
import { rules, type RuleId } from './registry.js';
import type { Rule } from './rule.js';

/** A remark that stands for all of one cause. */
export interface Cause {
  readonly remark: Remark;
  /** How often it was found. */
  readonly count: number;
  /** Where it was found first. */
  readonly first: Place;
  /** Files in which it was found. */
  readonly files: ReadonlySet<string>;
}

/** Whether one mending takes away every remark of a rule on the same subject. */
const isMendedOnce = (id: string): boolean =>
  Object.hasOwn(rules, id) && (rules[id as RuleId] as unknown as Rule<unknown>).mendedOnce === true;

/** What tells causes apart: the subject for what is mended once, else rule, place and, of errors, words. */
function keyOf(one: Remark): string {
  const severity = severityOf(one);
  if (severity !== 'error' && one.subject !== undefined && isMendedOnce(one.ruleId)) return `${severity} ${one.cause}`;
  const place = `${one.file}:${one.line}:${one.column}`;
  return severity === 'error' ? `${one.ruleId} ${place} ${one.reason}` : `${one.ruleId} ${place}`;
}

const uses = (count: number): string => `${count} uses`;

/** The same remark for many places: what was found, how often, where first, at the place where it is mended. */
function standingForAll(first: Remark, count: number, at: Place | undefined): Remark {
  const facts = factsOf(first);
  const place = at ?? facts.place;
  if (count === 1 && !at) return first;
  const where = `${facts.place.file}:${facts.place.line}`;
  const often = count === 1 ? `used in ${where}` : `${uses(count)}, first in ${where}`;
  const found = facts.found.replace(/\.$/, '');
  return remark({ ...facts, place, found: `${found} (${often}).`, cause: first.cause });
}

/**
 * Remarks by cause, in the order in which they were found.
 * @param mendedAt where a subject is mended: the line of a jar on the shelf; undefined: where it was found first
 */
export function byCause(
  remarks: readonly Remark[],
  mendedAt: (subject: string) => Place | undefined = () => undefined,
): readonly Cause[] {
  const groups = new Map<string, Remark[]>();
  for (const one of remarks) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()].map((group): Cause => {
    const [first] = group as [Remark, ...Remark[]];
    const gathered = isMendedOnce(first.ruleId) && first.subject !== undefined && severityOf(first) !== 'error';
    const place = { file: first.file, line: first.line, column: first.column };
    const count = gathered ? group.length : 1;
    return {
      remark: gathered ? standingForAll(first, count, mendedAt(first.subject!)) : first,
      count,
      first: place,
      files: new Set(group.map(({ file }) => file)),
    };
  });
}

/**
 * How often each rule spoke, the most frequent first, as lines: `12 × no-hazard-data, of 4 causes`.
 * @example summaryOf(byCause(remarks))[0] // '41 × no-hazard-data: madder root'
 */
export function summaryOf(causes: readonly Cause[]): readonly string[] {
  const byRule = new Map<string, Cause[]>();
  for (const one of causes) byRule.set(one.remark.ruleId, [...(byRule.get(one.remark.ruleId) ?? []), one]);
  return [...byRule]
    .map(([rule, of]) => ({ rule, of, found: of.reduce((sum, { count }) => sum + count, 0) }))
    .sort((a, b) => b.found - a.found || (a.rule < b.rule ? -1 : 1))
    .map(({ rule, of, found }) => {
      const [one] = of;
      const subject = of.length === 1 ? one!.remark.subject : undefined;
      if (subject !== undefined) return `${found} × ${rule}: ${subject}`;
      return of.length === found ? `${found} × ${rule}` : `${found} × ${rule}, of ${of.length} causes`;
    });
}
