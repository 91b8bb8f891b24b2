#!/usr/bin/env node
// Starts the command line.
'use strict';
// Put in by the build: loading.cjs

const { setFlagsFromString } = require('node:v8');

// Put in by the build, from `src/commands/short-commands.ts`.
const shortCommands = [];
const answeredAgain = [];

// Put in by the build: a hash of all that it put together.
const build = '';

// A short command has ended before optimised code, or a check or a regular expression compiled for what is read many
// times, would have paid for itself; and what it makes has room at once, rather than being moved aside again and again
// while that room is doubled.
const words = process.argv.slice(2);
const named = words.find((word, at) => !word.startsWith('-') && words[at - 1] !== '--journal');
if (shortCommands.includes(named)) {
  setFlagsFromString('--no-opt');
  setFlagsFromString('--no-regexp-optimization');
  setFlagsFromString('--no-regexp-peephole-optimization');
  setFlagsFromString('--regexp-tier-up-ticks=30');
  setFlagsFromString('--semi-space-growth-factor=16');
  globalThis.__zod_globalConfig = { jitless: true };
}

// What is compiled is kept by command, so that none takes in what only others call.
const command = shortCommands.find((one) => one === named) ?? 'others';
const { load, keep } = loading(join(compiledFolder, command), {});

// The build keeps what was compiled while it ran a few commands.
if (process.env.MASSTONE_KEEP_COMPILED) process.on('exit', keep);

const isToldAgain = () =>
  load('./told-again.cjs').toldAgain(words, { hash: build, prepared: join(__dirname, '..', 'prepared') });
if (!answeredAgain.includes(named) || !isToldAgain()) load('./main.cjs');
