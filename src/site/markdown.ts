// A body of Markdown → a sanitised hast tree: links between entries, directives with reckoned values, no raw HTML.
import type { Element, ElementContent, Root as Hast } from 'hast';
import type {
  Definition,
  Heading,
  Html,
  Image,
  ImageReference,
  Link,
  LinkReference,
  Nodes,
  Paragraph,
  Parents,
  PhrasingContent,
  Root as Mdast,
  Text,
} from 'mdast';
import type { LeafDirective, TextDirective, ContainerDirective } from 'mdast-util-directive';
import rehypeSanitize, { defaultSchema } from 'rehype-sanitize';
import remarkRehype from 'remark-rehype';
import { unified } from 'unified';
import { decoded } from '../journal/links.js';
import { placeInBody } from '../journal/place.js';
import { Findings, remarksFrom } from '../remarks/findings.js';
import type { Place, Remark } from '../remarks/remark.js';
import { parseBody, reachesFar } from './body-parser.js';
import { plainElement } from './plain-elements.js';

declare module 'mdast' {
  interface TextData {
    /** The tree of our own that this place is kept free for. */
    placed?: ElementContent;
  }
}

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
  /** `:moment[3:40]`, where there are videos. */
  readonly moment?: (at: string) => ElementContent | undefined;
  readonly momentTimes?: () => readonly string[];
  /** A picture of the journal in the forms that are published of it; undefined where it has none. */
  readonly picture?: (picture: BodyPicture) => ElementContent | undefined;
}

/** A picture that a body shows. */
export interface BodyPicture {
  /** Path below the journal. */
  readonly file: string;
  readonly alt: string;
  /** Words in quotes behind the address: what stands below the picture. */
  readonly title?: string;
  /** It is a paragraph of its own. */
  readonly alone: boolean;
  /** It stands in a link already. */
  readonly linked: boolean;
}

/** A link of a body that leads to a part of a page of this site. */
export interface PartLink {
  /** Address of the page, base path included. */
  readonly page: string;
  /** What stands after `#`, decoded. */
  readonly part: string;
  readonly place: Place;
}

export interface RenderedBody {
  readonly children: ElementContent[];
  readonly remarks: readonly Remark[];
  /** Its links that name a part of a page, to be checked when that page is there. */
  readonly partLinks: readonly PartLink[];
}

/** A body without words. */
export const noBody: RenderedBody = { children: [], remarks: [], partLinks: [] };

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

/** The words of a node; what only looks like a directive in them (`:40` of `3:40`) is a word too. */
function wordOf(node: Nodes): string {
  if (node.type === 'textDirective') return `:${node.name}${node.children.map(wordOf).join('')}`;
  if ('value' in node) return node.value;
  return 'children' in node ? node.children.map(wordOf).join('') : '';
}

type AnyDirective = TextDirective | LeafDirective | ContainerDirective;

/** One body being rendered: what it draws on and what has been found so far. */
interface Work {
  readonly markdown: string;
  readonly context: BodyContext;
  readonly findings: Findings;
  readonly partLinks: PartLink[];
  /** Trees that are put in after sanitising, so that they keep what only our own drawings need. */
  readonly placed: ElementContent[];
  /** Identifiers of definitions that lead to nothing that is published. */
  readonly nowhere: Set<string>;
  /** Files of the journal that definitions lead to, by their identifiers, with their titles. */
  readonly defined: Map<string, { readonly file: string | undefined; readonly title?: string }>;
}

const placeIn = ({ context }: Work, node: Nodes): Place => placeInBody(context, node.position?.start);

/** A place kept free for a tree of our own. */
function slot({ placed }: Work, content: ElementContent): Nodes {
  placed.push(content);
  const data = { hName: 'span', hProperties: { id: `slot-${placed.length - 1}` }, placed: content };
  return { type: 'text', value: '', data } as Text;
}

/**
 * Makes a link to a file of the journal lead to its page, and a link to a part of this page to the page that holds it
 * (the body also stands on the bench sheet). False where nothing is published there.
 */
