// Where in a file a value stands: looked for only when a remark needs it, line by line where that tells it, else by
// parsing again what stands around it.
import { LineCounter, isMap, isScalar, isSeq, parseDocument, type Document, type Node, type YAMLMap } from 'yaml';
import type { Entry } from './entry.js';
import { remarksFrom, type Finding, type Path, type PlaceOf } from '../remarks/findings.js';
import { factsOf, remark, type Place, type Remark } from '../remarks/remark.js';
import { columnAsWritten, textAsWritten } from './as-written.js';
import { plainPlace } from './plain-place.js';
import { yamlOptions } from './yaml.js';

export type { Path } from '../remarks/findings.js';

interface Parsed {
  readonly document: Document.Parsed;
  readonly lines: LineCounter;
}

/** Documents parsed last, so that several remarks on one file parse it once. */
const parsed = new Map<string, Parsed>();
const remembered = 24;

function parseAgain(text: string): Parsed {
  let found = parsed.get(text);
  if (found) parsed.delete(text);
  else {
    const lines = new LineCounter();
    found = { document: parseDocument(text, { ...yamlOptions, lineCounter: lines }), lines };
    if (parsed.size >= remembered) parsed.delete(parsed.keys().next().value as string);
  }
  parsed.set(text, found);
  return found;
}

/**
 * The lines of one top-level key with the line they begin on, so that a place is found without parsing all the rest.
 * What stands under a key at the margin is indented, or is a list, a comment or a closing bracket.
 */
