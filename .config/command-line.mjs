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
    const [, name] = /export function (\w+)Table\(\)/.exec(code) ?? [];
    if (!table || !name) return undefined;
    const reader = JSON.stringify(join(compiled, 'tables/prepared-files.js'));
    return `import { preparedRows } from ${reader};
      let rows;
      export function ${name}Table() { return (rows ??= preparedRows('${table}')).all(); }
      export function ${name}Row(place) { return (rows ??= preparedRows('${table}')).at(place); }
    `;
  },
};

const readAtOnce = JSON.stringify(join(compiled, 'journal/read-at-once.js'));
const registry = JSON.stringify(join(compiled, 'remarks/registry.js'));
const ofYaml = ['LineCounter', 'isMap', 'isPair', 'isScalar', 'isSeq', 'parseDocument', 'stringify', 'visit'];
const ofZod = 'string number int boolean literal enum array tuple preprocess strictObject record union'.split(' ');

/**
 * What is loaded only where something is wrong: a part of its own (`zod.cjs` beside `main.cjs`), and what stands in its
 * place until then.
 */
const whenAsked = {
  zod: {
    part: `import * as zod from 'zod';
      export const z = { ${ofZod.map((name) => `${name}: zod.${name}`).join(', ')} };
      export const globalRegistry = zod.globalRegistry;`,
    place: `import { takeZodFrom } from ${readAtOnce};
      takeZodFrom(() => require('./zod.cjs'));
      export { z, globalRegistry } from ${readAtOnce};`,
  },
  yaml: {
    part: `export { ${ofYaml.join(', ')} } from 'yaml';`,
    place: `let loaded;
      const yaml = () => (loaded ??= require('./yaml.cjs'));
      export function LineCounter() { return new (yaml().LineCounter)(); }
      ${ofYaml
        .filter((name) => name !== 'LineCounter')
        .map((name) => `export const ${name} = (...given) => yaml().${name}(...given);`)
        .join('\n      ')}`,
  },
  // A finding is worded by its rule; many commands find nothing.
  rules: {
    part: `export { rules } from ${registry};`,
    place: `let loaded;
      export const rules = new Proxy({}, { get: (none, id) => (loaded ??= require('./rules.cjs').rules)[id] });`,
  },
};
const parts = Object.keys(whenAsked);

/** Which of these parts is imported, if any. */
function importedPart(id, importer) {
  const from = slashes(importer);
  if (id === 'zod') return from.includes('/dist/src/journal/') ? 'zod' : undefined;
  if (id === 'yaml') return from.includes('/dist/src/') ? 'yaml' : undefined;
  return id === './registry.js' && from.endsWith('/remarks/findings.js') ? 'rules' : undefined;
}

/** Of libraries what a short command never comes to, or only where something is wrong. */
const leftOut = {
  name: 'left-out',
  resolveId(id, importer = '') {
    // The journal hands gray-matter engines of its own.
    if (/\bengines$/.test(id) && slashes(importer).includes('/gray-matter/')) return '\0no-engines';
    if (id.startsWith('part:')) return `\0${id}`;
    if (parts.some((name) => id === `./${name}.cjs`)) return { id, external: true };
    const part = importedPart(id, importer);
    return part && `\0place:${part}`;
  },
  load(id) {
    if (id === '\0no-engines') return 'module.exports = {};';
    const [, which, name] = /^\0(part|place):(.*)$/.exec(id) ?? [];
    return which && { code: whenAsked[name][which], moduleType: 'js' };
  },
};

rmSync(target, { recursive: true, force: true });
const bundle = await rolldown({
  input: {
    main: join(compiled, 'commands/masstone.js'),
    ...Object.fromEntries(parts.map((name) => [name, `part:${name}`])),
  },
  platform: 'node',
  plugins: [longCommands, tables, leftOut],
  // gray-matter can run JavaScript in front matter by `eval`; that engine is switched off where it is called.
  checks: { eval: false },
});
await bundle.write({
  dir: target,
  format: 'cjs',
  entryFileNames: '[name].cjs',
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
