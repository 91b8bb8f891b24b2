// Whether a site is as it was left is asked with and without a thread beside; what somebody did to it is always seen.
import { mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Known } from '../../src/site/edited-entries/known.js';
import { folderOf } from '../journal-folder.js';

type Module<Name extends string> = Name extends 'asked'
  ? typeof import('../../src/site/edited-entries/as-it-was-asked.js')
  : typeof import('../../src/site/edited-entries/known.js');
// Threads run what is compiled.
const compiled = '../../dist/src/site/edited-entries';
const { SiteAsked, lookInThread } = (await import(`${compiled}/as-it-was-asked.js`)) as Module<'asked'>;
const { makeRoom, writeKnown } = (await import(`${compiled}/known.js`)) as Module<'known'>;
const { foldersOf, folderStamps } = (await import(
  `${compiled}/as-it-was.js`
)) as typeof import('../../src/site/edited-entries/as-it-was.js');
const { contentHash, manifestFile } = (await import('../../dist/src/site/manifest.js' as string)) as {
  contentHash: (text: string) => string;
  manifestFile: string;
};
const { stampOf } = (await import('../../dist/src/site/site-folder.js' as string)) as {
  stampOf: (file: string) => string;
};

const version = 'of a test';
let folder: string;
let site: string;
let known: Known;
const where = () => ({ journal: join(folder, 'journal'), site, version });

/** So many files that a thread is worth it, written long ago. */
beforeEach(() => {
  folder = folderOf({ 'journal/journal.yaml': 'title: x\n' });
  site = join(folder, 'site');
  const paths = Array.from({ length: 1500 }, (_, at) => `${at % 40}/${at}-${'long'.repeat(55)}.txt`);
  const ago = new Date(Date.now() - 60_000);
  for (const path of paths) {
    mkdirSync(join(site, path, '..'), { recursive: true });
    writeFileSync(join(site, path), path);
  }
  writeFileSync(join(site, manifestFile), 'a manifest');
  const folders = foldersOf(paths);
  for (const path of folders) utimesSync(join(site, path), ago, ago);
  known = {
    site,
    older: [],
    manifest: contentHash('a manifest'),
    files: new Map(paths.map((path) => [path, { hash: contentHash(path), stamp: stampOf(join(site, path)) }])),
    folders: folderStamps(site, undefined, folders, Date.now()),
    options: '',
    root: join(folder, 'journal'),
    asked: { found: [], spelt: [], listed: [] },
    entries: new Map(),
    texts: {},
    bytes: 1,
    lines: '',
    told: '',
    around: '',
    made: '',
  };
  makeRoom(where().journal, site);
  writeKnown(where().journal, known, version);
});

async function isAsItWas(threads: number): Promise<boolean> {
  const asked = new SiteAsked(where());
  asked.begin(threads);
  // Other work, in which the thread begins.
  if (threads > 1) await new Promise((done) => setTimeout(done, 60));
  const [answer, again] = [await asked.isAsItWas(known), await asked.isAsItWas(known)];
  expect(again).toBe(answer);
  asked.end();
  return answer;
}

describe.each([1, 2])('asked with %i at work', (threads) => {
  it('is as it was where nobody touched it', async () => expect(await isAsItWas(threads)).toBe(true));

  it.each([
    ['a file that was written to', () => writeFileSync(join(site, [...known.files.keys()].at(-1)!), 'other')],
    ['one of the first files', () => writeFileSync(join(site, [...known.files.keys()][0]!), 'other words')],
    ['a file that is gone', () => rmSync(join(site, [...known.files.keys()][750]!))],
    ['a file of somebody else', () => writeFileSync(join(site, '7/CNAME'), 'pigments.example')],
    ['a folder of somebody else', () => mkdirSync(join(site, 'new'))],
    ['another manifest', () => writeFileSync(join(site, manifestFile), 'another')],
    ['a site that is gone', () => rmSync(site, { recursive: true })],
  ])('sees %s', async (_, act) => {
    act();
    expect(await isAsItWas(threads)).toBe(false);
  });
});

it('a thread looks at all that nobody else has looked at, and knows what it cannot read for changed', () => {
  const counts = (): Int32Array => new Int32Array(new SharedArrayBuffer(12));
  const alone = counts();
  lookInThread({ where: where(), counts: alone });
  expect(alone[0]).toBeGreaterThanOrEqual(known.files.size + known.folders.size);
  expect([...alone].slice(1)).toEqual([1, 0]);
  const late = counts();
  late[0] = 1e6;
  lookInThread({ where: where(), counts: late });
  expect([...late].slice(1)).toEqual([1, 0]);
  const unknown = counts();
  lookInThread({ where: { ...where(), version: 'another' }, counts: unknown });
  expect([...unknown].slice(1)).toEqual([1, 1]);
});
