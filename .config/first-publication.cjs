// The first publications by the code that was put together: the demonstration, and again after an edit of words, and its
// proof; so that what Node compiled for them is kept beside the code.
'use strict';
const { appendFileSync, cpSync, mkdtempSync, readdirSync, rmSync } = require('node:fs');
const { tmpdir } = require('node:os');
const { join } = require('node:path');
const { keep, load } = require('../dist/publication/loader.cjs');

const folder = mkdtempSync(join(tmpdir(), 'masstone-first-'));
const [journal, to] = ['journal', 'site'].map((name) => join(folder, name));
const entries = join(journal, 'entries');

async function publications() {
  cpSync(join(__dirname, '../content'), journal, { recursive: true });
  load('./publish.cjs');
  load('./entry-worker.cjs');
  const { publishJournal } = load('./publish-journal.cjs');
  const options = { to, search: false, sharePictures: false, threads: 0, spareFrom: 10 };
  await publishJournal(journal, options);
  appendFileSync(join(entries, readdirSync(entries).sort()[0]), '\nOne sentence more.\n');
  await publishJournal(journal, options);
  const nobody = { result: () => undefined, aside: () => undefined, terminal: false };
  for (const name of ['proof', 'next'])
    await load(`./${name}.cjs`).command.run({ values: {}, positionals: [], journal, json: false }, nobody);
  for (const name of ['read', 'pack', 'labels', 'blurb']) load(`./${name}.cjs`);
  keep();
}

publications().finally(() => rmSync(folder, { recursive: true, force: true }));
