// masstone blurb: text for a video's description, with links that never change.
import type { JournalModel } from '../crosslinks/model.js';
import type { Command, ExitCode, Given, Streams } from './command.js';
import { shownPath, WrongUse } from './command.js';
import { keptByPublication, ofSettings } from './opened.js';

/** A whole number above 0 from an option. */
function counted(option: string, value: unknown): number | undefined {
  if (value === undefined) return undefined;
  if (!/^[1-9]\d{0,6}$/.test(String(value)))
    throw new WrongUse(`--${option} takes a whole number above 0, not '${String(value)}'.`);
  return Number(value);
}

async function printAll(model: JournalModel, json: boolean, { result }: Streams): Promise<ExitCode> {
  const { videoAddresses } = await import('../site/blurb.js');
  const videos = videoAddresses(model);
  if (json) result(`${JSON.stringify({ videos })}\n`);
  else
    for (const { entry, title, video, address, samples } of videos)
      result(
        `${entry}  ${title}\n   video   ${video}\n   entry   ` +
          `${address}\n${samples.map((one) => `   ${one.sample.padEnd(7)} ${one.address}\n`).join('')}`,
      );
  return 0;
}

async function printOne(
  model: JournalModel,
  number: number,
  { values, json }: Given,
  { result, aside }: Streams,
): Promise<ExitCode> {
  const { blurb } = await import('../site/blurb.js');
  const made = blurb(model, number, {
    video: counted('video', values.video),
    length: counted('length', values.length),
    comment: values.comment === true,
  });
  if (!made.ok) {
    const { code, message, cure } = made.fault;
    if (json) result(`${JSON.stringify({ error: { code, message, cure } })}\n`);
    else aside(`${message} ${cure ?? ''}\n`);
    return 1;
  }
  const { address, text, chapters, leftOut } = made.value;
  if (json) {
    result(`${JSON.stringify({ entry: number, address, text, chapters, leftOut })}\n`);
    return 0;
  }
  result(`${text}\n`);
  if (leftOut.length > 0)
    aside(`Left out to keep within ${String(values.length)} characters: ${leftOut.join(', ')}.\n`);
  if (!values.comment && !chapters.taken && chapters.why)
    aside(`A host would not make chapters of the moments: ${chapters.why}.\n`);
  return 0;
}

export const command: Command = {
  name: 'blurb',
  summary: 'text for a video’s description: answer, links, hazards, chapters',
  help: `
Use: masstone blurb N [--video K] [--length CHARACTERS | --comment]
     masstone blurb --all

Prints plain text to paste under a video: the answer, its permanent address, the samples, the hazards in
one line, cautions, chapters, the series, entries before it.

  --video K    which of the entry's videos the moments are of (default: the first)
  --length N   at most N characters; whole parts are left out, in this order: pigment, earlier
               entries, support link, series, samples, chapters, address (the hazards end in
               it), cautions (a short one stays), answer. The hazards stay. What is left out is said.
  --comment    the short form: answer, address, hazards
  --all        every video of the journal with the addresses its description can link to

Chapters begin at 0:00, are at least three and stand ten seconds apart; where they cannot, the reason is said.

With --json: {entry, address, text, chapters: {lines, taken, why?}, leftOut}; with --all {videos: [{entry,
title, video, address, samples: [{sample, address}]}]}.`,
  options: {
    video: { type: 'string' },
    length: { type: 'string' },
    comment: { type: 'boolean', default: false },
    all: { type: 'boolean', default: false },
  },
  async run(given, streams) {
    const { values, positionals, journal, json } = given;
    const [word, ...more] = positionals;
    const all = values.all === true;
    if (all ? word !== undefined : word === undefined || !/^\d+$/.test(word) || more.length > 0)
      throw new WrongUse('blurb takes the number of one entry, or --all: masstone blurb 14.');
    for (const option of ['video', 'length']) counted(option, values[option]);
    const [{ openJournal, hasErrors }, { printRemarks, remarksAsJson }, kept] = await Promise.all([
      import('../open.js'),
      import('../journal/index.js'),
      keptByPublication(journal),
    ]);
    const { model, remarks } = await openJournal(journal, { drafts: true, kept });
    if (!model || model.journal.stoodIn) {
      const { reason, note } = remarks.find(ofSettings) ?? remarks[0] ?? {};
      const error = { code: 'no-journal', message: reason ?? 'There is no journal here.', cure: note };
      if (json) streams.result(`${JSON.stringify({ error, remarks: remarksAsJson(remarks) })}\n`);
      else streams.aside(printRemarks(remarks, shownPath(journal)));
      return 1;
    }
    if (all) return printAll(model, json, streams);
    const own = remarks.filter((one) => model.numberOfFile.get(one.file) === Number(word));
    if (hasErrors(own)) streams.aside(printRemarks(own, shownPath(journal)));
    return printOne(model, Number(word), given, streams);
  },
};
