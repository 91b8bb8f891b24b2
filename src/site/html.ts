// The elements of a page as our own stringifier wrote it. Every `<` of text is escaped there and every attribute's
// value stands in double quotes with hexadecimal references, so that no parser is needed to find links and ids.

export interface PageElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
}

const tag = /<([a-z][a-z0-9-]*)((?:\s+[^\s=>/"]+(?:="[^"]*")?)*)/gi;
const attribute = /([^\s=>/"]+)="([^"]*)"/g;

const plain = (value: string): string =>
  value.replace(/&#x([0-9a-f]+);/gi, (_, digits: string) => String.fromCodePoint(Number.parseInt(digits, 16)));

/**
 * Elements of a page that have attributes, in order.
 * @example [...elementsIn('<p><a href="/1/">one</a>')][0]?.attributes.get('href') // '/1/'
 */
export function* elementsIn(html: string): Iterable<PageElement> {
  for (const [, name = '', written = ''] of html.matchAll(tag)) {
    if (written === '') continue;
    const attributes = new Map<string, string>();
    for (const [, key = '', value = ''] of written.matchAll(attribute)) attributes.set(key, plain(value));
    yield { name, attributes };
  }
}

/** Ids on a page. */
export function idsIn(html: string): ReadonlySet<string> {
  const ids = new Set<string>();
  for (const { attributes } of elementsIn(html)) {
    const id = attributes.get('id');
    if (id !== undefined) ids.add(id);
  }
  return ids;
}
