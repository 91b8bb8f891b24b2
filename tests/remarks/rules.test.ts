// Every rule of the proof speaks in the journal of its one example, and is silent in that of the other.
import { mkdirSync, mkdtempSync, readdirSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { bytesOf, exampleFiles } from '../../src/remarks/example.js';
import { ruleIds, rules } from '../../src/remarks/registry.js';
import { severityOf, type Remark } from '../../src/remarks/remark.js';
import type { Example, Rule } from '../../src/remarks/rule.js';
import { proof } from '../../src/site/proof.js';
import { publish } from '../../src/site/publish.js';

const barred = new Set<string>();
// Nothing is unreadable to the one who runs the tests as root; so the machine's no is played.
vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>();
  const readFileSync = (path: string, ...rest: []) => {
    if (barred.has(path)) throw Object.assign(new Error('permission denied'), { code: 'EACCES' });
    return fs.readFileSync(path, ...rest);
  };
  return { ...fs, readFileSync };
});

let folder = '';
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Writes the files of an example into a new folder below this one. */
function written(example: Example, name: string): string {
  const journal = join(folder, name);
  for (const [file, content] of Object.entries(exampleFiles(example))) {
    const bytes = bytesOf(content);
    if (!bytes) continue;
    mkdirSync(dirname(join(journal, file)), { recursive: true });
    writeFileSync(join(journal, file), bytes);
    if (typeof content === 'object' && 'unreadable' in content) barred.add(join(journal, file));
  }
  return journal;
}

/** The remarks on an example's journal. */
async function proofed(example: Example): Promise<readonly Remark[]> {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'rule-')));
  barred.clear();
  const { finished = false, published = false } = typeof example === 'object' ? example : {};
  if (!published) return (await proof(written(example, 'journal'), { drafts: !finished })).remarks;
  const options = { to: join(folder, 'site'), search: false };
  await publish(written(example, 'before'), options);
  return (await publish(written(example, 'journal'), options)).remarks;
}

const told = (remarks: readonly Remark[]): string[] => remarks.map((one) => `${one.ruleId}: ${one.reason}`);

it('no id stands in two files of rules', async () => {
  const folderOfRules = fileURLToPath(new URL('../../src/remarks/rules/', import.meta.url));
  const groups = await Promise.all(readdirSync(folderOfRules).map((file) => import(join(folderOfRules, file))));
  const ids = groups.flatMap((group) => Object.values(group as Record<string, object>).flatMap(Object.keys));
  expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
  expect(ids.toSorted()).toEqual(ruleIds.toSorted());
});

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
