// Puts the command line together in few files, `dist/command-line/`, so that a short command starts at once: what it
// needs of the code and of the libraries in one piece, and the tables as data beside it, read when they are looked into.
// Commands that read a whole journal are taken from what was put together for publications, the others from the compiled
// code as it lies.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { answeredAgain, shortCommands } from '../dist/src/commands/short-commands.js';
import { compiled, putTogether, replaced, slashes, starting, startOf, wholeJournalCommands } from './bundling.mjs';

const target = fileURLToPath(new URL('../dist/command-line/', import.meta.url));

/** What lies beside the commands and is part of the command line itself. */
const ofEveryCommand = ['command', 'faults', 'output', 'short-commands', 'told-again'];

/** The others stay where they are, or where they are put together. */
const longCommands = {
  name: 'long-commands',
  resolveId(id, importer) {
    const [, module] = /^\.\/([a-z]+)\.js$/.exec(id) ?? [];
    const dispatched = importer !== undefined && slashes(importer).endsWith('/commands/masstone.js');
    if (!dispatched || !module || [...ofEveryCommand, ...shortCommands].includes(module)) return undefined;
    const asCompiled = slashes(relative(target, join(compiled, 'commands', `${module}.js`)));
    const isTogether = wholeJournalCommands.includes(module);
    return { id: isTogether ? `../publication/${startOf(module)}` : asCompiled, external: true };
  },
  // The launcher imports them.
  renderChunk: (code) => code.replaceAll(/\bimport\("(\.\.\/[^"]+)"\)/g, 'module.imported("$1")'),
};

/** Built-in modules that ask nothing of the disk, the network or other programs. */
const askNothing = ['buffer', 'crypto', 'path', 'process', 'url', 'util'];
/** What of this code asks the disk itself: for the program's own files, for what is kept, and to note what it says. */
const askDisk =
  /\/dist\/src\/(?:package-folder|tables\/prepared-files|kept\/[a-z-]+|commands\/(?:output|told-again))\.js$/;

/**
 * All that these commands read of a journal is noted (`kept/noted-files.ts`); else what they say could not be told
 * again.
 */
const allNoted = {
  name: 'all-noted',
  resolveId(id, importer = '') {
    const name = id.replace(/^node:/, '');
    if (!isBuiltin(id) || askNothing.includes(name)) return undefined;
    if (name === 'fs' && askDisk.test(slashes(importer))) return undefined;
    // gray-matter reads files where it is asked to, which it is not.
    if (slashes(importer).includes('/gray-matter/')) return '\0nothing';
    throw new Error(`${importer} asks ${id}: an answer that is told again would not know of it`);
  },
  load: (id) => (id === '\0nothing' ? 'module.exports = {};' : undefined),
};

await putTogether(target, {
  input: {
    main: join(compiled, 'commands/masstone.js'),
    'told-again': join(compiled, 'commands/told-again.js'),
  },
  parts: ['zod', 'yaml', 'rules'],
  plugins: [longCommands, allNoted],
  files: {
    told: ['commands/output.js', 'kept/noted-files.js'],
    formulae: ['commands/formula.js'],
    equations: ['commands/balance.js'],
    foresight: ['commands/foresee.js'],
    journal: ['journal/folder.js', 'journal/yaml-file.js', 'journal/entry-file.js'],
    entries: ['commands/weigh/of-entry.js'],
  },
});

/** Hash of everything that an answer follows from besides what is asked and the journal. */
function hashOfAll() {
  const hash = createHash('sha256');
  for (const folder of [target, fileURLToPath(new URL('../dist/prepared/', import.meta.url))])
    for (const name of readdirSync(folder).sort()) hash.update(`${name}\n`).update(readFileSync(join(folder, name)));
  return hash.digest('base64url');
}

const program = join(target, 'masstone.cjs');
const asList = (name, list) => (text) =>
  replaced(text, `const ${name} = [];`, `const ${name} = ${JSON.stringify(list)};`);
writeFileSync(
  program,
  [
    asList('shortCommands', shortCommands),
    asList('answeredAgain', answeredAgain),
    (text) => replaced(text, "const build = '';", `const build = '${hashOfAll()}';`),
  ].reduce((text, put) => put(text), starting('launcher.cjs')),
);
chmodSync(program, 0o755);

/** Run once each, so that what Node compiles for them is kept beside the code; whether they find an answer is no matter. */
const usual = [
  ['formula', 'CuSO4·5H2O'],
  ['balance', 'Cu + HNO3 -> Cu(NO3)2 + NO2 + H2O'],
  ['foresee', 'bleach', 'vinegar 2 tsp', '--heat', '60 °C', '--json'],
  ['foresee', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL', '--room', '25 m3'],
  ['foresee', '4'],
  ['weigh', '4'],
  ['weigh', '4', '--for', '10 g', '--json'],
  ['weigh', '--reaction', 'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4', '--reagent', 'CuSO4·5H2O 5.00 g', '--for', '10 g'],
  ['weigh', '--target', 'Mn0.3Zn0.7O', '--from', 'MnCO3', '--from', 'ZnO', '--for', '5 g'],
];
/** Where nothing has been answered yet; then answers are told again, for what that takes. */
const journal = mkdtempSync(join(tmpdir(), 'masstone-build-'));
for (const name of ['journal.yaml', 'shelf.yaml', 'entries'])
  cpSync(fileURLToPath(new URL(`../content/${name}`, import.meta.url)), join(journal, name), { recursive: true });
for (const words of [...usual, ['foresee', '4'], ['weigh', '4']])
  spawnSync(process.execPath, [program, ...words, '--journal', journal], {
    env: { ...process.env, MASSTONE_KEEP_COMPILED: 'yes' },
    stdio: 'ignore',
  });
rmSync(journal, { recursive: true, force: true });
