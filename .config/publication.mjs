// Puts together what a publication needs, `dist/publication/`: for the command and others that read a whole journal, for
// whoever calls `publish`, and for the threads that it starts. The first publication is the build's own, so that what Node compiled for it lies beside.
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { madeOfNow } from '../dist/src/put-together.js';
import { compiled, putTogether, replaced, slashes, starting, startOf, wholeJournalCommands } from './bundling.mjs';

const target = fileURLToPath(new URL('../dist/publication/', import.meta.url));
const beside = (name) => fileURLToPath(new URL(name, import.meta.url));

/** What runs in threads, by the end of the path of the module that starts it; a file that loads it is started instead. */
const inThreads = {
  '/site/publish-journal.js': 'entry-worker',
  '/site/edited-entries/as-it-was-asked.js': 'as-it-was-thread',
};
const threadOf = (name) => `thread-${name}.cjs`;

/** Modules know where they were compiled. */
const whereCompiled = {
  name: 'where-compiled',
  transform(code, id) {
    if (!slashes(id).includes('/dist/src/') || !code.includes('import.meta.url')) return undefined;
    const place = (path) => `module.addressOf('${path}')`;
    const [, started] = Object.entries(inThreads).find(([path]) => slashes(id).endsWith(path)) ?? [];
    const text = started
      ? replaced(code, `new URL('./${started}.js', import.meta.url)`, `new URL(${place(threadOf(started))})`)
      : code;
    return text.replaceAll('import.meta.url', place(slashes(relative(target, id))));
  },
  // The loader imports what stays outside.
  renderChunk: (code) => code.replaceAll(/\bimport\("([^"]+)"\)/g, 'module.imported("$1")'),
};

await putTogether(target, {
  input: {
    ...Object.fromEntries(wholeJournalCommands.map((name) => [name, join(compiled, `commands/${name}.js`)])),
    'publish-journal': join(compiled, 'site/publish-journal.js'),
    'entry-worker': join(compiled, 'site/entry-worker.js'),
    'as-it-was-thread': join(compiled, 'site/edited-entries/as-it-was-thread.js'),
    'optimised-later': join(compiled, 'optimised-later.js'),
  },
  parts: ['zod'],
  plugins: [whereCompiled],
  // More files would take longer to load, and a thread needs less than a publication. The settings of V8 lie apart: they
  // are made before anything else is loaded.
  files: {
    settings: ['optimised-later.js'],
    'as-it-was': ['site/edited-entries/as-it-was-asked.js'],
    entries: ['reckoning/reckon.js', 'site/entry-files.js', 'site/entry-pages.js'],
    journals: [
      'open.js',
      'site/site-making.js',
      'site/edited-entries/publish-again.js',
      'site/edited-entries/remember.js',
    ],
  },
  // These come with programs of their own, or look for files beside them.
  external: ['fontkit', 'lightningcss', 'pagefind', 'sharp'],
});
writeFileSync(join(target, 'loader.cjs'), starting('publication-loader.cjs'));
for (const name of Object.values(inThreads))
  writeFileSync(join(target, threadOf(name)), `require('./loader.cjs').load('./${name}.cjs');\n`);
for (const name of wholeJournalCommands)
  writeFileSync(
    join(target, startOf(name)),
    `exports.command = require('./loader.cjs').load('./${name}.cjs').command;\n`,
  );
writeFileSync(join(target, 'made-of.json'), JSON.stringify(madeOfNow()));
spawnSync(process.execPath, [beside('first-publication.cjs')], { stdio: 'inherit' });