function lead(work: Work, node: Nodes & { url: string }): boolean {
  const { context, partLinks } = work;
  if (/^[a-z][a-z0-9+.-]*:/i.test(node.url) || node.url.startsWith('//')) return true;
  const [path = '', ...after] = node.url.split('#');
  const fragment = after.length > 0 ? after.join('#') : undefined;
  const address = path === '' ? context.addressOf(context.file) : fileAddress(context, path);
  if (address === undefined) return path === '';
  node.url = fragment === undefined ? address : `${address}#${fragment}`;
  if (fragment !== undefined && fragment !== '')
    partLinks.push({ page: address, part: decoded(fragment), place: placeIn(work, node) });
  return true;
}

/**
 * The file of the journal that a relative address leads to, without its query and the part that it names.
 * @example linkedFile('entries/14.md', '9.md?a#B') // 'entries/9.md'
 */
export const linkedFile = (from: string, written: string): string =>
  resolveLink(from, decoded(written.split('#', 1)[0]!.replace(/\?.*$/s, '')));

/** The journal's file that an address means; undefined for addresses elsewhere and parts of this page. */
function fileMeant({ context }: Work, url: string): string | undefined {
  return /^(?:[a-z][a-z0-9+.-]*:|\/|#|$)/i.test(url) ? undefined : linkedFile(context.file, url);
}

const fileAddress = (context: BodyContext, path: string): string | undefined =>
  context.addressOf(linkedFile(context.file, path));

/** What a directive becomes; undefined where it only looks like one. */
function directive(work: Work, node: AnyDirective): Nodes | undefined {
  if (node.type !== 'textDirective') return undefined;
  const word = node.children.map(wordOf).join('').trim();
  switch (node.name) {
    case 'chem':
      return chem(work, node, word);
    case 'value':
      return value(work, node, word);
    case 'swatch':
      return swatch(work, node, word);
    case 'moment':
      return moment(work, node, word);
    default:
      return undefined;
  }
}

function chem(work: Work, node: Nodes, word: string): Nodes {
  const content = work.context.chem(word);
  if (content) return slot(work, content);
  work.findings.add('chem', placeIn(work, node), { word });
  return { type: 'text', value: word };
}

function value(work: Work, node: Nodes, word: string): Nodes {
  const found = work.context.value(word);
  // A figure, its ± and its unit stay on one line.
  if (found !== undefined)
    return { type: 'text', value: found.replace(/(?<=\d) (?=±|%|\p{L}{1,3}$)|(?<=±) /gu, '\u00a0') };
  work.findings.add('value', placeIn(work, node), { word, expected: work.context.valueNames() });
  return { type: 'text', value: `[${word}: not known]` };
}

function swatch(work: Work, node: Nodes, word: string): Nodes {
  const content = work.context.swatch(word);
  if (content) return slot(work, content);
  work.findings.add('swatch', placeIn(work, node), { word });
  return { type: 'text', value: `[colour of ${word}: not known]` };
}

function moment(work: Work, node: Nodes, word: string): Nodes {
  const content = work.context.moment?.(word);
  if (content) return slot(work, content);
  work.findings.add('no-such-moment', placeIn(work, node), { at: word, expected: work.context.momentTimes?.() ?? [] });
  return { type: 'text', value: word };
}

/** Words that only look like a directive (`ratio 1:x`) stay words. */
function literally({ markdown }: Work, node: AnyDirective): PhrasingContent[] {
  const { start, end } = node.position ?? {};
  if (start?.offset === undefined || end?.offset === undefined) return [];
  const text: Text = { type: 'text', value: markdown.slice(start.offset, end.offset) };
  return node.type === 'textDirective' ? [text] : [{ type: 'paragraph', children: [text] } as never];
}

/** Where the next node stands that is to be looked at; undefined where the node stays and what is in it comes next. */
type Next = number | undefined;

function placeDirective(work: Work, node: AnyDirective, index: number, parent: Parents): Next {
  const made = directive(work, node);
  if (made) {
    parent.children[index] = made as never;
    return index + 1;
  }
  const literal = literally(work, node);
  parent.children.splice(index, 1, ...(literal as never[]));
  return index + literal.length;
}

/** Raw HTML is shown as text; comments are left out. */
function placeHtml(work: Work, node: Html, index: number, parent: Parents): Next {
  if (/^<!--[\s\S]*-->$/.test(node.value.trim())) {
    parent.children.splice(index, 1);
    return index;
  }
  work.findings.add('raw-html', placeIn(work, node), {});
  const text: Text = { type: 'text', value: node.value };
  const inLine = parent.type === 'paragraph' || 'depth' in parent;
  parent.children[index] = (inLine ? text : { type: 'paragraph', children: [text] }) as never;
  return index + 1;
}

type LinkOrImage = Link | Image | LinkReference | ImageReference;

/** What is not published becomes words: those of a link, or what a picture would have shown. */
function placeLink(work: Work, node: LinkOrImage, index: number, parent: Parents): Next {
  const leads = 'url' in node ? lead(work, node) : !work.nowhere.has(node.identifier);
  if (leads) return undefined;
  if ('children' in node) {
    parent.children.splice(index, 1, ...(node.children as never[]));
    return index;
  }
  parent.children[index] = { type: 'text', value: node.alt ?? '' } as never;
  return index + 1;
}

type AnyImage = Image | ImageReference;
const isImage = (node: Nodes | undefined): node is AnyImage =>
  node?.type === 'image' || node?.type === 'imageReference';

/** A picture of the journal in its published forms; undefined where it is another's, or has none. */
function pictureFor(work: Work, node: AnyImage, alone: boolean, linked: boolean): Nodes | undefined {
  const { picture } = work.context;
  const { file, title } =
    node.type === 'image'
      ? { file: fileMeant(work, node.url), title: node.title ?? undefined }
      : (work.defined.get(node.identifier) ?? {});
  if (!picture || file === undefined) return undefined;
  const made = picture({ file, alt: node.alt ?? '', ...(title && { title }), alone, linked });
  return made && slot(work, made);
}

function placeImage(work: Work, node: AnyImage, index: number, parent: Parents): Next {
  const linked = parent.type === 'link' || parent.type === 'linkReference';
  const made = pictureFor(work, node, false, linked);
  if (!made) return placeLink(work, node, index, parent);
  parent.children[index] = made as never;
  return index + 1;
}

/** A paragraph that is one picture becomes that picture, with its caption. */
function placeParagraph(work: Work, { children }: Paragraph, index: number, parent: Parents): Next {
  const [only, ...others] = children;
  if (others.length > 0 || !isImage(only)) return undefined;
  const made = pictureFor(work, only, true, false);
  if (!made) return undefined;
  parent.children[index] = made as never;
  return index + 1;
}

/** What has to be known of a body before anything is placed in it. */
interface Outline {
  readonly headings: Heading[];
  readonly definitions: Definition[];
}

function outline(node: Nodes, found: Outline = { headings: [], definitions: [] }): Outline {
  if (node.type === 'heading') found.headings.push(node);
  else if (node.type === 'definition') found.definitions.push(node);
  // No heading or definition stands in a line.
  else if ('children' in node && node.type !== 'paragraph') for (const child of node.children) outline(child, found);
  return found;
}

/** Definitions lead like links; the identifiers of those that lead nowhere are kept. */
function leadDefinitions(work: Work, { definitions }: Outline): void {
  for (const node of definitions) {
    work.defined.set(node.identifier, { file: fileMeant(work, node.url), ...(node.title && { title: node.title }) });
    if (!lead(work, node)) work.nowhere.add(node.identifier);
  }
}

/** The page's title is its h1, so the shallowest heading of a body becomes an h2. */
function lowerHeadings({ headings }: Outline): void {
  const shallowest = Math.min(6, ...headings.map(({ depth }) => depth));
  for (const node of headings) node.depth = Math.min(6, node.depth + 2 - shallowest) as Heading['depth'];
}

function placeNode(work: Work, node: Nodes, index: number, parent: Parents): Next {
  switch (node.type) {
    case 'html':
      return placeHtml(work, node, index, parent);
    case 'paragraph':
      return placeParagraph(work, node, index, parent);
    case 'image':
    case 'imageReference':
      return placeImage(work, node, index, parent);
    case 'link':
    case 'linkReference':
      return placeLink(work, node, index, parent);
    case 'textDirective':
    case 'leafDirective':
    case 'containerDirective':
      return placeDirective(work, node, index, parent);
    default:
      return undefined;
  }
}

function place(work: Work, parent: Parents): void {
  let at = 0;
  while (at < parent.children.length) {
    const node = parent.children[at]!;
    const next = placeNode(work, node, at, parent);
    if (next === undefined && 'children' in node) place(work, node);
    at = next ?? at + 1;
  }
}

const slotOf = (node: Element): RegExpExecArray | null =>
  node.tagName === 'span' && typeof node.properties.id === 'string' ? /^slot-(\d+)$/.exec(node.properties.id) : null;

/**
 * Puts our own trees into their slots. An empty corner of a table heads nothing; a table stands in a frame that scrolls
 * where it is too wide.
 */
function finish(work: Work, parent: Hast | Element): void {
  for (const [index, node] of parent.children.entries()) {
    if (node.type !== 'element') continue;
    const slot = slotOf(node);
    if (slot) {
      parent.children[index] = work.placed[Number(slot[1])]!;
      continue;
    }
    if (node.tagName === 'th' && node.children.length === 0) node.tagName = 'td';
    if (node.tagName === 'table') parent.children[index] = framed(node);
    finish(work, node);
  }
}

/** Whether there are signs in its values of which the library and our own writer think differently. */
const hasQuotesInValues = ({ properties, children }: Element): boolean =>
  Object.values(properties).some((value) => /['`]/.test(String(value))) ||
  children.some((child) => child.type === 'element' && hasQuotesInValues(child));

const framed = (table: Element): Element => ({
  type: 'element',
  tagName: 'div',
  properties: { tabIndex: 0, role: 'region', ariaLabel: 'Table' },
  children: [table],
});

/** Elements of some nodes by the library, sanitised. */
function byLibrary(work: Work, children: Mdast['children']): ElementContent[] {
  const clean = toHast.runSync({ type: 'root', children }) as Hast;
  finish(work, clean);
  return clean.children as ElementContent[];
}

/** An element that needs no library; undefined where it does. */
function withoutLibrary(node: Nodes): ElementContent | undefined {
  const made = plainElement(node, ({ data }) => (data && 'placed' in data ? data.placed : undefined));
  return made?.type === 'element' && made.tagName === 'table' ? framed(made) : made;
}

/** The elements of a body, on lines of their own. */
function elementsOf(work: Work, { children }: Mdast): ElementContent[] {
  // Notes and definitions are looked for in all of it.
  if (reachesFar.test(work.markdown)) return byLibrary(work, children);
  const made = children.flatMap((node) => withoutLibrary(node) ?? byLibrary(work, [node]));
  return made.flatMap((node, at): ElementContent[] => (at === 0 ? [node] : [{ type: 'text', value: '\n' }, node]));
}

/**
 * Renders one body.
 * @returns children of the write-up, with headings one level down, and remarks with their place in the file
 */
export function renderBody(markdown: string, context: BodyContext): RenderedBody {
  const work: Work = {
    markdown,
    context,
    findings: new Findings(),
    partLinks: [],
    placed: [],
    nowhere: new Set(),
    defined: new Map(),
  };
  const tree: Mdast = parseBody(markdown);
  const found = outline(tree);
  lowerHeadings(found);
  leadDefinitions(work, found);
  place(work, tree);
  const children = elementsOf(work, tree);
  for (const node of children)
    if (node.type === 'element' && !work.placed.includes(node) && hasQuotesInValues(node)) node.data = { ofBody: true };
  const remarks = remarksFrom(work.findings.all, () => placeInBody(context));
  return { children, remarks, partLinks: work.partLinks };
}
