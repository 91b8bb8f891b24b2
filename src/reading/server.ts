// The reading copy: the site served from memory on this machine only, each page rendered when asked for,
// refreshed as files are saved, with the proof's remarks on the page.
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { staleBanner, troublePage } from '../../templates/trouble.js';
import { remarksAsJson, type Remark } from '../journal/index.js';
import type { JournalModel } from '../crosslinks/model.js';
import { gatherAssets, type FileContent, type SiteFile } from '../site/assets.js';
import { writeData } from '../site/data.js';
import { comparedFiles } from '../site/compared.js';
import { citations } from '../site/citations.js';
import { feeds, sitemap } from '../site/feeds.js';
import { stringify } from '../site/page-text.js';
import { handedOver } from '../site/handed-over.js';
import { namedFiles } from '../site/named-files.js';
import { partRemarks } from '../site/part-links.js';
import { idsOfPages, type SitePlan } from '../site/plan.js';
import { searchIndex } from '../site/search-index.js';
import { answer, answerText, redirect, typeOf } from './answers.js';
import { askedFor, hostIsOurs, onlyHost } from './asked.js';
import { answerOfChart } from './chart.js';
import { Nearby } from './nearby.js';
import { publishedSite } from './published.js';
import { Readings, type JournalRead } from './readings.js';
import { watchJournal } from './watching.js';
import { answerOfWhatIf, mostSigns, whatIfAddress } from './what-if.js';

export interface ReadingOptions {
  /** 0 takes any free port. */
  readonly port: number;
  readonly onProof?: (remarks: readonly Remark[]) => void;
  /** Told once if the files cannot be watched: then each page is read anew when it is asked for. */
  readonly onUnwatched?: (error: NodeJS.ErrnoException) => void;
  /** Told when the journal cannot be read again. */
  readonly onTrouble?: (error: Error) => void;
  /** Milliseconds to wait for further changes before reading again. */
  readonly settle?: number;
  /** Milliseconds between two looks whether the journal's folder is still the same. */
  readonly lookEvery?: number;
  /** Others in the same network may read too, with the token. Default: this machine only. */
  readonly nearby?: boolean;
  /** A published site that is served as its host will serve it, instead of the journal. */
  readonly published?: { readonly site: string; readonly base: string };
  /** Addresses of this machine; default: those of its networks. */
  readonly addresses?: readonly string[];
}

export interface ReadingCopy {
  readonly port: number;
  /** `http://127.0.0.1:4747/journal/` */
  readonly url: string;
  /** Addresses with the token for other machines; empty where nobody else may read. */
  readonly nearby: readonly string[];
  readonly close: () => Promise<void>;
}

/** Addresses of the reading copy's own, which no journal page can have. */
const changesAddress = '/~reading/changes';
const remarksAddress = '/~reading/remarks';

/**
 * Where files cannot be watched, a page that is asked for within so many milliseconds after a reading is not read
 * anew.
 */
const unwatchedPause = 1000;

/** The journal as last read, and what was made of it since. */
interface State extends JournalRead {
  /** The files that are not pages, gathered when one is asked for. */
  files?: ReadonlyMap<string, FileContent>;
  /** The search index, made when it is asked for. */
  search?: Promise<ReadonlyMap<string, FileContent>>;
}

/** What is shown is cut: what stops publication comes first. */
const gravestFirst = ['error', 'warning', 'note'] as const;

const isEntry = (address: string): boolean => /^\/\d+\/$/.test(address);

const byAddress = (files: readonly SiteFile[]): Map<string, FileContent> =>
  new Map(files.map(({ address, content }) => [address, content]));

function filesOf(state: State, { model, context, pages }: SitePlan): ReadonlyMap<string, FileContent> {
  if (!state.files) {
    const files = byAddress([
      ...writeData(model),
      ...feeds(context, model),
      ...citations(context, model),
      ...comparedFiles(model),
      sitemap(context, model, pages.keys()),
    ]);
    const named = namedFiles(model);
    for (const [path, file] of named) files.set(`/${path}`, { file });
    for (const { address, make } of handedOver(model, named.keys())) files.set(address, make());
    state.files = files;
  }
  return state.files;
}

