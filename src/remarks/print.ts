// Remarks as a maker reads them on a terminal, and as other programs read them.
import type { Accepted } from './accepted.js';
import { summaryOf, type Cause } from './causes.js';
import { severityOf, type Paste, type Place, type Remark, type Severity } from './remark.js';

/** A remark as `--json` gives it. */
export interface RemarkJson {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly severity: Severity;
  readonly rule: string;
  readonly found: string;
  readonly actual?: string;
  readonly expected?: readonly string[];
  readonly cure: string;
  /** What the cure writes instead of what, where that can be told to the letter. */
  readonly paste?: Paste;
  /** What it is about, where that can stand in several places. */
  readonly subject?: string;
  /** The same for every remark that one mending would take away. */
  readonly cause: string;
}

/** Text that a terminal shows and does not obey. */
const tame = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f]/g, '\ufffd');

/** @example remarksAsJson(remarks)[0]?.rule // 'unknown-key' */
export function remarksAsJson(remarks: readonly Remark[]): RemarkJson[] {
  return remarks.map((remark) => ({
    file: remark.file,
    line: remark.line,
    column: remark.column,
    severity: severityOf(remark),
    rule: remark.ruleId,
    found: remark.reason,
    actual: remark.actual,
    expected: remark.expected,
    cure: remark.note,
    paste: remark.paste,
    subject: remark.subject,
    cause: remark.cause,
  }));
}

/**
 * Remarks grouped by file, in order of place, with what to do under each; a count at the end.
 * @param root path of the journal as the maker gave it, put before each file
 */
export function printRemarks(remarks: readonly Remark[], root = ''): string {
  const files = new Map<string, Remark[]>();
  for (const remark of remarks) files.set(remark.file, [...(files.get(remark.file) ?? []), remark]);
  const lines: string[] = [];
  for (const file of [...files.keys()].sort()) {
    const here = (files.get(file) ?? []).sort((a, b) => a.line - b.line || a.column - b.column);
    lines.push(tame(root ? `${root.replace(/\/+$/, '')}/${file}` : file));
    const width = Math.max(...here.map((remark) => `${remark.line}:${remark.column}`.length));
    for (const remark of here) {
      lines.push(
        `  ${`${remark.line}:${remark.column}`.padStart(width)}  ${severityOf(remark).padEnd(7)} ` +
          ` ${tame(remark.reason)}  [${remark.ruleId}]`,
      );
      // Lines that are there to be pasted stay lines of their own, with their indentation.
      remark.note.split('\n').forEach((line, at) => {
        if (remark.note) lines.push(`  ${' '.repeat(width)}           ${at === 0 ? '→' : ' '} ${tame(line)}`);
      });
    }
    lines.push('');
  }
  const count = (severity: Severity, one: string) => {
    const n = remarks.filter((remark) => severityOf(remark) === severity).length;
    return n === 0 ? [] : [counted(n, one)];
  };
  const counts = [...count('error', 'error'), ...count('warning', 'warning'), ...count('note', 'note')];
  if (counts.length > 0) lines.push(counts.join(', '), '');
  return lines.join('\n');
}

/** @example counted(1, 'entry', 'entries') // '1 entry' */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** A cause as `--json` gives it: its remark, how often it was found, and where first. */
export const causesAsJson = (
  causes: readonly Cause[],
): readonly (RemarkJson & { readonly count: number; readonly first: Place })[] =>
  remarksAsJson(causes.map(({ remark }) => remark)).map((one, at) => ({
    ...one,
    count: causes[at]!.count,
    first: causes[at]!.first,
  }));

/** Fewer remarks are seen at a glance and need no summary. */
const fewest = 4;

/** What was found how often, and what was accepted, at the end of a list of remarks; empty where that is plain. */
export function summaryWords(causes: readonly Cause[], accepted: readonly Accepted[]): string {
  const lines = causes.length < fewest ? [] : ['By cause:', ...summaryOf(causes).map((line) => `  ${tame(line)}`)];
  const taken = accepted.map(({ warning, about, because, count }) => {
    const what = about === undefined ? warning : `${warning}, ${about}`;
    return `  ${count} × ${tame(what)}: ${tame(because)}`;
  });
  const all = [...lines, ...(taken.length > 0 ? ['Accepted:', ...taken] : [])];
  return all.length > 0 ? `${all.join('\n')}\n\n` : '';
}
