// The elements of what most write-ups keep to: headings, paragraphs, lists and tables of words with links and emphasis.
// They are what the library and its sanitiser make of the same nodes; whatever is not surely so is left to them.
import type { Element, ElementContent, Properties, Text } from 'hast';
import type { List, ListItem, Nodes, Table } from 'mdast';

/** An element of a write-up that stands in a place kept free for it; undefined where the node keeps no place. */
export type PlacedIn = (node: Nodes) => ElementContent | undefined;

const element = (tagName: string, children: ElementContent[], properties: Properties = {}): Element => ({
  type: 'element',
  tagName,
  properties,
  children,
});

const text = (value: string): Text => ({ type: 'text', value });

/** White space that is taken away at the ends of lines. */
const spaceAtEnds = /[ \t][\n\r]|[\n\r][ \t]/;

/** Addresses that stay as they are written, of the protocols that a write-up may link to. */
const staysAsItIs = /^(?:(?:https?|mailto):|[^:/?#]*(?:[/?#]|$))[!#$&-;=?-Z_a-z~]*$/;

/** Each on lines of its own. */
const onLines = (nodes: readonly ElementContent[]): ElementContent[] => [
  text('\n'),
  ...nodes.flatMap((node) => [node, text('\n')]),
];

/** What is in a node; undefined where any of it is left to the library. */
function inside(nodes: readonly Nodes[], placed: PlacedIn): ElementContent[] | undefined {
  const made: ElementContent[] = [];
  for (const node of nodes) {
    const one = plainElement(node, placed);
    if (!one) return undefined;
    made.push(one);
  }
  return made;
}

function around(tagName: string, { children }: { readonly children: Nodes[] }, placed: PlacedIn): Element | undefined {
  const content = inside(children, placed);
  return content && element(tagName, content);
}

function linkElement(node: Nodes & { type: 'link' }, placed: PlacedIn): Element | undefined {
  if (!staysAsItIs.test(node.url) || typeof node.title === 'string') return undefined;
  const content = inside(node.children, placed);
  return content && element('a', content, { href: node.url });
}

/** Items that are one paragraph each hold its words, unless blank lines part them. */
function itemElement({ children, checked }: ListItem, loose: boolean, placed: PlacedIn): Element | undefined {
  const [only, ...others] = children;
  if (only?.type !== 'paragraph' || others.length > 0 || typeof checked === 'boolean') return undefined;
  const paragraph = around('p', only, placed);
  return paragraph && element('li', loose ? onLines([paragraph]) : paragraph.children);
}

function listElement({ ordered, start, spread, children }: List, placed: PlacedIn): Element | undefined {
  const loose = children.some((item) => item.spread) || spread === true;
  const items: Element[] = [];
  for (const item of children) {
    const made = itemElement(item, loose, placed);
    if (!made) return undefined;
    items.push(made);
  }
  const begins = typeof start === 'number' && start !== 1 ? { start } : {};
  return element(ordered ? 'ol' : 'ul', onLines(items), begins);
}

function tableElement({ align, children: rows }: Table, placed: PlacedIn): Element | undefined {
  const made: Element[] = [];
  for (const [at, row] of rows.entries()) {
    const cells: Element[] = [];
    for (const [column, side] of (align ?? []).entries()) {
      const content = inside(row.children[column]?.children ?? [], placed);
      if (!content) return undefined;
      // An empty corner heads nothing.
      const heads = at === 0 && content.length > 0;
      cells.push(element(heads ? 'th' : 'td', content, side ? { align: side } : {}));
    }
    made.push(element('tr', onLines(cells)));
  }
  const [head, ...body] = made;
  if (!head) return undefined;
  const parts = [element('thead', onLines([head]))];
  if (body.length > 0) parts.push(element('tbody', onLines(body)));
  return element('table', onLines(parts));
}

/**
 * The element of a node, made as the library would make it and its sanitiser let it pass.
 * @returns undefined where they are to be asked
 * @example plainElement({ type: 'text', value: 'wet' }, () => undefined)?.type // 'text'
 */
export function plainElement(node: Nodes, placed: PlacedIn): ElementContent | undefined {
  switch (node.type) {
    case 'text':
      if (node.data) return placed(node);
      return spaceAtEnds.test(node.value) ? undefined : text(node.value);
    case 'paragraph':
      return around('p', node, placed);
    case 'heading':
      return around(`h${node.depth}`, node, placed);
    case 'emphasis':
      return around('em', node, placed);
    case 'strong':
      return around('strong', node, placed);
    case 'link':
      return linkElement(node, placed);
    case 'list':
      return listElement(node, placed);
    case 'table':
      return tableElement(node, placed);
    default:
      return undefined;
  }
}
