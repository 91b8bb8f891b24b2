// What can be read of YAML that is not well formed: each key at the margin by itself, so that one slip loses no other;
// where its own lines cannot be read either, they stand as they were written.
import { meanings } from './mending/mending.js';

/** A key at the margin with the lines that belong to it. */
interface Block {
  readonly key: string;
  readonly lines: string[];
}

const keyAtMargin = /^(["']?)([\p{L}\p{N}][^:{}[\]]{0,60}?)\1[ \t]*:(?=[ \t]|$)(.*)$/u;

/** Lines by the keys at the margin; what stands before the first of them is left out. */
function blocksOf(text: string): readonly Block[] {
  const blocks: Block[] = [];
  for (const line of text.split(/\r\n?|\n/)) {
    const [, , key] = keyAtMargin.exec(line) ?? [];
    if (key === undefined) blocks.at(-1)?.lines.push(line);
    else blocks.push({ key, lines: [line] });
  }
  return blocks;
}

const bare = (text: string): string =>
  text
    .trim()
    .replace(/^["']|["']$/g, '')
    .trim();

/** A line of a list or of braces, without the signs that did not fit. */
const item = (line: string): string =>
  bare(
    line
      .trim()
      .replace(/^[-*•]\s+/, '')
      .replace(/^[{[]\s*|\s*[}\]],?$/g, ''),
  );

/** `amount: 5.00 g` by itself belongs to the line above, which names what it is of. */
const amountAlone =
  /^(?:(?:amount|strength|purity|density)\s*:\s*[~≥>]?\s*[\d.,½¼¾]+\s*[A-Za-zµ%°/]{0,6}|(?:intent|role|vessel)\s*:.*)$/;

/** So many keys are tried that cannot be read by themselves; no maker has as many, and each costs time. */
const failuresAtMost = 200;

const closing: Readonly<Record<string, string>> = { '{': '}', '[': ']' };

/** A line with the brackets closed at its end that it opens; undefined where one is closed that was not opened. */
function closed(line: string): string | undefined {
  const open: string[] = [];
  for (const sign of line.match(/[{}[\]]/g) ?? []) {
    const end = closing[sign];
    if (end !== undefined) open.push(end);
    else if (open.pop() !== sign) return undefined;
  }
  return `${line}${open.reverse().join(' ')}`;
}

const begins = /^\s*-\s+(?=\S)/;

/**
 * The items of a list, each read by itself, with its braces closed where that is all it lacks; an item that still
 * cannot be read stands as it was written. Undefined where the lines are no list, or none of them can be read so.
 */
function itemsAlone(below: readonly string[], parse: (text: string) => unknown): readonly unknown[] | undefined {
  const indent = below.find((line) => line.trim() !== '')?.search(/\S/) ?? 0;
  const items: string[] = [];
  for (const line of below.filter((one) => one.trim() !== '')) {
    if (begins.test(line) && line.search(/\S/) === indent) items.push(line.slice(indent));
    else if (items.length === 0) return undefined;
    else items[items.length - 1] += `\n${line.slice(indent)}`;
  }
  const valueOf = (text: string | undefined): unknown => {
    const list = text === undefined ? undefined : parse(text);
    return Array.isArray(list) && list.length === 1 ? (list as readonly unknown[])[0] : undefined;
  };
  const isKeys = (value: unknown): boolean => typeof value === 'object' && value !== null;
  const read = items.map((one) => valueOf(one) ?? valueOf(closed(one.trimEnd())));
  if (!read.some(isKeys)) return undefined;
  const asLines = (text: string): readonly string[] =>
    text
      .split('\n')
      .map(item)
      .filter((line) => !amountAlone.test(line));
  return read.flatMap((value, at) => value ?? asLines(items[at]!));
}

/** The lines of a key as they were written: a list where they are one, else one text. */
function asWritten({ lines }: Block, parse: (text: string) => unknown): unknown {
  const [first = '', ...below] = lines;
  const text = keyAtMargin.exec(first)?.[3] ?? '';
  const alone = text.trim() === '' && below.length <= failuresAtMost ? itemsAlone(below, parse) : undefined;
  if (alone) return alone;
  const items = below.map(item).filter((line) => line !== '' && !amountAlone.test(line));
  const own = bare(text);
  if (items.length === 0) return own;
  return own === '' ? items : [own, ...items];
}

/** Whether a value has something in it. */
const saysSomething = (value: unknown): boolean => value !== undefined && value !== null && value !== '';

/** Keys of lists that tell what was taken and done: where one stands twice, both were. */
const ofDeeds: ReadonlySet<string> = new Set([
  'reagents',
  'heating',
  'steps',
  'washes',
  'samples',
  'precautions',
  'contamination',
]);
const tellsDeeds = (key: string): boolean =>
  ofDeeds.has(key.toLowerCase()) || meanings('key', key).some((meant) => ofDeeds.has(meant));
const asList = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [value]);

/**
 * Keys and values of text that is not well formed, each key by itself.
 * @param parse a value of well-formed text; undefined for any other
 * @example readByBlocks('title: a: b\nreagents: [soda 2 g]', …) // { title: 'a: b', reagents: ['soda 2 g'] }
 */
export function readByBlocks(text: string, parse: (text: string) => unknown): Readonly<Record<string, unknown>> {
  const whole = new Map<string, unknown>();
  let failures = 0;
  for (const block of blocksOf(text)) {
    const { key, lines } = block;
    const written = lines.join('\n').replace(/\t/g, '  ');
    // Mostly a quotation mark is open.
    const unquoted = /["']/.test(written) ? written.replace(/["']/g, '') : undefined;
    const parsed =
      failures > failuresAtMost
        ? undefined
        : (parse(written) ?? (unquoted === undefined ? undefined : parse(unquoted)));
    if (parsed === undefined) failures += 1;
    const own = typeof parsed === 'object' && parsed !== null ? (parsed as Record<string, unknown>)[key] : undefined;
    const value = parsed === undefined ? asWritten(block, parse) : own;
    const before = whole.get(key);
    if (!saysSomething(before)) whole.set(key, value);
    else if (saysSomething(value) && tellsDeeds(key)) whole.set(key, [...asList(before), ...asList(value)]);
    else if (Array.isArray(before) && Array.isArray(value)) whole.set(key, [...before, ...value]);
  }
  return Object.fromEntries(whole);
}
