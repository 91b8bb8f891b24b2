// Markdown → mdast with the grammar that a body can use. The extensions of remark-gfm and remark-directive cost more
// than half of a body's parsing, since each is asked at every place; where none of their marks stands in a part of the
// body, they are left out, and blocks of plain words and what is common among them need no library.
import type { Nodes, Root, RootContent } from 'mdast';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified, type Processor } from 'unified';
import type { Point } from 'unist';
import { plainBlock, type PlainBlock } from './plain-markdown.js';

/**
 * What must stand in a text for remark-gfm to make any difference (more may: then it is loaded for nothing): bare
 * addresses, also spelt with escapes or character references; footnotes; strikethrough; tables; task lists. */
const gfmMarks = /https?:|www\.|[@&\\]|\[\^|~|\||:-|-:|\[[ \t\r\nx]/i;
const directiveMarks = /:[^ \r\n]/;

type Parser = Processor<Root>;
const parsers = new Map<string, Parser>();

function parserFor(gfm: boolean, directive: boolean): Parser {
  const name = `${gfm} ${directive}`;
  let parser = parsers.get(name);
  if (!parser) {
    const grammar = unified().use(remarkParse);
    if (gfm) grammar.use(remarkGfm);
    if (directive) grammar.use(remarkDirective);
    parser = grammar.freeze() as unknown as Parser;
    parsers.set(name, parser);
  }
  return parser;
}

const parseWhole = (markdown: string): Root =>
  parserFor(gfmMarks.test(markdown), directiveMarks.test(markdown)).parse(markdown);

/**
 * What may reach beyond the blank line that follows it, or say something of what stands elsewhere: code and containers
 * between marks, raw HTML, definitions, footnotes; and signs that the library takes for others before it begins.
 */
export const reachesFar = /```|~~~|:::|<|(?<!:[a-z]+\[[^[\]\n]*)\]:|\[\^|[\r\0\uFEFF]/i;

/** Lines between blank ones. */
interface Block {
  readonly from: number;
  readonly to: number;
  readonly line: number;
}

function blocksOf(markdown: string): Block[] {
  const blocks: Block[] = [];
  let begun: Pick<Block, 'from' | 'line'> | undefined;
  let line = 1;
  for (let from = 0; from <= markdown.length; line += 1) {
    const found = markdown.indexOf('\n', from);
    const end = found < 0 ? markdown.length : found;
    if (isBlank(markdown, from, end)) {
      if (begun) blocks.push({ ...begun, to: from - 1 });
      begun = undefined;
    } else begun ??= { from, line };
    from = end + 1;
  }
  if (begun) blocks.push({ ...begun, to: markdown.length });
  return blocks;
}

function isBlank(markdown: string, from: number, end: number): boolean {
  let at = from;
  while (at < end && (markdown[at] === ' ' || markdown[at] === '\t')) at += 1;
  return at === end;
}

/** Nodes of a part of a body, with the places that they have in the whole. */
function parsePart(part: string, before: Point): RootContent[] {
  const { children } = parseWhole(part);
  for (const node of children) moveBy(node, before);
  return children;
}

function moveBy(node: Nodes, before: Point): void {
  if (node.position) {
    const { start, end } = node.position;
    node.position = { start: moved(start, before), end: moved(end, before) };
  }
  if ('children' in node) for (const child of node.children) moveBy(child, before);
}

const moved = ({ line, column, offset = 0 }: Point, before: Point): Point => ({
  line: line + before.line - 1,
  column,
  offset: offset + before.offset!,
});

const placeOf = ({ from, line }: Block): Point => ({ line, column: 1, offset: from });

const endsInList = (nodes: readonly PlainBlock[]): boolean => nodes.at(-1)?.type === 'list';

/** Whether a block is whole by itself: a list goes on where more of it, or nobody knows what, stands beside it. */
function standsAlone(at: number, all: readonly (readonly PlainBlock[] | undefined)[]): boolean {
  const own = all[at];
  if (!own || !endsInList(own)) return own !== undefined;
  return [at - 1, at + 1].every((beside) => {
    const nodes = all[beside];
    return nodes ? !endsInList(nodes) : !(beside in all);
  });
}

/** Plain blocks as they are; those between two of them by the library, together, as a list has blank lines in it. */
function childrenOf(markdown: string, blocks: readonly Block[]): RootContent[] {
  const plain = blocks.map((block) => plainBlock(markdown.slice(block.from, block.to), placeOf(block)));
  const children: RootContent[] = [];
  let left: Block | undefined;
  const closeAt = (end: number): void => {
    if (left) children.push(...parsePart(markdown.slice(left.from, end), placeOf(left)));
    left = undefined;
  };
  for (const [at, block] of blocks.entries()) {
    if (standsAlone(at, plain)) {
      closeAt(block.from);
      children.push(...plain[at]!);
    } else left ??= block;
  }
  closeAt(markdown.length);
  return children;
}

/**
 * The tree of a body: what remark-parse, remark-gfm and remark-directive together make of it.
 * @example parseBody('About *2 g*.').children[0].type // 'paragraph'
 */
export function parseBody(markdown: string): Root {
  if (reachesFar.test(markdown)) return parseWhole(markdown);
  const lastLine = markdown.lastIndexOf('\n');
  const end = {
    line: markdown.split('\n').length,
    column: markdown.length - lastLine,
    offset: markdown.length,
  };
  return {
    type: 'root',
    children: childrenOf(markdown, blocksOf(markdown)),
    position: { start: { line: 1, column: 1, offset: 0 }, end },
  };
}
