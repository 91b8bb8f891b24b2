// masstone take: a cupboard list becomes reagents of the shelf, instrument files become lines of an entry.
import { copyFileSync, constants, existsSync, mkdirSync, readFileSync, statSync, appendFileSync } from 'node:fs';
import { basename, extname, join, relative, resolve, sep } from 'node:path';
import type { ReadingsTaken } from '../journal/take-readings.js';
import type { ShelfTaken } from '../journal/take-shelf.js';
import type { Fault } from '../outcome.js';
import {
  shownPath,
  WrongUse,
  type Command,
  type ExitCode,
  type Given,
  type JsonError,
  type Streams,
} from './command.js';

const largest = 8 * 1024 * 1024;

interface FileRead {
  readonly path: string;
  readonly bytes: Uint8Array;
}

type ReadOutcome = { readonly ok: true; readonly file: FileRead } | { readonly ok: false; readonly fault: Fault };

function readFile(path: string): ReadOutcome {
  const name = shownPath(path);
  const cannot = (message: string, cure: string): ReadOutcome => ({
    ok: false,
    fault: { code: 'file', message: `${name}: ${message}`, cure },
  });
  try {
    const stats = statSync(path);
    if (!stats.isFile()) return cannot('it is no file.', 'Name the files themselves: masstone take spectra/*.txt.');
    if (stats.size > largest) return cannot('it is larger than 8 MB.', 'Export fewer readings into one file.');
    return { ok: true, file: { path, bytes: readFileSync(path) } };
  } catch {
    return cannot('it cannot be read.', 'Check its name, and that you may read it.');
  }
}

function tellFault(fault: Fault, json: boolean, { result, aside }: Streams): 1 {
  const { code, message, column, expected, cure } = fault;
  if (json) result(`${JSON.stringify({ error: { code, message, column, expected, cure } } satisfies JsonError)}\n`);
  else aside(`${message}${fault.line === undefined ? '' : ` (line ${fault.line})`}\n${cure ? `→ ${cure}\n` : ''}`);
  return 1;
}

function shelfText({ columns, reagents, notes }: ShelfTaken, written: boolean): string {
  const fresh = reagents.filter(({ already }) => already === undefined);
  const known = reagents.filter(({ already }) => already !== undefined);
  const used = columns.filter(({ key }) => key !== undefined).map(({ heading, key }) => `${heading} → ${key}`);
  const unused = columns
    .filter(({ key, heading }) => key === undefined && heading !== '')
    .map(({ heading }) => heading);
  return [
    `Columns: ${used.join(', ')}.`,
    ...(unused.length > 0 ? [`Not read: ${unused.join(', ')}.`] : []),
    ...notes.map(
      ({ line, column, message }) => `  line ${line}${column === undefined ? '' : `, column ${column}`}: ${message}`,
    ),
    ...(known.length > 0
      ? [`On the shelf already, left as they are: ${known.map(({ already }) => already).join(', ')}.`]
      : []),
    written
      ? `${fresh.length} added to the shelf: ${fresh.map(({ id }) => id).join(', ') || 'none'}.`
      : `${fresh.length} would be added: ${fresh.map(({ id }) => id).join(', ') || 'none'}. To add them: the ` +
        'same with --write.',
    '',
  ].join('\n');
}

async function takeList(file: FileRead, { journal, json, values }: Given, streams: Streams): Promise<ExitCode> {
  const [{ takeShelf }, { readShelf, readSettings }, { decodeText }] = await Promise.all([
    import('../journal/take-shelf.js'),
    import('../journal/yaml-file.js'),
    import('../colour/instruments/text.js'),
  ]);
  const shelfFile = join(journal, 'shelf.yaml');
  const textOf = (path: string): string => (existsSync(path) ? readFileSync(path, 'utf8') : '');
  const before = textOf(shelfFile);
  const { shelf, remarks } = readShelf('shelf.yaml', before);
  const error = remarks.find(({ fatal }) => fatal === true);
  if (error)
    return tellFault(
      {
        code: 'shelf',
        message: `shelf.yaml has an error, so that nobody can tell what is on it: ${error.reason}`,
        cure: 'Mend it first: masstone proof tells where.',
      },
      json,
      streams,
    );
  const settingsFile = textOf(join(journal, 'journal.yaml'));
  const { settings } = readSettings('journal.yaml', settingsFile);
  const taken = takeShelf(decodeText(file.bytes), shelf, settings.currency);
  if (!taken.ok) return tellFault(taken.fault, json, streams);
  const write = values.write === true && taken.value.yaml !== '';
  if (write) {
    mkdirSync(journal, { recursive: true });
    appendFileSync(shelfFile, `${before === '' || before.endsWith('\n') ? '' : '\n'}${taken.value.yaml}`);
  }
  if (json) streams.result(`${JSON.stringify({ ...taken.value, written: write })}\n`);
  else {
    streams.aside(shelfText(taken.value, values.write === true));
    if (values.write !== true) streams.result(taken.value.yaml);
  }
  return 0;
}

/** Where a file stands below the journal, or where it would be copied to. */
function placeIn(journal: string, path: string): { readonly below: string; readonly copy: boolean } {
  const below = relative(journal, path);
  if (!below.startsWith('..') && !/^[A-Za-z]:/.test(below)) return { below: below.split(sep).join('/'), copy: false };
  return { below: `spectra/${basename(path)}`, copy: true };
}

