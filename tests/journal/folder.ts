// Makes small journals in a temporary folder, for tests that read one whole.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import { severityOf, type Remark } from '../../src/journal/index.js';

const made: string[] = [];
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

export const settings = 'title: Test journal\nauthor: The workshop\naddress: https://example.org/journal/\n';

/** Writes files into a new folder (journal.yaml is added if it is not among them); removed after the test. */
export function journalOf(files: Readonly<Record<string, string | Buffer>>, { withSettings = true } = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'journal-'));
  made.push(folder);
  const all = withSettings ? { 'journal.yaml': settings, ...files } : files;
  for (const [file, content] of Object.entries(all)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), content);
  }
  return folder;
}

/** An entry's text: the four keys that can't do without, then more lines of front matter, then the body. */
export function entryOf(number: number, more = '', body = 'Words.\n'): string {
  return (
    `---\nnumber: ${number}\ntitle: Entry ${number}\ndate: ` +
    `2026-01-${String((number % 28) + 1).padStart(2, '0')}\nstatus: ` +
    `finished\n${more}${more === '' || more.endsWith('\n') ? '' : '\n'}---\n${body}`
  );
}

/** A remark in one line: place, severity, rule. */
export const told = (remarks: readonly Remark[]): string[] =>
  remarks.map((one) => `${one.file}:${one.line}:${one.column} ${severityOf(one)} ${one.ruleId}`);
