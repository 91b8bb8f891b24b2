// Loads files that the build put together, with what this version of Node compiled them to where that is at hand. The
// build puts these lines into what starts the command line and publications: a file more to read would make each start
// later.
const { mkdirSync, readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

/** What each version of Node compiled on each system lies apart. */
const compiledFolder = join(__dirname, 'compiled', `${process.version}-${process.platform}-${process.arch}`);

function readOrNothing(file) {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/** Scripts cannot import by themselves. */
const imported = (name) => import(name);

/**
 * @param compiled folder of what was compiled
 * @param given what the files find in their `module` besides
 */
function loading(compiled, given) {
  const modules = new Map();
  const scripts = new Map();

  function run(name, module) {
    const filename = join(__dirname, name);
    // They are plain ASCII, which is read fastest as Latin-1.
    const script = new Script(
      `(function (exports, require, module, __filename, __dirname) {${readFileSync(filename, 'latin1')}\n})`,
      { filename, cachedData: readOrNothing(join(compiled, name)) },
    );
    scripts.set(name, script);
    script.runInThisContext()(module.exports, load, module, filename, __dirname);
  }

  /** Loads a file of this folder, or what Node has under a name. */
  function load(name) {
    if (!name.startsWith('./')) return require(name);
    const before = modules.get(name);
    if (before) return before.exports;
    const module = { exports: {}, imported, ...given };
    modules.set(name, module);
    try {
      run(name, module);
    } catch (error) {
      modules.delete(name);
      throw error;
    }
    return module.exports;
  }

  /** For the build: keeps what was compiled so far. */
  function keep() {
    mkdirSync(compiled, { recursive: true });
    for (const [name, script] of scripts) writeFileSync(join(compiled, name), script.createCachedData());
  }

  return { load, keep };
}
