// Warnings that a maker has read and accepts, with the reason. A danger or an error is never accepted away.
import { Findings, remarksFrom, type PlaceOf } from './findings.js';
import { ruleIds, type RuleId } from './registry.js';
import { severityOf, type Remark } from './remark.js';

/** One acceptance as the maker wrote it. */
export interface Acceptance {
  readonly warning: string;
  /** What it is about, where only that is accepted. */
  readonly about?: string;
  readonly because: string;
}

/** Acceptances of one file. */
export interface AcceptedIn {
  /** The file that holds them. */
  readonly file: string;
  /** They are for the remarks of this file alone; for those of the whole journal where it is false. */
  readonly ownOnly: boolean;
  readonly accept: readonly Acceptance[];
  readonly placeOf: PlaceOf;
}

/** What was accepted, and how often. */
export interface Accepted extends Acceptance {
  readonly file: string;
  readonly count: number;
}

/** Rules that speak of what may hurt someone: they are answered, not accepted. */
const ofDanger: ReadonlySet<string> = new Set<RuleId>([
  'danger-unanswered',
  'warning-unanswered',
  'precaution-says-nothing',
  'precaution-answers-nothing',
  'not-judged',
  'heat-not-known',
  'no-plan-for-trouble',
  'answer-makes-worse',
  'poison-onto-ground',
]);

const isMeant = (one: Remark, { warning, about }: Acceptance, { file, ownOnly }: AcceptedIn): boolean =>
  one.ruleId === warning && (!ownOnly || one.file === file) && (about === undefined || isAbout(one, about));

const isAbout = ({ subject, reason }: Remark, about: string): boolean => {
  const wanted = about.toLowerCase();
  return subject?.toLowerCase() === wanted || reason.toLowerCase().includes(wanted);
};

/**
 * Takes what was accepted out of the remarks. What cannot be accepted stays, and is said.
 * @param complete all remarks are here, so that an acceptance of nothing can be told
 */
export function withoutAccepted(
  remarks: readonly Remark[],
  files: readonly AcceptedIn[],
  complete = true,
): { readonly remarks: readonly Remark[]; readonly accepted: readonly Accepted[] } {
  const gone = new Set<Remark>();
  const accepted: Accepted[] = [];
  const own: Remark[] = [];
  for (const of of files) {
    const findings = new Findings();
    of.accept.forEach((one, at) => {
      const { warning: rule, because, about } = one;
      const path = ['accept', at, 'warning'];
      if (!(ruleIds as readonly string[]).includes(rule)) {
        findings.add('not-accepted', path, { rule, why: 'unknown', actual: rule });
        return;
      }
      if (ofDanger.has(rule)) {
        findings.add('not-accepted', path, { rule, why: 'danger', actual: rule });
        return;
      }
      const meant = remarks.filter((remark) => isMeant(remark, one, of));
      const mild = meant.filter((remark) => severityOf(remark) !== 'error');
      for (const remark of mild) gone.add(remark);
      if (mild.length > 0)
        accepted.push({
          file: of.file,
          warning: rule,
          because,
          ...(about !== undefined && { about }),
          count: mild.length,
        });
      else if (meant.length > 0) findings.add('not-accepted', path, { rule, why: 'error', actual: rule });
      else if (complete) findings.add('not-accepted', path, { rule, why: 'nothing', actual: rule });
    });
    own.push(...remarksFrom(findings.all, of.placeOf));
  }
  return { remarks: [...remarks.filter((one) => !gone.has(one)), ...own], accepted };
}
