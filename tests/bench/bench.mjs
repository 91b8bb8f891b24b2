// npm run bench [-- 1 100 1000]: publishes generated journals of so many entries (whole rounds of the demonstration's; the
// first is the demonstration itself) and prints, side by side and from one run,
// the bare yardstick (Markdown to HTML of the same bodies with the same libraries), publications, what an edit costs,
// the reading copy's refresh, memory and sizes. --large adds 10,000 entries, --no-search leaves the search index out.
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { gzipSync } from 'node:zlib';
import { makeJournal } from './journal.mjs';

const run = promisify(execFile);
const given = process.argv.slice(2).filter((one) => /^\d+$/.test(one));
const counts = given.length > 0 ? given.map(Number) : [1, 100, 1000];
if (process.argv.includes('--large')) counts.push(10_000);
const withSearch = !process.argv.includes('--no-search');
const demo = fileURLToPath(new URL('../../content', import.meta.url));
const measuring = fileURLToPath(new URL('measure.mjs', import.meta.url));

async function measure(what, journal, site, options = {}) {
  const { stdout } = await run(process.execPath, [measuring, what, journal, site, JSON.stringify(options)]);
  return JSON.parse(stdout);
}

/** Bytes of the files of a site, by whether they are pages. */
function sizesOf(site) {
  const sizes = { pages: 0, all: 0, entries: [] };
  for (const path of readdirSync(site, { recursive: true, encoding: 'utf8' })) {
    const stats = statSync(join(site, path));
    if (!stats.isFile()) continue;
    sizes.all += stats.size;
    if (path.endsWith('.html')) sizes.pages += stats.size;
    if (/^\d+[/\\]index\.html$/.test(path)) sizes.entries.push(stats.size);
  }
  return { ...sizes, entries: sizes.entries.sort((a, b) => a - b) };
}

const stylesOf = (site) =>
  readdirSync(join(site, 'style'))
    .filter((name) => /^journal-.*\.css$/.test(name))
    .reduce((sum, name) => sum + statSync(join(site, 'style', name)).size, 0);

async function column(count, folder) {
  const [journal, site, alone] = ['journal', 'site', 'alone'].map((name) => join(folder, String(count), name));
  const entries = makeJournal(demo, journal, count);
  const yardstick = await measure('yardstick', journal, site);
  // Pictures that are shown with links are drawn once and then kept beside the journal; they are not measured.
  await measure('publication', journal, alone, { search: false });
  const one = await measure('publication', journal, alone, { search: false, keep: false, threads: 0 });
  const full = await measure('publication', journal, alone, { search: false, keep: false });
  await measure('publication', journal, alone, { search: false });
  const words = await measure('edited', journal, alone, { search: false, part: 'words' });
  const front = await measure('edited', journal, alone, { search: false, part: 'front' });
  const refresh = await measure('refresh', journal, alone);
  const searched = withSearch && {
    full: await measure('publication', journal, site, { keep: false }),
    again: await measure('publication', journal, site),
    words: await measure('edited', journal, site, { part: 'words' }),
  };
  return { entries, yardstick, one, full, words, front, refresh, searched, sizes: sizesOf(alone), alone };
}

const ms = (value) => `${value.toFixed(0)} ms`;
const times = (value, other) => `${(value / other).toFixed(2)} ×`;
const percent = (value, other) => `${((100 * value) / other).toFixed(1)} %`;
const mb = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;
const kb = (bytes) => `${(bytes / 1e3).toFixed(1)} kB`;

/** Names of the lines, and what each says of a column and of all of them; wall time, and processor time where it says so. */
const lines = [
  ['Entries', ({ entries }) => String(entries)],
  ['Yardstick: bare Markdown to HTML, one thread', ({ yardstick }) => ms(yardstick.wall)],
  ['Publication without search', ({ full }) => ms(full.wall)],
  ['  an entry', ({ full, entries }) => `${(full.wall / entries).toFixed(2)} ms`],
  ['  against the yardstick', ({ full, yardstick }) => times(full.wall, yardstick.wall)],
  ['  in one thread, against it', ({ one, yardstick }) => times(one.wall, yardstick.wall)],
  ['  in one thread, processor time', ({ one, yardstick }) => times(one.processor, yardstick.processor)],
  ['  peak memory', ({ full }) => `${full.peak.toFixed(0)} MB`],
  ...['read', 'reckon', 'crosslink', 'render', 'data', 'swap'].map((stage) => [
    `  ${stage}`,
    ({ full }) => ms(full.took[stage] ?? 0),
  ]),
  ['After an edit of words', ({ words, full }) => `${ms(words.wall)}, ${percent(words.wall, full.wall)}`],
  ['  processor time', ({ words, full }) => percent(words.processor, full.processor)],
  ['After an edit of front matter', ({ front, full }) => `${ms(front.wall)}, ${percent(front.wall, full.wall)}`],
  ['Publication with search', ({ searched }) => (searched ? ms(searched.full.wall) : '–')],
  [
    '  against the yardstick',
    ({ searched, yardstick }) => (searched ? times(searched.full.wall, yardstick.wall) : '–'),
  ],
  ['  peak memory', ({ searched }) => (searched ? `${searched.full.peak.toFixed(0)} MB` : '–')],
  ['  after an edit of words', ({ searched }) => (searched ? percent(searched.words.wall, searched.full.wall) : '–')],
  ['Save to refreshed page', ({ refresh }) => `${ms(refresh.wall)}, processor ${ms(refresh.processor)}`],
  [
    '  against the first column',
    ({ refresh }, [first]) =>
      `${times(refresh.wall, first.refresh.wall)}, processor ${times(refresh.processor, first.refresh.processor)}`,
  ],
  ['Pages, all files', ({ sizes }) => `${mb(sizes.pages)}, ${mb(sizes.all)}`],
  [
    'Entry page with styles: median',
    ({ sizes, alone }) => kb(sizes.entries[sizes.entries.length >> 1] + stylesOf(alone)),
  ],
  ['  largest', ({ sizes, alone }) => kb(sizes.entries.at(-1) + stylesOf(alone))],
  ['  the first, gzipped', ({ alone }) => kb(gzipSync(readFileSync(join(alone, '1', 'index.html'))).length)],
];

const folder = mkdtempSync(join(tmpdir(), 'masstone-bench-'));
try {
  const before = loadavg()[0];
  const columns = [];
  for (const count of counts) columns.push(await column(count, folder));
  for (const [name, say] of lines)
    process.stdout.write(`${name.padEnd(46)}${columns.map((one) => say(one, columns).padStart(32)).join('')}\n`);
  const load = [before, loadavg()[0]].map((one) => one.toFixed(1)).join(' and ');
  process.stdout.write(`Load of the machine before and after: ${load}. What is shown with links was drawn before.\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
