// masstone publish: proofs the journal, then writes the site; all of it or nothing.
import { resolve } from 'node:path';
import type { LockOwner } from '../site/lock.js';
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';
import { Refused, Stopped } from './faults.js';

export const command: Command = {
  name: 'publish',
  summary: 'proofs the journal, then writes the site; all of it or nothing',
  help: `
Use: masstone publish [--to DIR] [--drafts] [--labels] [--no-search]

Proofs the journal and writes the site. A journal with errors is not published, and the
site that was there stays as it was. Addresses once published are kept in register.txt.
Files in the site's folder that Masstone did not publish (.git, CNAME) are left as they are.

  --to DIR      folder the site is written to (default: site)
  --drafts      planned and running entries too
  --labels      sheets of labels of every entry too (/14/labels/); else only the reading copy has them
  --no-search   without the search index

  masstone publish
  masstone publish --journal ~/pigments --to ~/pigments-site --json

With --json: {published, entries, pages, bytes, kept, to, remarks: [{file, line, column, rule,
severity, found, actual, expected, cure, count, first}]}. Exit 1 where errors stopped it.`,
  options: {
    to: { type: 'string', default: 'site' },
    drafts: { type: 'boolean', default: false },
    labels: { type: 'boolean', default: false },
    'no-search': { type: 'boolean', default: false },
  },
  async run({ values, positionals, journal, json }, { result, aside, terminal }) {
    if (positionals.length > 0)
      throw new WrongUse(`publish takes no further words; the folder is named with --to: --to ${positionals[0]!}`);
    const [{ publishJournal }, { printRemarks, severityOf }, { byCause }, { causesAsJson, summaryWords }] =
      await Promise.all([
        import('../site/publish-journal.js'),
        import('../journal/index.js'),
        import('../remarks/causes.js'),
        import('../remarks/print.js'),
      ]);
    const to = resolve(String(values.to));
    let shown = 0;
    const began = Date.now();
    const progress = (stage: string, done: number, of: number): void => {
      if (!terminal || Date.now() - began < 1500 || Date.now() - shown < 100) return;
      shown = Date.now();
      aside(`\r${stage}: ${done} of ${of}   `);
    };
    const publication = await publishJournal(journal, {
      to,
      drafts: Boolean(values.drafts),
      labels: Boolean(values.labels),
      search: !values['no-search'],
      progress,
      onWait: (owner) => aside(`Another publication of ${shownPath(to)} is under way${ownerWords(owner)}; waiting.\n`),
    }).catch(stopped);
    if (shown > 0) aside('\r\u001b[K');
    const { published, remarks, entries, pages, bytes, kept } = publication;
    const { causes = byCause(remarks), accepted = [] } = publication;
    const told = causes.filter((one) => severityOf(one.remark) !== 'note');
    aside(
      printRemarks(
        told.map((one) => one.remark),
        shownPath(journal),
      ),
    );
    aside(summaryWords(told, accepted));
    if (told.length < causes.length) aside(`${causes.length - told.length} notes: masstone proof lists them.\n`);
    if (kept.length > 0 && !json) aside(keptWords(kept, shownPath(to)));
    if (json) {
      const shownRemarks = causesAsJson(causes);
      result(
        `${JSON.stringify({ published, entries, pages, bytes, kept, to: shownPath(to), remarks: shownRemarks })}\n`,
      );
    } else if (published) {
      const [size, time] = [(bytes / 1e6).toFixed(1), ((Date.now() - began) / 1000).toFixed(1)];
      const counted = entries === 1 ? '1 entry' : `${entries} entries`;
      result(`Published ${counted}, ${pages} pages, ${size} MB in ${time} s: ${shownPath(to)}\n`);
    } else {
      const errors = remarks.filter((one) => severityOf(one) === 'error').length;
      aside(`Not published: ${errors} error${errors === 1 ? '' : 's'}. The site that was there is as it was.\n`);
    }
    return published ? 0 : 1;
  },
};

const asItWas = 'The site that was there is as it was.';

const ownerWords = (owner: LockOwner | undefined): string =>
  owner ? ` (process ${owner.pid} on ${owner.host}, since ${owner.since.slice(11, 16)} UTC)` : '';

/** Files of others in the site's folder, in a sentence. */
function keptWords(kept: readonly string[], site: string): string {
  const some = kept.slice(0, 8).join(', ');
  const more = kept.length > 8 ? ` and ${kept.length - 8} more` : '';
  return `Left as they are in ${site}, since Masstone did not publish them: ${some}${more}.\n`;
}

/** What kept the site from being published, as it is told. */
async function stopped(error: unknown): Promise<never> {
  const [{ LockLost, NotOurs }, { LockTaken }, { SearchFault }] = await Promise.all([
    import('../site/site-places.js'),
    import('../site/lock.js'),
    import('../site/search-library.js'),
  ]);
  if (error instanceof NotOurs) throw new WrongUse(`${error.message}; ${error.cure} ${asItWas}`);
  if (error instanceof LockTaken)
    throw new Refused({
      code: 'under-way',
      message: `Another publication is under way${ownerWords(error.owner)}. ${asItWas}`,
      cure: `Wait until it has ended, and publish again. If none is running there, delete ${shownPath(error.file)}.`,
    });
  if (error instanceof LockLost)
    throw new Refused({ code: 'under-way', message: `${error.message}. ${asItWas}`, cure: 'Publish again.' });
  if (error instanceof SearchFault)
    throw new Refused({
      code: 'search',
      message: `The search index could not be made: ${error.message}. ${asItWas}`,
      cure: 'Publish again; if that does not help, publish with --no-search.',
    });
  throw new Stopped(error, asItWas);
}
