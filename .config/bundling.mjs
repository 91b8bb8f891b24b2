// How the build puts code together in few files: the tables as data beside it, read when they are looked into, and what
// only a fault needs in parts of their own.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { parseAst } from 'rolldown/parseAst';

export const compiled = fileURLToPath(new URL('../dist/src/', import.meta.url));
/** Commands that read a whole journal: loading their modules one by one would take longer than most of their work. */
export const wholeJournalCommands = ['publish', 'proof', 'read', 'next', 'pack', 'labels', 'blurb'];
/** The file of `dist/publication/` that starts such a command. */
export const startOf = (command) => `command-${command}.cjs`;

export const slashes = (path) => path.replaceAll('\\', '/');

/** A text with something in it replaced, which must be there. */
export function replaced(text, what, by) {
  if (!text.includes(what)) throw new Error(`the build looks for what is not there: ${what}`);
  return text.replace(what, () => by);
}

const beside = (name) => readFileSync(new URL(name, import.meta.url), 'utf8');

/** The text of a file of this folder that starts what was put together, with what loads it in its place. */
export const starting = (name) =>
  replaced(beside(name), '// Put in by the build: loading.cjs\n', beside('loading.cjs'));

/** A table is read as data from a file of its own, not as code. */
export const tables = {
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
const ofYaml = ['LineCounter', 'isMap', 'isNode', 'isPair', 'isScalar', 'isSeq', 'parseDocument', 'stringify', 'visit'];
const ofZod =
  'string number int boolean literal enum array tuple preprocess strictObject record union toJSONSchema'.split(' ');

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

/** Which of these parts is imported, if any. */
function importedPart(id, importer) {
  const from = slashes(importer);
  if (id === 'zod') return from.includes('/dist/src/journal/') ? 'zod' : undefined;
  if (id === 'yaml') return from.includes('/dist/src/') ? 'yaml' : undefined;
  return id === './registry.js' && from.endsWith('/remarks/findings.js') ? 'rules' : undefined;
}

/** Leaves out of libraries what is never come to, and what is loaded only when it is asked for. @param parts of these */
const leftOut = (parts) => ({
  name: 'left-out',
  resolveId(id, importer = '') {
    // The journal hands gray-matter engines of its own.
    if (/\bengines$/.test(id) && slashes(importer).includes('/gray-matter/')) return '\0no-engines';
    if (id.startsWith('part:')) return `\0${id}`;
    if (parts.some((name) => id === `./${name}.cjs`)) return { id, external: true };
    const part = importedPart(id, importer);
    return part && parts.includes(part) ? `\0place:${part}` : undefined;
  },
  load(id) {
    if (id === '\0no-engines') return 'module.exports = {};';
    const [, which, name] = /^\0(part|place):(.*)$/.exec(id) ?? [];
    return which && { code: whenAsked[name][which], moduleType: 'js' };
  },
});

/**
 * Code in plain ASCII, which is read fastest as Latin-1. In a text, a template and a regular expression the escape is
 * the sign; `String.raw` keeps it as it stands, and is used only for what becomes a regular expression.
 */
function inAscii(code) {
  if (/\\[^\0-\x7f]/.test(code)) throw new Error('a sign outside of ASCII has a \\ before it, which it does not need');
  return code.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** Where objects begin with the properties of another and have more: `{ ...one, more }`. */
function begunWithOthers(node) {
  if (typeof node !== 'object' || node === null) return [];
  const within = Object.values(node).flatMap(begunWithOthers);
  const [first, ...more] = node.type === 'ObjectExpression' ? node.properties : [];
  return first?.type === 'SpreadElement' && more.length > 0 ? [first.start, ...within] : within;
}

/**
 * Begins them with nothing, `{ ...null, ...one, more }`. What begins with another's properties is a copy of that for V8
 * (Node 20), and each copy that gets more becomes of a shape of its own: that takes a microsecond and more for each
 * property, and whoever reads it afterwards has to search. What begins with nothing has one shape for all.
 */
function inOneShape(code) {
  let text = '';
  let end = 0;
  for (const start of begunWithOthers(parseAst(code)).sort((a, b) => a - b)) {
    text += `${code.slice(end, start)}...null,`;
    end = start;
  }
  return text + code.slice(end);
}

/** All that a module imports at once, itself among them. @param graph tells what is known of a module by its id */
function importedWith(id, graph, found = new Set()) {
  if (found.has(id)) return found;
  found.add(id);
  for (const next of graph.getModuleInfo(id)?.importedIds ?? []) importedWith(next, graph, found);
  return found;
}

/** Names each module by the first file that needs it; undefined where it may lie anywhere. */
function fileOf(files) {
  let names;
  return (id, graph) => {
    names ??= new Map(
      Object.entries(files)
        .toReversed()
        .flatMap(([name, roots]) =>
          roots.flatMap((root) => [...importedWith(join(compiled, root), graph)].map((one) => [one, name])),
        ),
    );
    return names.get(id);
  };
}

/**
 * Puts code together in a folder, which is made anew.
 * @param input modules by the names of their files
 * @param parts what is loaded only when it is asked for
 * @param files modules that are loaded at one time, by the name of the file in which they and all that they import come
 * to lie; what several need lies in the first
 */
export async function putTogether(folder, { input, parts, plugins, external, files }) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const bundle = await rolldown({
    input: { ...input, ...Object.fromEntries(parts.map((name) => [name, `part:${name}`])) },
    platform: 'node',
    plugins: [...plugins, tables, leftOut(parts)],
    ...(files && { preserveEntrySignatures: 'allow-extension' }),
    external,
    // gray-matter can run JavaScript in front matter by `eval`; that engine is switched off where it is called. An empty
    // text at the beginning of a library's module is no directive.
    checks: { eval: false, moduleLevelDirective: false },
  });
  const { output } = await bundle.write({
    dir: folder,
    format: 'cjs',
    entryFileNames: '[name].cjs',
    chunkFileNames: '[name]-[hash].cjs',
    minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
    ...(files && {
      codeSplitting: {
        includeDependenciesRecursively: false,
        groups: [{ name: fileOf(files), debugName: 'files' }],
      },
    }),
  });
  for (const { fileName, code } of output)
    writeFileSync(join(folder, fileName), inAscii(inOneShape(code.replace(/^#!.*/, ''))));
}
