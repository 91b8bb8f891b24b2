// The README's way, from a clean clone: npm pack there, install the tarball elsewhere, a journal of one's own.
// Dependencies are taken from the present node_modules, so that nothing is fetched.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, symlinkSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { folderOf, smallJournal } from '../journal-folder.js';

const project = fileURLToPath(new URL('../..', import.meta.url));
const present = join(project, 'node_modules');
const here = { encoding: 'utf8', stdio: 'pipe' } as const;

/** The committed state as a stranger gets it, with the present dependencies in the place of `npm ci`. */
function cloneInto(folder: string): string {
  const clone = join(folder, 'clone');
  execFileSync('git', ['clone', '--quiet', '--depth', '1', `file://${project}`, clone], here);
  symlinkSync(present, join(clone, 'node_modules'));
  return clone;
}

/** Lays the tarball and what it depends on into a folder, as `npm install` does. */
function installInto(folder: string, tarball: string): string {
  const modules = join(folder, 'node_modules');
  mkdirSync(modules);
  for (const name of readdirSync(present))
    if (name !== '.bin' && name !== '.package-lock.json') symlinkSync(join(present, name), join(modules, name));
  execFileSync('tar', ['-xzf', tarball, '--one-top-level=masstone', '--strip-components=1'], { cwd: modules, ...here });
  return join(modules, 'masstone');
}

it('from git clone to a published journal of one’s own', () => {
  const folder = folderOf(smallJournal());
  const clone = cloneInto(folder);
  execFileSync('npm', ['pack', '--silent', '--offline', '--pack-destination', folder], { cwd: clone, ...here });
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'))!;
  const installed = installInto(folder, join(folder, tarball));
  expect(readdirSync(installed).sort()).toEqual(['LICENSE', 'README.md', 'dist', 'package.json', 'public']);

  const { bin } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8')) as { bin: { masstone: string } };
  const masstone = (...words: string[]) =>
    spawnSync(process.execPath, [join(installed, bin.masstone), ...words], { cwd: folder, encoding: 'utf8' });
  expect(masstone('begin', '--journal', 'my-pigments', '--found', 'My pigments')).toMatchObject({ status: 0 });
  expect(masstone('begin', '--journal', 'my-pigments', 'Malachite green, cold against warm')).toMatchObject({
    status: 0,
  });
  const entry = 'my-pigments/entries/001-malachite-green-cold-against-warm.md';
  for (const [file, line] of [
    ['my-pigments/journal.yaml', 0],
    ['my-pigments/shelf.yaml', 0],
    [entry, 1],
  ] as const) {
    const written = readFileSync(join(folder, file), 'utf8').split('\n')[line]!;
    const [, path] = /^# yaml-language-server: \$schema=(\.\S+)$/.exec(written)!;
    expect(existsSync(resolve(folder, dirname(file), path!)), `${file}: ${path}`).toBe(true);
  }
  expect(masstone('proof', '--journal', 'my-pigments').status).toBe(0);
  const published = masstone('publish', '--journal', 'journal', '--to', 'my-site');
  expect(published).toMatchObject({ status: 0, stdout: expect.stringContaining('Published 2 entries') as string });
  expect(existsSync(join(folder, 'my-site/find/pagefind.js'))).toBe(true);
  expect(masstone('formula', 'CuSO4·5H2O')).toMatchObject({ status: 0 });
  expect(masstone('foresee', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL').stdout).toMatch(/nitrogen dioxide/i);
  // It builds all anew, which takes a busy machine long.
}, 900_000);
