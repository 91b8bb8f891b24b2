// Puts the command line together in few files, `dist/command-line/`, so that a short command starts at once: what it
// needs of the code and of the libraries in one piece, and the tables as data beside it, read when they are looked into.
// Long commands (publish, read, …) are taken from the compiled code as it lies.
import { spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { shortCommands } from '../dist/src/commands/short-commands.js';

const compiled = fileURLToPath(new URL('../dist/src/', import.meta.url));
const target = fileURLToPath(new URL('../dist/command-line/', import.meta.url));
const slashes = (path) => path.replaceAll('\\', '/');

/** A text with something in it replaced, which must be there. */
function replaced(text, what, by) {
  if (!text.includes(what)) throw new Error(`the build of the command line looks for what is not there: ${what}`);
  return text.replace(what, () => by);
}

/** The others stay where they are. */
const longCommands = {
  name: 'long-commands',
  resolveId(id, importer) {
    const [, module] = /^\.\/([a-z]+)\.js$/.exec(id) ?? [];
    const dispatched = importer !== undefined && slashes(importer).endsWith('/commands/masstone.js');
    if (!dispatched || !module || ['command', 'faults', 'short-commands', ...shortCommands].includes(module))
      return undefined;
    return { id: slashes(relative(target, join(compiled, 'commands', `${module}.js`))), external: true };
  },
  // The launcher imports them.
  renderChunk: (code) => code.replaceAll(/\bimport\("(\.\.\/src\/[^"]+)"\)/g, 'module.imported("$1")'),
};

/** A table is read as data from a file of its own, not as code. */
const tables = {
  name: 'tables',
  transform(code, id) {
    const [, table] = /\/tables\/compiled\/(.*)\.js$/.exec(slashes(id)) ?? [];
    const [, rows] = /export function (\w+)\(\)/.exec(code) ?? [];
    if (!table || !rows) return undefined;
    const reader = JSON.stringify(join(compiled, 'tables/prepared-files.js'));
    return (
      `import { readPreparedFile } from ${reader};\nlet rows;\n` +
      `export function ${rows}() { return (rows ??= JSON.parse(readPreparedFile('tables/${table}'))); }\n`
    );
  },
};

/** Of libraries what a short command never comes to. */
const leftOut = {
  name: 'left-out',
  resolveId(id, importer = '') {
    // The journal hands gray-matter engines of its own.
    if (/\bengines$/.test(id) && slashes(importer).includes('/gray-matter/')) return '\0no-engines';
    // Text is read by js-yaml, and by this one only where it is doubtful.
    if (id !== 'yaml') return undefined;
    return importer.startsWith('\0') ? { id, external: true } : '\0yaml-when-asked';
  },
  load(id) {
    if (id === '\0no-engines') return 'module.exports = {};';
    return id === '\0yaml-when-asked' ? yamlWhenAsked : undefined;
  },
  transform(code, id) {
    // What a key is for is told to editors, in the schema that another program writes.
    return slashes(id).endsWith('/zod/v4/classic/schemas.js')
      ? replaced(code, 'describe(description) {', 'describe(description) { return this;')
      : undefined;
  },
};
const yamlWhenAsked = `
  let loaded;
  const yaml = () => (loaded ??= require('yaml'));
  export function LineCounter() { return new (yaml().LineCounter)(); }
  ${['isMap', 'isPair', 'isScalar', 'isSeq', 'parseDocument', 'stringify', 'visit']
    .map((name) => `export const ${name} = (...given) => yaml().${name}(...given);`)
    .join('\n  ')}
`;

rmSync(target, { recursive: true, force: true });
const bundle = await rolldown({
  input: join(compiled, 'commands/masstone.js'),
  platform: 'node',
  plugins: [longCommands, tables, leftOut],
  // gray-matter can run JavaScript in front matter by `eval`; that engine is switched off where it is called.
  checks: { eval: false },
});
await bundle.write({
  dir: target,
  format: 'cjs',
  entryFileNames: 'main.cjs',
  chunkFileNames: '[name]-[hash].cjs',
  minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
});

const program = join(target, 'masstone.cjs');
const launcher = readFileSync(new URL('launcher.cjs', import.meta.url), 'utf8');
writeFileSync(
  program,
  replaced(launcher, 'const shortCommands = [];', `const shortCommands = ${JSON.stringify(shortCommands)};`),
);
chmodSync(program, 0o755);

/** Run once each, so that what Node compiles for them is kept beside the code; whether they find an answer is no matter. */
const usual = [
  ['formula', 'CuSO4·5H2O'],
  ['balance', 'Cu + HNO3 -> Cu(NO3)2 + NO2 + H2O'],
  ['foresee', 'bleach', 'vinegar 2 tsp', '--heat', '60 °C', '--json'],
  ['foresee', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL', '--room', '25 m3'],
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
