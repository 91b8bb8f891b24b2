// Small journals made for a test, and the built command line run on them.
import { spawnSync, type SpawnSyncReturns } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

export const program = fileURLToPath(new URL('../dist/command-line/masstone.cjs', import.meta.url));

/** A folder that is removed when the test ends, with the files given by path. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'masstone-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

export const settings = `title: Test journal\naddress: https://test.example/base/\nauthor: A tester\n`;

/** The front matter every entry needs, and what else is given; finished, where that does not say otherwise. */
export const entry = (number: number, more = '', body = 'Words.\n'): string =>
  `---\nnumber: ${number}\ntitle: Entry ${number}\ndate: ` +
  `2026-01-${String((number % 28) + 1).padStart(2, '0')}\n` +
  `${/^status:/m.test(more) ? '' : 'status: finished\n'}${more}---\n${body}`;

/** A journal that publishes: two entries, a shelf. */
export const smallJournal = (more: Readonly<Record<string, string>> = {}): Record<string, string> => ({
  'journal/journal.yaml': settings,
  'journal/shelf.yaml': 'blue-vitriol: { name: blue vitriol, formula: CuSO4·5H2O }\n',
  'journal/entries/001-first.md': entry(1, 'samples: [{ sample: A }]\n'),
  'journal/entries/002-second.md': entry(2, '', 'After [the first](001-first.md).\n'),
  ...more,
});

/** Runs `masstone …` as built in dist/, as a maker would. */
export const masstone = (words: readonly string[], folder: string): SpawnSyncReturns<string> =>
  spawnSync(process.execPath, [program, ...words], { cwd: folder, encoding: 'utf8', timeout: 60_000 });
