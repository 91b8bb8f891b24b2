// A publication ended at any change on the disk, or refused by the system there: old or new stands whole, with its
// register, and
// what others put there is untouched; the next publication makes all well.
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { publish } from '../../dist/src/site/publish.js';
import { faultyFiles } from './faulty-files.mjs';
import {
  copyFolder,
  difference,
  fewEntries,
  newFolder,
  others,
  pictureOf,
  removeFolder,
  writeFiles,
} from './folders.mjs';

export const ways = ['killed', 'half', 'full', 'ENOSPC', 'EACCES', 'EROFS', 'EBUSY', 'EMFILE', 'EIO'];

const publishIn = (folder, more = {}) =>
  publish(join(folder, 'journal'), { to: join(folder, 'site'), search: false, threads: 0, ...more });

/** An entry with another word, and nothing else. */
const editedEntry = Object.fromEntries(
  Object.entries(fewEntries('Edited')).filter(([path]) => path.endsWith('002-x.md')),
);

const newWords = { ...fewEntries('New', 4), 'journal/pages/second.md': 'New second.\n' };
const withSpare = { spareFrom: 0 };

/** What lies in a folder but for the site before last. */
const withoutSpare = (picture) =>
  Object.fromEntries(Object.entries(picture).filter(([path]) => !path.startsWith('.site.spare-')));

/**
 * A site published from an old journal, files of others in it, and the journal edited since; and what should come of
 * it.
 */
export async function prepare() {
  const home = newFolder();
  const start = join(home, 'start');
  writeFiles(start, fewEntries('Old'));
  await publishIn(start);
  writeFiles(start, others);
  await publishIn(start);
  const old = pictureOf(start);
  const before = join(home, 'before');
  copyFolder(start, before);
  writeFiles(start, newWords);
  const end = join(home, 'end');
  copyFolder(start, end);
  const counted = faultyFiles({ below: end });
  const counting = faultyFiles({ below: end, withReads: true });
  try {
    await publishIn(end);
  } finally {
    counting.restore();
    counted.restore();
  }
  return { home, start, before, old, next: pictureOf(end), names: counted.names, operations: counting.names.length };
}

const only = (picture, part) =>
  Object.fromEntries(Object.entries(picture).filter(([path]) => path.startsWith(`${part}/`)));

/** The lock of a run that was ended in this very process looks alive; make its owner a process that is none. */
function buryOwners(folder) {
  for (const file of [join(folder, '.site.lock'), join(folder, 'journal/.register.txt.lock')])
    if (existsSync(file))
      writeFileSync(file, JSON.stringify({ token: 'dead', pid: 2 ** 22 + 1, host: hostname(), since: 'then' }));
}

/** What is wrong after a publication came to its end, in words; undefined where nothing is. */
function wrongAfter(folder, { old, next }, error, how) {
  const now = pictureOf(folder);
  const register = now['journal/register.txt'];
  const [oldRegister, newRegister] = [old['journal/register.txt'], next['journal/register.txt']];
  if (register !== oldRegister && register !== newRegister) return 'the register is neither the old nor the new one';
  const aside = readdirSync(folder).find((name) => name.startsWith('.site.former-'));
  if (!existsSync(join(folder, 'site'))) {
    if (aside === undefined || (how !== 'killed' && how !== 'half')) return 'there is no site';
    const former = Object.fromEntries(
      Object.entries(only(now, aside)).map(([path, content]) => [path.replace(aside, 'site'), content]),
    );
    return difference(former, only(old, 'site'));
  }
  const isOld = difference(only(now, 'site'), only(old, 'site'));
  const isNew = difference(only(now, 'site'), only(next, 'site'));
  if (isOld && isNew) return `half a site: ${isOld}; ${isNew}`;
  if (!isNew && register !== newRegister) return 'new addresses are live, and not in the register';
  const wasKilled = how === 'killed' || how === 'half';
  if (wasKilled) return undefined;
  if (error && isOld) return `it failed, and the old site is not as it was: ${isOld}`;
  if (error && register !== oldRegister) return 'it failed, and the register is not as it was';
  if (!error && isNew) return `it said that it was published: ${isNew}`;
  return undefined;
}

/** A site with the one before it beside it, and the journal edited since. */
async function prepareSpare({ before }, folder) {
  copyFolder(before, folder);
  for (let times = 0; times < 2; times += 1) await publishIn(folder, withSpare);
  writeFiles(folder, newWords);
}

/** A site of which everything is known, and then an entry with other words; others have nothing in it. */
async function prepareWords(folder) {
  writeFiles(folder, fewEntries('Old'));
  for (let times = 0; times < 2; times += 1) await publishIn(folder, withSpare);
  writeFiles(folder, editedEntry);
}

