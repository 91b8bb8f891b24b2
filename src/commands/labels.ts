// masstone labels: sheets of labels for samples, lots and jars, as one file that the browser prints.
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { JournalModel } from '../crosslinks/model.js';
import type { Outcome } from '../outcome.js';
import type { Labelled } from '../reckoning/label.js';
import type { Sheet } from '../site/labels/paper.js';
import type { LabelSheets, LaidOut } from '../site/labels/sheets.js';
import { shownPath, WrongUse, type Command, type ExitCode, type Given, type Streams } from './command.js';
import { openedFor } from './opened.js';

/** What is labelled: exactly one of an entry's number, a lot and a jar. */
type Wanted =
  | { readonly kind: 'entry'; readonly number: number; readonly sample?: string }
  | { readonly kind: 'lot'; readonly lot: string }
  | { readonly kind: 'jar'; readonly id: string };

const textOf = (value: unknown): string | undefined => (value === undefined ? undefined : String(value));

function wantedOf({ values, positionals }: Given): Wanted {
  const [lot, jar, sample] = [textOf(values.lot), textOf(values.shelf), textOf(values.sample)];
  const ways = Number(lot !== undefined) + Number(jar !== undefined) + Number(positionals.length > 0);
  if (ways !== 1 || positionals.length > 1)
    throw new WrongUse('labels takes the number of one entry, or --lot 9/A, or --shelf ID: masstone labels 14.');
  if (sample !== undefined && positionals.length === 0)
    throw new WrongUse('--sample goes with the number of an entry; a lot names its own: --lot 9/A.');
  if (jar !== undefined) return { kind: 'jar', id: jar };
  if (lot !== undefined) {
    if (!/^[1-9]\d{0,5}\/[A-Za-z0-9-]+$/.test(lot))
      throw new WrongUse(`--lot takes the entry’s number, a slash and the sample: 9/A, not '${lot}'.`);
    return { kind: 'lot', lot };
  }
  if (!/^[1-9]\d{0,5}$/.test(positionals[0]!))
    throw new WrongUse(`An entry is named by its number, not '${positionals[0]}': masstone labels 14.`);
  return { kind: 'entry', number: Number(positionals[0]), ...(sample !== undefined && { sample }) };
}

const mostAsked = 1000;

function countOf(value: unknown): number | undefined {
  if (value === undefined) return undefined;
  const count = /^\d{1,4}$/.test(String(value)) ? Number(value) : 0;
  if (count < 1 || count > mostAsked)
    throw new WrongUse(`--count takes a number from 1 to ${mostAsked}, not '${String(value)}'.`);
  return count;
}

/** Volume of a pack, mL. */
function holdsOf(value: unknown, usual: number): number {
  if (value === undefined) return usual;
  const match = /^\s*(\d+(?:\.\d+)?)\s*(mL|L)\s*$/i.exec(String(value));
  const millilitres = Number(match?.[1] ?? 0) * (match?.[2]?.toLowerCase() === 'l' ? 1000 : 1);
  if (millilitres > 0 && millilitres <= 1e6) return millilitres;
  throw new WrongUse(`--holds takes the volume of the pack, such as 10mL, not '${String(value)}'.`);
}

const oneLine = (option: string, value: unknown): string | undefined => {
  const text = textOf(value)?.trim();
  if (text === undefined) return undefined;
  if (text === '' || text.length > 60 || /\p{Cc}/u.test(text))
    throw new WrongUse(`--${option} takes a few words, such as "2.00 g".`);
  return text;
};

/** mL: bottles of reagents are taken to be large, so that nothing is left off. */
const usualBottle = 500;

interface Asked {
  readonly wanted: Wanted;
  readonly sheets: readonly Sheet[];
  readonly millilitres: number;
  readonly amount?: string;
  readonly count?: number;
}

