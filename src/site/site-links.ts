// Every link of the published site leads somewhere: to a file of the site, and to a part that is there.
import { decoded } from '../journal/links.js';
import type { PageParts } from './html.js';
import { hasPart } from './part-links.js';
import { fileOfAddress } from './file-writing.js';

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

/** Links of one page, each once. */
export interface PageLinks {
  /** From the root of the host, with their part: `/journal/14/#A`. */
  readonly to: readonly string[];
  /** Links that lead nowhere whatever the site holds: to no part of the page itself, out of the site. */
  readonly dead: readonly string[];
}

/** A link as it stands from the root of the host; undefined where it leads to another host. */
function localLink(page: string, link: string, { origin, base }: SiteAddress): string | undefined {
  const whole = link.startsWith(`${origin}/`) ? link.slice(origin.length) : link;
  if (/^(?:[a-z][a-z0-9+.-]*:|\/\/)/i.test(whole)) return undefined;
  return whole.startsWith('/') ? whole : fromPage(`${base}${page}`, whole);
}

/**
 * The links of a page.
 * @param page its address below the base
 */
export function linksOn(page: string, { ids, links }: PageParts, site: SiteAddress): PageLinks {
  const to = new Set<string>();
  const dead: string[] = [];
  const root = `${site.base}/`;
  for (const link of links) {
    if (link.startsWith('#')) {
      if (!hasPart(ids, decoded(link.slice(1)))) dead.push(link);
      continue;
    }
    // Most links are of the site's own pages, from the root of the host.
    const local = link.startsWith(root) && !link.startsWith('//') ? link : localLink(page, link, site);
    if (local === undefined) continue;
    if (local.startsWith(root)) to.add(local);
    else dead.push(link);
  }
  return { to: [...to], dead };
}

/** Gathers links page by page, each target once. */
export class SiteLinks {
  /** The first page that has each link. */
  private readonly seen = new Map<string, string>();
  private readonly dead: DeadLink[] = [];

  constructor(private readonly site: SiteAddress) {}

  /** Takes the links of a page. @param page its address below the base */
  take(page: string, { to, dead }: PageLinks): void {
    for (const local of to) if (!this.seen.has(local)) this.seen.set(local, page);
    for (const link of dead) this.dead.push({ page, link });
  }

  private target(local: string): Target {
    const [address = '', ...part] = local.split('#');
    const path = fileOfAddress(decoded(address.slice(this.site.base.length).replace(/\?.*$/s, '')));
    return { path, part: decoded(part.join('#')) };
  }

  /**
   * Links that lead nowhere.
   * @param has whether the site has a file of a path
   * @param idsOf ids of a page by its path; undefined where the file is no page
   */
  check(has: (path: string) => boolean, idsOf: (path: string) => ReadonlySet<string> | undefined): DeadLink[] {
    const dead = [...this.dead];
    for (const [link, page] of this.seen) {
      const { path, part } = this.target(link);
      if (!has(path)) dead.push({ page, link });
      else if (part !== '') {
        const ids = idsOf(path);
        if (ids && !hasPart(ids, part)) dead.push({ page, link });
      }
    }
    return dead;
  }
}
