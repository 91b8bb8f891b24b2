// Runs a command as the command line does, and gathers what it says.
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Command, ExitCode } from '../../src/commands/command.js';
import { packageFolder } from '../../src/tables.js';

export interface Said { readonly code: ExitCode; readonly result: string; readonly aside: string; readonly json: any }

export async function run(command: Command, ...words: string[]): Promise<Said> {
  const { values, positionals } = parseArgs({ args: words, options: { ...command.options, json: { type: 'boolean' }, journal: { type: 'string' } }, allowPositionals: true });
  let result = '';
  let aside = '';
  const code = await command.run({ values: values as never, positionals, journal: String(values.journal ?? 'content'), json: values.json === true }, {
    result: (text) => { result += text; }, aside: (text) => { aside += text; }, terminal: false,
  });
  return { code, result, aside, json: values.json === true ? JSON.parse(result) : undefined };
}

/** Processor time of a command in a process of its own, ms; the least of a few, since other work may share the machine. */
export function processTime(...words: string[]): number {
  const probe = 'data:text/javascript,process.on("exit",()=>{const{user,system}=process.cpuUsage();process.stderr.write(`\\ncpu ${(user+system)/1000}`)})';
  const once = (): number => {
    const { stderr } = spawnSync(process.execPath, ['--import', probe, join(packageFolder, 'dist/src/commands/masstone.js'), ...words], { encoding: 'utf8' });
    return Number(/cpu ([\d.]+)/.exec(stderr)![1]);
  };
  return Math.min(once(), once(), once());
}