async function askedOf(given: Given): Promise<Asked> {
  const { values } = given;
  const wanted = wantedOf(given);
  const ofEntry = wanted.kind === 'entry';
  const [count, amount] = [countOf(values.count), oneLine('amount', values.amount)];
  const { readSheets, usualSizes } = await import('../site/labels/paper.js');
  const [size, grid, paper] = [textOf(values.size), textOf(values.grid), textOf(values.paper)];
  const { usualVial } = await import('../site/labels/page.js');
  const sheets = readSheets(
    {
      ...(size !== undefined && { size }),
      ...(grid !== undefined && { grid }),
      ...(paper !== undefined && { paper }),
    },
    usualSizes[ofEntry ? 'vial' : 'bottle'],
  );
  if (!sheets.ok) throw new WrongUse(`${sheets.fault.message} ${sheets.fault.cure ?? ''}`);
  return {
    wanted,
    sheets: sheets.value,
    millilitres: holdsOf(values.holds, ofEntry ? usualVial : usualBottle),
    ...(amount !== undefined && { amount }),
    ...(count !== undefined && { count }),
  };
}

async function thingsOf(model: JournalModel, wanted: Wanted): Promise<Outcome<readonly Labelled[]>> {
  const { labelledJar, labelledLot, labelledSamples } = await import('../site/labels/things.js');
  if (wanted.kind === 'jar') return labelledJar(model, wanted.id);
  if (wanted.kind === 'lot') return labelledLot(model, wanted.lot);
  return labelledSamples(model, wanted.number, wanted.sample);
}

async function sheetsOf(model: JournalModel, asked: Asked): Promise<Outcome<LabelSheets>> {
  const things = await thingsOf(model, asked.wanted);
  if (!things.ok) return things;
  const [{ labelSheets }, { splitAddress }] = await Promise.all([
    import('../site/labels/sheets.js'),
    import('../site/context.js'),
  ]);
  const { settings } = model.journal;
  const { origin, base } = splitAddress(settings.address);
  const names = things.value.map(({ facts }) => facts.id).join(', ');
  return labelSheets(things.value, {
    title: `Labels: ${names}`,
    language: settings.language,
    maker: settings.author,
    site: `${origin}${base}`,
    sheets: asked.sheets,
    pack: { millilitres: asked.millilitres, forPublic: true, layout: 'one-label' },
    ...(asked.amount !== undefined && { amount: asked.amount }),
    ...(asked.count !== undefined && { count: asked.count }),
  });
}

function jsonOfLabel({ labelled, rules, layout, leftOut, count, faces }: LaidOut) {
  const { facts } = labelled;
  const { elements, packaging, transport } = rules;
  const code = faces.flatMap((face) => face.code ?? [])[0];
  return {
    id: facts.id,
    name: facts.name,
    date: facts.date ?? null,
    count,
    layout,
    leftOut,
    ...(code && {
      code: { address: code.code.address, level: code.code.level, version: code.code.version, module: code.module },
    }),
    signalWord: elements.signalWord ?? null,
    pictograms: elements.pictograms,
    statements: elements.statements.map(({ code: statement, text }) => ({ code: statement, text })),
    precautionary: elements.precautionary.map(({ code: statement, text }) => ({ code: statement, text })),
    leftOff: elements.leftOff,
    mustStay: elements.mustStay,
    unknown: elements.unknown,
    rules: elements.rules.map(({ id, text, place, basis }) => ({ id, text, place, basis })),
    packaging: {
      tactileWarning: packaging.tactileWarning,
      childResistantClosure: packaging.childResistantClosure,
    },
    transport: {
      classes: transport.classes.map(({ unClass, words, codes }) => ({ class: unClass, words, codes })),
      unknown: transport.unknown,
      words: transport.words,
    },
  };
}

const jsonOf = (sheets: LabelSheets) => ({
  labels: sheets.labels.map(jsonOfLabel),
  sheet: {
    paper: sheets.sheet.paper,
    columns: sheets.sheet.columns,
    rows: sheets.sheet.rows,
    label: sheets.sheet.label,
    pages: sheets.pages.length,
  },
  notes: sheets.general,
});

