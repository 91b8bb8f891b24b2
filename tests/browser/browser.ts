// What the browser tests share: Chromium, the demonstration journal published once, and a plain file host for it.
import { cpSync, mkdtempSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser } from 'playwright-core';
import { inject } from 'vitest';
import { publish } from '../../src/site/publish.js';

export const demo = fileURLToPath(new URL('../../content', import.meta.url));

const types: Record<string, string> = {
  '.html': 'text/html',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.csv': 'text/csv',
  '.xml': 'application/xml',
  '.atom': 'application/atom+xml',
};

/** A host that only hands out files, under a base path, as the cheapest hosting does. */
export async function plainHost(
  folder: string,
  base: string,
): Promise<{ url: string; asked: string[]; bytes: () => number; close: () => Promise<void> }> {
  const asked: string[] = [];
  let sent = 0;
  const server: Server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname);
    asked.push(path);
    let file = path.startsWith(`${base}/`) ? join(folder, path.slice(base.length)) : join(folder, '\u0000');
    let status = 200;
    try {
      if (statSync(file).isDirectory()) file = join(file, 'index.html');
      statSync(file);
    } catch {
      file = join(folder, '404.html');
      status = 404;
    }
    const content = readFileSync(file);
    sent += content.length;
    response.writeHead(status, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    response.end(content);
  });
  await new Promise<void>((started) => {
    server.listen(0, '127.0.0.1', started);
  });
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}${base}`,
    asked,
    bytes: () => sent,
    close: () =>
      new Promise((closed) => {
        server.closeAllConnections();
        server.close(() => closed());
      }),
  };
}

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: inject('chromium'),
    args: [
      '--no-sandbox',
      '--headless',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
    ],
  });

async function published(folder: string): Promise<string> {
  const journal = join(folder, 'journal');
  cpSync(demo, journal, { recursive: true });
  const publication = await publish(journal, { to: join(folder, 'site'), drafts: true });
  if (!publication.published)
    throw new Error(
      `the demonstration journal was not published: ${publication.remarks
        .filter((one) => one.fatal)
        .map((one) => `${one.file}:${one.line} ${one.reason}`)
        .join('; ')}`,
    );
  return join(folder, 'site');
}

let site: Promise<string> | undefined;

/**
 * The folder of the demonstration journal, published whole, drafts too. Test files that share a process share it; nobody
 * writes there, and the test run removes it when it ends.
 */
export const publishedDemo = (): Promise<string> =>
  (site ??= published(mkdtempSync(join(inject('forAllFiles'), 'demonstration-'))));
