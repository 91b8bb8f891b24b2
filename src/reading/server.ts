// The reading copy: the site served from memory on this machine only, each page rendered when asked for,
// refreshed as files are saved, with the proof's remarks on the page.
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { watch } from 'chokidar';
import { troublePage } from '../../templates/trouble.js';
import { remarksAsJson, type ReadOptions, type Remark } from '../journal/index.js';
import { openJournal } from '../open.js';
import { gatherAssets, type FileContent } from '../site/assets.js';
import { splitAddress } from '../site/context.js';
import { writeData } from '../site/data.js';
import { feeds, sitemap } from '../site/feeds.js';
import { stringify } from '../site/entry-pages.js';
import { planSite, type SitePlan } from '../site/plan.js';
import { namedFiles } from '../site/publish.js';
import { searchIndex } from '../site/search-index.js';

export interface ReadingOptions {
  /** 0 takes any free port. */
  readonly port: number;
  readonly onProof?: (remarks: readonly Remark[]) => void;
  /** Milliseconds to wait for further changes before reading again. */
  readonly settle?: number;
}

export interface ReadingCopy {
  readonly port: number;
  /** `http://127.0.0.1:4747/journal/` */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** Addresses of the reading copy's own, which no journal page can have. */
const changesAddress = '/~reading/changes';
const remarksAddress = '/~reading/remarks';

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
const typeOf = (address: string): string =>
  address.endsWith('/') ? types.html! : (types[address.split('.').pop()!.toLowerCase()] ?? 'application/octet-stream');

interface State {
  readonly plan?: SitePlan;
  readonly remarks: readonly Remark[];
  /** Lazily made: the files that are not pages. */
  files?: Promise<Map<string, FileContent>>;
}

/** Starts the reading copy of the journal in `folder`. */
export async function startReading(folder: string, options: ReadingOptions): Promise<ReadingCopy> {
  const assets = gatherAssets();
  const memory: NonNullable<ReadOptions['memory']> = new Map();
  const listeners = new Set<ServerResponse>();
  const reading = { script: assets.scripts.reading.address, stylesheet: assets.readingStylesheet.address };
  let base = '';

  const open = async (): Promise<State> => {
    const { model, remarks } = await openJournal(folder, { drafts: true, memory });
    options.onProof?.(remarks);
    if (!model) return { remarks };
    base = splitAddress(model.journal.settings.address).base;
    return { plan: planSite(model, { reading }), remarks };
  };
  let state = await open();

  const otherFiles = (now: State): Promise<Map<string, FileContent>> =>
    (now.files ??= (async () => {
      const files = new Map<string, FileContent>();
      if (!now.plan) return files;
      const { context, model, pages } = now.plan;
      for (const file of [
        ...writeData(model),
        ...feeds(context, model),
        sitemap(context, model, pages.keys()),
        ...(await searchIndex(model)),
      ])
        files.set(file.address, file.content);
      for (const [path, content] of namedFiles(model)) files.set(`/${path}`, content);
      return files;
    })());

  const fixed = new Map(
    [...assets.files, assets.scripts.reading, assets.readingStylesheet].map((file) => [file.address, file.content]),
  );

  const answer = (response: ServerResponse, status: number, type: string, content: FileContent): void => {
    response.writeHead(status, {
      'content-type': type,
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
    });
    if (typeof content === 'string' || content instanceof Uint8Array) response.end(content);
    else {
      for (const piece of content.pieces()) response.write(piece);
      response.end();
    }
  };

  const serve = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    if (!hostIsOurs(request.headers.host, (server.address() as AddressInfo).port)) {
      answer(response, 421, types.txt!, 'This reading copy answers on this machine only.\n');
      return;
    }
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      answer(response, 405, types.txt!, 'Only reading.\n');
      return;
    }
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const path = safely(() => decodeURIComponent(url.pathname)) ?? url.pathname;
    if (path === changesAddress) {
      listen(response);
      return;
    }
    if (path === remarksAddress) {
      answer(
        response,
        200,
        types.json!,
        JSON.stringify(remarksFor(state, url.searchParams.get('address') ?? '/', base)),
      );
      return;
    }
    if (fixed.has(path)) {
      answer(response, 200, typeOf(path), fixed.get(path)!);
      return;
    }
    if (base !== '' && !path.startsWith(`${base}/`)) {
      if (path === '/' || path === base) {
        response.writeHead(302, { location: `${base}/` });
        response.end();
        return;
      }
    }
    const address = path.slice(base.length) || '/';
    const { plan } = state;
    if (!plan) {
      answer(response, 500, types.html!, stringify(troublePage(remarksAsJson(state.remarks), reading)));
      return;
    }
    const page = plan.pages.get(address) ?? (plan.pages.has(`${address}/`) ? ('move' as const) : undefined);
    if (page === 'move') {
      response.writeHead(302, { location: `${base}${address}/` });
      response.end();
      return;
    }
    if (page) {
      answer(response, 200, types.html!, page().html);
      return;
    }
    const content = fixed.get(address) ?? (await otherFiles(state)).get(address);
    if (content !== undefined) {
      answer(response, 200, typeOf(address), content);
      return;
    }
    answer(response, 404, types.html!, plan.pages.get('/404.html')!().html);
  };

  const listen = (response: ServerResponse): void => {
    response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write('retry: 500\n\n');
    listeners.add(response);
    response.on('close', () => listeners.delete(response));
  };

  const server: Server = createServer((request, response) => {
    serve(request, response).catch((error: unknown) => {
      if (!response.headersSent)
        answer(response, 500, types.txt!, `This page could not be made: ${(error as Error).message}\n`);
      else response.end();
    });
  });

  let waiting: NodeJS.Timeout | undefined;
  let renewing = Promise.resolve();
  const watcher = watch(folder, {
    ignoreInitial: true,
    followSymlinks: false,
    ignored: (path) => /(^|[/\\])\.[^/\\]+$/.test(path.slice(folder.length)) || path.endsWith('~'),
  });
  watcher.on('all', () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      renewing = renewing
        .then(async () => {
          state = await open();
          for (const response of listeners) response.write('event: changed\ndata: {}\n\n');
        })
        .catch((error: unknown) => {
          process.stderr.write(`The journal could not be read again: ${(error as Error).message}\n`);
        });
    }, options.settle ?? 80);
  });

  await new Promise<void>((started, failed) => {
    server.once('error', failed);
    server.listen(options.port, '127.0.0.1', started);
  });
  await new Promise<void>((ready) => {
    watcher.once('ready', () => ready());
  });
  const { port } = server.address() as AddressInfo;
  return {
    port,
    url: `http://127.0.0.1:${port}${base}/`,
    close: async () => {
      clearTimeout(waiting);
      await watcher.close();
      await renewing;
      for (const response of listeners) response.end();
      server.closeAllConnections();
      await new Promise<void>((closed) => {
        server.close(() => closed());
      });
    },
  };
}

/** Only names of this machine, so that a page elsewhere cannot read the journal through a name it controls. */
export function hostIsOurs(host: string | undefined, port: number): boolean {
  return host !== undefined && [`127.0.0.1:${port}`, `localhost:${port}`, `[::1]:${port}`].includes(host.toLowerCase());
}

function safely<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/** Remarks of the file behind a page first, then how many there are elsewhere. */
function remarksFor(
  state: State,
  pathname: string,
  base: string,
): { here: unknown[]; elsewhere: number; errors: number } {
  const number = /^\/(\d+)\//.exec(pathname.slice(base.length))?.[1];
  const files = state.plan?.model.numberOfFile;
  const all = remarksAsJson([...state.remarks, ...bodyRemarks(state, number)]);
  const here = all.filter((remark) => (number === undefined ? true : files?.get(remark.file) === Number(number)));
  return {
    here: here.slice(0, 100),
    elsewhere: all.length - here.length,
    errors: all.filter((remark) => remark.severity === 'error').length,
  };
}

function bodyRemarks(state: State, number: string | undefined): readonly Remark[] {
  return number === undefined ? [] : (state.plan?.pages.get(`/${number}/`)?.().remarks ?? []);
}
