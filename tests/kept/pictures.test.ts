// What is kept of pictures is bounded: what the site shows stays, of the rest the newest; what others put there stays.
import { linkSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { boundPictures } from '../../src/kept/pictures.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-cache-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const hashOf = (letter: string) => letter.repeat(32);
let caches = 0;
/** A cache with files of so many bytes, each older by an hour than the one before. */
function cacheOf(files: readonly (readonly [name: string, bytes: number])[]): string {
  const cache = join(folder, `cache-${(caches += 1)}`);
  mkdirSync(cache);
  files.forEach(([name, bytes], hours) => {
    writeFileSync(join(cache, name), Buffer.alloc(bytes));
    const then = Date.now() / 1000 - 3600 * (hours + 2);
    utimesSync(join(cache, name), then, then);
  });
  return cache;
}
const left = (cache: string) => readdirSync(cache).sort();

describe('the cache of pictures', () => {
  it('keeps what was published, whatever it weighs', () => {
    const a = hashOf('a');
    const cache = cacheOf([
      [`${a}.json`, 10],
      [`${a}.jpg`, 900],
      [`${a}.480.avif`, 900],
    ]);
    boundPictures(cache, [join(cache, `${a}.jpg`)], 100);
    expect(left(cache)).toHaveLength(3);
  });
  it('lets go of the oldest of the rest, whole pictures at a time', () => {
    const [a, b, c] = ['a', 'b', 'c'].map(hashOf) as [string, string, string];
    const cache = cacheOf([
      [`${a}.json`, 10],
      [`${a}.png`, 300],
      [`share-${b}.png`, 300],
      [`${c}.json`, 10],
      [`${c}.480.webp`, 300],
      [`${c}.jpg`, 300],
    ]);
    boundPictures(cache, [], 700);
    expect(left(cache)).toEqual([`${a}.json`, `${a}.png`, `share-${b}.png`]);
    boundPictures(cache, [], 0);
    expect(left(cache)).toEqual([]);
  });
  it('never touches what was not made here', () => {
    const a = hashOf('a');
    const cache = cacheOf([
      ['notes.txt', 900],
      ['holiday.jpg', 900],
      [`${a.slice(1)}.jpg`, 900],
      [`${a}g.jpg`, 900],
      ['.gitkeep', 0],
    ]);
    mkdirSync(join(cache, `${a}.png`));
    symlinkSync(join(cache, 'holiday.jpg'), join(cache, `${hashOf('b')}.jpg`));
    const before = left(cache);
    boundPictures(cache, [], 0);
    expect(left(cache)).toEqual(before);
  });
  it('keeps what a site holds by a link, which takes no room of its own', () => {
    const a = `share-${hashOf('a')}.png`;
    const cache = cacheOf([[a, 900]]);
    linkSync(join(cache, a), join(folder, 'in-the-site.png'));
    boundPictures(cache, [], 0);
    expect(left(cache)).toEqual([a]);
  });
  it('leaves what is being written, and takes away what was left half for more than an hour', () => {
    const [a, b] = ['a', 'b'].map(hashOf) as [string, string];
    const cache = cacheOf([[`${a}.480.avif.4711`, 9]]);
    writeFileSync(join(cache, `${b}.jpg.4712`), 'now');
    boundPictures(cache, []);
    expect(left(cache)).toEqual([`${b}.jpg.4712`]);
  });
  it('follows no link to another folder, and does without a cache', () => {
    const cache = cacheOf([[`${hashOf('a')}.jpg`, 900]]);
    symlinkSync(cache, join(folder, 'linked'));
    boundPictures(join(folder, 'linked'), [], 0);
    expect(left(cache)).toHaveLength(1);
    boundPictures(join(folder, 'none'), [], 0);
  });
});
