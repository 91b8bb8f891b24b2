// The text of a page from its tree. Words of a maker are written by rehype-stringify. The trees of our own templates,
// which are most of a page, are written in the same way by a writer that looks up each attribute once and escapes only
// what has to be. It gathers ids and links on the way, so that no page is read again for them.
import type { Element, Parents, Properties, Root, RootContent } from 'hast';
import { find, html, svg } from 'property-information';
import rehypeStringify from 'rehype-stringify';
import { unified } from 'unified';
import { partsIn, type PageParts } from './html.js';

declare module 'hast' {
  interface ElementData {
    /** It comes from what a maker wrote. */
    ofBody?: boolean;
  }
}

const library = unified()
  .use(rehypeStringify, {
    omitOptionalTags: true,
    closeEmptyElements: true,
    tightSelfClosing: true,
    preferUnquoted: true,
    collapseEmptyAttributes: true,
  })
  .freeze();

const namesIn = (names: string): ReadonlySet<string> => new Set(names.split(' '));

const escapedSign = (sign: string): string => `&#x${sign.charCodeAt(0).toString(16).toUpperCase()};`;

const escapedText = (text: string): string => (/[<&]/.test(text) ? text.replaceAll(/[<&]/g, escapedSign) : text);

const escapedValue = (value: string): string => (/["&]/.test(value) ? value.replaceAll(/["&]/g, escapedSign) : value);

/** What cannot stand in a value without quotes (HTML, 13.1.2.3 Attributes, Unquoted attribute value syntax). */
const needsQuotes = /[\0\t\n\f\r "&'<=>`]/;

/** A value with the sign that sets it off; an empty one is nothing, as an attribute without a value has it. */
function setOff(value: string): string {
  if (needsQuotes.test(value)) return `="${escapedValue(value)}"`;
  return value === '' ? '' : `=${value}`;
}

// Attributes

type Space = typeof html;

interface Attribute {
  readonly name: string;
  /** Its presence says something, whatever its value. */
  readonly isSwitch: boolean;
  /** An empty text turns it on too (`download`). */
  readonly isOnWhenEmpty: boolean;
  readonly separator: string;
}

type Known = Map<string, Attribute>;
const inHtml: Known = new Map();
const inDrawings: Known = new Map();

function attributeOf(space: Space, property: string): Attribute {
  const known = space === svg ? inDrawings : inHtml;
  let one = known.get(property);
  if (!one) {
    const { attribute, boolean, overloadedBoolean, commaSeparated } = find(space, property);
    one = {
      name: attribute,
      isSwitch: boolean || overloadedBoolean,
      isOnWhenEmpty: overloadedBoolean,
      separator: commaSeparated ? ', ' : ' ',
    };
    known.set(property, one);
  }
  return one;
}

type Value = Properties[string];

/** Whether a switch is on; a text that says more than that stays. */
function switched({ name, isOnWhenEmpty }: Attribute, value: Value): Value {
  if (value === '') return isOnWhenEmpty;
  return typeof value === 'string' && value !== name ? value : Boolean(value);
}

function attributeText(attribute: Attribute, given: Value): string {
  if (typeof given === 'string' && !attribute.isSwitch) return ` ${attribute.name}${setOff(given)}`;
  const value = attribute.isSwitch ? switched(attribute, given) : given;
  if (value === null || value === undefined || value === false || Number.isNaN(value)) return '';
  if (value === true) return ` ${attribute.name}`;
  const written = Array.isArray(value) ? value.join(attribute.separator).trim() : String(value);
  return ` ${attribute.name}${setOff(written)}`;
}

// Tags (HTML, 13.1.2 Elements, and 13.1.2.4 Optional tags)

const withoutEndTag = namesIn('area base br col embed hr img input link meta source track wbr');

/** Within drawings, elements in which there is HTML again. */
const htmlWithin = namesIn('desc foreignObject title');

const endsParagraph =
  'address article aside blockquote details div dl fieldset figcaption figure footer form h1 h2 h3 h4 h5 h6 header ' +
  'hgroup hr main menu nav ol p pre section table ul';

/** An element's end tag can be left out before one of these; at the end of its parent where `-` is among them. */
const endLeftOutBefore: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ['dd', namesIn('- dt dd')],
  ['dt', namesIn('dt dd')],
  ['li', namesIn('- li')],
  ['optgroup', namesIn('- optgroup')],
  ['option', namesIn('- option optgroup')],
  ['p', namesIn(`- ${endsParagraph}`)],
  ['tbody', namesIn('- tbody tfoot')],
  ['td', namesIn('- td th')],
  ['tfoot', namesIn('-')],
  ['th', namesIn('- td th')],
  ['thead', namesIn('tbody tfoot')],
  ['tr', namesIn('- tr')],
]);

/** Elements whose end tag is needed only before white space or, as all end tags, before a comment. */
const endLeftOutBeforeAll = namesIn('html head body caption');

