// Publications as programs: killed at random, and two at once.
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { difference, fewEntries, newFolder, others, pictureOf, program, removeFolder, writeFiles } from './folders.mjs';

/** Runs `masstone publish`; kills it after some milliseconds where they are given. */
function publication(folder, journal, killAfter) {
  const words = [program, 'publish', '--journal', journal, '--to', 'site', '--no-search', '--json'];
  return new Promise((done) => {
    const child = spawn(process.execPath, words, { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let aside = '';
    child.stdout.on('data', (part) => (out += part));
    child.stderr.on('data', (part) => (aside += part));
    const timer = killAfter === undefined ? undefined : setTimeout(() => child.kill('SIGKILL'), killAfter);
    child.on('close', (status, signal) => {
      clearTimeout(timer);
      done({ status, signal, out, aside });
    });
  });
}

const answerOf = ({ out }) => {
  try {
    return JSON.parse(out);
  } catch {
    return undefined;
  }
};

const inSite = (picture) => Object.fromEntries(Object.entries(picture).filter(([path]) => path.startsWith('site/')));

/** Whose pages stand in the site: the words of its write-ups, each once. */
const wordsIn = (site) =>
  new Set(
    readdirSync(site)
      .filter((name) => /^\d+$/.test(name))
      .map((name) => /(\w+) words\./.exec(readFileSync(join(site, name, 'index.html'), 'utf8'))?.[1]),
  );

/** A publication killed after a random time; then the next one. */
export async function attackKills({ random, until, report, only: most = Infinity }) {
  const folder = newFolder();
  const found = [];
  let tried = 0;
  let killed = 0;
  try {
    writeFiles(folder, fewEntries('Old', 9));
    await publication(folder, 'journal');
    writeFiles(folder, others);
    const start = Date.now();
    await publication(folder, 'journal');
    let longest = Date.now() - start;
    const kept = Object.entries(others);
    while (tried < most && Date.now() < until) {
      tried += 1;
      const word = tried % 2 === 0 ? 'Even' : 'Odd';
      const before = inSite(pictureOf(folder));
      writeFiles(folder, fewEntries(word, 9));
      const began = Date.now();
      const run = await publication(folder, 'journal', random.below(longest * 1.25));
      if (run.signal === 'SIGKILL') killed += 1;
      else longest = 0.7 * longest + 0.3 * (Date.now() - began);
      const wrong = afterKill(folder, before, word, kept);
      if (wrong) found.push(`kill ${tried}: ${wrong}`);
      if (tried % 10 === 0) {
        const next = await publication(folder, 'journal');
        if (next.status !== 0) found.push(`kill ${tried}: the next publication failed: ${next.aside}${next.out}`);
        const left = readdirSync(folder).filter((name) => name !== 'journal' && name !== 'site');
        if (left.length > 0) found.push(`kill ${tried}: left behind: ${left.join(', ')}`);
      }
    }
  } finally {
    removeFolder(folder);
  }
  report({ tried, found, words: `${killed} killed before their end` });
}

/** What is wrong after a kill: the site is neither the one before nor the new one, or something of others is gone. */
function afterKill(folder, before, word, kept) {
  const site = join(folder, 'site');
  const aside = readdirSync(folder).find((name) => name.startsWith('.site.former-'));
  // Between two renames the old site stands whole beside its place; the next publication puts it back.
  const place = existsSync(site) ? site : aside && join(folder, aside);
  if (place === undefined) return 'there is no site, and none beside it';
  for (const [path, text] of kept)
    if (readFileSync(join(place, path.slice('site/'.length)), 'utf8') !== text) return `${path} is another`;
  const words = wordsIn(place);
  if (words.size !== 1) return `half a site: ${[...words].join(', ')}`;
  if (place === site && !words.has(word)) return difference(inSite(pictureOf(folder)), before);
  return undefined;
}

/** Two publications at once to one site, of two journals; one of them killed now and then. */
export async function attackPairs({ random, until, report, only: most = Infinity }) {
  const folder = newFolder();
  const found = [];
  const outcomes = { both: 0, one: 0, killed: 0 };
  let tried = 0;
  try {
    writeFiles(folder, fewEntries('First', 9));
    // Another journal: one of the same address would be taken for an older copy of the first.
    const second = Object.entries(fewEntries('Second', 6)).map(([path, text]) => [
      path.replace('journal', 'other'),
      text.replace('https://test.example/base/', 'https://test.example/other/'),
    ]);
    writeFiles(folder, Object.fromEntries(second));
    await publication(folder, 'journal');
    writeFiles(folder, others);
    while (tried < most && Date.now() < until) {
      tried += 1;
      const kills = random.isOneIn(4) ? 50 + random.below(1000) : undefined;
      const pause = random.below(300);
      const runs = await Promise.all([
        publication(folder, 'journal', kills),
        new Promise((go) => setTimeout(go, pause)).then(() => publication(folder, random.oneOf(['other', 'journal']))),
      ]);
      const wrong = afterPair(folder, runs, outcomes);
      if (wrong) found.push(`pair ${tried}: ${wrong}`);
    }
  } finally {
    removeFolder(folder);
  }
  const { both, one, killed } = outcomes;
  report({ tried, found, words: `${both} times both published, ${one} times one, ${killed} times one was killed` });
}

function afterPair(folder, runs, outcomes) {
  for (const run of runs) {
    if (run.signal) continue;
    if (!answerOf(run)) return `no JSON: ${run.out}${run.aside}`;
    if (run.status !== 0 && answerOf(run).error?.code !== 'under-way') return run.out;
  }
  const published = runs.filter(({ status }) => status === 0).length;
  if (runs.some(({ signal }) => signal)) outcomes.killed += 1;
  else if (published === 2) outcomes.both += 1;
  else outcomes.one += 1;
  if (published === 0) return 'neither was published';
  const words = wordsIn(join(folder, 'site'));
  if (words.size !== 1) return `half a site: ${[...words].join(', ')}`;
  const expected = words.has('First') ? 9 : 6;
  const pages = readdirSync(join(folder, 'site')).filter((name) => /^\d+$/.test(name)).length;
  if (pages !== expected) return `${pages} entries, where ${expected} should be`;
  for (const [path, text] of Object.entries(others))
    if (readFileSync(join(folder, path), 'utf8') !== text) return `${path} is another`;
  const allowed = new Set(['journal', 'other', 'site']);
  const left = readdirSync(folder).filter((name) => !allowed.has(name));
  // What a killed run left is cleared by the next.
  return left.length > 0 && !runs.some(({ signal }) => signal) ? `left behind: ${left.join(', ')}` : undefined;
}
