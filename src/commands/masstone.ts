#!/usr/bin/env node
// The command line: finds the command, parses its arguments, runs it, sets the exit code.
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { WrongUse, type Command, type ExitCode, type Streams } from './command.js';

/** Every command, loaded only when called, so that a formula is answered without loading the site. */
const commands: Readonly<Record<string, { summary: string; load: () => Promise<{ command: Command }> }>> = {
  publish: {
    summary: 'proofs the journal, then writes the site; all of it or nothing',
    load: () => import('./publish.js'),
  },
  proof: { summary: 'every remark on the journal, nothing written', load: () => import('./proof.js') },
  read: {
    summary: 'the reading copy on this machine only, refreshed as files are saved',
    load: () => import('./read.js'),
  },
  begin: {
    summary: 'a new entry with the next number; --found begins a new journal',
    load: () => import('./begin.js'),
  },
  weigh: {
    summary: 'a weighing list, as it is or scaled --for an amount of product; dilutions',
    load: () => import('./weigh.js'),
  },
  foresee: {
    summary: 'what could go wrong when these are mixed or heated, with no entry needed',
    load: () => import('./foresee.js'),
  },
  formula: { summary: 'molar mass and composition', load: () => import('./formula.js') },
  balance: { summary: 'the balanced equation', load: () => import('./balance.js') },
  colour: {
    summary: 'Lab under each lamp from a spectrum; --against another for the difference',
    load: () => import('./colour.js'),
  },
  take: {
    summary: 'takes in a cupboard list or instrument files: what to add, nothing written over',
    load: () => import('./take.js'),
  },
  blurb: { summary: 'text for a video’s description', load: () => import('./blurb.js') },
};

const common = {
  journal: { type: 'string', default: 'content' },
  json: { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

function overview(): string {
  const width = Math.max(0, ...Object.keys(commands).map((name) => name.length));
  const rows = Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`);
  return [
    'Use: masstone COMMAND [options]',
    '',
    ...rows,
    '',
    'All take --journal DIR (default: content), --json and --help.',
    'Exit codes: 0 fine, 1 remarks or no answer, 2 wrong use.',
    '',
  ].join('\n');
}

/** Words that begin with a dash but are no options (`--for "-1 g"`, `"-> H2O"`), so that the command itself can say what is wrong with them. */
function settled(words: readonly string[], options: Command['options']): string[] {
  const noOption = (word: string | undefined): boolean => word !== undefined && /^-[^a-z-]/i.test(word);
  const before: string[] = [];
  const behind: string[] = [];
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at]!;
    if (word === '--') return [...before, '--', ...behind, ...words.slice(at + 1)];
    if (options[word.replace(/^--/, '')]?.type === 'string' && noOption(words[at + 1]))
      before.push(`${word}=${words[(at += 1)]}`);
    else (noOption(word) ? behind : before).push(word);
  }
  return behind.length > 0 ? [...before, '--', ...behind] : before;
}

async function main(words: string[], streams: Streams): Promise<ExitCode> {
  const [name, ...rest] = words;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    streams.result(overview());
    return name === undefined ? 2 : 0;
  }
  const found = Object.hasOwn(commands, name) ? commands[name] : undefined;
  const json = rest.includes('--json');
  try {
    if (!found) throw new WrongUse(`There is no command '${name}'. Commands: ${Object.keys(commands).join(', ')}.`);
    const { command } = await found.load();
    let parsed;
    try {
      parsed = parseArgs({
        args: settled(rest, command.options),
        options: { ...command.options, ...common },
        allowPositionals: true,
        strict: true,
      });
    } catch (error) {
      throw new WrongUse(`${(error as Error).message} (masstone ${name} --help lists the options)`);
    }
    if (parsed.values.help) {
      streams.result(`${command.help.trim()}\n`);
      return 0;
    }
    return await command.run(
      {
        values: parsed.values as never,
        positionals: parsed.positionals,
        journal: resolve(String(parsed.values.journal)),
        json,
      },
      streams,
    );
  } catch (error) {
    if (!(error instanceof WrongUse)) throw error;
    if (json) streams.result(`${JSON.stringify({ error: { code: 'wrong-use', message: error.message } })}\n`);
    else streams.aside(`${error.message}\n`);
    return 2;
  }
}

// A closed pipe (`masstone … | head`) is not an error.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    else throw error;
  });
process.exitCode = await main(process.argv.slice(2), {
  result: (text) => void process.stdout.write(text),
  aside: (text) => void process.stderr.write(text),
  terminal: Boolean(process.stderr.isTTY),
});
