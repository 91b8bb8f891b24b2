// Links and images in the Markdown of a body. A quick scan finds what may be one; where the scan can't be sure
// (code, HTML, escapes), the Markdown is parsed and the parser decides.
import { posix } from 'node:path';
import type { Root } from 'mdast';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { visit } from 'unist-util-visit';
import { onceFor } from '../once.js';

/** A relative link or image in a body. */
export interface BodyLink {
  /** The address as written. */
  readonly written: string;
  /** Path below the journal that a relative address leads to (`entries/009-x.md`); the address itself otherwise. */
  readonly target: string;
  /** What follows `#` in the address. */
  readonly fragment?: string;
  /**
   * Whether the address leads to a file rather than to a web address, a place on this page or an address of the site.
   */
  readonly relative: boolean;
  readonly image: boolean;
  /** Place in the file, 1-based. */
  readonly line: number;
  readonly column: number;
}

interface Linked {
  readonly file: string;
  readonly body: string;
  readonly bodyLine: number;
}

/** `[words](address` and `![words](address`. */
const inline = /\]\([ \t]*(?:<([^<>\n]*)>|([^\s()<>]*(?:\([^\s()<>]*\)[^\s()<>]*)*))/g;
/**
 * What the scan can't judge: code, HTML and bare addresses, escapes and entities, definitions, footnotes, addresses on
 * a line of their own, addresses with spaces in them.
 */
const unsure = /\]\([ \t]*[^\s()<>]+[ \t]+[^"'(\s)]|[`\\<&]|~~~|^(?: {4}|\t| {0,3}\[[^\]]*\]:)|\]\([ \t]*(?:\n|$)/m;

/**
 * Every link and image of a body, in order, with its place in the file.
 * @example bodyLinks({ file: 'entries/2.md', body: 'As in [9](9.md#A).', bodyLine: 5 })[0].target // 'entries/9.md'
 */
export const bodyLinks: (of: Linked) => readonly BodyLink[] = onceFor((of) => foundBefore.get(of) ?? linksIn(of));

const foundBefore = new WeakMap<Linked, readonly BodyLink[]>();

/** The same body, of which the links are known, so that it need not be read for them. */
export function withBodyLinks<Of extends Linked>(of: Of, links: readonly BodyLink[]): Of {
  foundBefore.set(of, links);
  return of;
}

function linksIn(of: Linked): readonly BodyLink[] {
  if (!of.body.includes('](') && !of.body.includes(']:')) return [];
  return unsure.test(of.body) ? parsed(of) : scanned(of);
}

function link(of: Linked, written: string, image: boolean, line: number, column: number): BodyLink {
  const scheme = /^(?:[a-z][a-z0-9+.-]*:|\/\/)/i.test(written);
  const hash = written.indexOf('#');
  const fragment = hash < 0 ? undefined : decoded(written.slice(hash + 1));
  if (scheme || written.startsWith('/') || written.startsWith('#') || written === '') {
    return { written, target: written, fragment, relative: false, image, line: of.bodyLine + line - 1, column };
  }
  const path = decoded((hash < 0 ? written : written.slice(0, hash)).replace(/\?.*$/s, ''));
  return {
    written,
    target: posix.normalize(posix.join(posix.dirname(of.file), path)),
    fragment,
    relative: true,
    image,
    line: of.bodyLine + line - 1,
    column,
  };
}

/** Text of an address with its %-signs resolved; as it is where they are none. */
export function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

function scanned(of: Linked): BodyLink[] {
  const links: BodyLink[] = [];
  let line = 1;
  let lineStart = 0;
  for (const match of of.body.matchAll(inline)) {
    for (
      let next = of.body.indexOf('\n', lineStart);
      next >= 0 && next < match.index;
      next = of.body.indexOf('\n', lineStart)
    ) {
      line += 1;
      lineStart = next + 1;
    }
    const open = opening(of.body, match.index, lineStart);
    if (open < 0) return parsed(of);
    const written = match[1] ?? match[2] ?? '';
    // `](` without an address is a link to nothing only where it ends at once.
    if (written === '' && of.body[match.index + match[0].length] !== ')') continue;
    links.push(
      link(of, written, of.body[open - 1] === '!', line, (of.body[open - 1] === '!' ? open - 1 : open) - lineStart + 1),
    );
  }
  return links;
}

/** Offset of the `[` that the `]` at `close` ends, on the same line; -1 when it is not there. */
function opening(body: string, close: number, lineStart: number): number {
  let depth = 0;
  for (let at = close - 1; at >= lineStart; at -= 1) {
    if (body[at] === ']') depth += 1;
    else if (body[at] === '[') {
      if (depth === 0) return at;
      depth -= 1;
    }
  }
  return -1;
}

const parser = unified().use(remarkParse).use(remarkGfm).freeze();

function parsed(of: Linked): BodyLink[] {
  const links: BodyLink[] = [];
  const tree = parser.parse(of.body) as Root;
  visit(tree, (node) => {
    if (node.type !== 'link' && node.type !== 'image' && node.type !== 'definition') return;
    const start = node.position?.start;
    links.push(link(of, node.url, node.type === 'image', start?.line ?? 1, start?.column ?? 1));
  });
  return links;
}

/**
 * What was meant for a picture or a link, and is none as its address holds spaces, or as there is none:
 * `![two](../photos/two dishes.jpg)`, `[the green](Green from copperas)`, `[[Green from copperas]]`.
 */
const meantForLink =
  /(?<picture>!\[[^\]\n]*\]\((?<file>[^\s()<>"][^()<>"\n]*[ \t][^()<>"\n]*\.\w{2,4})\))|\[\[(?<named>[^[\]\n]+)\]\]|(?<!!)\[[^\]\n]*\]\((?<words>[^\s()<>"][^()<>"\n]*[ \t][^()<>"\n]*)\)/g;

/** Pictures and links of a body that are shown as words; of links `written` is what they name. */
export const shownAsWords = onceFor((of: Linked): readonly BodyLink[] => {
  if (of.body.search(meantForLink) < 0) return [];
  const links: BodyLink[] = [];
  visit(parser.parse(of.body) as Root, 'text', ({ value, position }) => {
    for (const { groups, index } of value.matchAll(meantForLink)) {
      const { picture, file, named, words } = groups!;
      const before = value.slice(0, index).split('\n');
      const { line, column } = position?.start ?? { line: 1, column: 1 };
      const at = before.length > 1 ? 1 : column;
      const written = (file ?? named ?? words)!;
      links.push(link(of, written, picture !== undefined, line + before.length - 1, at + before.at(-1)!.length));
    }
  });
  return links;
});
