// The lock of a publication: one owner, who is known; a dead owner's lock is taken away, a living one's is not.
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LockTaken, takeLock, type LockOwner } from '../../src/site/lock.js';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'masstone-lock-'));
  file = join(folder, '.site.lock');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const owned = (by: Partial<LockOwner>): void =>
  writeFileSync(file, JSON.stringify({ token: 'theirs', pid: process.pid, host: hostname(), since: 'now', ...by }));
/** No process has this number: Linux counts to 2^22 at most. */
const nobody = 2 ** 22 + 1;

describe('a lock', () => {
  it('names its owner, and goes with its release', async () => {
    const lock = await takeLock(file);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toMatchObject({ pid: process.pid, host: hostname() });
    expect(lock.holds()).toBe(true);
    lock.release();
    expect(readdirSync(folder)).toEqual([]);
    expect(lock.holds()).toBe(false);
  });
  it('has one owner at a time, however many ask', async () => {
    let inside = 0;
    let most = 0;
    await Promise.all(
      Array.from({ length: 12 }, async () => {
        const lock = await takeLock(file, { patience: 20_000 });
        inside += 1;
        most = Math.max(most, inside);
        await new Promise((done) => setTimeout(done, 5));
        inside -= 1;
        lock.release();
      }),
    );
    expect(most).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
  });
  it('of another is waited for, and said to be another’s', async () => {
    owned({ pid: process.pid });
    const refused = await takeLock(file, { patience: 120 }).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(LockTaken);
    expect((refused as LockTaken).owner).toMatchObject({ pid: process.pid });
    expect(existsSync(file)).toBe(true);
  });
  it('is released only by its owner', async () => {
    const lock = await takeLock(file);
    owned({});
    lock.release();
    expect(existsSync(file)).toBe(true);
  });
});

describe('a lock whose owner is gone', () => {
  it('is taken away: no such process', async () => {
    owned({ pid: nobody });
    const lock = await takeLock(file, { patience: 0 });
    expect(lock.holds()).toBe(true);
    lock.release();
    expect(readdirSync(folder)).toEqual([]);
  });
  it.runIf(process.platform === 'linux')('is taken away: another process has its number by now', async () => {
    owned({ began: '1' });
    const lock = await takeLock(file, { patience: 0 });
    expect(lock.holds()).toBe(true);
  });
  it('is taken away: it was cut off while it was written', async () => {
    writeFileSync(file, '{"token":');
    utimesSync(file, 1, 1);
    expect((await takeLock(file, { patience: 0 })).holds()).toBe(true);
  });
});

describe('a lock that may be somebody’s', () => {
  it('is left: it was just now written', async () => {
    writeFileSync(file, '{"token":');
    await expect(takeLock(file, { patience: 0 })).rejects.toThrow(LockTaken);
  });
  it('is left: nothing is known of the processes of another machine', async () => {
    owned({ pid: nobody, host: 'another-machine' });
    await expect(takeLock(file, { patience: 0 })).rejects.toThrow(LockTaken);
  });
});
