// Loads what the build put together for a publication, with what this version of Node compiled it to where that is at
// hand.
'use strict';
const { mkdirSync, readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { pathToFileURL } = require('node:url');
const { Script } = require('node:vm');
const { isMainThread } = require('node:worker_threads');

const compiled = join(__dirname, 'compiled', `${process.version}-${process.platform}-${process.arch}`);
const modules = new Map();
const scripts = new Map();

function readOrNothing(file) {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/** What stays outside; scripts cannot import by themselves. */
const imported = (name) => import(name);
const addressOf = (path) => pathToFileURL(join(__dirname, path)).href;

/** Loads a file of this folder, or what Node has under a name. */
function load(name) {
  if (!name.startsWith('./')) return require(name);
  const before = modules.get(name);
  if (before) return before.exports;
  const module = { exports: {}, imported, addressOf };
  modules.set(name, module);
  try {
    run(name, module);
  } catch (error) {
    modules.delete(name);
    throw error;
  }
  return module.exports;
}

function run(name, module) {
  const filename = join(__dirname, name);
  const script = new Script(
    `(function (exports, require, module, __filename, __dirname) {${readFileSync(filename, 'utf8')}\n})`,
    { filename, cachedData: readOrNothing(join(compiled, name)) },
  );
  scripts.set(name, script);
  script.runInThisContext()(module.exports, load, module, filename, __dirname);
}

/** For the build: keeps what was compiled so far. */
function keep() {
  mkdirSync(compiled, { recursive: true });
  for (const [name, script] of scripts) writeFileSync(join(compiled, name), script.createCachedData());
}

// What was compiled is taken only with the settings of V8 that it was compiled with; in threads they are made already.
if (isMainThread) load('./optimised-later.cjs');

module.exports = { load, keep };
