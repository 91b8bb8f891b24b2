// Markdown → mdast with the parts of the grammar that a body can use. The extensions of remark-gfm and remark-directive cost
// more than half of a body's parsing, since each is asked at every place; one whose mark does not stand in the body is left out.
import type { Root } from 'mdast';
import { gfmAutolinkLiteralFromMarkdown } from 'mdast-util-gfm-autolink-literal';
import { gfmFootnoteFromMarkdown } from 'mdast-util-gfm-footnote';
import { gfmStrikethroughFromMarkdown } from 'mdast-util-gfm-strikethrough';
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table';
import { gfmTaskListItemFromMarkdown } from 'mdast-util-gfm-task-list-item';
import { gfmAutolinkLiteral } from 'micromark-extension-gfm-autolink-literal';
import { gfmFootnote } from 'micromark-extension-gfm-footnote';
import { gfmStrikethrough } from 'micromark-extension-gfm-strikethrough';
import { gfmTable } from 'micromark-extension-gfm-table';
import { gfmTaskListItem } from 'micromark-extension-gfm-task-list-item';
import remarkDirective from 'remark-directive';
import remarkParse from 'remark-parse';
import { unified, type Data, type Processor } from 'unified';

type Extensions = readonly [micromark: NonNullable<Data['micromarkExtensions']>[number], fromMarkdown: NonNullable<Data['fromMarkdownExtensions']>[number]];

/** In remark-gfm's own order, each with what must stand in the text for it to have any effect (more may: then it is loaded for nothing). */
const parts: readonly { readonly mark: RegExp; readonly extensions: () => Extensions }[] = [
  // Addresses are also found in words that an escape or a character reference spells.
  { mark: /https?:|www\.|[@&\\]/i, extensions: () => [gfmAutolinkLiteral(), gfmAutolinkLiteralFromMarkdown()] },
  { mark: /\[\^/, extensions: () => [gfmFootnote(), gfmFootnoteFromMarkdown()] },
  { mark: /~/, extensions: () => [gfmStrikethrough(), gfmStrikethroughFromMarkdown()] },
  { mark: /\||:-|-:/, extensions: () => [gfmTable(), gfmTableFromMarkdown()] },
  { mark: /\[[ \t\r\nx]/i, extensions: () => [gfmTaskListItem(), gfmTaskListItemFromMarkdown()] },
];
const directive = /:[^ \r\n]/;

type Parser = Processor<Root>;
const parsers = new Map<number, Parser>();

function parserFor(which: number): Parser {
  let parser = parsers.get(which);
  if (!parser) {
    const chosen = parts.flatMap(({ extensions }, at) => ((which >> at) & 1 ? [extensions()] : []));
    const grammar = unified().use(remarkParse).use(function grammarOf(this: Processor) {
      const data = this.data();
      for (const [micromark, fromMarkdown] of chosen) {
        (data.micromarkExtensions ??= []).push(micromark);
        (data.fromMarkdownExtensions ??= []).push(fromMarkdown);
      }
    });
    parser = ((which >> parts.length) & 1 ? grammar.use(remarkDirective) : grammar).freeze() as unknown as Parser;
    parsers.set(which, parser);
  }
  return parser;
}

/**
 * The tree of a body: what remark-parse, remark-gfm and remark-directive together make of it.
 * @example parseBody('About *2 g*.').children[0].type // 'paragraph'
 */
export function parseBody(markdown: string): Root {
  let which = 0;
  parts.forEach(({ mark }, at) => { if (mark.test(markdown)) which |= 1 << at; });
  if (directive.test(markdown)) which |= 1 << parts.length;
  return parserFor(which).parse(markdown);
}
