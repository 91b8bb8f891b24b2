// masstone proof: every remark on the journal; nothing is written.
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';

export const command: Command = {
  name: 'proof',
  summary: 'every remark on the journal, nothing written; exit 1 if any is an error',
  help: `
Use: masstone proof [--finished]
     masstone proof --rules

Reads and reckons the whole journal and prints every remark with its place and what to do.
Planned and running entries are proofed too.

  --finished   as 'publish' sees it: without planned and running entries
  --rules      lists every rule: how grave it is, when it speaks, what to do, and two example
               journals, one in which it speaks and one in which it is silent

With --json: {entries, errors, warnings, notes, remarks: [{file, line, column, rule, severity,
found, actual, expected, cure, subject, cause}]}; 'cause' is the same for all that one mending
takes away. With --rules: {rules: [{rule, severities, when, advice, fires, silent}]}.
Exit 1 if any remark is an error.`,
  options: { finished: { type: 'boolean', default: false }, rules: { type: 'boolean', default: false } },
  async run({ values, positionals, journal, json }, { result, aside }) {
    if (positionals.length > 0) throw new WrongUse('proof takes no further words (masstone proof --help).');
    if (values.rules) {
      const { printRules, rulesAsJson } = await import('../remarks/list.js');
      result(json ? `${JSON.stringify({ rules: rulesAsJson() })}\n` : printRules());
      return 0;
    }
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
