// The first publications by the code that was put together: the demonstration, and again after edits of words and of what
// was weighed, and its proof; so that what Node compiled for them is kept beside the code.
'use strict';
const { appendFileSync, cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } = require('node:fs');
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
  load('./as-it-was-thread.cjs');
  const { publishJournal } = load('./publish-journal.cjs');
  const options = { to, search: false, sharePictures: false, threads: 0, spareFrom: 10 };
  await publishJournal(journal, options);
  appendFileSync(join(entries, readdirSync(entries).sort()[0]), '\nOne sentence more.\n');
  await publishJournal(journal, options);
  const weighed = (name) => /obtained: [\d.]+ g/.test(readFileSync(join(entries, name), 'utf8'));
  for (const name of readdirSync(entries).sort().filter(weighed).slice(-3)) {
    const text = readFileSync(join(entries, name), 'utf8');
    writeFileSync(join(entries, name), text.replace(/obtained: [\d.]+/, '$&1'));
    await publishJournal(journal, options);
  }
  const nobody = { result: () => undefined, aside: () => undefined, terminal: false };
  for (const name of ['proof', 'next'])
    await load(`./${name}.cjs`).command.run({ values: {}, positionals: [], journal, json: false }, nobody);
  for (const name of ['read', 'pack', 'labels', 'blurb']) load(`./${name}.cjs`);
  keep();
}

publications().finally(() => rmSync(folder, { recursive: true, force: true }));
