// masstone proof: every remark on the journal; nothing is written.
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';
import { Refused } from './faults.js';

export const command: Command = {
  name: 'proof',
  summary: 'every remark on the journal, nothing written; exit 1 if any is an error',
  help: `
Use: masstone proof [NUMBER…] [--new] [--finished]
     masstone proof --rules

Reads and reckons the whole journal and prints every remark with its place and what to do: one
remark for each cause, with how often it was found and where first, and a summary by cause at
the end. Planned and running entries are proofed too.

  NUMBER       only the remarks that concern this entry: masstone proof 14
  --new        only what is new since the last publication
  --finished   as 'publish' sees it: without planned and running entries
  --rules      lists every rule: how grave it is, when it speaks, what to do, and two example
               journals, one in which it speaks and one in which it is silent

A warning that you have read and accept is written, with the reason, under 'accept:' in the entry
or in journal.yaml: accept: [{ warning: photo-without-words, because: … }]. A danger is answered
under 'precautions:' and never accepted.

With --json: {entries, errors, warnings, notes, remarks: [{file, line, column, rule, severity,
found, actual, expected, cure, paste, subject, cause, count, first}],
accepted: [{warning, about, because, file, count}]}; 'count' says how often the cause was found,
'first' where; 'paste' what the cure writes instead of what, to the letter. With --rules:
{rules: [{rule, severities, when, advice, fires, silent}]}.
Exit 1 if any remark is an error.`,
  options: {
    new: { type: 'boolean', default: false },
    finished: { type: 'boolean', default: false },
    rules: { type: 'boolean', default: false },
  },
  async run({ values, positionals, journal, json }, { result, aside }) {
    const numbers = positionals.map(numberOf);
    if (values.rules) {
      const { printRules, rulesAsJson } = await import('../remarks/list.js');
      result(json ? `${JSON.stringify({ rules: rulesAsJson() })}\n` : printRules());
      return 0;
    }
    const [{ proof }, { printRemarks, severityOf }, { causesAsJson, counted, summaryWords }, chosen] =
      await Promise.all([
        import('../site/proof.js'),
        import('../journal/index.js'),
        import('../remarks/print.js'),
        import('../site/proof-choice.js'),
      ]);
    const proofed = await proof(journal, { drafts: !values.finished });
    const missing = chosen.missingEntry(proofed, numbers);
    if (missing) throw new Refused(missing);
    const { causes, accepted, unpublished } = chosen.chosenRemarks(proofed, journal, {
      numbers,
      onlyNew: values.new === true,
    });
    const count = (severity: string): number => causes.filter((one) => severityOf(one.remark) === severity).length;
    const [errors, warnings, notes] = [count('error'), count('warning'), count('note')];
    const { entries, unread } = proofed;
    if (json)
      result(`${JSON.stringify({ entries, errors, warnings, notes, remarks: causesAsJson(causes), accepted })}\n`);
    else {
      aside(
        printRemarks(
          causes.map(({ remark }) => remark),
          shownPath(journal),
        ),
      );
      aside(summaryWords(causes, accepted));
      if (unpublished) aside('Nothing is known of a publication: everything is new.\n');
      const found = [counted(errors, 'error'), counted(warnings, 'warning'), counted(notes, 'note')];
      const besides = unread === 0 ? '' : ` and ${unread} that cannot be read`;
      result(`${counted(entries, 'entry', 'entries')}${besides}: ${found.join(', ')}\n`);
    }
    return errors > 0 ? 1 : 0;
  },
};

/** The number of an entry. */
function numberOf(text: string): number {
  if (!/^[1-9]\d{0,5}$/.test(text)) throw new WrongUse(`proof takes numbers of entries, not '${text}'.`);
  return Number(text);
}
