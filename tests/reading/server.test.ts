// The reading copy: this machine only, fresh after every save, remarks at hand.
import { request } from 'node:http';
import { writeFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { hostIsOurs } from '../../src/reading/asked.js';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';

let copy: ReadingCopy | undefined;
afterEach(async () => {
  await copy?.close();
  copy = undefined;
});

const open = async (files: Record<string, string>): Promise<string> => {
  const folder = folderOf(files);
  copy = await startReading(join(folder, 'journal'), { port: 0, settle: 20 });
  return folder;
};
const get = (
  path: string,
  host?: string,
): Promise<{ status: number; text: string; headers: Record<string, unknown> }> =>
  new Promise((done, failed) => {
    const asked = request(
      { host: '127.0.0.1', port: copy!.port, path, headers: host === undefined ? {} : { host } },
      (response) => {
        let text = '';
        response.on('data', (part: Buffer) => {
          text += part.toString();
        });
        response.on('end', () => done({ status: response.statusCode ?? 0, text, headers: response.headers }));
      },
    );
    asked.on('error', failed);
    asked.end();
  });
/** Waits for the next refresh that the copy announces. */
const changed = (): Promise<void> =>
  new Promise((done, failed) => {
    const asked = request({ host: '127.0.0.1', port: copy!.port, path: '/~reading/changes' }, (response) => {
      response.on('data', (part: Buffer) => {
        if (part.toString().includes('event: changed')) {
          asked.destroy();
          done();
        }
      });
    });
    asked.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'ECONNRESET') failed(error);
    });
    asked.end();
  });

describe('the reading copy', () => {
  it('shows every page, drafts too, with the script that refreshes it', async () => {
    await open(smallJournal({ 'journal/entries/003-plan.md': entry(3).replace('finished', 'planned') }));
    const { status, text } = await get('/base/3/');
    expect(status).toBe(200);
    expect(text).toContain('Entry 3');
    expect(text).toMatch(/script\/reading-\w+\.js/);
    expect((await get('/base/data/samples.csv')).status).toBe(200);
    expect((await get('/base/find/pagefind.js')).status).toBe(200);
    expect((await get('/base/nothing/')).status).toBe(404);
    expect((await get('/')).status).toBe(302);
  });

  it('answers to names of this machine only', async () => {
    await open(smallJournal());
    expect((await get('/base/1/', 'attacker.example')).status).toBe(421);
    expect((await get('/base/1/', `attacker.example:${copy!.port}`)).status).toBe(421);
    expect((await get('/base/1/', `localhost:${copy!.port}`)).status).toBe(200);
    expect(hostIsOurs(undefined, 1)).toBe(false);
  });

  it('is refreshed when a file is saved', async () => {
    const folder = await open(smallJournal());
    const fresh = changed();
    writeFileSync(
      join(folder, 'journal/entries/001-first.md'),
      entry(1, 'samples: [{ sample: A }]\n', 'Rewritten words.\n'),
    );
    await fresh;
    expect((await get('/base/1/')).text).toContain('Rewritten words.');
  });

  it('shows what the proof found on the page it concerns, and goes on with a broken entry', async () => {
    const folder = await open(smallJournal());
    const fresh = changed();
    writeFileSync(join(folder, 'journal/entries/001-first.md'), entry(1, 'samples: [{ sample: A, obtained: 1.98 }]\n'));
    await fresh;
    const { here, errors } = JSON.parse((await get('/~reading/remarks?address=/base/1/')).text) as {
      here: { file: string; line: number }[];
      errors: number;
    };
    expect(here[0]).toMatchObject({ file: 'entries/001-first.md', line: 6, severity: 'error' });
    expect(errors).toBeGreaterThan(0);
    expect((await get('/base/1/')).status).toBe(200);
  });

  it('says what to mend when the journal cannot be read at all, and recovers', async () => {
    const folder = await open({ 'journal/entries/001-first.md': entry(1) });
    const trouble = await get('/');
    expect(trouble.status).toBe(500);
    expect(trouble.text).toContain('journal.yaml');
    const fresh = changed();
    writeFileSync(join(folder, 'journal/journal.yaml'), smallJournal()['journal/journal.yaml']!);
    await fresh;
    expect((await get('/base/1/')).status).toBe(200);
  });

  it('hands out nothing from outside the journal', async () => {
    const folder = folderOf({ ...smallJournal(), 'secret.txt': 'secret' });
    symlinkSync(join(folder, 'secret.txt'), join(folder, 'journal/entries/link.md'));
    copy = await startReading(join(folder, 'journal'), { port: 0 });
    for (const path of [
      '/base/../secret.txt',
      '/base/..%2fsecret.txt',
      '/base/%2e%2e/secret.txt',
      '/base/photos/../../secret.txt',
      '/../secret.txt',
    ]) {
      const { status, text } = await get(path);
      expect([404, 302, 500], path).toContain(status);
      expect(text).not.toContain('secret\n');
    }
  });
});
