// A remark is one finding of the proof: a VFile message that always has a file, a place, a rule, and what to do.
import { VFileMessage } from 'vfile-message';

export type Severity = 'error' | 'warning' | 'note';

/** A place in a file of the journal; line and column are 1-based. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** One finding. `fatal` true is an error (stops publication), false a warning, null a note. */
export interface Remark extends VFileMessage {
  file: string;
  line: number;
  column: number;
  ruleId: string;
  source: 'masstone';
  /** What was found. */
  actual: string | undefined;
  /** What was expected, where it can be named. */
  expected: string[] | undefined;
  /** What to do, as a sentence. */
  note: string;
}

export interface Finding {
  readonly place: Place;
  readonly severity: Severity;
  /** Rule id, kebab-case: `limits-though-meant-in-excess`. */
  readonly rule: string;
  /** One sentence: what was found. */
  readonly found: string;
  /** The offending text itself, where there is one. */
  readonly actual?: string;
  readonly expected?: readonly string[];
  /** What to do, as a sentence. */
  readonly cure: string;
}

/**
 * Makes a remark.
 * @example remark({ place: { file: 'entries/014.md', line: 9, column: 13 }, severity: 'error', rule: 'unit', found: '…', cure: '…' })
 */
export function remark(finding: Finding): Remark {
  const { place, severity, rule, found, cure } = finding;
  const message = new VFileMessage(found, {
    place: { line: place.line, column: place.column },
    ruleId: rule,
    source: 'masstone',
  });
  message.file = place.file;
  message.fatal = severity === 'error' ? true : severity === 'warning' ? false : undefined;
  message.actual = finding.actual;
  message.expected = finding.expected ? [...finding.expected] : undefined;
  message.note = cure;
  return message as Remark;
}

export const severityOf = (remark: VFileMessage): Severity =>
  remark.fatal === true ? 'error' : remark.fatal === false ? 'warning' : 'note';

/** A remark as the plain data it was made from, so that a worker thread can hand it back. */
export const findingOf = (one: Remark): Finding => ({
  place: { file: one.file, line: one.line, column: one.column },
  severity: severityOf(one),
  rule: one.ruleId,
  found: one.reason,
  actual: one.actual,
  expected: one.expected,
  cure: one.note,
});
