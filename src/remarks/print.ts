// Remarks as a maker reads them on a terminal, and as other programs read them.
import { severityOf, type Remark, type Severity } from './remark.js';

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
    return n === 0 ? [] : [`${n} ${one}${n === 1 ? '' : 's'}`];
  };
  const counts = [...count('error', 'error'), ...count('warning', 'warning'), ...count('note', 'note')];
  if (counts.length > 0) lines.push(counts.join(', '), '');
  return lines.join('\n');
}