/** What comes of a publication after an edit of words, made in the ordinary way; and whether it is made in the other. */
export async function preparedWords({ home }) {
  const start = join(home, 'words');
  await prepareWords(start);
  const end = join(home, 'words-end');
  copyFolder(start, end);
  await publishIn(end, { keep: false });
  const old = pictureOf(start);
  const { took } = await publishIn(start, withSpare);
  if (took.crosslink !== undefined) throw new Error('after an edit of words everything was read again');
  return { home, old: withoutSpare(old), next: withoutSpare(pictureOf(end)) };
}

const beginnings = {
  plain: ({ start }, folder) => copyFolder(start, folder),
  spare: prepareSpare,
  words: (_, folder) => prepareWords(folder),
};

/**
 * One publication with a fault at one change.
 * @param begin `plain`; `spare`: it is built in the site before last; `words`: only words of an entry were edited
 * @returns what is wrong, in words; undefined where nothing is
 */
export async function faultAt(prepared, at, how, begin = 'plain') {
  const folder = join(prepared.home, 'run');
  removeFolder(folder);
  await beginnings[begin](prepared, folder);
  const more = begin === 'plain' ? {} : withSpare;
  const layer = faultyFiles({ below: folder, at, how, withReads: how === 'EIO' || how === 'EMFILE' });
  let error;
  try {
    // A journal that cannot be read is remarked, and not published.
    const { published } = await publishIn(folder, more);
    if (!published) error = new Error('not published');
  } catch (caught) {
    error = caught;
  } finally {
    layer.restore();
  }
  const wrong = wrongAfter(folder, prepared, error, how);
  if (wrong) return `${how} at ${at} (${layer.names.at(-1)}): ${wrong}`;
  buryOwners(folder);
  await publishIn(folder, more);
  const healed = difference(withoutSpare(pictureOf(folder)), prepared.next);
  return healed && `${how} at ${at} (${layer.names[at - 1]}): the next publication does not make it well: ${healed}`;
}

async function killedAt(folder, at, how, more) {
  const layer = faultyFiles({ below: folder, at, how });
  try {
    await publishIn(folder, more);
  } catch {
    // It was killed.
  } finally {
    layer.restore();
  }
  buryOwners(folder);
}

/**
 * A publication that was killed, and the next one too, while it clears away what the first had left.
 * @returns what is wrong after the third, in words; undefined where nothing is
 */
export async function killedTwice(prepared, first, second, begin = 'plain') {
  const folder = join(prepared.home, 'run');
  removeFolder(folder);
  await beginnings[begin](prepared, folder);
  const more = begin === 'plain' ? {} : withSpare;
  await killedAt(folder, first, 'killed', more);
  await killedAt(folder, second, 'half', more);
  await publishIn(folder, more);
  const wrong = difference(withoutSpare(pictureOf(folder)), prepared.next);
  return (
    wrong && `killed at ${first}, then half way at ${second}: the next publication does not make it well: ${wrong}`
  );
}

/** Changes near a renaming, where the register is written and the sites are exchanged, and the last ones. */
const decisive = ({ names }) =>
  names.flatMap((name, index) => {
    const near = names.slice(Math.max(0, index - 4), index + 4).includes('renameSync');
    return near || index > names.length - 4 ? [index + 1] : [];
  });

/** Faults at changes chosen by chance until the time is over; each decisive change comes first. */
export async function attackWrites({ random, until, report, only: most = Infinity }) {
  const prepared = await prepare();
  const words = await preparedWords(prepared);
  const found = [];
  let tried = 0;
  const one = async (at, how) => {
    tried += 1;
    const begin = random.oneOf(Object.keys(beginnings));
    const of = begin === 'words' ? words : prepared;
    const wrong = await faultAt(of, at, how, begin).catch((error) => `${how} at ${at}: ${error.stack}`);
    if (wrong) found.push(`${begin}: ${wrong}`);
  };
  const twice = async (first, second) => {
    tried += 1;
    const begin = random.oneOf(['plain', 'spare']);
    const wrong = await killedTwice(prepared, first, second, begin).catch((error) => error.stack);
    if (wrong) found.push(`${begin}: ${wrong}`);
  };
  try {
    const first = decisive(prepared)
      .flatMap((at) => ['killed', 'half', 'full', 'EACCES', 'EBUSY'].map((how) => ({ at, how, order: random.next() })))
      .sort((a, b) => a.order - b.order);
    for (const { at, how } of first) if (tried < most && Date.now() < until) await one(at, how);
    while (tried < most && Date.now() < until) {
      const how = random.oneOf(ways);
      const end = how === 'EIO' || how === 'EMFILE' ? prepared.operations : prepared.names.length;
      await one(1 + random.below(end), how);
      if (tried < most && random.below(4) === 0) await twice(1 + random.below(end), 1 + random.below(20));
    }
  } finally {
    removeFolder(prepared.home);
  }
  report({ tried, found, words: `${prepared.names.length} changes on the disk in a publication` });
}