/** The files of the search index by their addresses. */
async function searchFiles(model: JournalModel): Promise<ReadonlyMap<string, FileContent>> {
  const files: SiteFile[] = [];
  await searchIndex(model, (file) => files.push(file));
  return byAddress(files);
}

/** What lies at an address and is no page. */
async function contentAt(state: State, plan: SitePlan, address: string): Promise<FileContent | undefined> {
  if (!address.startsWith('/find/')) return filesOf(state, plan).get(address);
  state.search ??= searchFiles(plan.model);
  try {
    return (await state.search).get(address);
  } catch (error) {
    // The next one to ask may have more luck.
    state.search = undefined;
    throw error;
  }
}

/** Serves one reading copy; keeps what it serves and who waits for changes. */
class Reader {
  private readonly assets = gatherAssets();
  private readonly listeners = new Set<ServerResponse>();
  private readonly frame = {
    script: this.assets.scripts.reading.address,
    stylesheet: this.assets.readingStylesheet.address,
    whatIf: whatIfAddress,
    mostSigns,
  };
  private readonly readings: Readings;
  private readonly fixed = byAddress([
    ...this.assets.files,
    this.assets.scripts.reading,
    this.assets.scripts.chart,
    this.assets.readingStylesheet,
  ]);
  /** By address: an entry's page as it was last made, and its file. */
  private readonly lastGood = new Map<string, { readonly file: string; readonly html: string }>();
  private state: State = { remarks: [], withoutAccepted: (all) => all };
  private renewing: Promise<void> = Promise.resolve();
  private opened = 0;
  private waiting: NodeJS.Timeout | undefined;
  /** Base path of the site, without trailing slash; the last known while the settings cannot be read. */
  base = '';

  constructor(
    folder: string,
    private readonly options: ReadingOptions,
  ) {
    this.readings = new Readings(folder, this.frame);
  }

  async open(): Promise<void> {
    const read = await this.readings.read();
    this.options.onProof?.(read.withoutAccepted(read.remarks));
    if (read.plan) this.base = read.plan.context.base;
    this.opened = performance.now();
    const former = this.state.plan;
    this.state = read;
    if (former) this.keepLost(former, read.plan);
  }

  /** Keeps the pages of entries that are not there any more, as they last were, though nobody looked at them. */
  private keepLost(former: SitePlan, now: SitePlan | undefined): void {
    for (const [address, page] of former.pages)
      if (isEntry(address) && !now?.pages.has(address))
        this.keepGood(former, address, this.readings.rendered(page).html);
  }

  private keepGood(plan: SitePlan, address: string, html: string): void {
    const file = plan.fileOf.get(address);
    if (file !== undefined && isEntry(address)) this.lastGood.set(address, { file, html });
  }

  /**
   * Reads the journal again after those readings that are under way. @param unless it was read less milliseconds ago
   */
  renew(unless = 0): Promise<void> {
    this.renewing = this.renewing
      .then(() => (performance.now() - this.opened < unless ? undefined : this.open()))
      .catch((error: unknown) => this.options.onTrouble?.(error as Error));
    return this.renewing;
  }

