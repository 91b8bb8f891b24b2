// What our templates are compiled to call: the elements that hastscript makes of the same JSX, but each attribute is
// looked up once and not for every element. Selectors (`p.small`) and styles as objects are not for templates.
import type { Element, Properties, Root, RootContent } from 'hast';
import { find, html, type Info } from 'property-information';

export type { JSX } from 'hastscript/jsx-runtime';

export const Fragment = null;

type Child = RootContent | Root | string | number | null | undefined | readonly Child[];

type Value = Properties[string];

/** How the text of an attribute is kept in a tree. */
interface Attribute {
  readonly property: string;
  /** Left out where a text stays as it is. */
  readonly kept?: (text: string) => Value;
}

const words = (text: string): string[] => (/[ \t\n\r\f]/.test(text) || text === '' ? parts(text.trim()) : [text]);
const parts = (text: string): string[] => (text === '' ? [] : text.split(/[ \t\n\r\f]+/));
const betweenCommas = (text: string): string[] =>
  text
    .split(',')
    .map((part) => part.trim())
    .filter((part, at, { length }) => part !== '' || at < length - 1);

/** Attributes that are there or not are true where their text is their own name, or empty. */
const truth =
  (name: string) =>
  (text: string): Value =>
    text === '' || text.toLowerCase() === name.toLowerCase() ? true : text;

const number = (text: string): Value => (text === '' || Number.isNaN(Number(text)) ? text : Number(text));

function keptAs(info: Info): Attribute['kept'] {
  if (info.spaceSeparated) return words;
  if (info.commaSeparated) return betweenCommas;
  if (info.commaOrSpaceSeparated) return (text) => words(betweenCommas(text).join(' '));
  if (info.number) return number;
  return info.boolean || info.overloadedBoolean ? truth(info.property) : undefined;
}

const attributes = new Map<string, Attribute>();

function attributeOf(name: string): Attribute {
  let known = attributes.get(name);
  if (!known) {
    const info = find(html, name);
    attributes.set(name, (known = { property: info.property, kept: keptAs(info) }));
  }
  return known;
}

function addChild(children: RootContent[], child: Child): void {
  if (child === null || child === undefined) return;
  if (typeof child === 'string') children.push({ type: 'text', value: child });
  else if (typeof child === 'number') children.push({ type: 'text', value: String(child) });
  else if (isList(child)) for (let at = 0; at < child.length; at += 1) addChild(children, child[at]);
  else if (child.type === 'root') addChild(children, child.children);
  else children.push(child);
}

const isList = (child: Exclude<Child, undefined | null>): child is readonly Child[] => Array.isArray(child);

/** What an element holds; most hold one text. */
function childrenOf(child: Child): RootContent[] {
  if (typeof child === 'string') return [{ type: 'text', value: child }];
  const children: RootContent[] = [];
  addChild(children, child);
  return children;
}

/** An element, or a root where there is no name. */
export function jsx(name: string | null, given: Readonly<Record<string, unknown>>): Element | Root {
  const children = childrenOf(given.children as Child);
  if (name === null) return { type: 'root', children };
  const properties: Properties = {};
  for (const key in given) {
    if (key === 'children') continue;
    const value = given[key] as Value;
    if (value === null || value === undefined || Number.isNaN(value)) continue;
    const { property, kept } = attributeOf(key);
    properties[property] = kept && typeof value === 'string' ? kept(value) : value;
  }
  return { type: 'element', tagName: name.toLowerCase(), properties, children: children as Element['children'] };
}

export { jsx as jsxDEV, jsx as jsxs };
