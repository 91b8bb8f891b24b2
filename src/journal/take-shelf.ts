// A cupboard list as a spreadsheet saves it (CSV), turned into reagents for the shelf. Nothing that stands there is
// written over.
import { parse } from 'csv-parse/sync';
import { slug } from 'github-slugger';
import { stringify } from 'yaml';
import { bad, good, type Outcome } from '../outcome.js';
import { shelfHeadingsTable, type ShelfHeadingsRow } from '../tables/compiled/journal/shelf-headings.js';
import { once } from '../once.js';
import { totalWordsTable } from '../tables/compiled/journal/total-words.js';
import type { Shelf } from './entry.js';
import { meantBy, refusal, saysBlank } from './check.js';
import { shelfReagentSchema } from './schema.js';
import { twinOf, type JarWritten } from './twin-jars.js';
import { reagentIdPattern } from './values.js';

type Key = ShelfHeadingsRow['key'];

/** A column of the list and what became of it. */
export interface ColumnTaken {
  readonly heading: string;
  /** The key of the shelf that it stands for; absent where it is not read. */
  readonly key?: Key;
}

/** Something left out or assumed, with its place in the list (line and column of the list, from 1). */
export interface TakeNote {
  readonly line: number;
  readonly column?: number;
  readonly message: string;
}

/** One reagent of the list. */
export interface ReagentTaken {
  readonly id: string;
  readonly line: number;
  readonly fields: Readonly<Record<string, string | readonly string[]>>;
  /** Id of the reagent on the shelf that it is already; it is then not added. */
  readonly already?: string;
}

export interface ShelfTaken {
  readonly columns: readonly ColumnTaken[];
  readonly reagents: readonly ReagentTaken[];
  readonly notes: readonly TakeNote[];
  /** YAML to add to shelf.yaml: the reagents that are not there yet; empty where all are. */
  readonly yaml: string;
}

const mostRows = 5000;
const delimiters = [',', ';', '\t', '|'] as const;

/** A table of Markdown as lines of cells between bars: without the outer bars, and the line below its head. */
const withoutBars = (text: string): string =>
  /^\s*\|.*\|\s*$/m.test(text)
    ? text
        .split(/\r?\n/)
        .map((line) => (/^[\s|:-]+$/.test(line) ? '' : line.trim().replace(/^\||\|$/g, '')))
        .join('\n')
    : text;

/** The mark between cells: the one that parts the heading line into most. */
function delimiterOf(text: string): string {
  const line = text.split(/\r?\n/).find((one) => one.trim() !== '') ?? '';
  return [...delimiters].sort((a, b) => line.split(b).length - line.split(a).length)[0]!;
}

interface Line {
  readonly cells: readonly string[];
  readonly line: number;
}