  /** Reads the journal again when no more has changed for a moment, and tells the open pages. */
  changed(): void {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => {
      void this.renew().then(() => {
        for (const response of this.listeners) response.write('event: changed\ndata: {}\n\n');
      });
    }, this.options.settle ?? 80);
  }

  async close(): Promise<void> {
    clearTimeout(this.waiting);
    await this.renewing;
    for (const response of this.listeners) response.end();
  }

  listen(response: ServerResponse): void {
    response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write('retry: 500\n\n');
    this.listeners.add(response);
    response.on('close', () => this.listeners.delete(response));
  }

  async serve(target: string, response: ServerResponse): Promise<void> {
    const { path, query } = askedFor(target);
    if (path === changesAddress) return this.listen(response);
    if (path === remarksAddress) {
      const remarks = this.remarksOn(query.get('address') ?? '/');
      return answer(response, 200, typeOf('.json'), JSON.stringify(remarks));
    }
    const ours = this.fixed.get(path);
    if (ours !== undefined) return answer(response, 200, typeOf(path), ours);
    const { plan } = this.state;
    if (!plan) {
      const remarks = remarksAsJson(this.state.remarks);
      const trouble = stringify(troublePage(remarks, this.frame, this.assets.stylesheet.address));
      return answer(response, 500, typeOf('/'), trouble);
    }
    const stale = this.staleAt(plan, path);
    if (stale !== undefined) return answer(response, 200, typeOf('/'), stale);
    const whatIf = path === whatIfAddress ? answerOfWhatIf(query, plan) : undefined;
    if (whatIf) return answer(response, whatIf.status, typeOf('/'), whatIf.html);
    const ofChart = await answerOfChart(path, query, {
      context: plan.context,
      journal: plan.model.journal,
      script: this.assets.scripts.chart.address,
    });
    if (ofChart) return answer(response, ofChart.status, typeOf(ofChart.kind), ofChart.content);
    if (this.base !== '' && (path === '/' || path === this.base)) return redirect(response, `${this.base}/`);
    const address = this.addressOf(path);
    return address === undefined ? this.missing(plan, response) : this.servePage(plan, address, response);
  }

  /**
   * The last good page of an entry whose file cannot be read now, with the remark that says where the slip is;
   * undefined where the entry is there, or gone for good.
   */
  private staleAt(plan: SitePlan, path: string): string | undefined {
    const address = this.addressOf(path);
    const former = address === undefined || plan.pages.has(address) ? undefined : this.lastGood.get(address);
    if (!former) return undefined;
    const { file, html } = former;
    const first = remarksAsJson(this.state.remarks).find((one) => one.severity === 'error' && one.file === file);
    if (!first) return undefined;
    const where = `${first.file}:${first.line}:${first.column}: ${first.found} ${first.cure}`;
    const banner = stringify(staleBanner(where));
    // Tags that may be left out are: the body begins with the link that skips the masthead.
    return html.replace('<a class=skip', (skip) => `${banner}${skip}`);
  }

  /** Address below the base; undefined where a path does not lie below it. */
  private addressOf(path: string): string | undefined {
    return path.startsWith(`${this.base}/`) ? path.slice(this.base.length) : undefined;
  }

  private missing(plan: SitePlan, response: ServerResponse): Promise<void> {
    return answer(response, 404, typeOf('/'), this.readings.rendered(plan.pages.get('/404.html')!).html);
  }

  private async servePage(plan: SitePlan, address: string, response: ServerResponse): Promise<void> {
    const page = plan.pages.get(address);
    if (page) {
      const { html } = this.readings.rendered(page);
      this.keepGood(plan, address, html);
      return answer(response, 200, typeOf('/'), html);
    }
    if (plan.pages.has(`${address}/`)) return redirect(response, `${this.base}${address}/`);
    const content = this.fixed.get(address) ?? (await contentAt(this.state, plan, address));
    if (content === undefined) return this.missing(plan, response);
    return answer(response, 200, typeOf(address), content);
  }

  /** Remarks on the file behind a page, all of them on a page of lists; and how many there are elsewhere. */
  private remarksOn(path: string): { here: unknown[]; elsewhere: number; errors: number } {
    const { plan, remarks, withoutAccepted } = this.state;
    const address = this.addressOf(path);
    const file = address === undefined ? undefined : plan?.fileOf.get(address);
    const shown = file === undefined ? undefined : plan?.pages.get(address!);
    const page = shown && this.readings.rendered(shown);
    const idsOf = plan && idsOfPages(plan, (one) => this.readings.rendered(one).html);
    const parts = page && idsOf ? partRemarks(page.partLinks, idsOf, remarks) : [];
    const every = remarksAsJson(withoutAccepted([...remarks, ...(page?.remarks ?? []), ...parts]));
    const all = gravestFirst.flatMap((severity) => every.filter((one) => one.severity === severity));
    const here = file === undefined ? all : all.filter((one) => one.file === file);
    return {
      here: here.slice(0, 100),
      elsewhere: all.length - here.length,
      errors: all.filter(({ severity }) => severity === 'error').length,
    };
  }
}

