// The reading copy: this machine only, fresh after every save, remarks at hand.
import { request } from 'node:http';
import { renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { hostIsOurs } from '../../src/reading/asked.js';
import { foreseeInEntry } from '../../src/commands/foresee/of-entry.js';
import { openJournal } from '../../src/open.js';
import { planSite } from '../../src/site/plan.js';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

let copy: ReadingCopy | undefined;
afterEach(async () => {
  await copy?.close();
  copy = undefined;
});

const open = async (files: Record<string, string | Uint8Array>): Promise<string> => {
  const folder = folderOf(files);
  copy = await startReading(join(folder, 'journal'), { port: 0, settle: 20, lookEvery: 40 });
  return folder;
};
/** What is answered to a request written by hand. */
const raw = (request: string): Promise<string> =>
  new Promise((done, failed) => {
    const socket = connect(copy!.port, '127.0.0.1', () => socket.write(request));
    let text = '';
    socket.on('data', (part: Buffer) => {
      text += part.toString();
    });
    socket.on('end', () => done(text));
    socket.on('error', failed);
  });
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
        response.on('end', () => {
          const isPage = response.headers['content-type']?.startsWith('text/html') ?? false;
          done({
            status: response.statusCode ?? 0,
            text: isPage ? quoted(text) : text,
            headers: response.headers,
          });
        });
      },
    );
    asked.on('error', failed);
    asked.end();
  });
