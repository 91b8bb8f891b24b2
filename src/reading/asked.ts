// What a request asks for, and whether it may: only names of this machine, only paths.
import type { IncomingMessage } from 'node:http';
import { decoded } from '../journal/links.js';

/** Only names of this machine, so that a page elsewhere cannot read the journal through a name it controls. */
export function hostIsOurs(host: string | undefined, port: number): boolean {
  return host !== undefined && [`127.0.0.1:${port}`, `localhost:${port}`, `[::1]:${port}`].includes(host.toLowerCase());
}

/** The Host header where there is just one; two could be told apart by nobody. */
export function onlyHost({ rawHeaders }: Pick<IncomingMessage, 'rawHeaders'>): string | undefined {
  const hosts = rawHeaders.filter((_, at) => at % 2 === 1 && rawHeaders[at - 1]!.toLowerCase() === 'host');
  return hosts.length === 1 ? hosts[0] : undefined;
}

export interface Asked {
  /** Path, decoded: `/journal/photos/4 A.jpg`. */
  readonly path: string;
  readonly query: URLSearchParams;
}

/**
 * Path and query of a request's target, taken as they are: `//x` is a path and no other host's address.
 * @example askedFor('/journal/14/?x=1').path // '/journal/14/'
 */
export function askedFor(target: string): Asked {
  const local = target.replace(/^https?:\/\/[^/?#]*/i, '').replace(/#.*$/s, '');
  const query = local.indexOf('?');
  const path = query < 0 ? local : local.slice(0, query);
  return {
    path: decoded(path === '' ? '/' : path),
    query: new URLSearchParams(query < 0 ? '' : local.slice(query + 1)),
  };
}