/** What is said on stderr: what the labels leave out, and what must be asked before posting. */
function said({ notes, transport }: LabelSheets): string {
  const block = ({ of, sentences }: LabelSheets['notes'][number]): string =>
    `${of}\n${sentences.map((sentence) => `  ${sentence}\n`).join('')}`;
  return `${notes.map(block).join('')}\nBefore it is posted\n${transport.map(block).join('')}`;
}

async function write(sheets: LabelSheets, given: Given, streams: Streams): Promise<ExitCode> {
  const { labelsHtml } = await import('../site/labels/document.js');
  const html = labelsHtml(sheets);
  const to = textOf(given.values.to);
  if (to !== undefined) writeFileSync(resolve(to), html);
  if (given.json) {
    const where = to === undefined ? { html } : { file: to };
    streams.result(`${JSON.stringify({ ...jsonOf(sheets), ...where })}\n`);
    return 0;
  }
  streams.aside(said(sheets));
  streams.result(to === undefined ? html : `${shownPath(resolve(to))}\n`);
  return 0;
}

export const command: Command = {
  name: 'labels',
  summary: 'sheets of labels for samples, lots and jars, with hazards and a QR code',
  help: `
Use: masstone labels N [--sample A] [options]
     masstone labels --lot 9/A [options]
     masstone labels --shelf caustic-soda [options]

Writes one file of HTML that needs no other, for a browser to print: sheets of labels with cut lines, then a page
of what they leave out and what must be read before posting, which is printed on stderr too.

  --sample A        only this sample (default: every sample of the entry)
  --size 40x20mm    width and height of a label (default: the smallest of a few on which one label holds all)
  --grid 4x12       labels across and down; without --size they fill the paper
  --paper A4        or Letter
  --count 12        labels of each sample (default: as many as fill a sheet)
  --holds 10mL      what the pack holds at most (default: 10mL for samples, 500mL for lots and jars); above
                    125 mL no statement may be left off
  --amount "2 g"    printed as the amount (default: room to write it)
  --to FILE         writes the file there (default: to stdout)

A label has pigment, number, date, formula, Colour Index name, swatch, amount, maker, a QR code of the permanent
address, and what CLP asks for: pictograms of 1 cm² or more, signal word, H and P statements. Where one label has
no room for it, each pack has a front and a label of hazards; where even that is too small, the pictograms stay
on the pack and an outer label has the rest. What is unknown is said on the label.

Examples
  masstone labels 14 --sample A --size 40x20mm --grid 4x12 --to labels.html
  masstone labels --shelf lye --holds 500mL --to lye.html

With --json: {labels: [{id, name, date, count, layout, leftOut, code, signalWord, pictograms, statements,
precautionary, leftOff, mustStay, unknown, rules, packaging, transport}], sheet, notes, file or html}.
Exit codes: 0 written, 1 not written, 2 wrong use.`,
  options: {
    sample: { type: 'string' },
    size: { type: 'string' },
    grid: { type: 'string' },
    paper: { type: 'string' },
    count: { type: 'string' },
    holds: { type: 'string' },
    amount: { type: 'string' },
    lot: { type: 'string' },
    shelf: { type: 'string' },
    to: { type: 'string' },
  },
  async run(given, streams) {
    const asked = await askedOf(given);
    const model = await openedFor(given.journal, given.json, streams);
    if (!model) return 1;
    const sheets = await sheetsOf(model, asked);
    if (sheets.ok) return write(sheets.value, given, streams);
    const { code, message, cure } = sheets.fault;
    if (given.json) streams.result(`${JSON.stringify({ error: { code, message, cure } })}\n`);
    else streams.aside(`${message} ${cure ?? ''}\n`);
    return 1;
  },
};