function linesOfKey(text: string, key: string): { readonly text: string; readonly line: number } | undefined {
  const start = text.startsWith(`${key}:`) ? 0 : text.indexOf(`\n${key}:`) + 1;
  if (start === 0 && !text.startsWith(`${key}:`)) return undefined;
  nextKey.lastIndex = start;
  const end = nextKey.exec(text)?.index ?? text.length;
  let line = 1;
  for (let at = text.indexOf('\n'); at >= 0 && at < start; at = text.indexOf('\n', at + 1)) line += 1;
  return { text: text.slice(start, end), line };
}
const nextKey = /\n(?=[^\s#\-\]}])/g;

/** The lines of one item of a list that stands in lines of its own under a key, and how many lines come before it. */
function linesOfItem(text: string, index: number): { readonly text: string; readonly before: number } | undefined {
  const lines = text.split('\n');
  if (!/^[^\s:]+:\s*(#.*)?$/.test(lines[0]!)) return undefined;
  const first = lines.findIndex((line, at) => at > 0 && /^\s*[^\s#]/.test(line));
  const dash = first < 0 ? undefined : /^ *-(?=\s|$)/.exec(lines[first]!)?.[0];
  if (dash === undefined) return undefined;
  const begins = lines.flatMap((line, at) =>
    at >= first && line.startsWith(dash) && /^(\s|$)/.test(line.slice(dash.length)) ? [at] : [],
  );
  const from = begins[index];
  return from === undefined ? undefined : { text: lines.slice(from, begins[index + 1]).join('\n'), before: from };
}

interface Spot {
  readonly node: unknown;
  /** In characters from the text's start; undefined: where the thing above it stands. */
  readonly offset: number | undefined;
}

const startOf = (node: unknown): number | undefined => (node as Node | null | undefined)?.range?.[0];

function spotInMap(map: YAMLMap, step: string, key: boolean): Spot | undefined {
  const pair = map.items.find((item) => isScalar(item.key) && String(item.key.value) === step);
  if (!pair) return undefined;
  const { value } = pair;
  const empty = isScalar(value) && value.range?.[0] === value.range?.[1];
  const valueStart = key || empty ? undefined : startOf(value);
  return { node: value, offset: valueStart ?? startOf(pair.key) };
}

/** One step down from a node; undefined where it leads nowhere. `key`: the place of the key, not of its value. */
function stepInto(node: unknown, step: string | number, key: boolean): Spot | undefined {
  if (isMap(node)) return spotInMap(node, String(step), key);
  const item = isSeq(node) ? node.items[Number(step)] : undefined;
  return item ? { node: item, offset: startOf(item) } : undefined;
}

/**
 * Offset in the text of the value at `path`, or of the nearest thing above it that exists; `key` asks for the key's own
 * place.
 */
function offsetOf({ document }: Parsed, path: Path, key: boolean): number {
  let node: unknown = document.contents;
  let offset = startOf(node) ?? 0;
  for (const [depth, step] of path.entries()) {
    const spot = stepInto(node, step, key && depth === path.length - 1);
    if (!spot) return offset;
    offset = spot.offset ?? offset;
    node = spot.node;
  }
  return offset;
}

/**
 * Place of a value in a YAML file that is not front matter (journal.yaml, shelf.yaml).
 * @param column `'key'` for the place of the key instead of the value's
 * @example placeInFile('shelf.yaml', shelf.text, ['blue-vitriol', 'price'])
 */
export function placeInFile(file: string, text: string, path: Path, at: 'value' | 'key' = 'value'): Place {
  const [top] = path;
  const part = typeof top === 'string' ? linesOfKey(text, top) : undefined;
  const plain = part && plainPlace(part.text.split('\n'), path, at);
  if (part && plain) return { file, line: part.line + plain.line, column: plain.column + 1 };
  const item = part && typeof path[1] === 'number' ? linesOfItem(part.text, path[1]) : undefined;
  if (part && item) {
    const again = parseAgain(item.text);
    const { line, col } = again.lines.linePos(offsetOf(again, [0, ...path.slice(2)], at === 'key'));
    return { file, line: Math.max(line, 1) + part.line - 1 + item.before, column: Math.max(col, 1) };
  }
  const again = parseAgain(part?.text ?? text);
  const { line, col } = again.lines.linePos(offsetOf(again, path, at === 'key'));
  return { file, line: Math.max(line, 1) + (part?.line ?? 1) - 1, column: Math.max(col, 1) };
}

/**
 * Place of a value of an entry's front matter; of the nearest thing above it when the path leads nowhere.
 * @example placeOf(entry, ['reagents', 1, 'amount']) // { file: 'entries/014-malachite.md', line: 18, column: 13 }
 */
export function placeOf(entry: PlacedEntry, path: Path, at: 'value' | 'key' = 'value'): Place {
  return placesIn(entry.file, entry)(withLeftOut(path, entry.leftOut), at);
}

type PlacedEntry = Pick<Entry, 'file' | 'leftOut'> & PlacedMatter;
type PlacedMatter = Pick<Entry, 'matter' | 'matterLine' | 'written'>;

/**
 * The way to a value that was left out itself: its indices are those of the file already, and stand as words.
 * @example pathInFile(['reagents', 1]) // ['reagents', '1']
 */
export const pathInFile = (path: Path): Path => path.map(String);

/** The way to a value as the file has it: items that were left out stand before it there. */
function withLeftOut(path: Path, leftOut: Entry['leftOut'] = []): Path {
  let whole = path;
  const items = leftOut.map((one) => one.path).sort((a, b) => Number(a.at(-1)) - Number(b.at(-1)));
  for (const item of items) {
    const [last, depth] = [item.at(-1), item.length - 1];
    const step = whole[depth];
    const isInList = typeof last === 'number' && item.slice(0, -1).every((one, at) => one === whole[at]);
    if (isInList && typeof step === 'number' && step >= last)
      whole = [...whole.slice(0, depth), step + 1, ...whole.slice(depth + 1)];
  }
  return whole;
}

/** Findings on an entry as remarks: worded, each with its place. */
export const remarksOn = (entry: PlacedEntry, findings: readonly Finding[]): Remark[] =>
  remarksFrom(findings, (path, at) => placeOf(entry, path, at));

/** Finds places in front matter that begins on a line of its file. */
export const placesIn =
  (file: string, { matter, matterLine, written }: PlacedMatter): PlaceOf =>
  (path, at) => {
    const { line, column } = placeInFile(file, matter, path, at);
    const asWritten =
      written === undefined ? column : columnAsWritten(lineOf(matter, line), lineOf(written, line), column - 1) + 1;
    return { file, line: line + matterLine - 1, column: asWritten };
  };

/** A line of a text, from 1. */
const lineOf = (text: string, line: number): string => text.split('\n')[line - 1] ?? '';

/** Remarks on front matter that is read mended, in which what a cure replaces stands as the file has it. */
export function asInFile(remarks: readonly Remark[], { matter, matterLine, written }: PlacedMatter): Remark[] {
  if (written === undefined) return [...remarks];
  return remarks.map((one) => {
    const { instead } = one.paste ?? {};
    const [mended, inFile] = [matter, written].map((text) => lineOf(text, one.line - matterLine + 1));
    if (instead === undefined || inFile!.includes(instead, one.column - 1)) return one;
    const there = textAsWritten(mended!, inFile!, instead, 0);
    const facts = factsOf(one);
    return there === undefined ? one : remark({ ...facts, paste: { ...facts.paste!, instead: there } });
  });
}

/**
 * Place of something in a body, from its line and column in the body's own Markdown (as mdast positions have them).
 * @example placeInBody(entry, node.position?.start)
 */
export function placeInBody(
  of: { readonly file: string; readonly bodyLine: number },
  point?: { readonly line: number; readonly column: number },
): Place {
  return { file: of.file, line: of.bodyLine + (point?.line ?? 1) - 1, column: point?.column ?? 1 };
}
