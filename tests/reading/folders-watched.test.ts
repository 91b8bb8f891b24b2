// What a reading copy hears of its journal's folders, on the disk of this machine.
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { FoldersWatched } from '../../src/reading/folders-watched.js';

let folder: string;
let watched: FoldersWatched;
let heard = 0;
const troubles: unknown[] = [];
const at = (path: string): string => join(folder, path);
const write = (path: string): void => writeFileSync(at(path), `${path} ${heard} ${Math.random()}`);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'masstone-watched-'));
  mkdirSync(at('entries/deep'), { recursive: true });
  write('entries/001-one.md');
  [heard, troubles.length] = [0, 0];
  watched = new FoldersWatched(folder, { onChange: () => (heard += 1), onTrouble: (error) => troubles.push(error) });
});
afterEach(() => {
  watched.close();
  rmSync(folder, { recursive: true, force: true });
  expect(troubles).toEqual([]);
});

const pause = (): Promise<void> => new Promise((done) => setTimeout(done, 60));

/** Whether it is heard within some time, in milliseconds, that something is done. */
async function isHeard(act: () => void, timeout = 1500): Promise<boolean> {
  await pause();
  heard = 0;
  act();
  await vi.waitFor(() => expect(heard).toBeGreaterThan(0), { timeout, interval: 20 }).catch(() => undefined);
  return heard > 0;
}

it('hears of files that are written, made, renamed over and taken away, however deep', async () => {
  expect(await isHeard(() => write('entries/001-one.md'))).toBe(true);
  expect(await isHeard(() => write('entries/deep/two.md'))).toBe(true);
  expect(await isHeard(() => write('shelf.yaml'))).toBe(true);
  writeFileSync(at('entries/.saved'), 'as an editor saves');
  expect(await isHeard(() => renameSync(at('entries/.saved'), at('entries/001-one.md')))).toBe(true);
  expect(await isHeard(() => rmSync(at('entries/deep/two.md')))).toBe(true);
});

it('hears nothing of what editors and systems put aside', async () => {
  mkdirSync(at('.masstone'));
  expect(await isHeard(() => write('entries/.001-one.md.swp'), 300)).toBe(false);
  expect(await isHeard(() => write('entries/001-one.md~'), 300)).toBe(false);
  expect(await isHeard(() => write('.masstone/kept'), 300)).toBe(false);
});

it('hears of what is in a folder that came later, or in the place of another', async () => {
  expect(await isHeard(() => mkdirSync(at('photos/new'), { recursive: true }))).toBe(true);
  expect(await isHeard(() => write('photos/new/one.txt'))).toBe(true);
  rmSync(at('entries'), { recursive: true });
  mkdirSync(at('entries'));
  expect(await isHeard(() => write('entries/002-two.md'))).toBe(true);
  renameSync(at('entries'), at('elsewhere'));
  mkdirSync(at('entries'));
  expect(await isHeard(() => write('entries/003-three.md'))).toBe(true);
  expect(await isHeard(() => write('elsewhere/002-two.md'))).toBe(true);
});

it('does not follow links, which may lead anywhere', async () => {
  const other = mkdtempSync(join(tmpdir(), 'masstone-linked-'));
  symlinkSync(other, at('linked'));
  expect(await isHeard(() => writeFileSync(join(other, 'one.txt'), 'one'), 300)).toBe(false);
  rmSync(other, { recursive: true });
});

it('takes one watch for each folder, however many files are in it', async () => {
  for (let one = 0; one < 300; one += 1) write(`entries/${one}.md`);
  watched.close();
  const watches = (): number => readdirSync('/proc/self/fdinfo').reduce((sum, name) => sum + watchesOf(name), 0);
  const before = process.platform === 'linux' ? watches() : 0;
  watched = new FoldersWatched(folder, { onChange: () => (heard += 1), onTrouble: (error) => troubles.push(error) });
  if (process.platform === 'linux') expect(watches() - before).toBe(3);
  expect(await isHeard(() => write('entries/7.md'))).toBe(true);
});

/** How many watches an open file of this process stands for; inotify(7). */
function watchesOf(name: string): number {
  try {
    return readFileSync(`/proc/self/fdinfo/${name}`, 'utf8').match(/^inotify /gm)?.length ?? 0;
  } catch {
    return 0;
  }
}
