// masstone proof: every remark on the journal; nothing is written.
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';

export const command: Command = {
  name: 'proof',
  summary: 'every remark on the journal, nothing written; exit 1 if any is an error',
  help: `
Use: masstone proof [--finished]

Reads and reckons the whole journal and prints every remark with its place and what to do.
Planned and running entries are proofed too.

  --finished   as 'publish' sees it: without planned and running entries

With --json: {entries, errors, warnings, notes, remarks: [{file, line, column, rule, severity,
found, actual, expected, cure}]}. Exit 1 if any remark is an error.`,
  options: { finished: { type: 'boolean', default: false } },
  async run({ values, positionals, journal, json }, { result, aside }) {
    if (positionals.length > 0) throw new WrongUse('proof takes no further words (masstone proof --help).');
    const [{ proof }, { printRemarks, remarksAsJson, severityOf }] = await Promise.all([
      import('../site/proof.js'),
      import('../journal/index.js'),
    ]);
    const { remarks, entries } = await proof(journal, { drafts: !values.finished });
    const count = (severity: string): number => remarks.filter((one) => severityOf(one) === severity).length;
    const [errors, warnings, notes] = [count('error'), count('warning'), count('note')];
    if (json) result(`${JSON.stringify({ entries, errors, warnings, notes, remarks: remarksAsJson(remarks) })}\n`);
    else {
      aside(printRemarks(remarks, shownPath(journal)));
      result(`${entries} entries: ${errors} errors, ${warnings} warnings, ${notes} notes\n`);
    }
    return errors > 0 ? 1 : 0;
  },
};
