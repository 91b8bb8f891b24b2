// A publication that is killed at any instant leaves a whole site: the old one or the new one.
import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { entry, folderOf, masstone, program, smallJournal } from '../journal-folder.js';

const many = (word: string): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: 40 }, (_, at) => [
      `journal/entries/${100 + at}-many.md`,
      entry(100 + at, '', `${word} words.\n`),
    ]),
  );

/** Which publication every page of the site is of; more than one word means a mixture. */
const wordsOf = (folder: string): Set<string> =>
  new Set(
    Array.from(
      { length: 40 },
      (_, at) =>
        /(\w+) words\./.exec(readFileSync(join(folder, 'site', String(100 + at), 'index.html'), 'utf8'))?.[1] ?? 'none',
    ),
  );

it('killed after 50 ms, 100 ms … it never leaves half a site', async () => {
  const folder = folderOf({ ...smallJournal(), ...many('Old') });
  expect(masstone(['publish', '--journal', 'journal', '--no-search'], folder).status).toBe(0);
  for (const [file, text] of Object.entries(many('New'))) writeFileSync(join(folder, file), text);
  let killed = 0;
  for (let wait = 50; wait <= 1200; wait += 50) {
    const child = spawn(process.execPath, [program, 'publish', '--journal', 'journal', '--no-search'], {
      cwd: folder,
      stdio: 'ignore',
    });
    const timer = setTimeout(() => child.kill('SIGKILL'), wait);
    const signal = await new Promise((done) => {
      child.on('exit', (_code, how) => done(how));
    });
    clearTimeout(timer);
    if (signal === 'SIGKILL') killed += 1;
    const words = wordsOf(folder);
    expect(words.size, `killed after ${wait} ms: ${[...words].join(', ')}`).toBe(1);
    if (signal !== 'SIGKILL') break;
  }
  expect(killed).toBeGreaterThan(2);
  expect(masstone(['publish', '--journal', 'journal', '--no-search'], folder).status).toBe(0);
  expect([...wordsOf(folder)]).toEqual(['New']);
}, 120_000);
