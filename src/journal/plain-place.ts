// Where a value stands in YAML as it is mostly written: each key and each item of a list begins a line of its own.
// What is written otherwise, or cannot be told for certain line by line, is left to the parser, which is much slower.
import type { Path } from '../remarks/findings.js';

/** From the start of the lines, both from 0. */
export interface Spot {
  readonly line: number;
  readonly column: number;
}

/** Lines of keys, or of a list, that begin at one column; before it, the first line may hold the dash of an item. */
interface Block {
  readonly from: number;
  readonly to: number;
  readonly column: number;
}

/** What a key or an item leads to: a value that begins on its line, or the lines below. */
interface Step {
  readonly line: number;
  /** Of the key, or of the dash. */
  readonly column: number;
  /** Where a value begins on this line; undefined where none does. */
  readonly value: number | undefined;
  /** The line behind all that belongs to it. */
  readonly to: number;
}

const isBlankAt = (line: string, column: number): boolean => column >= line.length || line.charCodeAt(column) <= 0x20;

/** The column at which a line begins; undefined where it holds nothing but a comment. */
function beginOf(line: string): number | undefined {
  let column = 0;
  while (line.charCodeAt(column) === 0x20) column += 1;
  return isBlankAt(line, column) || line.charAt(column) === '#' ? undefined : column;
}

/** Where something begins behind a column; undefined where nothing does. */
function valueBehind(line: string, column: number): number | undefined {
  let at = column;
  while (line.charCodeAt(at) === 0x20) at += 1;
  return isBlankAt(line, at) || line.charAt(at) === '#' ? undefined : at;
}

const isDash = (line: string, column: number): boolean => line.charAt(column) === '-' && isBlankAt(line, column + 1);

/** The first line from here on that begins no further in than a column. */
function endOf(lines: readonly string[], from: number, to: number, column: number, isEnd: (line: string) => boolean) {
  for (let at = from; at < to; at += 1) {
    const begins = beginOf(lines[at]!);
    if (begins !== undefined && (begins < column || (begins === column && isEnd(lines[at]!)))) return at;
  }
  return to;
}

function keyIn(lines: readonly string[], { from, to, column }: Block, key: string): Step | undefined {
  for (let at = from; at < to; at += 1) {
    const line = lines[at]!;
    const begins = at === from || beginOf(line) === column;
    const behind = column + key.length + 1;
    if (!begins || !line.startsWith(`${key}:`, column) || !isBlankAt(line, behind)) continue;
    // A list may stand at the column of its key.
    const end = endOf(lines, at + 1, to, column, (next) => !isDash(next, column));
    return { line: at, column, value: valueBehind(line, behind), to: end };
  }
  return undefined;
}

function itemIn(lines: readonly string[], { from, to, column }: Block, index: number): Step | undefined {
  let at = from;
  for (let item = 0; at < to; item += 1) {
    if (!isDash(lines[at]!, column)) return undefined;
    const end = endOf(lines, at + 1, to, column, () => true);
    if (item === index) return { line: at, column, value: valueBehind(lines[at]!, column + 1), to: end };
    at = end;
  }
  return undefined;
}

/** What begins with these means more than it says, or is read in a way of its own. */
const uncommonStart = /[&*!|>%@`?]/;
/** What begins with these holds no keys or items in lines of their own. */
const flowStart = /["'[{]/;

/** What stands under a step, if it is keys or a list. */
function blockOf(lines: readonly string[], { line, value, column, to }: Step): Block | undefined {
  if (value !== undefined) {
    const isItem = isDash(lines[line]!, column);
    return isItem && !flowStart.test(lines[line]!.charAt(value)) ? { from: line, to, column: value } : undefined;
  }
  // A comment between them is the parser's affair.
  const next = line + 1 < to ? beginOf(lines[line + 1]!) : undefined;
  return next === undefined ? undefined : { from: line + 1, to, column: next };
}

/** Where a value begins. */
function spotOf(lines: readonly string[], step: Step): Spot | undefined {
  const block = step.value === undefined ? blockOf(lines, step) : { from: step.line, column: step.value };
  if (!block || uncommonStart.test(lines[block.from]!.charAt(block.column))) return undefined;
  return { line: block.from, column: block.column };
}

/**
 * Place of a value, or of its key, in lines of keys; undefined where only the parser can tell.
 * @example plainPlace(['reagents:', '  - amount: 2 g'], ['reagents', 0, 'amount'], 'value') // { line: 1, column: 12 }
 */
export function plainPlace(lines: readonly string[], path: Path, at: 'value' | 'key'): Spot | undefined {
  let block: Block | undefined = { from: 0, to: lines.length, column: 0 };
  let found: Step | undefined;
  for (const step of path) {
    if (found) block = blockOf(lines, found);
    found = block && (typeof step === 'number' ? itemIn(lines, block, step) : keyIn(lines, block, step));
    if (!found) return undefined;
  }
  if (!found) return undefined;
  const isKey = at === 'key' && typeof path.at(-1) === 'string';
  return isKey ? { line: found.line, column: found.column } : spotOf(lines, found);
}
