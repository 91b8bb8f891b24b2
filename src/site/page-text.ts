// The text of a page from its tree, as rehype-stringify would write it, by a writer that looks up each name once and
// escapes only what has to be. Where the library escapes more in a maker's words, it writes them. Ids and links are
// gathered on the way, so that no page is read again for them.
import type { Element, Parents, Properties, Root, RootContent } from 'hast';
import { find, html, svg } from 'property-information';
import rehypeStringify from 'rehype-stringify';
import { unified } from 'unified';
import { partsIn, type PageParts } from './html.js';

declare module 'hast' {
  interface ElementData {
    /** It comes from what a maker wrote, and holds values that the library writes in its own way. */
    ofBody?: boolean;
    /** It stands on many pages, and is the same there. */
    ofManyPages?: boolean;
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

const hasToBeEscaped = /[<&]/;

const escapedText = (text: string): string =>
  hasToBeEscaped.test(text) ? text.replaceAll(/[<&]/g, escapedSign) : text;

const escapedValue = (value: string): string => (/["&]/.test(value) ? value.replaceAll(/["&]/g, escapedSign) : value);

/** What cannot stand in a value without quotes (HTML, 13.1.2.3 Attributes, Unquoted attribute value syntax). */
const needsQuotes = /[\0\t\n\f\r "&'<=>`]/;

// Attributes

type Space = typeof html;

interface Attribute {
  readonly name: string;
  /** How it begins on a page: ` name`, ` name=`, ` name="`. */
  readonly alone: string;
  readonly plain: string;
  readonly quoted: string;
  /** Its presence says something, whatever its value. */
  readonly isSwitch: boolean;
  /** An empty text turns it on too (`download`). */
  readonly isOnWhenEmpty: boolean;
  readonly separator: string;
  /** It makes an element a part that is linked to, or leads elsewhere. */
  readonly leads: boolean;
}

const leading = namesIn('id href src');

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
      alone: ` ${attribute}`,
      plain: ` ${attribute}=`,
      quoted: ` ${attribute}="`,
      isSwitch: boolean || overloadedBoolean,
      isOnWhenEmpty: overloadedBoolean,
      separator: commaSeparated ? ', ' : ' ',
      leads: leading.has(property),
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

/** Most lists are one class. */
const listed = (values: readonly (string | number)[], separator: string): string =>
  (values.length === 1 ? String(values[0]) : values.join(separator)).trim();

/** An attribute with its value set off; an empty one is nothing, as an attribute without a value has it. */
function written({ alone, plain, quoted }: Attribute, value: string): string {
  if (needsQuotes.test(value)) return `${quoted}${escapedValue(value)}"`;
  return value === '' ? alone : plain + value;
}

function attributeText(attribute: Attribute, given: Value): string {
  if (typeof given === 'string' && !attribute.isSwitch) return written(attribute, given);
  const value = attribute.isSwitch ? switched(attribute, given) : given;
  if (typeof value === 'number') return Number.isNaN(value) ? '' : attribute.plain + value;
  if (value === null || value === undefined || value === false) return '';
  if (value === true) return attribute.alone;
  return written(attribute, Array.isArray(value) ? listed(value, attribute.separator) : String(value));
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

/** Elements whose start tag can be left out where they have no attributes. */
const startLeftOut = namesIn('html head body');

/** What is known of all elements of a name. */
interface Tag {
  /** `<name`, `<name>`, `</name>` */
  readonly begin: string;
  readonly start: string;
  readonly end: string;
  readonly hasNoEnd: boolean;
  readonly endLeftOutBefore: ReadonlySet<string> | undefined;
  readonly endLeftOutBeforeAll: boolean;
  readonly startLeftOut: boolean;
}

const tags = new Map<string, Tag>();

function tagOf(name: string): Tag {
  let tag = tags.get(name);
  if (!tag) {
    tag = {
      begin: `<${name}`,
      start: `<${name}>`,
      end: `</${name}>`,
      hasNoEnd: withoutEndTag.has(name),
      endLeftOutBefore: endLeftOutBefore.get(name),
      endLeftOutBeforeAll: endLeftOutBeforeAll.has(name),
      startLeftOut: startLeftOut.has(name),
    };
    tags.set(name, tag);
  }
  return tag;
}

/** In these a paragraph may be followed by what is outside of them. */
const transparent = namesIn('a audio del ins map noscript video');

const headsPage = namesIn('meta link script style template');

const isSpace = (node: RootContent | undefined): boolean => node?.type === 'text' && !/[^ \t\n\f\r]/.test(node.value);

const beginsWithSpace = (node: RootContent | undefined): boolean =>
  node?.type === 'text' && /^(?:[ \t\n\f\r]|$)/.test(node.value);

/** The next node that is more than white space. */
function nextOf({ children }: Parents, index: number): RootContent | undefined {
  let at = index + 1;
  while (children[at]?.type === 'text' && isSpace(children[at])) at += 1;
  return children[at];
}

function leavesEndOut(tag: Tag, parent: Parents, index: number): boolean {
  const others = tag.endLeftOutBefore;
  if (!others) return tag.endLeftOutBeforeAll && !beginsWithSpace(parent.children[index + 1]);
  const next = nextOf(parent, index);
  if (next) return next.type === 'element' && others.has(next.tagName);
  return others.has('-') && !(tag.begin === '<p' && parent.type === 'element' && transparent.has(parent.tagName));
}

/** The end tag of an element where it stands. */
const endOf = (tag: Tag, parent: Parents, index: number): string =>
  tag.hasNoEnd || leavesEndOut(tag, parent, index) ? '' : tag.end;

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

// Nodes

/** An element that many pages share, without its end tag. */
interface SharedText {
  readonly html: string;
  /** Left out where nothing in it is led to or leads anywhere. */
  readonly parts?: PageParts;
}

const sharedTexts = new WeakMap<Element, SharedText>();

/** The same text in one piece: one of many pieces would be put together anew on every page. */
function inOnePiece(text: string): string {
  text.charCodeAt(0);
  return text;
}

/** Writes one page, piece by piece. */
class PageWriter {
  readonly ids = new Set<string>();
  readonly links: string[] = [];
  /** What is written so far. */
  text = '';
  private space: Space = html;

  children(parent: Parents): void {
    const { children } = parent;
    for (let at = 0; at < children.length; at += 1) {
      const node = children[at]!;
      if (node.type === 'element') this.element(node, parent, at);
      else this.text += this.without(node, parent);
    }
  }

  /** What is no element. */
  private without(node: Exclude<RootContent, Element>, parent: Parents): string {
    if (node.type === 'doctype') return '<!doctype html>';
    if (node.type !== 'text') throw new Error(`A template made a node of the type ${node.type}`);
    return parent.type === 'element' && parent.tagName === 'script' ? node.value : escapedText(node.value);
  }

  private element(element: Element, parent: Parents, index: number): void {
    const { data } = element;
    if (data?.ofBody) this.ofBody(element, parent, index);
    else if (data?.ofManyPages) this.shared(element, parent, index);
    else if (this.space === svg) this.drawn(element);
    else {
      const tag = tagOf(element.tagName);
      this.withoutEnd(element, tag);
      this.text += endOf(tag, parent, index);
    }
  }

  /** An element of a write-up; at the end of its own tree every paragraph's end tag is left out. */
  private ofBody(element: Element, parent: Parents, index: number): void {
    const text = library.stringify({ type: 'root', children: [element] });
    const { ids, links } = partsIn(text);
    for (const id of ids) this.ids.add(id);
    this.links.push(...links);
    this.text += text;
    if (element.tagName === 'p' && !leavesEndOut(tagOf('p'), parent, index)) this.text += '</p>';
  }

  /** An element that many pages share is written once for all of them, but for its end tag. */
  private shared(element: Element, parent: Parents, index: number): void {
    let shared = sharedTexts.get(element);
    if (!shared) {
      const writer = new PageWriter();
      writer.space = this.space;
      if (this.space === svg) writer.drawn(element);
      else writer.withoutEnd(element, tagOf(element.tagName));
      const leads = writer.ids.size > 0 || writer.links.length > 0;
      sharedTexts.set(element, (shared = { html: inOnePiece(writer.text), ...(leads && { parts: writer }) }));
    }
    if (shared.parts) {
      for (const id of shared.parts.ids) this.ids.add(id);
      this.links.push(...shared.parts.links);
    }
    this.text += shared.html;
    if (this.space !== svg) this.text += endOf(tagOf(element.tagName), parent, index);
  }

  private withoutEnd(element: Element, tag: Tag): void {
    const { space } = this;
    if (element.tagName === 'svg') this.space = svg;
    const attributes = this.attributes(element.properties);
    if (attributes !== '') this.text += `${tag.begin}${attributes}>`;
    else if (!(tag.startLeftOut && leavesStartOut(element))) this.text += tag.start;
    this.children(element);
    this.space = space;
  }

  /** An element within a drawing. */
  private drawn(element: Element): void {
    const tag = tagOf(element.tagName);
    const attributes = this.attributes(element.properties);
    const before = this.text;
    const start = (this.text += attributes === '' ? tag.start : `${tag.begin}${attributes}>`);
    if (htmlWithin.has(element.tagName)) this.space = html;
    this.children(element);
    this.space = svg;
    if (this.text.length > start.length) this.text += tag.end;
    else this.text = `${before}${tag.begin}${attributes}${attributes === '' || attributes.endsWith('"') ? '' : ' '}/>`;
  }

  private attributes(properties: Properties): string {
    let text = '';
    for (const property in properties) {
      const value = properties[property];
      if (value === null || value === undefined) continue;
      const attribute = attributeOf(this.space, property);
      text += attributeText(attribute, value);
      if (attribute.leads) this.gather(property, String(value));
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
  writer.children(tree);
  return { html: writer.text, parts: { ids: writer.ids, links: writer.links } };
}

/** The same without its parts. */
export const stringify = (tree: Root): string => pageText(tree).html;
