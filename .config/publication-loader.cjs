// Loads what the build put together for a publication.
'use strict';
// Put in by the build: loading.cjs

const { pathToFileURL } = require('node:url');
const { isMainThread } = require('node:worker_threads');

const addressOf = (path) => pathToFileURL(join(__dirname, path)).href;
const { load, keep } = loading(compiledFolder, { addressOf });

// What was compiled is taken only with the settings of V8 that it was compiled with; in threads they are made already.
if (isMainThread) load('./optimised-later.cjs');

module.exports = { load, keep };
