// A body of Markdown → a sanitised hast tree: links between entries, directives with reckoned values, no raw HTML.
import type { ElementContent, Root as Hast } from 'hast';
import type { Nodes, Parents, PhrasingContent, Root as Mdast, Text } from 'mdast';
import type { LeafDirective, TextDirective, ContainerDirective } from 'mdast-util-directive';
import rehypeSanitize, { defaultSchema } from 'rehype-sanitize';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import { visit, SKIP } from 'unist-util-visit';
import { remark, type Remark } from '../journal/remarks.js';
import { parseBody } from './body-parser.js';

/** What a body may draw on: the places in the journal it can link to and the values it can show. */
export interface BodyContext {
  readonly file: string;
  /** Line of the file on which the body begins. */
  readonly bodyLine: number;
  /** Address of a file of the journal that is published (`entries/014-….md` → `/journal/14/`), or undefined. */
  readonly addressOf: (file: string) => string | undefined;
  /** `:chem[…]` */
  readonly chem: (formula: string) => ElementContent | undefined;
  /** `:value[A.yield]` */
  readonly value: (path: string) => string | undefined;
  readonly valueNames: () => readonly string[];
  /** `:swatch[A]` */
  readonly swatch: (sample: string) => ElementContent | undefined;
}

export interface RenderedBody {
  readonly children: ElementContent[];
  readonly remarks: readonly Remark[];
}

const allowed = {
  ...defaultSchema,
  clobberPrefix: '',
  protocols: { ...defaultSchema.protocols, href: ['http', 'https', 'mailto'], src: ['http', 'https'] },
  attributes: {
    ...defaultSchema.attributes,
    th: [...(defaultSchema.attributes?.th ?? []), 'align'],
    td: [...(defaultSchema.attributes?.td ?? []), 'align'],
  },
};

const toHast = unified()
  .use(remarkRehype, { clobberPrefix: 'text-', footnoteLabelTagName: 'h3', footnoteLabelProperties: {} })
  .use(rehypeSanitize, allowed)
  .freeze();

/** Folder and name joined the way a relative link means it, with `.` and `..` worked out. */
export function resolveLink(from: string, target: string): string {
  const parts = from.split('/').slice(0, -1);
  for (const part of target.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.' && part !== '') parts.push(part);
  }
  return parts.join('/');
}

const wordOf = (node: Parents): string =>
  node.children
    .map((child) => ('value' in child ? child.value : 'children' in child ? wordOf(child as Parents) : ''))
    .join('');

type AnyDirective = TextDirective | LeafDirective | ContainerDirective;

/**
 * Renders one body.
 * @returns children of the write-up, with headings one level down, and remarks with their place in the file
 */
