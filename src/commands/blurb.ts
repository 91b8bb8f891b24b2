// masstone blurb: text for a video's description, with links that never change.
import type { Command } from './command.js';
import { shownPath, WrongUse } from './command.js';

export const command: Command = {
  name: 'blurb',
  summary: 'text for a video’s description: what, links, series, moments, cautions',
  help: `
Use: masstone blurb N [--video K]

Prints plain text to paste under a video: what was made, its permanent address, the samples,
the series, entries before it, moments of the video, hazards and cautions.

  --video K   which of the entry's videos the moments are of (default: the first)

With --json: {entry, address, text}.`,
  options: { video: { type: 'string', default: '1' } },
  async run({ values, positionals, journal, json }, { result, aside }) {
    const [word, ...more] = positionals;
    if (word === undefined || !/^\d+$/.test(word) || more.length > 0)
      throw new WrongUse('blurb takes the number of one entry: masstone blurb 14.');
    const [{ openJournal, hasErrors }, { blurb }, { printRemarks, remarksAsJson }] = await Promise.all([
      import('../open.js'),
      import('../site/blurb.js'),
      import('../journal/index.js'),
    ]);
    const { model, remarks } = await openJournal(journal, { drafts: true });
    if (!model) {
      if (json)
        result(
          `${JSON.stringify({ error: { code: 'no-journal', message: remarks[0]?.reason ?? 'There is no journal here.', cure: remarks[0]?.note }, remarks: remarksAsJson(remarks) })}\n`,
        );
      else aside(printRemarks(remarks, shownPath(journal)));
      return 1;
    }
    const made = blurb(model, Number(word), Number(values.video));
    if (!made.ok) {
      if (json)
        result(
          `${JSON.stringify({ error: { code: made.fault.code, message: made.fault.message, cure: made.fault.cure } })}\n`,
        );
      else aside(`${made.fault.message} ${made.fault.cure ?? ''}\n`);
      return 1;
    }
    const own = remarks.filter((one) => model.numberOfFile.get(one.file) === Number(word));
    if (hasErrors(own)) aside(printRemarks(own, shownPath(journal)));
    result(
      json
        ? `${JSON.stringify({ entry: Number(word), address: made.value.address, text: made.value.text })}\n`
        : `${made.value.text}\n`,
    );
    return 0;
  },
};
