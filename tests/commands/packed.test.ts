// The package as npm packs it works on a journal in any folder.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { folderOf, smallJournal } from '../journal-folder.js';

const project = fileURLToPath(new URL('../..', import.meta.url));

it('unpacked elsewhere, its command publishes', () => {
  const folder = folderOf(smallJournal());
  execFileSync('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', folder], { cwd: project });
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'))!;
  execFileSync('tar', ['-xzf', tarball], { cwd: folder });
  const modules = join(folder, 'node_modules');
  mkdirSync(modules);
  // Its dependencies, as an installation would lay them beside it.
  for (const name of readdirSync(join(project, 'node_modules')))
    symlinkSync(join(project, 'node_modules', name), join(modules, name));
  const { bin } = JSON.parse(readFileSync(join(folder, 'package/package.json'), 'utf8')) as {
    bin: { masstone: string };
  };
  const run = (...words: string[]) =>
    spawnSync(process.execPath, [join(folder, 'package', bin.masstone), ...words], { cwd: folder, encoding: 'utf8' });
  expect(run('publish', '--journal', 'journal')).toMatchObject({
    status: 0,
    stdout: expect.stringContaining('Published 2 entries') as string,
  });
  expect(existsSync(join(folder, 'site/find/pagefind.js'))).toBe(true);
  expect(run('formula', 'CuSO4·5H2O')).toMatchObject({ status: 0 });
  expect(run('foresee', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL').stdout).toMatch(/nitrogen dioxide/i);
  expect(existsSync(join(folder, 'package/public/schema/entry.schema.json'))).toBe(true);
  expect(readdirSync(join(folder, 'package')).sort()).toEqual([
    'LICENSE',
    'README.md',
    'dist',
    'package.json',
    'public',
  ]);
}, 120_000);