export function renderBody(markdown: string, context: BodyContext): RenderedBody {
  const remarks: Remark[] = [];
  const tree: Mdast = parseBody(markdown);
  const say = (
    node: Nodes,
    severity: 'error' | 'warning' | 'note',
    rule: string,
    found: string,
    cure: string,
    expected?: readonly string[],
  ): void => {
    const start = node.position?.start;
    remarks.push(
      remark({
        place: { file: context.file, line: (start?.line ?? 1) + context.bodyLine - 1, column: start?.column ?? 1 },
        severity,
        rule,
        found,
        cure,
        expected,
      }),
    );
  };

  // Trees that are put in after sanitising, so that they keep what only our own drawings need.
  const placed: ElementContent[] = [];
  const slot = (content: ElementContent): Nodes => {
    placed.push(content);
    return {
      type: 'text',
      value: '',
      data: { hName: 'span', hProperties: { id: `slot-${placed.length - 1}` } },
    } as never;
  };

  // The page's title is its h1, so the shallowest heading of the body becomes an h2.
  let shallowest = 6;
  visit(tree, 'heading', (node) => {
    shallowest = Math.min(shallowest, node.depth);
  });

  visit(tree, (node, index, parent) => {
    if (node.type === 'heading') {
      node.depth = Math.min(6, node.depth + 2 - shallowest) as 2;
    } else if (node.type === 'html') {
      if (/^<!--[\s\S]*-->$/.test(node.value.trim())) {
        parent!.children.splice(index!, 1);
        return [SKIP, index!];
      }
      say(
        node,
        'warning',
        'raw-html',
        'Raw HTML in the write-up is shown as text.',
        'Write it as Markdown; HTML is never passed on to the page.',
      );
      const text: Text = { type: 'text', value: node.value };
      parent!.children[index!] = (
        parent!.type === 'paragraph' || 'depth' in parent! ? text : { type: 'paragraph', children: [text] }
      ) as never;
      return SKIP;
    } else if (node.type === 'link' || node.type === 'definition' || node.type === 'image') {
      const leads = linkTo(node);
      // A link to what is not published stays as its words.
      if (!leads && node.type === 'link') {
        parent!.children.splice(index!, 1, ...(node.children as never[]));
        return index!;
      }
    } else if (node.type === 'textDirective' || node.type === 'leafDirective' || node.type === 'containerDirective') {
      const made = directive(node as AnyDirective);
      if (made) {
        parent!.children[index!] = made as never;
        return SKIP;
      }
      const literal = literally(node as AnyDirective);
      parent!.children.splice(index!, 1, ...(literal as never[]));
      return [SKIP, index! + literal.length];
    }
    return undefined;
  });

  /** Makes a link to a file of the journal lead to its page; false where nothing is published there. */
  function linkTo(node: { url: string }): boolean {
    const [path, fragment] = node.url.split('#') as [string, string | undefined];
    if (path === '' || /^[a-z][a-z0-9+.-]*:/i.test(path) || path.startsWith('//')) return true;
    const address = context.addressOf(resolveLink(context.file, decode(path)));
    if (address === undefined) return false;
    node.url = fragment === undefined ? address : `${address}#${fragment}`;
    return true;
  }

  function directive(node: AnyDirective): Nodes | undefined {
    const word = wordOf(node as Parents).trim();
    if (node.type !== 'textDirective') return undefined;
    if (node.name === 'chem') {
      const content = context.chem(word);
      if (!content) {
        say(
          node,
          'warning',
          'chem',
          `'${word}' is not a formula that can be read.`,
          'Write it as in the front matter: :chem[CuSO4·5H2O].',
        );
        return { type: 'text', value: word };
      }
      return slot(content);
    }
    if (node.name === 'value') {
      const value = context.value(word);
      if (value === undefined) {
        say(
          node,
          'warning',
          'value',
          `There is no reckoned value '${word}' in this entry.`,
          'Name a sample and a value, as in :value[A.yield].',
          context.valueNames(),
        );
        return { type: 'text', value: `[${word}: not known]` };
      }
      // A figure, its ± and its unit stay on one line.
      return { type: 'text', value: value.replace(/(?<=\d) (?=±|%|\p{L}{1,3}$)|(?<=±) /gu, '\u00a0') };
    }
    if (node.name === 'swatch') {
      const content = context.swatch(word);
      if (!content) {
        say(
          node,
          'warning',
          'swatch',
          `Sample '${word}' has no colour to show here.`,
          'Give the sample a colour in the front matter, or name another sample.',
        );
        return { type: 'text', value: `[colour of ${word}: not known]` };
      }
      return slot(content);
    }
    return undefined;
  }

  /** Words that only look like a directive (`ratio 1:x`) stay words. */
  function literally(node: AnyDirective): PhrasingContent[] {
    const { start, end } = node.position ?? {};
    if (start?.offset === undefined || end?.offset === undefined) return [];
    const value = markdown.slice(start.offset, end.offset);
    if (node.type === 'textDirective') return [{ type: 'text', value }];
    return [{ type: 'paragraph', children: [{ type: 'text', value }] } as never];
  }

  const clean = toHast.runSync(tree) as Hast;
  // An empty corner of a table heads nothing.
  if (markdown.includes('|'))
    visit(clean, 'element', (node) => {
      if (node.tagName === 'th' && node.children.length === 0) node.tagName = 'td';
    });
  if (placed.length > 0) {
    visit(clean, 'element', (node, index, parent) => {
      const at = /^slot-(\d+)$/.exec(String(node.properties.id ?? ''));
      if (at) parent!.children[index!] = placed[Number(at[1])]!;
    });
  }
  return { children: clean.children as ElementContent[], remarks };
}

function decode(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}
