// Answers of the reading copy: types, headers, and contents sent no faster than they are read.
import { createReadStream, statSync } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { isOnDisk, isPieces, type FileContent } from '../site/assets.js';

const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  json: 'application/json; charset=utf-8',
  csv: 'text/csv; charset=utf-8',
  xml: 'application/xml; charset=utf-8',
  atom: 'application/atom+xml; charset=utf-8',
  svg: 'image/svg+xml',
  woff2: 'font/woff2',
  txt: 'text/plain; charset=utf-8',
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
  avif: 'image/avif',
  gif: 'image/gif',
};

/** Type of what lies at an address. @example typeOf('/14/') // 'text/html; charset=utf-8' */
export function typeOf(address: string): string {
  const ending = address.endsWith('/') ? 'html' : address.split('.').at(-1)!.toLowerCase();
  return Object.hasOwn(types, ending) ? types[ending]! : 'application/octet-stream';
}

const headers = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
} as const;

/** Sends a content; resolves when it has been read, or the reader has gone. */
export async function answer(
  response: ServerResponse,
  status: number,
  type: string,
  content: FileContent,
): Promise<void> {
  if (isOnDisk(content)) {
    // Asked for before the headers go, so that a file that has gone is an error that can still be told.
    const { size } = statSync(content.file);
    response.writeHead(status, { ...headers, 'content-type': type, 'content-length': size });
    await sent(createReadStream(content.file, { end: Math.max(0, size - 1) }), response);
    return;
  }
  response.writeHead(status, { ...headers, 'content-type': type });
  if (isPieces(content)) await sent(Readable.from(content.pieces()), response);
  else response.end(content);
}

/** Streams as fast as the other side reads. A reader that goes away is nobody's fault. */
async function sent(from: Readable, response: ServerResponse): Promise<void> {
  try {
    await pipeline(from, response);
  } catch (error) {
    if (!['ERR_STREAM_PREMATURE_CLOSE', 'ECONNRESET', 'EPIPE'].includes((error as NodeJS.ErrnoException).code ?? ''))
      throw error;
  }
}

export const answerText = (response: ServerResponse, status: number, text: string): Promise<void> =>
  answer(response, status, types.txt!, text);

/** Sends the reader to another address. */
export function redirect(response: ServerResponse, address: string): void {
  response.writeHead(302, { ...headers, location: encodeURI(address) });
  response.end();
}
