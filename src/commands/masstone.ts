#!/usr/bin/env node
// The command line: finds the command, parses its arguments, runs it, sets the exit code.
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import '../tables/use-prepared.js';
import { isWrongUse, WrongUse, type Command, type ExitCode, type Given, type Streams } from './command.js';
import { toldOf, traceOf } from './faults.js';
import { Output } from './output.js';
import { answeredAgain, shortCommands } from './short-commands.js';

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
  labels: {
    summary: 'sheets of labels with hazards and a QR code of the address',
    load: () => import('./labels.js'),
  },
  pack: {
    summary: 'a journal, or one entry with all that it draws on, as one zip file',
    load: () => import('./pack.js'),
  },
  next: { summary: 'what a series lacks, set against the shelf, with the dangers', load: () => import('./next.js') },
  blurb: { summary: 'text for a video’s description', load: () => import('./blurb.js') },
};

const common = {
  journal: { type: 'string', default: 'content' },
  json: { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
  debug: { type: 'boolean', default: false },
} as const;

/** Words of the command line: the command, and the rest, with options that stood before the command behind it. */
function commandOf(words: readonly string[]): { readonly name?: string; readonly rest: readonly string[] } {
  let at = 0;
  while (at < words.length && /^--(?:json|debug|journal(?:=.*)?)$/s.test(words[at]!))
    at += words[at] === '--journal' ? 2 : 1;
  return { name: words[at], rest: [...words.slice(0, at), ...words.slice(at + 1)] };
}

/** Whether an option that takes no value is among the words. */
function isAsked(words: readonly string[], option: string): boolean {
  const end = words.indexOf('--');
  return (end < 0 ? words : words.slice(0, end)).includes(option);
}

function overview(): string {
  const width = Math.max(0, ...Object.keys(commands).map((name) => name.length));
  const rows = Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`);
  return [
    'Use: masstone COMMAND [options]',
    '',
    ...rows,
    '',
    'All take --journal DIR (default: content), --json, --help, and --debug for the trace of a fault.',
    'Exit codes: 0 fine, 1 remarks or no answer, 2 wrong use.',
    '',
  ].join('\n');
}

/**
 * Words that begin with a dash but are no options (`--for "-1 g"`, `"-> H2O"`), so that the command itself can say
 * what is wrong with them.
 */
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

async function run(words: readonly string[], streams: Streams): Promise<ExitCode> {
  const { name, rest } = commandOf(words);
  if (name !== undefined && versionWords.has(name)) {
    const { softwareVersion } = await import('../package-folder.js');
    streams.result(`masstone ${softwareVersion()}\n`);
    return 0;
  }
  // `help weigh` is `weigh --help`.
  const [asked] = rest.filter((word) => !word.startsWith('-'));
  if (name === 'help' && asked !== undefined) return run([asked, '--help'], streams);
  if (name === '--help' || name === '-h' || name === 'help') {
    streams.result(overview());
    return 0;
  }
  if (name === undefined) {
    if (isAsked(rest, '--json')) throw new WrongUse(`No command was named. ${known()}`);
    streams.result(overview());
    return 2;
  }
  const found = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (!found) {
    const { commandMeant } = await import('./wrong-words.js');
    throw new WrongUse(`There is no command '${name}'.${commandMeant(name, Object.keys(commands))} ${known()}`);
  }
  const { command } = await found.load();
  const { values, positionals: written } = await parsed(command, rest);
  const positionals = byNumber.has(name) ? written.map(numberOfFile) : written;
  if (values.help) {
    streams.result(`${command.help.trim()}\n`);
    return 0;
  }
  const journal = resolve(String(values.journal));
  const journalNamed = rest.some((word) => /^--journal(?:=|$)/.test(word));
  try {
    return await command.run({ values, positionals, journal, journalNamed, json: isAsked(rest, '--json') }, streams);
  } catch (error) {
    if (!isWrongUse(error)) throw error;
    const { quotesMissing } = await import('./wrong-words.js');
    throw new WrongUse(`${error.message}${quotesMissing(rest)}`);
  }
}

const known = (): string => `Commands: ${Object.keys(commands).join(', ')}.`;

/** Commands that name an entry by its number, and take its file for it. */
const byNumber: ReadonlySet<string> = new Set(['proof', 'weigh', 'foresee', 'labels', 'pack', 'blurb']);

/** `entries/003-malachite.md` as 3. */
const numberOfFile = (word: string): string =>
  /(?:^|[\\/])0*([1-9]\d{0,8})(?:[-_. ][^\\/]*)?\.md$/.exec(word)?.[1] ?? word;

const versionWords: ReadonlySet<string> = new Set(['--version', '-V', '-v', 'version']);

async function parsed(command: Command, words: readonly string[]): Promise<Pick<Given, 'values' | 'positionals'>> {
  const options = { ...command.options, ...common };
  try {
    return parseArgs({
      args: settled(words, command.options),
      options,
      allowPositionals: true,
      strict: true,
    }) as Pick<Given, 'values' | 'positionals'>;
  } catch (error) {
    const { whatIsWrong } = await import('./wrong-words.js');
    throw new WrongUse(
      `${whatIsWrong(error as Error, words, options)} (masstone ${command.name} --help lists the options)`,
    );
  }
}

/** Says what went wrong, as JSON where that was asked for; the trace only where it was asked for. */
function report(error: unknown, words: readonly string[], { result, aside }: Streams): ExitCode {
  const wrongUse = isWrongUse(error);
  const told = wrongUse ? { code: 'wrong-use', message: error.message } : toldOf(error);
  const cure = 'cure' in told && told.cure !== undefined ? ` ${told.cure}` : '';
  if (isAsked(words, '--json')) result(`${JSON.stringify({ error: told })}\n`);
  else aside(`${told.message}${cure}\n`);
  if (!wrongUse && isAsked(words, '--debug')) aside(`${traceOf(error)}\n`);
  return wrongUse ? 2 : 1;
}

const words = process.argv.slice(2);

/** Whether the command has ended before opening a stream would have paid for itself. */
const name = commandOf(words).name ?? '';
const isShort = shortCommands.includes(name);

const output = new Output(isShort);
const { streams } = output;

/** Only the first error is told: others follow from it. */
let ending = false;
function end(error: unknown): void {
  if (!ending) process.exitCode = report(error, words, streams);
  ending = true;
}

/** An error that nobody awaited ends the program too, and is told like any other. */
function endAtOnce(error: unknown): void {
  end(error);
  process.exit();
}
process.on('uncaughtException', endAtOnce);
process.on('unhandledRejection', endAtOnce);

run(words, streams).then(async (code) => {
  process.exitCode = output.isFaulty ? 1 : code;
  if (answeredAgain.includes(name)) await keptForNextTime(code);
  if (isShort) output.endWhereAllIsWritten();
}, end);

/** Keeps what was answered, when it has been told. */
async function keptForNextTime(code: ExitCode): Promise<void> {
  const { keepTold } = await import('./told-again.js');
  keepTold(output, code);
}
