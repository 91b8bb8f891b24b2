// masstone publish: proofs the journal, then writes the site; all of it or nothing.
import { resolve } from 'node:path';
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';

export const command: Command = {
  name: 'publish',
  summary: 'proofs the journal, then writes the site; all of it or nothing',
  help: `
Use: masstone publish [--to DIR] [--drafts] [--no-search]

Proofs the journal and writes the site. A journal with errors is not published, and the
site that was there stays as it was. Addresses once published are kept in register.txt.

  --to DIR      folder the site is written to (default: site); replaced whole
  --drafts      planned and running entries too
  --no-search   without the search index

  masstone publish
  masstone publish --journal ~/pigments --to ~/pigments-site --json

With --json: {published, entries, pages, bytes, to, remarks: [{file, line, column, rule,
severity, found, actual, expected, cure}]}. Exit 1 where errors stopped it.`,
  options: {
    to: { type: 'string', default: 'site' },
    drafts: { type: 'boolean', default: false },
    'no-search': { type: 'boolean', default: false },
  },
  async run({ values, positionals, journal, json }, { result, aside, terminal }) {
    if (positionals.length > 0) throw new WrongUse('publish takes no further words (masstone publish --help).');
    const [{ publish }, { NotOurs }, { printRemarks, remarksAsJson, severityOf }] = await Promise.all([
      import('../site/publish.js'),
      import('../site/staging.js'),
      import('../journal/index.js'),
    ]);
    const to = resolve(String(values.to));
    if (`${journal}/`.startsWith(`${to}/`))
      throw new WrongUse(`--to ${String(values.to)} would replace the journal itself; name another folder.`);
    let shown = 0;
    const began = Date.now();
    const progress = (stage: string, done: number, of: number): void => {
      if (!terminal || Date.now() - began < 1500 || Date.now() - shown < 100) return;
      shown = Date.now();
      aside(`\r${stage}: ${done} of ${of}   `);
    };
    try {
      const publication = await publish(journal, {
        to,
        drafts: Boolean(values.drafts),
        search: !values['no-search'],
        progress,
      });
      if (shown > 0) aside('\r\u001b[K');
      const { published, remarks, entries, pages, bytes } = publication;
      const told = remarks.filter((one) => severityOf(one) !== 'note');
      aside(printRemarks(told, shownPath(journal)));
      if (told.length < remarks.length) aside(`${remarks.length - told.length} notes: masstone proof lists them.\n`);
      if (json)
        result(
          `${JSON.stringify({ published, entries, pages, bytes, to: shownPath(to), remarks: remarksAsJson(remarks) })}\n`,
        );
      else if (published)
        result(
          `Published ${entries} entries, ${pages} pages, ${(bytes / 1e6).toFixed(1)} MB in ${((Date.now() - began) / 1000).toFixed(1)} s: ${shownPath(to)}\n`,
        );
      else
        aside(
          `Not published: ${remarks.filter((one) => severityOf(one) === 'error').length} errors. The site that was there is as it was.\n`,
        );
      return published ? 0 : 1;
    } catch (error) {
      if (error instanceof NotOurs)
        throw new WrongUse(`${error.message}; name another folder with --to, or empty it yourself.`);
      throw error;
    }
  },
};