/** Listens for refreshes; resolves when the copy knows of it, with a wait for the next one that it announces. */
const listening = (): Promise<() => Promise<void>> =>
  new Promise((ready, failed) => {
    const asked = request({ host: '127.0.0.1', port: copy!.port, path: '/~reading/changes' }, (response) => {
      const next = new Promise<void>((done) => {
        response.on('data', (part: Buffer) => {
          if (part.toString().includes('retry:')) ready(() => next);
          if (part.toString().includes('event: changed')) {
            asked.destroy();
            done();
          }
        });
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
    const fresh = await listening();
    writeFileSync(
      join(folder, 'journal/entries/001-first.md'),
      entry(1, 'samples: [{ sample: A }]\n', 'Rewritten words.\n'),
    );
    await fresh();
    expect((await get('/base/1/')).text).toContain('Rewritten words.');
  });

  it('shows what the proof found on the page it concerns, and goes on with a broken entry', async () => {
    const folder = await open(smallJournal());
    const fresh = await listening();
    writeFileSync(
      join(folder, 'journal/entries/001-first.md'),
      entry(1, 'samples: [{ sample: A, obtained: 1.98 h }]\n'),
    );
    await fresh();
    const { here, errors } = JSON.parse((await get('/~reading/remarks?address=/base/1/')).text) as {
      here: { file: string; line: number }[];
      errors: number;
    };
    expect(here[0]).toMatchObject({ file: 'entries/001-first.md', line: 6, severity: 'error' });
    expect(errors).toBeGreaterThan(0);
    expect((await get('/base/1/')).status).toBe(200);
  });

  it('leaves out what the maker has accepted, as the proof does', async () => {
    const shown = 'samples: [{ sample: A, photo: photos/two.jpg }]\n';
    const taken = `${shown}accept: [{ warning: photo-without-words, because: It is only a jar. }]\n`;
    const rulesOn = async (number: number): Promise<string[]> => {
      const { here } = JSON.parse((await get(`/~reading/remarks?address=/base/${number}/`)).text);
      return here.map(({ rule }: { rule: string }) => rule);
    };
    await open(
      smallJournal({
        'journal/entries/003-shown.md': entry(3, shown),
        'journal/entries/004-taken.md': entry(4, taken),
      }),
    );
    expect(await rulesOn(3)).toContain('photo-without-words');
    expect(await rulesOn(4)).not.toContain('photo-without-words');
    expect(await rulesOn(4)).not.toContain('not-accepted');
  });

  it('says what to mend when the journal cannot be read at all, and recovers', async () => {
    const folder = await open({ 'journal/entries/001-first.md': entry(1) });
    const trouble = await get('/');
    expect(trouble.status).toBe(500);
    expect(trouble.text).toContain('journal.yaml');
    const fresh = await listening();
    writeFileSync(join(folder, 'journal/journal.yaml'), smallJournal()['journal/journal.yaml']!);
    await fresh();
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

  it('takes a path as it is: two slashes are no host, and what is not below the base is no page', async () => {
    // The base is as long as `/spectra`, so that a path cut off unseen would be an entry's.
    const settings = smallJournal()['journal/journal.yaml']!.replace('/base/', '/journal/');
    await open(smallJournal({ 'journal/journal.yaml': settings }));
    expect((await get('/journal/1/')).status).toBe(200);
    for (const path of [
      '//',
      '///',
      '//attacker.example/journal/1/',
      '//journal/1/',
      '/spectra/',
      '/spectra/1/',
      '/journal//1/',
      '/journalx/1/',
    ])
      expect([path, (await get(path)).status]).toEqual([path, 404]);
    expect((await get('/journal/1')).headers.location).toBe('/journal/1/');
    expect((await get('/journal')).headers.location).toBe('/journal/');
    const remarks = (path: string) => get(`/~reading/remarks?address=${encodeURIComponent(path)}`);
    expect(JSON.parse((await remarks('/spectra/1/')).text)).toEqual(JSON.parse((await remarks('/journal/')).text));
  });

  it('has one Host header, and no more', async () => {
    await open(smallJournal());
    const host = `127.0.0.1:${copy!.port}`;
    const ask = (...hosts: string[]): Promise<string> =>
      raw(`GET /base/1/ HTTP/1.1\r\n${hosts.map((one) => `Host: ${one}\r\n`).join('')}Connection: close\r\n\r\n`);
    expect(await ask(host)).toMatch(/^HTTP\/1\.1 200 /);
    expect(await ask(host, 'attacker.example')).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(await ask('attacker.example', host)).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(await ask(host, host)).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(await ask()).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(
      await raw(`GET http://attacker.example/base/1/ HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`),
    ).toMatch(/^HTTP\/1\.1 200 /);
  });

  it('has pages whose names have other letters, and leads to them', async () => {
    await open(smallJournal({ 'journal/pages/über-uns.md': 'Words.\n' }));
    const { status, headers } = await get(`/base/${encodeURIComponent('über-uns')}`);
    expect([status, headers.location]).toEqual([302, '/base/%C3%BCber-uns/']);
    expect((await get(String(headers.location))).status).toBe(200);
  });

  describe('asked what if something were added to an entry', () => {
    const nitrite = entry(
      3,
      'samples: [{ sample: A }]\nreagents:\n  - { reagent: { name: sodium nitrite, formula: NaNO2 }, amount: 5.00 g }\n',
    );
    const asked = (words: string, number = 3) =>
      get(`/~reading/what-if?entry=${number}&add=${encodeURIComponent(words)}`);

    it('has a form on the page of the entry, which works without script, and a published site has none', async () => {
      const folder = await open(smallJournal({ 'journal/entries/003-nitrite.md': nitrite }));
      const { text } = await get('/base/3/');
      const form = /<form class="what-if".*?<\/form>/s.exec(text)![0];
      expect(form).toContain('method="get" action="/~reading/what-if"');
      expect(form).toMatch(/name="entry" value="3".*name="add"[^>]*maxlength="200"/s);
      const { model } = await openJournal(join(folder, 'journal'), { drafts: true });
      expect(planSite(model!).pages.get('/3/')!.render().html).not.toContain('what-if');
    });
    it('answers as the command does, dangers of what is added first, with what to do', async () => {
      const folder = await open(smallJournal({ 'journal/entries/003-nitrite.md': nitrite }));
      const { status, text } = await asked('vinegar 20 mL');
      expect(status).toBe(200);
      expect(text).toMatch(/Only with vinegar 20 mL.*Danger.*nitrite with weak acid.*Do not mix these/s);
      const told = await foreseeInEntry({ number: 3, added: ['vinegar 20 mL'], heating: [] }, join(folder, 'journal'));
      if (!told.ok) throw new Error(told.fault.message);
      expect(told.value.foreseen.length).toBeGreaterThan(0);
      for (const { title } of told.value.foreseen) expect(text).toContain(title);
      expect(text.match(/<article class="foreseen-card"/g)).toHaveLength(told.value.foreseen.length);
      expect(text).toContain('The safety data sheet');
    });
    it('never shows as safe what is not recognised, and silence is no all-clear', async () => {
      await open(smallJournal({ 'journal/entries/003-nitrite.md': nitrite }));
      const { text } = await asked('dragon dust');
      expect(text).toMatch(/Not recognised: dragon dust.*cannot be called safe/s);
      expect(text).not.toContain('Nothing more on our list matched');
      expect((await asked('table salt 1 g')).text).toMatch(/Nothing more on our list.*no\s+all-clear/s);
    });
    it('sets what is asked as words, and reads no more than a reagent’s worth of it', async () => {
      await open(smallJournal({ 'journal/entries/003-nitrite.md': nitrite }));
      const { text } = await asked('"><script>alert(1)</script><img src=x onerror=y>');
      // Within a quoted value a sign is only a sign.
      expect(text.replaceAll(/"[^"]*"/g, '""')).not.toMatch(/<script>alert|<img src=x/);
      expect(text).toMatch(/Not recognised/);
      const long = await asked('vinegar '.repeat(40));
      expect(long.status).toBe(400);
      expect(long.text).toContain('too long');
      expect(long.text).not.toContain('Nothing more');
      for (const odd of ['\0\u202e\n', '%', '1e9999 t water', '(((((((((('])
        expect((await asked(odd)).status, odd).toBe(200);
    });
    it('has no page for an entry that is not there', async () => {
      await open(smallJournal({ 'journal/entries/003-nitrite.md': nitrite }));
      expect((await asked('vinegar', 99)).status).toBe(404);
      expect((await get('/~reading/what-if')).status).toBe(404);
      expect((await asked('')).text).not.toContain('Only with');
    });
  });

  it('answers HEAD without a body, and nothing but reading', async () => {
    await open(smallJournal());
    const host = `127.0.0.1:${copy!.port}`;
    const ask = (method: string): Promise<string> =>
      raw(`${method} /base/1/ HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`);
    expect(await ask('HEAD')).toMatch(/^HTTP\/1\.1 200 OK\r\n[^]*\r\n\r\n$/);
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) expect(await ask(method)).toMatch(/^HTTP\/1\.1 405 /);
  });

  it('sends a large picture no faster than it is read, and whole', async () => {
    const picture = new Uint8Array(40 * 1024 * 1024).fill(7);
    await open(
      smallJournal({ 'journal/entries/001-first.md': entry(1, 'samples: [{ sample: A, photo: photos/large.jpg }]\n') }),
    );
    expect((await get('/base/photos/large.jpg')).status).toBe(404);
    await copy!.close();
    const files = smallJournal({
      'journal/entries/001-first.md': entry(1, 'samples: [{ sample: A, photo: photos/large.jpg }]\n'),
    });
    await open({ ...files, 'journal/photos/large.jpg': picture });
    const before = process.memoryUsage().arrayBuffers;
    const { held, bytes } = await new Promise<{ held: number; bytes: number }>((done, failed) => {
      const asked = request({ host: '127.0.0.1', port: copy!.port, path: '/base/photos/large.jpg' }, (response) => {
        response.pause();
        // Nothing is read for a while: what the server has taken into memory meanwhile is what it holds for a slow
        // reader.
        setTimeout(() => {
          const held = process.memoryUsage().arrayBuffers - before;
          let bytes = 0;
          response.on('data', (part: Buffer) => (bytes += part.length));
          response.on('end', () => done({ held, bytes }));
          response.resume();
        }, 300);
      });
      asked.on('error', failed);
      asked.end();
    });
    expect(bytes).toBe(picture.length);
    expect(held).toBeLessThan(picture.length / 2);
  });

  it('goes on after a reader has gone away in the middle of a file', async () => {
    await open({
      ...smallJournal({ 'journal/entries/001-first.md': entry(1, 'samples: [{ sample: A, photo: photos/l.jpg }]\n') }),
      'journal/photos/l.jpg': new Uint8Array(20 * 1024 * 1024),
    });
    await new Promise<void>((done) => {
      const asked = request({ host: '127.0.0.1', port: copy!.port, path: '/base/photos/l.jpg' }, (response) => {
        response.once('data', () => asked.destroy());
        response.on('error', () => undefined);
        response.on('close', () => done());
      });
      asked.on('error', () => undefined);
      asked.end();
    });
    expect((await get('/base/1/')).status).toBe(200);
  });

  it('outlives the renaming of the journal’s folder, and notices when it is back', async () => {
    const folder = await open(smallJournal());
    const becomes = (status: number, words: string): Promise<void> =>
      vi.waitFor(
        async () => {
          const answer = await get('/base/1/');
          expect(answer.status).toBe(status);
          expect(answer.text).toContain(words);
        },
        { timeout: 20_000, interval: 50 },
      );
    renameSync(join(folder, 'journal'), join(folder, 'elsewhere'));
    await becomes(500, 'There is no folder');
    renameSync(join(folder, 'elsewhere'), join(folder, 'journal'));
    await becomes(200, 'Entry 1');
    writeFileSync(join(folder, 'journal/entries/001-first.md'), entry(1, 'samples: [{ sample: A }]\n', 'After all.\n'));
    await becomes(200, 'After all.');
  });
});
