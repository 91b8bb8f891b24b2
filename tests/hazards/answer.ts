// What the command answers where there is no journal.
import { parseArgs } from 'node:util';
import { command } from '../../src/commands/foresee.js';

/** @returns what `foresee --json` prints @throws what the command throws */
export async function answerOfForesee(args: readonly string[]): Promise<unknown> {
  const { values, positionals } = parseArgs({ args: [...args], options: command.options, allowPositionals: true });
  let printed = '';
  const result = (text: string): void => {
    printed += text;
  };
  const streams = { result, aside: () => undefined, terminal: false };
  await command.run({ values, positionals, journal: '/no-such-journal', json: true }, streams);
  return JSON.parse(printed);
}