/** Sends back what may not be asked; true where it was. */
function refused(request: IncomingMessage, response: ServerResponse, port: number): boolean {
  if (!hostIsOurs(onlyHost(request), port)) {
    void answerText(response, 421, 'This reading copy answers on this machine only.\n');
    return true;
  }
  if (request.method === 'GET' || request.method === 'HEAD') return false;
  void answerText(response, 405, 'Only reading.\n');
  return true;
}

/** Sends back what may not be asked, or lets in who has the token; true where the request is dealt with. */
function dealtWith(
  request: IncomingMessage,
  response: ServerResponse,
  port: number,
  nearby: Nearby | undefined,
  home: string,
): boolean {
  if (!nearby) return refused(request, response, port);
  const admission = nearby.admit(request, port);
  if (admission.may === 'not') {
    void answerText(response, admission.status, admission.why);
    return true;
  }
  if (admission.may === 'enter') {
    response.setHeader('set-cookie', admission.cookie);
    redirect(response, home);
    return true;
  }
  if (request.method === 'GET' || request.method === 'HEAD') return false;
  void answerText(response, 405, 'Only reading.\n');
  return true;
}

/** Opens the port; others in the network reach it only where that was asked for. */
async function opened(server: Server, port: number, nearby: boolean): Promise<number> {
  await new Promise<void>((started, failed) => {
    server.once('error', failed);
    server.listen(port, nearby ? undefined : '127.0.0.1', started);
  });
  return (server.address() as AddressInfo).port;
}

const closed = (server: Server): Promise<void> => {
  server.closeAllConnections();
  return new Promise<void>((done) => {
    server.close(() => done());
  });
};

/** Serves a published site as it is. */
async function startPublished(
  { site, base }: NonNullable<ReadingOptions['published']>,
  options: ReadingOptions,
): Promise<ReadingCopy> {
  const nearby = options.nearby ? new Nearby(options.addresses) : undefined;
  const serve = publishedSite(site, base);
  const server: Server = createServer((request, response) => {
    const { port } = server.address() as AddressInfo;
    if (!dealtWith(request, response, port, nearby, `${base}/`)) serve(request, response);
  });
  const port = await opened(server, options.port, nearby !== undefined);
  const url = `http://127.0.0.1:${port}${base}/`;
  return { port, url, nearby: nearby?.urls(port) ?? [], close: () => closed(server) };
}

/** Starts the reading copy of the journal in `folder`, or serves what was published of it. */
export async function startReading(folder: string, options: ReadingOptions): Promise<ReadingCopy> {
  if (options.published) return startPublished(options.published, options);
  const nearby = options.nearby ? new Nearby(options.addresses) : undefined;
  const reader = new Reader(folder, options);
  await reader.open();
  const watching = watchJournal(folder, {
    onChange: () => reader.changed(),
    onTrouble: (error) => options.onUnwatched?.(error),
    lookEvery: options.lookEvery,
  });
  const respond = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const { port } = server.address() as AddressInfo;
    if (dealtWith(request, response, port, nearby, `${reader.base}/`)) return;
    if (!watching.works()) await reader.renew(unwatchedPause);
    await reader.serve(request.url ?? '/', response);
  };
  const server: Server = createServer((request, response) => {
    respond(request, response).catch((error: unknown) => {
      if (response.headersSent) response.destroy();
      else void answerText(response, 500, `This page could not be made: ${(error as Error).message}\n`);
    });
  });
  const port = await opened(server, options.port, nearby !== undefined).catch(async (error: unknown) => {
    watching.close();
    throw error;
  });
  return {
    port,
    url: `http://127.0.0.1:${port}${reader.base}/`,
    nearby: nearby?.urls(port) ?? [],
    close: async () => {
      watching.close();
      await reader.close();
      await closed(server);
    },
  };
}
