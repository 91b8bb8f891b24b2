// One measurement of a large journal, in a process of its own, so that memory and warmth are its own: `node measure.mjs
// WHAT JOURNAL SITE OPTIONS`; prints JSON. Times are processor and wall time, in ms.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import rehypeStringify from 'rehype-stringify';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import { readJournal } from '../../dist/src/journal/index.js';

const [what, journal, site, written = '{}'] = process.argv.slice(2);
const options = JSON.parse(written);

/** Time that work takes. Its processor time counts its threads, but not the search library's own process. */
async function timed(work) {
  const [begin, used] = [performance.now(), process.cpuUsage()];
  const result = await work();
  const { user, system } = process.cpuUsage(used);
  return { result, wall: performance.now() - begin, processor: (user + system) / 1000 };
}

const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];

/** Bare Markdown to HTML of the same bodies with the same libraries, in one thread. */
async function yardstick() {
  const { journal: read } = await readJournal(journal);
  const bodies = read.entries.map(({ body }) => body);
  const bare = unified().use(remarkParse).use(remarkGfm).use(remarkRehype).use(rehypeStringify).freeze();
  for (const body of bodies.slice(0, 50)) bare.processSync(body);
  const { wall, processor } = await timed(() => {
    for (const body of bodies) bare.processSync(body);
  });
  const words = bodies.reduce((sum, body) => sum + body.split(/\s+/).length, 0) / bodies.length;
  return { wall, processor, words };
}

async function publication() {
  const { publish } = await import('../../dist/src/site/publish.js');
  const { result, wall, processor } = await timed(() => publish(journal, { to: site, drafts: true, ...options }));
  if (!result.published) {
    const first = result.remarks.find(({ fatal }) => fatal);
    throw new Error(`not published: ${first?.file}:${first?.line} ${first?.reason}`);
  }
  const { took, pages, bytes } = result;
  return { wall, processor, took, pages, bytes };
}

const entryFiles = () =>
  readdirSync(join(journal, 'entries'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => join(journal, 'entries', name));

/** Changes one entry: its words, or a mass of its front matter. */
function edit(file, part, mark) {
  const text = readFileSync(file, 'utf8');
  const heavier = (_, grams) => `obtained: ${(Number(grams) + 0.01).toFixed(2)}`;
  const front = part === 'front' ? text.replace(/obtained: ([\d.]+)/, heavier) : text;
  writeFileSync(file, `${front.trimEnd()}\n\n${mark}\n`);
}

/** A publication after an edit of the entry in the middle, or of the next that has a mass to edit. */
function edited() {
  const files = entryFiles();
  const later = files.slice(files.length >> 1);
  const hasMass = (file) => /obtained: [\d.]+/.test(readFileSync(file, 'utf8'));
  edit(options.part === 'front' ? later.find(hasMass) : later[0], options.part, 'One sentence more.');
  delete options.part;
  return publication();
}

/** From saving an entry to its refreshed page in the reading copy, as a browser asks for it. */
async function refresh() {
  const { startReading } = await import('../../dist/src/reading/server.js');
  const copy = await startReading(journal, { port: 0 });
  const files = entryFiles();
  const some = Array.from({ length: 12 }, (_, at) => files[Math.floor((at * files.length) / 12)]);
  const times = [];
  for (const [at, file] of some.entries()) {
    const page = new URL(`${Number(/(\d+)[^/]*$/.exec(file)[1])}/`, copy.url);
    const mark = `Mark${at}.`;
    const changes = (await fetch(new URL('/~reading/changes', copy.url))).body.getReader();
    await changes.read();
    times.push(
      await timed(async () => {
        edit(file, 'words', mark);
        await changes.read();
        const html = await (await fetch(page)).text();
        if (!html.includes(mark)) throw new Error(`${page} was not refreshed`);
      }),
    );
    await changes.cancel();
  }
  await copy.close();
  // The first few are slower than all that follow: code is compiled as it is used.
  const warm = times.slice(3);
  return { wall: median(warm.map(({ wall }) => wall)), processor: median(warm.map(({ processor }) => processor)) };
}

const measured = await { yardstick, publication, edited, refresh }[what]();
const peak = process.resourceUsage().maxRSS / 1024;
process.stdout.write(JSON.stringify({ ...measured, peak }), () => process.exit());