/** In these a paragraph may be followed by what is outside of them. */
const transparent = namesIn('a audio del ins map noscript video');

const headsPage = namesIn('meta link script style template');

const isSpace = (node: RootContent | undefined): boolean => node?.type === 'text' && !/[^ \t\n\f\r]/.test(node.value);

const beginsWithSpace = (node: RootContent | undefined): boolean =>
  node?.type === 'text' && /^(?:[ \t\n\f\r]|$)/.test(node.value);

/** The next node that is more than white space. */
function nextOf({ children }: Parents, index: number): RootContent | undefined {
  let at = index + 1;
  while (isSpace(children[at])) at += 1;
  return children[at];
}

function leavesEndOut({ tagName }: Element, parent: Parents, index: number): boolean {
  const others = endLeftOutBefore.get(tagName);
  if (!others) return endLeftOutBeforeAll.has(tagName) && !beginsWithSpace(parent.children[index + 1]);
  const next = nextOf(parent, index);
  if (next) return next.type === 'element' && others.has(next.tagName);
  return others.has('-') && !(tagName === 'p' && parent.type === 'element' && transparent.has(parent.tagName));
}

/** Whether the start tag of an element without attributes can be left out. */
function leavesStartOut({ tagName, children: [first] }: Element): boolean {
  switch (tagName) {
    case 'html':
    case 'head':
      return first === undefined || first.type === 'element';
    case 'body':
      return (
        first === undefined || (first.type === 'element' ? !headsPage.has(first.tagName) : !beginsWithSpace(first))
      );
    default:
      return false;
  }
}

/** What makes an element a part that is linked to, or leads elsewhere. */
const leads = namesIn('id href src');

// Nodes

/** Writes one page. */
class PageWriter {
  readonly ids = new Set<string>();
  readonly links: string[] = [];
  private space: Space = html;

  children(parent: Parents): string {
    let text = '';
    const { children } = parent;
    for (let at = 0; at < children.length; at += 1) text += this.node(children[at]!, parent, at);
    return text;
  }

  private node(node: RootContent, parent: Parents, index: number): string {
    switch (node.type) {
      case 'element':
        return node.data?.ofBody ? this.ofBody(node, parent, index) : this.element(node, parent, index);
      case 'text':
        return parent.type === 'element' && parent.tagName === 'script' ? node.value : escapedText(node.value);
      case 'doctype':
        return '<!doctype html>';
      default:
        throw new Error(`A template made a node of the type ${node.type}`);
    }
  }

  /** An element of a write-up; at the end of its own tree every paragraph's end tag is left out. */
  private ofBody(element: Element, parent: Parents, index: number): string {
    const text = library.stringify({ type: 'root', children: [element] });
    const { ids, links } = partsIn(text);
    for (const id of ids) this.ids.add(id);
    this.links.push(...links);
    return element.tagName === 'p' && !leavesEndOut(element, parent, index) ? `${text}</p>` : text;
  }

  private element(element: Element, parent: Parents, index: number): string {
    const { tagName } = element;
    const { space } = this;
    const isDrawn = space === svg;
    if (tagName === 'svg') this.space = svg;
    const attributes = this.attributes(element.properties);
    if (isDrawn && htmlWithin.has(tagName)) this.space = html;
    const content = element.children.length > 0 ? this.children(element) : '';
    this.space = space;
    if (isDrawn && content === '') return `<${tagName}${attributes}${/[^"]$/.test(attributes) ? ' ' : ''}/>`;
    const start = attributes === '' && !isDrawn && leavesStartOut(element) ? '' : `<${tagName}${attributes}>`;
    if (!isDrawn && (withoutEndTag.has(tagName) || leavesEndOut(element, parent, index))) return start + content;
    return `${start}${content}</${tagName}>`;
  }

  private attributes(properties: Properties): string {
    let text = '';
    for (const property in properties) {
      const value = properties[property];
      if (value === null || value === undefined) continue;
      text += attributeText(attributeOf(this.space, property), value);
      if (leads.has(property)) this.gather(property, String(value));
    }
    return text;
  }

  /** Takes note of an element's id and of where it leads. */
  private gather(property: string, value: string): void {
    if (property === 'id') this.ids.add(value);
    else this.links.push(value);
  }
}

/** A page as text, and what leads to its parts and from it. */
export interface PageText {
  readonly html: string;
  readonly parts: PageParts;
}

/** @example pageText(h(null, h('p', { id: 'one' }, 'A & B'))).html // '<p id=one>A &#x26; B' */
export function pageText(tree: Root): PageText {
  const writer = new PageWriter();
  const text = writer.children(tree);
  return { html: text, parts: { ids: writer.ids, links: writer.links } };
}

/** The same without its parts. */
export const stringify = (tree: Root): string => pageText(tree).html;
