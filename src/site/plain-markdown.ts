// The part of Markdown that most of a write-up keeps to: headings, paragraphs, lists and tables of words with
// directives, links and emphasis, none within another. The library asks a dozen constructs at every sign; here a block
// is looked through once. Whatever is not surely of this part is left to the library.
import type { Heading, List, ListItem, Paragraph, PhrasingContent, Table, TableCell, TableRow, Text } from 'mdast';
import type { TextDirective } from 'mdast-util-directive';
import type { Point, Position } from 'unist';

export type PlainBlock = Heading | List | Paragraph | Table;

/** A directive, a link or emphasis that holds nothing but words. */
const inLine = new RegExp(
  [
    /(?<directive>:(?<name>[a-z]+)\[(?<label>(?:[^*_`[\]<&\\|~@:^\n\t]|\[[^*_`[\]<&\\|~@:^\n\t]+\](?!\())+)\](?![{(]))/,
    /(?<!!)(?<link>\[(?<words>[^*_`[\]<&\\|~@:^\n\t]+)\]\((?<url>[-\w./#%?=,+:~@]+)\))/,
    /(?<=^|[\s(])(?<stars>\*\*?)(?<stressed>[a-z0-9](?:[^*_`[\]<&\\|~@:\n\t]*[a-z0-9.!?])?)\k<stars>(?=[\s.,;:!?)]|$)/,
  ]
    .map(({ source }) => source)
    .join('|'),
  'gi',
);

/** What may be more than words, or is white space that Markdown takes away. */
const moreThanWords = /[*_`[\]<&\\|~@\t]|:(?![ \n]|$)| \n/;

/** What a line of a paragraph cannot begin with, as it might begin something else. */
const beginsSomethingElse = /^(?:[ >#+\-=|]|\d{1,9}[.)](?:\s|$)|\*(?![a-z0-9*])|::)/im;

const headingLine = /^(#{1,6}) ([^ #\n](?:[^#\n]*[^ #\n])?)(?:\n|$)/;

const delimiters = /^\|(?: *:?-+:? *\|)+$/;

/** The place behind a text that begins at a place. */
function behind({ line, column, offset = 0 }: Point, text: string): Point {
  const lastLine = text.lastIndexOf('\n');
  if (lastLine < 0) return { line, column: column + text.length, offset: offset + text.length };
  return { line: line + text.split('\n').length - 1, column: text.length - lastLine, offset: offset + text.length };
}

const words = (value: string, start: Point): Text => ({
  type: 'text',
  value,
  position: { start, end: behind(start, value) },
});

type Found = Readonly<Record<string, string | undefined>>;

/** What was found in a line, as the node that it is. */
function nodeOf(found: Found, position: Position): PhrasingContent {
  const { directive, name, label, link, words: shown, url, stars, stressed } = found;
  const { start } = position;
  if (directive !== undefined) {
    const children = [words(label!, behind(start, `:${name!}[`))];
    return { type: 'textDirective', name: name!, attributes: {}, children, position } satisfies TextDirective;
  }
  if (link !== undefined)
    return { type: 'link', title: null, url: url!, children: [words(shown!, behind(start, '['))], position };
  const children = [words(stressed!, behind(start, stars!))];
  return { type: stars === '*' ? 'emphasis' : 'strong', children, position };
}

/** The nodes of a text within a block; undefined where it may hold something else. */
function inLineNodes(text: string, begin: Point): PhrasingContent[] | undefined {
  if (!moreThanWords.test(text)) return text === '' ? [] : [words(text, begin)];
  const nodes: PhrasingContent[] = [];
  let start = begin;
  let done = 0;
  for (const match of text.matchAll(inLine)) {
    const before = text.slice(done, match.index);
    if (moreThanWords.test(before) || before.endsWith(':')) return undefined;
    if (before !== '') {
      nodes.push(words(before, start));
      start = behind(start, before);
    }
    const end = behind(start, match[0]);
    nodes.push(nodeOf(match.groups!, { start, end }));
    start = end;
    done = match.index + match[0].length;
  }
  const rest = text.slice(done);
  if (moreThanWords.test(rest)) return undefined;
  if (rest !== '') nodes.push(words(rest, start));
  return nodes;
}

function withoutSpacesAtEnd(text: string): string {
  let end = text.length;
  while (text[end - 1] === ' ') end -= 1;
  return text.slice(0, end);
}

/** The cells of a line of a table. */
function rowOf(line: string, start: Point): TableRow | undefined {
  const children: TableCell[] = [];
  const cells = line.slice(1, -1).split('|');
  let from = start;
  for (const [at, cell] of cells.entries()) {
    const begin = /^ */.exec(cell)![0];
    const end = behind(from, at === cells.length - 1 ? `|${cell}|` : `|${cell}`);
    const nodes = inLineNodes(withoutSpacesAtEnd(cell).slice(begin.length), behind(from, `|${begin}`));
    if (!nodes || cell === '') return undefined;
    children.push({ type: 'tableCell', children: nodes, position: { start: from, end } });
    from = end;
  }
  return { type: 'tableRow', children, position: { start, end: behind(start, line) } };
}

function alignmentOf(delimiter: string): 'left' | 'right' | 'center' | null {
  const mark = delimiter.trim();
  if (mark.endsWith(':')) return mark.startsWith(':') ? 'center' : 'right';
  return mark.startsWith(':') ? 'left' : null;
}

function tableOf(text: string, start: Point): Table | undefined {
  const lines = text.split('\n');
  if (!delimiters.test(lines[1] ?? '')) return undefined;
  const align = lines[1]!.slice(1, -1).split('|').map(alignmentOf);
  const children: TableRow[] = [];
  let from = start;
  for (const [at, line] of lines.entries()) {
    if (at !== 1) {
      const row = /^\|.*\|$/.test(line) ? rowOf(line, from) : undefined;
      if (row?.children.length !== align.length) return undefined;
      children.push(row);
    }
    from = behind(from, `${line}\n`);
  }
  return { type: 'table', align, children, position: { start, end: behind(start, text) } };
}

function paragraphOf(text: string, start: Point): Paragraph | undefined {
  if (beginsSomethingElse.test(text) || text.endsWith(' ')) return undefined;
  const children = inLineNodes(text, start);
  return children && { type: 'paragraph', children, position: { start, end: behind(start, text) } };
}

const bullet = /^- /;
const number = /^(\d{1,9})\. /;

/** A list whose items are a line each. */
function listOf(text: string, start: Point): List | undefined {
  const numbered = number.exec(text);
  const mark = numbered ? number : bullet;
  const children: ListItem[] = [];
  let from = start;
  for (const line of text.split('\n')) {
    const marked = mark.exec(line)?.[0];
    const words = marked === undefined ? '' : line.slice(marked.length);
    const only = words === '' ? undefined : paragraphOf(words, behind(from, marked!));
    if (!only) return undefined;
    const position = { start: from, end: behind(from, line) };
    children.push({ type: 'listItem', spread: false, checked: null, children: [only], position });
    from = behind(from, `${line}\n`);
  }
  return {
    type: 'list',
    ordered: numbered !== null,
    start: numbered ? Number(numbered[1]) : null,
    spread: false,
    children,
    position: { start, end: behind(start, text) },
  };
}

function restOf(text: string, start: Point): List | Paragraph | Table | undefined {
  if (text.startsWith('|')) return tableOf(text, start);
  return bullet.test(text) || number.test(text) ? listOf(text, start) : paragraphOf(text, start);
}

/**
 * The nodes of a block, which is lines between blank ones: headings, then a paragraph, a list or a table.
 * @param start where it begins in its body
 * @returns undefined where there may be anything else in it
 * @example plainBlock('Grey *when wet*.', { line: 1, column: 1, offset: 0 })?.[0].type // 'paragraph'
 */
export function plainBlock(block: string, start: Point): PlainBlock[] | undefined {
  if (/www\./i.test(block)) return undefined;
  const nodes: PlainBlock[] = [];
  let text = block;
  let from = start;
  for (let found = headingLine.exec(text); found; found = headingLine.exec(text)) {
    const [line, { length: depth }, title] = found as unknown as [string, string, string];
    const children = inLineNodes(title, behind(from, `${'#'.repeat(depth)} `));
    if (!children) return undefined;
    const end = behind(from, line.replace('\n', ''));
    nodes.push({ type: 'heading', depth: depth as Heading['depth'], children, position: { start: from, end } });
    from = behind(from, line);
    text = text.slice(line.length);
  }
  if (text === '') return nodes;
  const rest = restOf(text, from);
  return rest && [...nodes, rest];
}
