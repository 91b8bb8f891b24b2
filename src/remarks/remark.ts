// A remark is one finding of the proof: a VFile message that always has a file, a place, a rule, and what to do.
import { VFileMessage } from 'vfile-message';
import type { Paste } from './paste.js';
import type { RuleId } from './registry.js';
import type { Severity } from './severity.js';

export type { Paste } from './paste.js';
export type { Severity } from './severity.js';

/** What only a fault of Masstone's own can bring about, and no journal: it has no example. */
export type OwnFaultId = 'dead-link';

/** A place in a file of the journal; line and column are 1-based. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** One finding, worded. `fatal` true is an error (stops publication), false a warning, undefined a note. */
export interface Remark extends VFileMessage {
  file: string;
  line: number;
  column: number;
  ruleId: RuleId | OwnFaultId;
  source: 'masstone';
  /** The offending text itself, where there is one. */
  actual: string | undefined;
  /** What was expected, where it can be named. */
  expected: string[] | undefined;
  /** What to do, as a sentence. */
  note: string;
  /** The mending that the note tells, where it can be told to the letter. */
  paste: Paste | undefined;
  /** What it is about, where that can stand in several places: a reagent, a lot, a file. */
  subject: string | undefined;
  /** The same for every remark that one mending would take away: the rule with its subject, or else with its place. */
  cause: string;
}

/** A remark as plain data, so that a worker thread can hand it back. */
export interface RemarkFacts {
  readonly place: Place;
  readonly severity: Severity;
  /** Rule id, kebab-case: `limits-though-meant-in-excess`. */
  readonly rule: RuleId | OwnFaultId;
  /** One sentence: what was found. */
  readonly found: string;
  readonly actual?: string;
  readonly expected?: readonly string[];
  /** What to do, as a sentence. */
  readonly cure: string;
  readonly paste?: Paste;
  readonly subject?: string;
  /** Default: the rule with the subject, or with the place. */
  readonly cause?: string;
}

const fatalOf: Readonly<Record<Severity, boolean | undefined>> = { error: true, warning: false, note: undefined };

/**
 * Makes a remark.
 * @example remark({ place: { file: 'entries/014.md', line: 9, column: 13 }, severity: 'error', rule: 'unit', found:
 * '…', cure: '…' })
 */
export function remark(facts: RemarkFacts): Remark {
  const { place, severity, rule, found, cure, subject } = facts;
  const message = new VFileMessage(found, {
    place: { line: place.line, column: place.column },
    ruleId: rule,
    source: 'masstone',
  }) as Remark;
  message.file = place.file;
  message.fatal = fatalOf[severity];
  message.actual = facts.actual;
  message.expected = facts.expected ? [...facts.expected] : undefined;
  message.note = cure;
  message.paste = facts.paste;
  message.subject = subject;
  message.cause = facts.cause ?? `${rule} ${subject ?? `${place.file}:${place.line}:${place.column}`}`;
  return message;
}

export function severityOf({ fatal }: VFileMessage): Severity {
  if (fatal === true) return 'error';
  return fatal === false ? 'warning' : 'note';
}

/** A remark as the plain data it was made from. */
export const factsOf = (one: Remark): RemarkFacts => ({
  place: { file: one.file, line: one.line, column: one.column },
  severity: severityOf(one),
  rule: one.ruleId,
  found: one.reason,
  actual: one.actual,
  expected: one.expected,
  cure: one.note,
  paste: one.paste,
  subject: one.subject,
  cause: one.cause,
});
