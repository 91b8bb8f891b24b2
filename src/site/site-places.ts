// Where a site may be published, and how a new one takes the place of the old.
import { randomBytes } from 'node:crypto';
import { chmodSync, existsSync, lstatSync, readdirSync, realpathSync, renameSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { besides, leftBeside } from './folders-beside.js';
import { manifestFile } from './manifest.js';
import { leaveOnlyOurs, removeAll, removeFormer } from './site-folder.js';
import { madeOfSecondNames } from './spare-site.js';

/** The site can't be published there: the folder is somebody else's, or something of theirs is in the way. */
export class NotOurs extends Error {
  constructor(
    message: string,
    readonly cure = 'name another folder with --to, or empty it yourself.',
  ) {
    super(message);
  }
}

/** The lock was taken away while the site was built. */
export class LockLost extends Error {}

/** Names that a host's repository of a site begins with; a folder with only these in it may become a site. */
const hostsOwn = /^(?:\.git|\.gitignore|\.gitattributes|\.nojekyll|CNAME|(?:README|LICEN[CS]E)(?:\.\w+)?)$/i;

/** @throws NotOurs if `site` is there and is neither a site of ours nor empty */
export function refuseForeign(site: string): void {
  const there = statSync(site, { throwIfNoEntry: false });
  if (!there) return;
  if (!there.isDirectory()) throw new NotOurs(`${site} is not a folder`);
  const names = readdirSync(site);
  if (!names.includes(manifestFile) && !names.every((name) => hostsOwn.test(name)))
    throw new NotOurs(`${site} holds files that Masstone did not publish`);
}

/** A path with every link in it followed, as far as it is there. */
export function realPath(path: string): string {
  const whole = resolve(path);
  const link = lstatSync(whole, { throwIfNoEntry: false });
  if (link) return link.isSymbolicLink() && !existsSync(whole) ? whole : realpathSync(whole);
  const parent = dirname(whole);
  return parent === whole ? whole : join(realPath(parent), basename(whole));
}

/** @throws NotOurs if publishing to `site` would replace the journal in `journal` */
export function refuseJournal(site: string, journal: string): void {
  const below = relative(realPath(site), realPath(journal));
  const isAbove = below === '..' || below.startsWith(`..${sep}`) || isAbsolute(below);
  if (!isAbove) throw new NotOurs(`${site} holds the journal itself`, 'name another folder with --to.');
}

/**
 * Heals what a killed run left: a site that was moved aside comes back if no other took its place; what was left over
 * goes. Only for the owner of the site's lock.
 * @param spare that is left as it is
 */
export function heal(site: string, spare?: string): void {
  const left = leftBeside(site);
  const formers = left.filter(({ kind }) => kind === 'former');
  if (!existsSync(site) && formers.length > 0) {
    const [last] = formers.sort((a, b) => statSync(b.path).ctimeMs - statSync(a.path).ctimeMs);
    renameSync(last!.path, site);
  }
  for (const { path, kind } of leftBeside(site)) {
    if (kind === 'staging') removeAll(path);
    else if (path !== spare) removeFormer(path, site);
  }
}

/** The old site goes aside, the new one takes its place; if that fails, the old one comes back. */
export function exchange(site: string, next: string, former: string): void {
  const isThere = existsSync(site);
  if (isThere) {
    chmodSync(next, statSync(site).mode & 0o7777);
    renameSync(site, former);
  }
  try {
    renameSync(next, site);
  } catch (error) {
    if (isThere) renameSync(former, site);
    throw error;
  }
}

/**
 * A former site whose place another has taken goes, or stays for the next to be built in.
 * @returns where it stays
 */
export function putAway(former: string, site: string, staysAsSpare: boolean): string | undefined {
  if (!staysAsSpare) {
    removeFormer(former, site);
    return undefined;
  }
  leaveOnlyOurs(former, site);
  const spare = besides(site, 'spare', randomBytes(6).toString('hex'));
  renameSync(former, spare);
  return spare;
}

/** What takes the part of the site before where there was none. @returns where it lies */
export function spareMade(site: string, paths: Iterable<string>): string {
  const spare = besides(site, 'spare', randomBytes(6).toString('hex'));
  madeOfSecondNames(site, spare, paths);
  return spare;
}

/** The spare of a site. */
export function spareOf(site: string): string | undefined {
  const spares = leftBeside(site).filter(({ kind }) => kind === 'spare');
  return spares.length === 1 ? spares[0]!.path : undefined;
}
