// masstone read: the reading copy on this machine, refreshed as files are saved.
import type { Command } from './command.js';
import { WrongUse } from './command.js';
import { toldOf } from './faults.js';

export const command: Command = {
  name: 'read',
  summary: 'the reading copy on this machine only, refreshed as files are saved',
  help: `
Use: masstone read [--port N]

Serves the journal, drafts included, on this machine only (127.0.0.1), rendered as it stands.
When a file of the journal is saved, the open page refreshes; remarks stand at its foot.
Ends with Ctrl-C.

  --port N   default 4747; 0 takes any free one

With --json one line is printed when it listens: {url, port}.`,
  options: { port: { type: 'string', default: '4747' } },
  async run({ values, positionals, journal, json }, { result, aside }) {
    if (positionals.length > 0) throw new WrongUse('read takes no further words (masstone read --help).');
    const port = Number(values.port);
    if (!Number.isInteger(port) || port < 0 || port > 65535)
      throw new WrongUse(`--port ${String(values.port)} is not a port; give a whole number from 0 to 65535.`);
    const [{ startReading }, { severityOf }] = await Promise.all([
      import('../reading/server.js'),
      import('../journal/index.js'),
    ]);
    let before = '';
    const onProof = (remarks: readonly Parameters<typeof severityOf>[0][]): void => {
      const errors = remarks.filter((one) => severityOf(one) === 'error').length;
      const words = remarks.length === 0 ? 'no remarks' : `${remarks.length} remarks, ${errors} of them errors`;
      if (words !== before) aside(`Proof: ${words}.\n`);
      before = words;
    };
    const onUnwatched = (error: NodeJS.ErrnoException): void =>
      aside(`Saved files are not noticed here (${error.code ?? error.message}): reload the page to see them.\n`);
    const onTrouble = (error: Error): void => aside(`The journal could not be read again. ${sentence(error)}\n`);
    const copy = await startReading(journal, { port, onProof, onUnwatched, onTrouble }).catch((error: unknown) => {
      const { code, syscall } = error as NodeJS.ErrnoException;
      if (code === 'EADDRINUSE')
        throw new WrongUse(`Port ${port} is taken; name another with --port, or --port 0 for any.`);
      if (code === 'EACCES' && syscall === 'listen')
        throw new WrongUse(`Port ${port} is not for everyone to open; name one above 1023 with --port.`);
      throw error;
    });
    if (json) result(`${JSON.stringify({ url: copy.url, port: copy.port })}\n`);
    else result(`Reading copy: ${copy.url}\n(on this machine only; Ctrl-C ends it)\n`);
    await new Promise<void>((end) => {
      process.once('SIGINT', () => end());
      process.once('SIGTERM', () => end());
    });
    await copy.close();
    return 0;
  },
};

function sentence(error: Error): string {
  const { message, cure = '' } = toldOf(error);
  return `${message} ${cure}`.trim();
}
