// Reading from the phone at the bench: nobody without the token, no foreign Host, only reading; and the published site
// as its host will serve it.
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleEntryText, exampleFiles } from '../../src/remarks/example.js';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { quoted } from '../quoted.js';

const folder = mkdtempSync(join(tmpdir(), 'nearby-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}
/** Asks on this machine's loopback, under any name. */
const ask = (port: number, path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const asking = request({ host: '127.0.0.1', port, path, headers, method, agent: false }, (response) => {
      let text = '';
      response.setEncoding('utf8');
      response.on('data', (part: string) => {
        text += part;
      });
      response.on('end', () => resolve({ status: response.statusCode!, headers: response.headers, text }));
    });
    asking.on('error', reject);
    asking.end();
  });

beforeAll(() => {
  const journal = join(folder, 'journal');
  mkdirSync(join(journal, 'entries'), { recursive: true });
  for (const [file, text] of Object.entries(exampleFiles(''))) writeFileSync(join(journal, file), String(text));
});

describe('nearby', () => {
  let copy: ReadingCopy;
  // Documentation address of RFC 5737: no machine has it.
  const here = '192.0.2.7';
  beforeAll(async () => {
    copy = await startReading(join(folder, 'journal'), { port: 0, nearby: true, addresses: [here] });
  });
  afterAll(() => copy.close());
  const foreign = () => ({ host: `${here}:${copy.port}` });
  const entrance = (): string => copy.nearby[0]!.slice(`http://${here}:${copy.port}`.length);

  it('answers a name of the network only with the token, which becomes a cookie', async () => {
    expect((await ask(copy.port, '/journal/', foreign())).status).toBe(403);
    expect((await ask(copy.port, `${entrance().slice(0, -1)}x`, foreign())).status).toBe(403);
    const entered = await ask(copy.port, entrance(), foreign());
    expect([entered.status, entered.headers.location]).toEqual([302, '/journal/']);
    const [cookie] = entered.headers['set-cookie'] as string[];
    expect(cookie).toMatch(/HttpOnly; SameSite=Lax$/);
    const read = await ask(copy.port, '/journal/', { ...foreign(), cookie: cookie!.split(';')[0]! });
    expect([read.status, read.text.includes('<h1')]).toEqual([200, true]);
  });
  it('answers under no other name, and this machine without a token', async () => {
    expect((await ask(copy.port, '/journal/', { host: 'journal.example' })).status).toBe(421);
    expect((await ask(copy.port, '/journal/', { host: `127.0.0.1:${copy.port}` })).status).toBe(200);
  });
  it('only reads', async () => {
    expect((await ask(copy.port, '/journal/', { host: `127.0.0.1:${copy.port}` }, 'POST')).status).toBe(405);
  });
});

it('without --nearby no name of the network is answered', async () => {
  const copy = await startReading(join(folder, 'journal'), { port: 0 });
  expect(copy.nearby).toEqual([]);
  expect((await ask(copy.port, '/journal/', { host: `192.0.2.7:${copy.port}` })).status).toBe(421);
  await copy.close();
});

describe('the published site', () => {
  it('is served below its base path, with its 404, and nothing beside it', async () => {
    const site = join(folder, 'site');
    mkdirSync(join(site, '4'), { recursive: true });
    writeFileSync(join(site, 'index.html'), 'home');
    writeFileSync(join(site, '4/index.html'), 'entry four');
    writeFileSync(join(site, '404.html'), 'not here');
    writeFileSync(join(folder, 'secret.txt'), 'secret');
    const published = { site, base: '/journal' };
    const copy = await startReading(join(folder, 'journal'), { port: 0, published });
    const own = { host: `127.0.0.1:${copy.port}` };
    expect((await ask(copy.port, '/', own)).headers.location).toBe('/journal/');
    expect((await ask(copy.port, '/journal/4/', own)).text).toBe('entry four');
    expect((await ask(copy.port, '/journal/4', own)).headers.location).toBe('/journal/4/');
    const missing = await ask(copy.port, '/journal/../secret.txt', own);
    expect([missing.status, missing.text]).toEqual([404, 'not here']);
    expect((await ask(copy.port, '/journal/%2e%2e/secret.txt', own)).text).toBe('not here');
    await copy.close();
  });
});

it.each(['looked at before', 'never looked at'])(
  'a slip in a file shows its last good page, %s, with the remark on top',
  async (looked) => {
    const journal = join(folder, `slip ${looked}`);
    cpSync(join(folder, 'journal'), journal, { recursive: true });
    const file = join(journal, 'entries/001-example.md');
    writeFileSync(file, exampleEntryText('question: Is it green?'));
    let told = 0;
    const copy = await startReading(journal, { port: 0, settle: 1, onProof: () => (told += 1) });
    const own = { host: `127.0.0.1:${copy.port}` };
    if (looked === 'looked at before')
      expect((await ask(copy.port, '/journal/1/', own)).text).toContain('Is it green?');
    const before = told;
    writeFileSync(file, exampleEntryText('question: [Is it green?'));
    for (let turn = 0; turn < 400 && told === before; turn += 1) await new Promise((next) => setTimeout(next, 25));
    const { status, text } = await ask(copy.port, '/journal/1/', own);
    expect([status, text.includes('Is it green?')]).toEqual([200, true]);
    expect(quoted(text)).toMatch(/role="alert"[^]*entries\/001-example\.md:\d+:\d+/);
    const list = JSON.parse((await ask(copy.port, '/~reading/remarks?address=/journal/', own)).text) as {
      here: { severity: string }[];
    };
    expect(list.here[0]!.severity).toBe('error');
    await copy.close();
  },
);