interface Placed extends ReadingsTaken {
  readonly from: string;
  readonly copy: boolean;
}

/** Copies what lies outside the journal; a file that is there already is never written over. */
function copyIn(journal: string, placed: readonly Placed[]): Fault | undefined {
  for (const { path, from, copy } of placed) {
    if (!copy) continue;
    const target = join(journal, path);
    if (existsSync(target) && readFileSync(target).equals(readFileSync(from))) continue;
    try {
      mkdirSync(join(target, '..'), { recursive: true });
      copyFileSync(from, target, constants.COPYFILE_EXCL);
    } catch {
      return {
        code: 'exists',
        message: `${shownPath(target)} is another file, or cannot be written; nothing was written over.`,
        cure: `Give ${shownPath(from)} another name.`,
      };
    }
  }
  return undefined;
}

async function takeReadings(
  files: readonly FileRead[],
  { journal, json, values }: Given,
  streams: Streams,
): Promise<ExitCode> {
  const [{ readReadings, samplesIn }, { samplesFor, linesToPaste }] = await Promise.all([
    import('../colour/index.js'),
    import('../journal/take-readings.js'),
  ]);
  const placed: Placed[] = [];
  const refused: { readonly file: string; readonly message: string; readonly cure?: string }[] = [];
  for (const { path, bytes } of files) {
    const read = readReadings(bytes, 'all');
    const { below, copy } = placeIn(journal, path);
    if (read.ok) placed.push({ path: below, from: path, copy, sets: samplesIn(read.value) });
    else refused.push({ file: shownPath(path), message: read.fault.message, cure: read.fault.cure });
  }
  const write = values.write === true;
  const fault = write ? copyIn(journal, placed) : undefined;
  if (fault) return tellFault(fault, json, streams);
  const { samples, notes } = samplesFor(placed);
  const lines = samples.length > 0 ? linesToPaste(samples) : '';
  const outside = placed.filter(({ copy }) => copy).map(({ path }) => path);
  if (json)
    streams.result(
      `${JSON.stringify({ samples, notes, lines, refused, outside, written: write && outside.length > 0 })}\n`,
    );
  else {
    for (const note of notes) streams.aside(`${note}\n`);
    for (const { file, message, cure } of refused) streams.aside(`${file}: ${message}\n${cure ? `→ ${cure}\n` : ''}`);
    if (outside.length > 0)
      streams.aside(
        write
          ? `Copied into the journal: ${outside.join(', ')}.\n`
          : `These lie outside the journal, and with --write are copied to: ${outside.join(', ')}.\n`,
      );
    streams.result(lines);
  }
  return refused.length > 0 ? 1 : 0;
}

/** A list of reagents is a CSV whose headings name some; everything else is a file of readings. */
async function isList({ path, bytes }: FileRead): Promise<boolean> {
  if (!/^\.(?:csv|tsv|txt)$/i.test(extname(path))) return false;
  const [{ isCupboardList }, { decodeText }] = await Promise.all([
    import('../journal/take-shelf.js'),
    import('../colour/instruments/text.js'),
  ]);
  return isCupboardList(decodeText(bytes));
}

export const command: Command = {
  name: 'take',
  summary: 'takes in a cupboard list or instrument files: what to add, nothing written over',
  help: `
Use: masstone take LIST.csv [--write]
     masstone take FILE… [--write]

LIST.csv is a list of what is in the cupboard, as a spreadsheet saves it: headings in its first line
(name, formula, CAS, strength, purity, price, pack, supplier, note …, in any order), a reagent in each
further line. Prints what would be added to shelf.yaml; with --write it is added at its end. What is on the
shelf already, by id, name, or CAS number at the same strength, is left as it is.

FILE… are instrument files (spectra or Lab). Prints the lines to paste into an entry: a sample for each
file, named by the letter in its name (14-A.csv), the rest in order. Readings of a file whose names differ
in their count alone are one sample where they are named as the file is (set: all), else each is one, by
the letter in its name. What names leave open is said on stderr. With --write, files that lie outside the
journal are copied into its spectra/; none is ever written over.

  masstone take cupboard.csv
  masstone take spectra/*.txt

With --json, of a list: {columns: [{heading, key?}], reagents: [{id, line, fields, already?}], notes:
[{line, column?, message}], yaml, written}; of files: {samples: [{sample, path, set?, entry?}], notes,
lines, refused: [{file, message, cure?}], outside: [paths], written}.`,
  options: { write: { type: 'boolean', default: false } },
  async run(given, streams) {
    if (given.positionals.length === 0)
      throw new WrongUse('take needs a cupboard list or instrument files: masstone take cupboard.csv');
    const read = given.positionals.map((path) => readFile(resolve(path)));
    const failed = read.find((one) => !one.ok);
    if (failed && !failed.ok) return tellFault(failed.fault, given.json, streams);
    const files = read.flatMap((one) => (one.ok ? [one.file] : []));
    const lists = await Promise.all(files.map(isList));
    if (!lists.includes(true)) return takeReadings(files, given, streams);
    if (files.length > 1)
      throw new WrongUse(
        `Take in the list ${shownPath(files[lists.indexOf(true)]!.path)} alone, and the other files apart.`,
      );
    return takeList(files[0]!, given, streams);
  },
};
