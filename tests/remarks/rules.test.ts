// Every rule of the proof speaks in the journal of its one example, and is silent in that of the other.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { bytesOf, exampleFiles } from '../../src/remarks/example.js';
import { ruleIds, rules } from '../../src/remarks/registry.js';
import { severityOf, type Remark } from '../../src/remarks/remark.js';
import type { Example, Rule } from '../../src/remarks/rule.js';
import { proof } from '../../src/site/proof.js';

let folder = '';
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The remarks on an example's journal. */
async function proofed(example: Example): Promise<readonly Remark[]> {
  folder = mkdtempSync(join(tmpdir(), 'rule-'));
  for (const [file, content] of Object.entries(exampleFiles(example))) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), bytesOf(content));
  }
  const finished = typeof example === 'object' && example.finished === true;
  return (await proof(folder, { drafts: !finished })).remarks;
}

const told = (remarks: readonly Remark[]): string[] => remarks.map((one) => `${one.ruleId}: ${one.reason}`);

describe.each(ruleIds)('%s', (id) => {
  const { severity, fires, silent }: Rule<never> = rules[id];
  const allowed = typeof severity === 'string' ? [severity] : severity.among;

  it('speaks where it should, as gravely as it says', async () => {
    const remarks = await proofed(fires);
    const own = remarks.filter(({ ruleId }) => ruleId === id);
    expect(own.length, `only ${told(remarks).join('; ')}`).toBeGreaterThan(0);
    for (const one of own) {
      expect(allowed).toContain(severityOf(one));
      expect(one.reason).toMatch(/\S.*[.!?]$/s);
      expect(one.note).toMatch(/\S/);
      expect([one.line, one.column].every((at) => at >= 1)).toBe(true);
      expect(`${one.reason} ${one.note}`).not.toMatch(/undefined|\[object|NaN/);
    }
  });

  it('is silent where it should be, in a journal without errors', async () => {
    const remarks = await proofed(silent);
    expect(told(remarks.filter((one) => one.ruleId === id || severityOf(one) === 'error'))).toEqual([]);
  });
});
