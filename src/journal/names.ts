// Names that become addresses: two of them may not differ only in capitals, or in how an accent is put together.
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';

/** The name as file systems and hosts that ignore case take it. */
const folded = (path: string): string => path.normalize('NFC').toLowerCase();

/**
 * An error for every file whose address is that of another where case is ignored; the first of them keeps it.
 * @param files paths below the journal of pages and of files that are published
 * @example nameRemarks(['pages/about.md', 'pages/About.md'])[0]?.ruleId // 'names-collide'
 */
export function nameRemarks(files: readonly string[]): Remark[] {
  const first = new Map<string, string>();
  const findings = new Findings();
  for (const file of [...files].sort().reverse()) {
    const before = first.get(folded(file));
    if (before === undefined) first.set(folded(file), file);
    else findings.add('names-collide', { file, line: 1, column: 1 }, { other: before, actual: file });
  }
  return remarksFrom(findings.all);
}
