// A lock with an owner: one publication at a time. A lock whose owner has died is recognised and taken away.
import { randomBytes } from 'node:crypto';
import { linkSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** Who publishes. */
export interface LockOwner {
  readonly token: string;
  readonly pid: number;
  readonly host: string;
  /** When the process began, as the system tells it; tells a process from a later one of the same number. */
  readonly began?: string | undefined;
  readonly since: string;
}

/** Looked at by hand: what checks formats takes longer to load than all of a small publication. */
function isOwner(value: unknown): value is LockOwner {
  if (typeof value !== 'object' || value === null) return false;
  const { token, pid, host, began, since } = value as Readonly<Record<string, unknown>>;
  const isProcess = Number.isSafeInteger(pid) && (pid as number) > 0;
  const texts = [token, host, since, began ?? ''];
  return isProcess && began !== null && texts.every((one) => typeof one === 'string');
}

/** Another publication holds the lock and has not given it up in the time that was waited. */
export class LockTaken extends Error {
  constructor(
    readonly file: string,
    readonly owner: LockOwner | undefined,
  ) {
    super(`another publication holds ${file}`);
  }
}

export interface Lock {
  /** Whether it is still ours. */
  readonly holds: () => boolean;
  /** Never throws: a lock that stays is stale as soon as this process has ended. */
  readonly release: () => void;
}

export interface LockOptions {
  /** Milliseconds to wait for another owner. Default: 60,000. */
  readonly patience?: number;
  /** Called once when it has to be waited for. */
  readonly onWait?: (owner: LockOwner | undefined) => void;
}

/** Milliseconds between two looks at a lock that another holds. */
const between = 100;
/**
 * A lock that cannot be read is being written at this moment, or was cut off; after this many milliseconds it was cut
 * off.
 */
const unreadableAtMost = 10_000;

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

/** Tidies up; what can't be is no reason to stop. */
export function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // See above.
  }
}

/**
 * When a process began, in the system's own count (Linux, field 22 of /proc/PID/stat); undefined where it is not
 * told.
 */
function beganOf(pid: number): string | undefined {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The second field is the program's name in brackets, which may hold spaces.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
  } catch {
    return undefined;
  }
}

function runs({ pid, began }: LockOwner): boolean {
  try {
    process.kill(pid, 0);
  } catch (error) {
    return codeOf(error) !== 'ESRCH';
  }
  const now = beganOf(pid);
  return began === undefined || now === undefined || began === now;
}

/** Owner of a lock's file; undefined where its text is no owner's. */
function ownerIn(file: string): LockOwner | undefined {
  try {
    const owner: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return isOwner(owner) ? owner : undefined;
  } catch (error) {
    if (codeOf(error) === 'ENOENT') throw error;
    return undefined;
  }
}

/** Whether nobody can hold the lock any more. Of another machine's processes nothing is known. */
function isStale(file: string, owner: LockOwner | undefined): boolean {
  if (owner) return owner.host === hostname() && !runs(owner);
  return Date.now() - statSync(file).mtimeMs > unreadableAtMost;
}

/** Creates the lock; false where it is there already. */
function create(file: string, owner: LockOwner): boolean {
  try {
    writeFileSync(file, `${JSON.stringify(owner)}\n`, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

/** Takes a stale lock away. Whoever renames it first does so; should it be another's by then, it is put back. */
function takeAway(file: string, stale: LockOwner | undefined, token: string): void {
  const aside = `${file}-${token}`;
  renameSync(file, aside);
  try {
    const taken = ownerIn(aside);
    if (taken?.token !== stale?.token) linkSync(aside, file);
  } catch {
    // A third has locked in the meantime; the one whose lock is gone finds out before it publishes.
  } finally {
    quietly(() => rmSync(aside, { force: true }));
  }
}

/**
 * Takes away what was set aside by those who were ended while they took a stale lock away; only for the lock's owner.
 */
function clearAside(file: string): void {
  const aside = new RegExp(`^${escaped(basename(file))}-[0-9a-f]{12}$`);
  for (const name of readdirSync(dirname(file)))
    if (aside.test(name)) rmSync(join(dirname(file), name), { force: true });
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** One try; the owner where it is another's. */
function attempt(file: string, mine: LockOwner): { readonly mine: boolean; readonly owner?: LockOwner } {
  if (create(file, mine)) return { mine: true };
  try {
    const owner = ownerIn(file);
    if (!isStale(file, owner)) return { mine: false, owner };
    takeAway(file, owner, mine.token);
    return attempt(file, mine);
  } catch (error) {
    // It was released between two looks.
    if (codeOf(error) === 'ENOENT') return attempt(file, mine);
    throw error;
  }
}

/**
 * Takes the lock `file`, waiting for another owner for a while.
 * @throws LockTaken when it is another's for longer
 */
export async function takeLock(file: string, { patience = 60_000, onWait }: LockOptions = {}): Promise<Lock> {
  const mine: LockOwner = {
    token: randomBytes(6).toString('hex'),
    pid: process.pid,
    host: hostname(),
    began: beganOf(process.pid),
    since: new Date().toISOString(),
  };
  const holds = (): boolean => {
    try {
      return ownerIn(file)?.token === mine.token;
    } catch {
      return false;
    }
  };
  const end = Date.now() + patience;
  for (let look = 0; ; look += 1) {
    const { mine: got, owner } = attempt(file, mine);
    if (got) quietly(() => clearAside(file));
    if (got) return { holds, release: () => void (holds() && quietly(() => rmSync(file, { force: true }))) };
    if (Date.now() >= end) throw new LockTaken(file, owner);
    if (look === 0) onWait?.(owner);
    await pause(between);
  }
}
