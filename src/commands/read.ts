// masstone read: the reading copy on this machine, refreshed as files are saved.
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';
import { toldOf } from './faults.js';

export const command: Command = {
  name: 'read',
  summary: 'the reading copy on this machine only, refreshed as files are saved',
  help: `
Use: masstone read [--port N] [--nearby] [--published [--to DIR]]

Serves the journal, drafts included, on this machine only (127.0.0.1), rendered as it stands.
When a file of the journal is saved, the open page refreshes; remarks stand at its foot.
Ends with Ctrl-C.

  --port N      default 4747; 0 takes any free one
  --nearby      for the phone at the bench: listens in the local network too. The address that is
                printed, also as a QR code, holds a long random token that becomes a cookie;
                without it nobody is answered. Off by default
  --published   serves what was published, as its host will, under its base path
  --to DIR      where that lies; default site

With --json one line is printed when it listens: {url, port, nearby: [address…]}.`,
  options: {
    port: { type: 'string', default: '4747' },
    nearby: { type: 'boolean', default: false },
    published: { type: 'boolean', default: false },
    to: { type: 'string', default: 'site' },
  },
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
    const published = values.published ? await publishedAt(journal, String(values.to)) : undefined;
    const nearby = values.nearby === true;
    const asked = { port, onProof, onUnwatched, onTrouble, nearby, ...(published && { published }) };
    const copy = await startReading(journal, asked).catch((error: unknown) => {
      const { code, syscall } = error as NodeJS.ErrnoException;
      if (code === 'EADDRINUSE')
        throw new WrongUse(`Port ${port} is taken; name another with --port, or --port 0 for any.`);
      if (code === 'EACCES' && syscall === 'listen')
        throw new WrongUse(`Port ${port} is not for everyone to open; name one above 1023 with --port.`);
      throw error;
    });
    if (json) result(`${JSON.stringify({ url: copy.url, port: copy.port, nearby: copy.nearby })}\n`);
    else {
      const what = published ? 'Published site' : 'Reading copy';
      const where = nearby ? 'Ctrl-C ends it' : 'on this machine only; Ctrl-C ends it';
      result(`${what}: ${copy.url}\n(${where})\n${nearby ? await nearbyWords(copy.nearby) : ''}`);
    }
    await new Promise<void>((end) => {
      process.once('SIGINT', () => end());
      process.once('SIGTERM', () => end());
    });
    await copy.close();
    return 0;
  },
};

const exposes =
  'Whoever has this address, or sees your network’s traffic, can read the whole journal, drafts included, ' +
  'until you end it; nobody can change anything.';

/** Addresses for other machines, the first as a QR code too, and what that lets others see. */
async function nearbyWords(addresses: readonly string[]): Promise<string> {
  const [first] = addresses;
  if (first === undefined) return 'This machine is in no network: nobody else can read it.\n';
  const { renderUnicodeCompact } = await import('uqr');
  return `\nIn the local network:\n${addresses.join('\n')}\n\n${renderUnicodeCompact(first)}\n\n${exposes}\n`;
}

/** The published site, and the base path that the journal states. */
async function publishedAt(journal: string, to: string): Promise<{ readonly site: string; readonly base: string }> {
  const [{ entryReader }, { splitAddress }, { existsSync }, { resolve }] = await Promise.all([
    import('./entry-reader.js'),
    import('../site/context.js'),
    import('node:fs'),
    import('node:path'),
  ]);
  const site = resolve(to);
  if (!existsSync(site)) throw new WrongUse(`${shownPath(to)} is not there: publish first, or name it with --to.`);
  const reader = await entryReader(journal);
  if (!reader.ok) throw new WrongUse(`${reader.fault.message} ${reader.fault.cure ?? ''}`.trim());
  return { site, base: splitAddress(reader.value.settings.address).base };
}

function sentence(error: Error): string {
  const { message, cure = '' } = toldOf(error);
  return `${message} ${cure}`.trim();
}
