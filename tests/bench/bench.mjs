// npm run bench [-- N]: publishes a generated journal of N entries (default 1,000) and prints, from one run, the bare
// yardstick (Markdown to HTML of the same bodies with the same libraries) and our own times, memory and page sizes.
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import rehypeStringify from 'rehype-stringify';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import { readJournal } from '../../dist/src/journal/index.js';
import { publish } from '../../dist/src/site/publish.js';
import { makeJournal } from './journal.mjs';

let count = Number(process.argv[2] ?? 1000);
const search = process.argv.includes('--search');
// --threads K: 0 renders in one thread.
const threads = process.argv.includes('--threads')
  ? Number(process.argv[process.argv.indexOf('--threads') + 1])
  : undefined;
const demo = fileURLToPath(new URL('../../content', import.meta.url));
const work = mkdtempSync(join(tmpdir(), 'masstone-bench-'));
const line = (name, value) => process.stdout.write(`${name.padEnd(46)} ${value}\n`);
const ms = (value) => `${value.toFixed(0).padStart(8)} ms   ${(value / count).toFixed(3).padStart(8)} ms an entry`;

try {
  count = makeJournal(demo, join(work, 'journal'), count);
  const { journal } = await readJournal(join(work, 'journal'));
  const bodies = journal.entries.map((entry) => entry.body);
  const bare = unified().use(remarkParse).use(remarkGfm).use(remarkRehype).use(rehypeStringify).freeze();
  for (const body of bodies.slice(0, 50)) bare.processSync(body);
  const begin = performance.now();
  for (const body of bodies) bare.processSync(body);
  const yardstick = performance.now() - begin;

  const from = performance.now();
  const publication = await publish(join(work, 'journal'), { to: join(work, 'site'), drafts: true, search, threads });
  const whole = performance.now() - from;
  if (!publication.published) {
    for (const remark of publication.remarks.filter((one) => one.fatal).slice(0, 5))
      process.stderr.write(`${remark.file}:${remark.line} ${remark.reason}\n`);
    throw new Error('the generated journal was not published');
  }

  line(
    `Entries, words of body on average`,
    `${count}, ${Math.round(bodies.reduce((sum, body) => sum + body.split(/\s+/).length, 0) / count)}`,
  );
  line('Yardstick: bare Markdown to HTML, one thread', ms(yardstick));
  line(`Publication${search ? '' : ' without search index'}${threads === 0 ? ', one thread' : ''}`, ms(whole));
  line('  against the yardstick', `${(whole / yardstick).toFixed(2).padStart(8)} ×`);
  for (const [stage, took] of Object.entries(publication.took)) line(`  ${stage}`, ms(took));
  line('Peak memory of this process', `${(process.resourceUsage().maxRSS / 1024).toFixed(0).padStart(8)} MB`);
  line('Pages, bytes of the site', `${publication.pages}, ${(publication.bytes / 1e6).toFixed(1)} MB`);

  const site = join(work, 'site');
  const styles = readdirSync(join(site, 'style'))
    .filter((name) => /^journal-.*\.css$/.test(name))
    .reduce((sum, name) => sum + statSync(join(site, 'style', name)).size, 0);
  const sizes = journal.entries
    .map((entry) => statSync(join(site, String(entry.number), 'index.html')).size)
    .sort((a, b) => a - b);
  line('Styles', `${(styles / 1000).toFixed(1).padStart(8)} kB`);
  line(
    'Entry page with styles: median, largest',
    `${((sizes[sizes.length >> 1] + styles) / 1000).toFixed(1).padStart(8)} kB, ` +
      `${((sizes.at(-1) + styles) / 1000).toFixed(1)} kB`,
  );
  const first = readFileSync(join(site, String(journal.entries[0].number), 'index.html'));
  line('The first entry’s page, gzipped', `${(gzipSync(first).length / 1000).toFixed(1).padStart(8)} kB`);
} finally {
  rmSync(work, { recursive: true, force: true });
}
