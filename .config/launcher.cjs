#!/usr/bin/env node
// Starts the command line. Its files are taken with what this version of Node compiled them to when they were put
// together, where that is at hand, so that nothing is compiled again at every start.
'use strict';
const { mkdirSync, readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

// Put in by the build, from `src/commands/short-commands.ts`.
const shortCommands = [];

// A short command has ended before optimised code, or a check or a regular expression compiled for what is read many
// times, would have paid for itself.
if (shortCommands.includes(process.argv[2])) {
  setFlagsFromString('--no-opt');
  setFlagsFromString('--no-regexp-optimization');
  setFlagsFromString('--no-regexp-peephole-optimization');
  setFlagsFromString('--regexp-tier-up-ticks=30');
  globalThis.__zod_globalConfig = { jitless: true };
}

// What is compiled is kept by command, so that none takes in what only others call.
const command = shortCommands.find((one) => one === process.argv[2]) ?? 'others';
const compiled = join(__dirname, 'compiled', `${process.version}-${process.platform}-${process.arch}`, command);
const modules = new Map();
const scripts = new Map();

function readOrNothing(file) {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/** A command that stays outside, as a module; scripts cannot import by themselves. */
const imported = (path) => import(path);

/** Loads a file of this folder, or what Node has under a name. */
function load(name) {
  if (!name.startsWith('./')) return require(name);
  const before = modules.get(name);
  if (before) return before.exports;
  const module = { exports: {}, imported };
  modules.set(name, module);
  const filename = join(__dirname, name);
  const code = readFileSync(filename, 'latin1');
  const script = new Script(`(function (exports, require, module, __filename, __dirname) {${code}\n})`, {
    filename,
    cachedData: readOrNothing(join(compiled, name)),
  });
  scripts.set(name, script);
  script.runInThisContext()(module.exports, load, module, filename, __dirname);
  return module.exports;
}

// The build keeps what was compiled while it ran a few commands.
if (process.env.MASSTONE_KEEP_COMPILED)
  process.on('exit', () => {
    mkdirSync(compiled, { recursive: true });
    for (const [name, script] of scripts) writeFileSync(join(compiled, name), script.createCachedData());
  });

load('./main.cjs');
