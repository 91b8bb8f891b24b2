// Puts the command line together in few files, `dist/command-line/`, so that a short command starts at once: what it
// needs of the code and of the libraries in one piece, and the tables as data beside it, read when they are looked into.
// Commands that read a whole journal are taken from what was put together for publications, the others from the compiled
// code as it lies.
import { spawnSync } from 'node:child_process';
import { chmodSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { shortCommands } from '../dist/src/commands/short-commands.js';
import { compiled, putTogether, replaced, slashes, starting, startOf, wholeJournalCommands } from './bundling.mjs';

const target = fileURLToPath(new URL('../dist/command-line/', import.meta.url));

/** The others stay where they are, or where they are put together. */
const longCommands = {
  name: 'long-commands',
  resolveId(id, importer) {
    const [, module] = /^\.\/([a-z]+)\.js$/.exec(id) ?? [];
    const dispatched = importer !== undefined && slashes(importer).endsWith('/commands/masstone.js');
    if (!dispatched || !module || ['command', 'faults', 'short-commands', ...shortCommands].includes(module))
      return undefined;
    const asCompiled = slashes(relative(target, join(compiled, 'commands', `${module}.js`)));
    const isTogether = wholeJournalCommands.includes(module);
    return { id: isTogether ? `../publication/${startOf(module)}` : asCompiled, external: true };
  },
  // The launcher imports them.
  renderChunk: (code) => code.replaceAll(/\bimport\("(\.\.\/[^"]+)"\)/g, 'module.imported("$1")'),
};

await putTogether(target, {
  input: { main: join(compiled, 'commands/masstone.js') },
  parts: ['zod', 'yaml', 'rules'],
  plugins: [longCommands],
  files: {
    formulae: ['commands/formula.js'],
    equations: ['commands/balance.js'],
    foresight: ['commands/foresee.js'],
    journal: ['journal/folder.js', 'journal/yaml-file.js', 'journal/entry-file.js'],
    entries: ['commands/weigh/of-entry.js'],
  },
});

const program = join(target, 'masstone.cjs');
writeFileSync(
  program,
  replaced(
    starting('launcher.cjs'),
    'const shortCommands = [];',
    `const shortCommands = ${JSON.stringify(shortCommands)};`,
  ),
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
for (const words of usual)
  spawnSync(process.execPath, [program, ...words], {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, MASSTONE_KEEP_COMPILED: 'yes' },
    stdio: 'ignore',
  });
