// Reading from other machines of the same network: a long random token in the address that becomes a cookie, and only
// the addresses of this machine as Host.
import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { networkInterfaces } from 'node:os';
import { askedFor, hostIsOurs, onlyHost } from './asked.js';

/** Where the token is handed in: `/~reading/enter/TOKEN`. */
const enterAddress = '/~reading/enter/';
const cookieName = 'masstone-reading';

/** Addresses of this machine in its networks, IPv4 first. */
export const addressesHere = (): readonly string[] =>
  Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ internal, address }) => !internal && !address.startsWith('fe80'))
    .sort((a, b) => a.family.localeCompare(b.family))
    .map(({ address, family }) => (family === 'IPv6' ? `[${address}]` : address));

const isLoopback = (address: string | undefined): boolean =>
  address !== undefined && (/^(?:::ffff:)?127\./.test(address) || address === '::1');

const same = (a: string, b: string): boolean =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

/** What may be answered to a request: the page, an entrance with its cookie, or a refusal. */
export type Admission =
  | { readonly may: 'read' }
  | { readonly may: 'enter'; readonly cookie: string }
  | { readonly may: 'not'; readonly status: number; readonly why: string };

/** Who may read: everyone on this machine, and whoever has the token. */
export class Nearby {
  /** 256 bits: nobody guesses it. */
  readonly token = randomBytes(32).toString('base64url');

  /** @param addresses of this machine, as they stand in an address */
  constructor(private readonly addresses: readonly string[] = addressesHere()) {}

  /** Addresses for the phone at the bench. */
  urls(port: number): readonly string[] {
    return this.addresses.map((address) => `http://${address}:${port}${enterAddress}${this.token}`);
  }

  admit(request: IncomingMessage, port: number): Admission {
    const host = onlyHost(request)?.toLowerCase();
    const ours = hostIsOurs(host, port);
    if (!ours && !this.addresses.some((address) => host === `${address.toLowerCase()}:${port}`))
      return { may: 'not', status: 421, why: 'This reading copy answers under this machine’s own addresses only.\n' };
    if (ours && isLoopback(request.socket.remoteAddress)) return { may: 'read' };
    const { path } = askedFor(request.url ?? '/');
    if (path.startsWith(enterAddress) && same(path.slice(enterAddress.length), this.token))
      return { may: 'enter', cookie: `${cookieName}=${this.token}; Path=/; HttpOnly; SameSite=Lax` };
    const cookies = (request.headers.cookie ?? '').split(/;\s*/);
    if (cookies.some((one) => same(one, `${cookieName}=${this.token}`))) return { may: 'read' };
    return { may: 'not', status: 403, why: 'Open the address that the terminal shows, token and all.\n' };
  }
}
