// Where files cannot be watched (a limit of the system, a network disk), the reading copy serves all the same.
import { get } from 'node:http';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it, vi } from 'vitest';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';

vi.mock('node:fs', async (original) => ({
  ...(await original<typeof import('node:fs')>()),
  watch: () => {
    throw Object.assign(new Error('System limit for number of file watchers reached'), { code: 'ENOSPC' });
  },
}));

let copy: ReadingCopy | undefined;
afterEach(() => copy?.close());

const textOf = (path: string): Promise<string> =>
  new Promise((done, failed) => {
    get({ host: '127.0.0.1', port: copy!.port, path }, (response) => {
      let text = '';
      response.on('data', (part: Buffer) => (text += part.toString()));
      response.on('end', () => done(text));
    }).on('error', failed);
  });

it('it says so once, and reads the journal anew when a page is asked for', async () => {
  const folder = folderOf(smallJournal());
  const told: string[] = [];
  const onUnwatched = (error: NodeJS.ErrnoException): number => told.push(String(error.code));
  copy = await startReading(join(folder, 'journal'), { port: 0, onUnwatched });
  expect(await textOf('/base/1/')).toContain('Entry 1');
  writeFileSync(join(folder, 'journal/entries/001-first.md'), entry(1, 'samples: [{ sample: A }]\n', 'Rewritten.\n'));
  await vi.waitFor(async () => expect(await textOf('/base/1/')).toContain('Rewritten.'), {
    timeout: 10_000,
    interval: 200,
  });
  expect(told).toEqual(['ENOSPC']);
});