function linesOf(written: string): Outcome<readonly Line[]> {
  const text = withoutBars(written);
  try {
    const rows = parse(text, {
      delimiter: delimiterOf(text),
      bom: true,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      to: mostRows + 2,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return good(rows.map(({ record, info }) => ({ cells: record, line: info.lines })));
  } catch (error) {
    const { lines } = error as { lines?: number };
    return bad({
      code: 'csv',
      ...(lines !== undefined && { line: lines }),
      message: 'The list cannot be read as CSV: a quotation mark is not closed, or stands inside a cell.',
      cure: 'Save the list as CSV again from the spreadsheet.',
    });
  }
}

const plain = (heading: string): string =>
  heading
    .normalize('NFC')
    .toLowerCase()
    .replace(/[([].*$/, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** What the columns stand for; of two with one meaning the first counts. */
function columnsOf(headings: readonly string[]): readonly ColumnTaken[] {
  const known = new Map(shelfHeadingsTable().map(({ heading, key }) => [heading, key]));
  const seen = new Set<Key>();
  return headings.map((heading) => {
    const key = known.get(plain(heading));
    if (key === undefined || (seen.has(key) && key !== 'note')) return { heading };
    seen.add(key);
    return { heading, key };
  });
}

/** An id in the form of the shelf, not taken yet. */
function idFor(words: string, taken: ReadonlySet<string>): string {
  const plainWords = words
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, ' ');
  const short = slug(plainWords.trim()).replace(/-+/g, '-').slice(0, 60).replace(/-$/, '');
  const base = /[a-z]/.test(short) ? short : `reagent${short === '' ? '' : `-${short}`}`;
  let id = base;
  for (let next = 2; taken.has(id); next += 1) id = `${base}-${next}`;
  return id;
}

/** The currency that the heading of the prices names: `Cost (EUR)`. */
const currencyIn = (columns: readonly ColumnTaken[]): string | undefined =>
  /[([]\s*([A-Z]{3}|[€£$¥])\s*[)\]]/.exec(columns.find(({ key }) => key === 'price')?.heading ?? '')?.[1];

/** A price for a pack: `4.20` and `500 g` are `4.20 EUR / 500 g`. */
function priceOf(price: string, pack: string | undefined, currency: string | undefined): string | undefined {
  if (/\/|\bper\b/.test(price)) return price;
  if (pack === undefined) return undefined;
  const number = price.replace(/(\d),(\d{1,2})(?!\d)/, '$1.$2');
  const withCurrency = /^[\d.]+$/.test(number) && currency ? `${number} ${currency}` : number;
  return `${withCurrency} / ${pack}`;
}

interface Row {
  readonly line: number;
  readonly values: ReadonlyMap<Key, { readonly text: string; readonly column: number }>;
}

function rowOf({ cells, line }: Line, columns: readonly ColumnTaken[]): Row {
  const values = new Map<Key, { text: string; column: number }>();
  for (const [at, { heading, key }] of columns.entries()) {
    const text = (cells[at] ?? '').replace(/\s+/g, ' ').trim();
    if (key === undefined || saysBlank(text)) continue;
    const before = values.get(key);
    const said = plain(heading) === 'location' || plain(heading) === 'where' ? `kept: ${text}` : text;
    values.set(key, before ? { ...before, text: `${before.text}; ${said}` } : { text: said, column: at + 1 });
  }
  return { line, values };
}

const fieldKeys = [
  'name',
  'also-called',
  'formula',
  'cas',
  'strength',
  'purity',
  'density',
  'price',
  'supplier',
  'grade',
  'note',
] as const;

function fieldsOf(
  row: Row,
  currency: string | undefined,
): { readonly fields: ReagentTaken['fields']; readonly notes: readonly TakeNote[] } {
  const fields: Record<string, string | readonly string[]> = {};
  const notes: TakeNote[] = [];
  for (const key of fieldKeys) {
    const cell = row.values.get(key);
    if (!cell) continue;
    const written = valueOf(key, cell.text, row.values.get('pack')?.text, currency);
    const meant = written === undefined ? undefined : meantBy(shelfReagentSchema.shape[key], written);
    const value = meant ?? written;
    const of = `${key} of ${row.values.get('name')?.text ?? 'a reagent'}`;
    if (meant !== undefined)
      notes.push({ line: row.line, column: cell.column, message: `${of}: '${cell.text}' is read as ${meant}.` });
    const why =
      value === undefined
        ? 'it needs the size of the pack it is for'
        : refusal(shelfReagentSchema.shape[key], value, 'it');
    if (why === undefined) fields[key] = value!;
    else
      notes.push({
        line: row.line,
        column: cell.column,
        message: `${of} left out: ${why}`,
      });
  }
  return { fields, notes };
}

function valueOf(
  key: (typeof fieldKeys)[number],
  text: string,
  pack: string | undefined,
  currency: string | undefined,
): string | readonly string[] | undefined {
  if (key === 'also-called')
    return text
      .split(/[;,|]/)
      .map((name) => name.trim())
      .filter(Boolean);
  if (key === 'price') return priceOf(text, pack, currency);
  return text;
}

/** The reagent on the shelf that a row is: by its own id, its name, or its CAS number at the same strength. */
function alreadyThere(row: Row, shelf: Shelf): string | undefined {
  const same = (one: string | undefined, other: string | undefined): boolean =>
    one !== undefined && one.trim().toLowerCase() === other?.trim().toLowerCase();
  const [id, cas, name, strength] = (['id', 'cas', 'name', 'strength'] as const).map(
    (key) => row.values.get(key)?.text,
  );
  return [...shelf.reagents].find(
    ([key, reagent]) =>
      same(key, id) ||
      (id === undefined && same(key, name)) ||
      (same(reagent.cas, cas) && (reagent.strength ?? '') === (strength ?? '')) ||
      [reagent.name, ...(reagent['also-called'] ?? [])].some((one) => same(one, name)),
  )?.[0];
}

/**
 * Reads a cupboard list.
 * Errors: `csv`, `no-rows`, `no-name-column`, `too-many`. What does not fit the format in one cell is left out and
 * said in `notes`.
 * @param shelf what stands on the shelf already: it is told apart and kept
 * @param currency the journal's, for prices that leave it out
 * @example takeShelf('name,formula\nblue vitriol,CuSO4·5H2O\n', shelf).value.reagents[0].id // 'blue-vitriol'
 */
export function takeShelf(text: string, shelf: Shelf, currency?: string): Outcome<ShelfTaken> {
  const lines = linesOf(text);
  if (!lines.ok) return lines;
  const [head, ...rows] = lines.value;
  if (!head || rows.length === 0)
    return bad({
      code: 'no-rows',
      message: 'The list has no rows below its headings.',
      cure:
        'Put headings in the first line (name, formula, CAS, strength, ' +
        'price, pack …) and one reagent in each further line.',
    });
  if (rows.length > mostRows)
    return bad({ code: 'too-many', message: `The list has more than ${mostRows} rows.`, cure: 'Take it in in parts.' });
  const columns = columnsOf(head.cells);
  if (!columns.some(({ key }) => key === 'name'))
    return bad({
      code: 'no-name-column',
      line: head.line,
      message: `No column of the list is known to hold names: ${head.cells.map((cell) => `'${cell}'`).join(', ')}.`,
      expected: 'a heading such as name, substance, chemical or reagent',
      cure: 'Call the column with the names `name`.',
    });
  return good(
    reagentsOf(
      rows.map((row) => rowOf(row, columns)),
      columns,
      shelf,
      currencyIn(columns) ?? currency,
    ),
  );
}

/** The row in which a spreadsheet adds up: it says neither what a thing is made of nor how strong it is. */
const isTotal = (name: string, { values }: Row): boolean =>
  totals().has(plain(name)) &&
  !(['formula', 'cas', 'strength', 'purity', 'density'] as const).some((key) => values.has(key));

const totals = once(() => new Set(totalWordsTable().map(({ word }) => word)));

/** What of a jar tells which substance it holds. */
function writtenJar(id: string, name: string, fields: Readonly<Record<string, unknown>>): JarWritten {
  const texts = (['formula', 'cas', 'strength'] as const).filter((key) => typeof fields[key] === 'string');
  return { id, name, ...Object.fromEntries(texts.map((key) => [key, fields[key] as string])) };
}

function reagentsOf(
  rows: readonly Row[],
  columns: readonly ColumnTaken[],
  shelf: Shelf,
  currency: string | undefined,
): ShelfTaken {
  const taken = new Set(shelf.reagents.keys());
  const notes: TakeNote[] = [];
  const reagents: ReagentTaken[] = [];
  const jars = [...shelf.reagents].map(([id, jar]) => writtenJar(id, jar.name, jar));
  for (const row of rows) {
    const name = row.values.get('name')?.text;
    if (row.values.size === 0) continue;
    if (name === undefined) {
      notes.push({ line: row.line, message: 'A row without a name is left out.' });
      continue;
    }
    if (isTotal(name, row)) {
      notes.push({ line: row.line, message: `'${name}' is the sum of the list, and is left out.` });
      continue;
    }
    const { fields, notes: more } = fieldsOf(row, currency);
    notes.push(...more);
    const already = alreadyThere(row, shelf);
    const own = row.values.get('id')?.text ?? '';
    const id = already ?? (reagentIdPattern.test(own) && !taken.has(own) ? own : idFor(own || name, taken));
    taken.add(id);
    const jar = writtenJar(id, name, fields);
    const twin = already === undefined ? twinOf(jar, jars) : undefined;
    if (twin)
      notes.push({
        line: row.line,
        message:
          `'${name}' holds the same substance as ${twin.id} (${twin.name}), and is added as a jar of its own. ` +
          'If it is the same jar, take the line out of the list.',
      });
    if (already === undefined) jars.push(jar);
    reagents.push({ id, line: row.line, fields, ...(already !== undefined && { already }) });
  }
  const added = reagents.filter(({ already }) => already === undefined);
  const yaml = added.map(({ id, fields }) => stringify({ [id]: fields }, { lineWidth: 0 })).join('');
  return { columns, reagents, notes, yaml };
}

/**
 * Whether a text is a list of reagents: its first line has a heading for names and one more that the shelf knows.
 * @example isCupboardList('Name;CAS\nalum;7784-24-9\n') // true
 */
export function isCupboardList(text: string): boolean {
  const head = linesOf(text.split(/\r?\n/).slice(0, 1).join(''));
  const keys = head.ok && head.value[0] ? columnsOf(head.value[0].cells).flatMap(({ key }) => key ?? []) : [];
  return keys.includes('name') && keys.length > 1;
}
