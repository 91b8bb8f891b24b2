// The elements of a page as our own stringifier wrote it. Every `<` of text is escaped there and every attribute's
// value stands in double quotes with hexadecimal references, or without quotes where it needs none, so that no parser
// is needed to find links and ids.

const tag = /<[a-z][a-z0-9-]*((?:\s+[^\s=>/"]+(?:="[^"]*"|=[^ \t\n\f\r"'<=>`]+)?)*)/gi;
/** Few elements have an attribute that is looked for; those that may are read attribute by attribute. */
const mayBeLookedFor = /\s(?:id|href|src)=/;
const attribute = /([^\s=>/"]+)=(?:"([^"]*)"|([^ \t\n\f\r"'<=>`]+))/g;

const plain = (value: string): string =>
  !value.includes('&')
    ? value
    : value.replace(/&#x([0-9a-f]+);/gi, (_, digits: string) => String.fromCodePoint(Number.parseInt(digits, 16)));

/** What leads to a page's parts and from it: its ids, and the addresses of its links and pictures, in order. */
export interface PageParts {
  readonly ids: ReadonlySet<string>;
  readonly links: readonly string[];
}

/**
 * Parts and links of a page.
 * @example partsIn('<p id=one><a href="/1/">one</a>').links // ['/1/']
 */
export function partsIn(html: string): PageParts {
  const ids = new Set<string>();
  const links: string[] = [];
  for (const [, written = ''] of html.matchAll(tag)) {
    if (!mayBeLookedFor.test(written)) continue;
    let link: string | undefined;
    for (const [, name, quoted, value = quoted ?? ''] of written.matchAll(attribute)) {
      if (name === 'id') ids.add(plain(value));
      else if (name === 'href' || (name === 'src' && link === undefined)) link = plain(value);
    }
    if (link !== undefined) links.push(link);
  }
  return { ids, links };
}

/** Ids on a page. */
export const idsIn = (html: string): ReadonlySet<string> => partsIn(html).ids;
