// Markdown → mdast with the grammar that a body can use. The extensions of remark-gfm and remark-directive cost more
// than half of a body's parsing, since each is asked at every place; where none of their marks stands in the body, they
// are left out.
import type { Root } from 'mdast';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified, type Processor } from 'unified';

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

/**
 * The tree of a body: what remark-parse, remark-gfm and remark-directive together make of it.
 * @example parseBody('About *2 g*.').children[0].type // 'paragraph'
 */
export const parseBody = (markdown: string): Root =>
  parserFor(gfmMarks.test(markdown), directiveMarks.test(markdown)).parse(markdown);
