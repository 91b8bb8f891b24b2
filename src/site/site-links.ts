// Every link of the published site leads somewhere: to a file of the site, and to a part that is there.
import { decoded } from '../journal/links.js';
import { elementsIn, idsIn } from './html.js';
import { hasPart } from './part-links.js';
import { fileOfAddress } from './staging.js';

/** Where the site lies: `https://copperas-lane.example` and `/journal`. */
export interface SiteAddress {
  readonly origin: string;
  readonly base: string;
}

/** A link that leads nowhere, with the address of a page that has it. */
export interface DeadLink {
  readonly page: string;
  readonly link: string;
}

/** A file of the site that is linked to, and the part of it; without part the file itself. */
interface Target {
  readonly path: string;
  readonly part: string;
}

/** A relative link as a browser takes it on a page. @example fromPage('/journal/14/', '../9/#A') // '/journal/9/#A' */
function fromPage(page: string, link: string): string {
  const { pathname, search, hash } = new URL(link, `https://host${page}`);
  return `${pathname}${search}${hash}`;
}

/** Gathers links page by page, each target once. */
export class SiteLinks {
  /** By address and part, from the root of the host. */
  private readonly seen = new Map<string, DeadLink & Target>();
  private readonly dead: DeadLink[] = [];

  constructor(private readonly site: SiteAddress) {}

  /** Takes the links of a page. @param page its address below the base */
  add(page: string, html: string): void {
    let ids: ReadonlySet<string> | undefined;
    for (const { attributes } of elementsIn(html)) {
      const link = attributes.get('href') ?? attributes.get('src');
      if (link === undefined) continue;
      if (link.startsWith('#')) {
        ids ??= idsIn(html);
        if (!hasPart(ids, decoded(link.slice(1)))) this.dead.push({ page, link });
      } else this.take(page, link);
    }
  }

  private take(page: string, link: string): void {
    const { origin, base } = this.site;
    const whole = link.startsWith(`${origin}/`) ? link.slice(origin.length) : link;
    if (/^(?:[a-z][a-z0-9+.-]*:|\/\/)/i.test(whole)) return;
    const local = whole.startsWith('/') ? whole : fromPage(`${base}${page}`, whole);
    if (this.seen.has(local)) return;
    const [address = '', ...part] = local.split('#');
    if (!address.startsWith(`${base}/`)) {
      this.dead.push({ page, link });
      return;
    }
    const path = fileOfAddress(decoded(address.slice(base.length).replace(/\?.*$/s, '')));
    this.seen.set(local, { page, link, path, part: decoded(part.join('#')) });
  }

  /** All that was gathered, as plain data for another thread. */
  get gathered(): GatheredLinks {
    return { seen: [...this.seen], dead: [...this.dead] };
  }

  /** Takes what another thread has gathered. */
  merge({ seen, dead }: GatheredLinks): void {
    for (const [local, one] of seen) if (!this.seen.has(local)) this.seen.set(local, one);
    this.dead.push(...dead);
  }

  /**
   * Links that lead nowhere.
   * @param has whether the site has a file of a path
   * @param htmlOf text of a page by its path
   */
  check(has: (path: string) => boolean, htmlOf: (path: string) => string): DeadLink[] {
    const dead = [...this.dead];
    let last: { path: string; ids: ReadonlySet<string> } | undefined;
    for (const { page, link, path, part } of [...this.seen.values()].sort((a, b) => (a.path < b.path ? -1 : 1))) {
      if (!has(path)) dead.push({ page, link });
      else if (part !== '' && path.endsWith('.html')) {
        if (last?.path !== path) last = { path, ids: idsIn(htmlOf(path)) };
        if (!hasPart(last.ids, part)) dead.push({ page, link });
      }
    }
    return dead;
  }
}

export interface GatheredLinks {
  readonly seen: readonly (readonly [string, DeadLink & Target])[];
  readonly dead: readonly DeadLink[];
}
