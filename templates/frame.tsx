// The frame that every page stands in: head, masthead, main, colophon.
import type { Element, ElementContent, Root } from 'hast';
import type { PictureSizes } from '../src/journal/entry.js';
import { madeOnce, ofManyPages } from './of-many-pages.js';
import { sharedHead, type SharedAs, type SharedPage } from './parts/shared-head.js';

/** What a page may know of the site it stands in. */
export interface SiteContext {
  readonly title: string;
  readonly subtitle?: string;
  readonly description?: string;
  readonly author: string;
  readonly language: string;
  readonly licence?: string;
  readonly licenceUrl?: string;
  readonly support?: { readonly name: string; readonly url: string };
  /** Cautions of the journal's own, shown with the standing one. */
  readonly cautions: readonly string[];
  /** Path under which the site lies, without trailing slash: `/journal`. */
  readonly base: string;
  /** Origin and base: `https://copperas-lane.example/journal`. */
  readonly address: string;
  /** Styles of every page, and those of pages that are not an entry's. */
  readonly stylesheet: string;
  readonly listsStylesheet: string;
  /** Folder of the hazard pictograms: `/journal/style/`. */
  readonly pictograms: string;
  /** Other pages, in the order of the colophon. */
  readonly pages: readonly { readonly address: string; readonly title: string }[];
  /** Width, height and smaller forms of published photographs, by path below the journal. */
  readonly pictures?: Readonly<Record<string, PictureSizes>>;
  /** Entries have sheets of labels, as they always have in the reading copy. */
  readonly labels?: boolean;
  /** In the reading copy: script that refreshes the page, and what the proof found. */
  readonly reading?: {
    readonly script: string;
    readonly stylesheet: string;
    /** Where it is asked what would happen if something were added to an entry, and how long that may be. */
    readonly whatIf: string;
    readonly mostSigns: number;
  };
}

export interface PageFrame {
  readonly title: string;
  readonly description?: string;
  /** Address below the base: `/14/`. */
  readonly address: string;
  /** Which part of the masthead this page belongs to. */
  readonly part?: string;
  readonly scripts?: readonly string[];
  /** Scripts may compile WebAssembly here (the search page). */
  readonly wasm?: boolean;
  /**
   * The page that this one stands beside, as a bench sheet beside its entry. Masthead and colophon lead there and home;
   * the ways to all else are there.
   */
  readonly beside?: { readonly address: string; readonly title: string };
  /** An entry's page needs no styles of lists, tables of results and forms. */
  readonly ofEntry?: boolean;
  readonly noIndex?: boolean;
  /** Address below the base where it is now: who comes here is sent there. */
  readonly movedTo?: string;
  /** What others show of it; without it, what is known of every page. */
  readonly shared?: SharedAs;
  /** Shows colours, and says what a screen makes of them. */
  readonly swatches?: boolean;
  readonly main: ElementContent[];
}

const parts = [
  ['/', 'Newest'],
  ['/series/', 'Series'],
  ['/colours/', 'Colours'],
  ['/reagents/', 'Reagents'],
  ['/results/', 'Results'],
  ['/search/', 'Search'],
] as const;

/** Address on this site, with the base path. */
export const href = (site: SiteContext, address: string): string => `${site.base}${address}`;

/** Address of a file of the journal (`photos/4 A.jpg`), whatever signs its name has. */
export const fileHref = (site: SiteContext, path: string): string =>
  href(site, `/${path.split('/').map(encodeURIComponent).join('/')}`);

const standingCaution =
  'A record of what one workshop did, not a procedure to follow. Read the safety data sheets, keep to your ' +
  'local rules, ' +
  'and leave to licensed practice what is licensed. What is not named here as a hazard is not thereby safe.';

/** The standing caution, once and short: on every page on which work is described. */
export const cautionLine = madeOnce(
  () =>
    (
      <p class="caution" role="note" aria-label="Caution">
        {standingCaution}
      </p>
    ) as Element,
);

/** What every page with swatches says of them. */
const onScreens = madeOnce(
  (how: string) =>
    (
      <p class="on-screens">
        No screen shows colours exactly. <a href={how}>How colours are read</a>
      </p>
    ) as Element,
);

/** The standing caution with the journal's own, where one work or one reagent is the matter. */
export const cautionBox = (site: SiteContext): Element =>
  (
    <aside class="caution" aria-label="Caution">
      <p>{standingCaution}</p>
      {site.cautions.map((caution) => (
        <p>{caution}</p>
      ))}
    </aside>
  ) as Element;

/** What a page may load, with scripts, and where those may compile WebAssembly. */
const policy = madeOnce((scripted: boolean, wasm: boolean) => {
  const content = [
    "default-src 'none'",
    "img-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    // Without script none is allowed, and nothing is asked for: as by default.
    ...(scripted ? [`script-src 'self'${wasm ? " 'wasm-unsafe-eval'" : ''}`, "connect-src 'self'"] : []),
    ...(wasm ? ["worker-src 'self'"] : []),
    "form-action 'self'",
    "base-uri 'none'",
  ].join(';');
  return (<meta http-equiv="Content-Security-Policy" content={content} />) as Element;
});

const isScripted = (site: SiteContext, { scripts = [] }: PageFrame): boolean =>
  scripts.length > 0 || site.reading !== undefined;

/** Whose the journal is, and under which licence. */
const ownership = (site: SiteContext): Element =>
  (
    <p>
      {site.title}, by {site.author}.
      {site.licence
        ? [
            ' Words and data: ',
            site.licenceUrl ? (
              <a href={site.licenceUrl} rel="license">
                {site.licence}
              </a>
            ) : (
              site.licence
            ),
            '.',
          ]
        : ''}
    </p>
  ) as Element;

/** What no page may be without. */
const whatComesFirst = (): Element =>
  (
    <p>
      Hazard statements and reckonings are aids, with gaps. The safety data sheet, local rules and licensed practice
      come first.
    </p>
  ) as Element;

const wayHome = madeOnce(
  (home: string, title: string) =>
    (
      <a class="journal-name" href={home}>
        {title}
      </a>
    ) as Element,
);

/** The journal's name, the way home, and the ways from there. */
const masthead = (site: SiteContext, ways: Element): Element =>
  (
    <header class="masthead">
      <div class="frame">
        {wayHome(href(site, '/'), site.title)}
        <nav aria-label="Journal">{ways}</nav>
      </div>
    </header>
  ) as Element;

/** Masthead and colophon of a page that stands beside another, which says whose both are. */
const surroundingsBeside = (
  site: SiteContext,
  { address, title }: NonNullable<PageFrame['beside']>,
): { head: Element; foot: Element } => ({
  head: masthead(site, (<a href={href(site, address)}>{title}</a>) as Element),
  foot: footBeside,
});

const footBeside = ofManyPages(
  (
    <footer class="colophon">
      <div class="frame">{whatComesFirst()}</div>
    </footer>
  ) as Element,
);

const mastheads = new WeakMap<SiteContext['pages'], Map<string, { head: Element; foot: Element }>>();

/** All that masthead and colophon show but the other pages. */
const shownAround = ({ base, title, author, licence, licenceUrl, support }: SiteContext, part: string): string =>
  [part, base, title, author, licence, licenceUrl, support?.name, support?.url].join('\0');

/**
 * Masthead and colophon, built once for each part of a site and then shared by its pages. An entry with photographs
 * sees the site in an object of its own.
 */
function surroundings(site: SiteContext, part: string): { head: Element; foot: Element } {
  let bySite = mastheads.get(site.pages);
  if (!bySite) mastheads.set(site.pages, (bySite = new Map()));
  const key = shownAround(site, part);
  let built = bySite.get(key);
  if (!built) {
    const menu = (
      <details class="menu">
        <summary>Menu</summary>
        <ul>
          {parts.map(([address, name]) => (
            <li>
              <a href={href(site, address)} aria-current={address === part ? 'true' : undefined}>
                {name}
              </a>
            </li>
          ))}
        </ul>
      </details>
    ) as Element;
    const head = masthead(site, menu);
    const foot = (
      <footer class="colophon">
        <div class="frame">
          {ownership(site)}
          {whatComesFirst()}
          <ul>
            {site.pages.map((page) => (
              <li>
                <a href={href(site, page.address)}>{page.title}</a>
              </li>
            ))}
            <li>
              <a href={href(site, '/elements/')}>Elements</a>
            </li>
            <li>
              <a href={href(site, '/incidents/')}>Incidents</a>
            </li>
            <li>
              <a href={href(site, '/ideas/')}>Ideas</a>
            </li>
            <li>
              <a href={href(site, '/data/')}>Data</a>
            </li>
            <li>
              <a href={href(site, '/feed.atom')}>Atom feed</a>
            </li>
            <li>
              <a href={href(site, '/feed.json')}>JSON feed</a>
            </li>
            {site.support ? (
              <li>
                <a href={site.support.url}>{site.support.name}</a>
              </li>
            ) : null}
          </ul>
        </div>
      </footer>
    ) as Element;
    bySite.set(key, (built = { head: ofManyPages(head), foot: ofManyPages(foot) }));
  }
  return built;
}

const linkTo = madeOnce((rel: string, address: string) => (<link rel={rel} href={address} />) as Element);

const feedLink = madeOnce(
  (type: string, title: string, address: string) =>
    (<link rel="alternate" type={type} title={title} href={address} />) as Element,
);

/** Readers of feeds find them from any page; pages of entries, of which there are most, name only one of the two. */
const feedLinks = (site: SiteContext, ofEntry: boolean): Element[] => [
  feedLink('application/atom+xml', site.title, href(site, '/feed.atom')),
  ...(ofEntry ? [] : [feedLink('application/feed+json', site.title, href(site, '/feed.json'))]),
];

const charset = ofManyPages((<meta charSet="utf-8" />) as Element);

const named = madeOnce((name: string, content: string) => (<meta name={name} content={content} />) as Element);

const toThePage = ofManyPages(
  (
    <a class="skip" href="#main">
      To the page
    </a>
  ) as Element,
);

/** What is known of every page where it is linked to. */
const sharedPage = (site: SiteContext, frame: PageFrame): SharedPage => ({
  title: frame.title,
  description: frame.description,
  url: `${site.address}${frame.address}`,
  journal: { title: site.title, url: site.address, author: site.author },
  language: site.language,
  licence: site.licenceUrl ?? site.licence,
});

const isEnglish = (language: string): boolean => /^en(?:-|$)/i.test(language);

/** The language of what the maker wrote, where it is another than that of the pages' own words, which are English. */
export const ownLanguage = ({ language }: Pick<SiteContext, 'language'>): string | undefined =>
  isEnglish(language) ? undefined : language;

/** The maker's own words, marked with their language where it is not that of the page. */
export function inOwnLanguage(site: SiteContext, words: readonly ElementContent[]): readonly ElementContent[] {
  const language = ownLanguage(site);
  return language === undefined || words.length === 0
    ? words
    : [(<div lang={language}>{[...words]}</div>) as ElementContent];
}

/** A whole page. */
export function page(site: SiteContext, frame: PageFrame): Root {
  const { head, foot } = frame.beside ? surroundingsBeside(site, frame.beside) : surroundings(site, frame.part ?? '');
  const title = frame.address === '/' ? frame.title : `${frame.title} · ${site.title}`;
  const document = (
    <html lang={isEnglish(site.language) ? site.language : 'en'}>
      <head>
        {charset}
        {policy(isScripted(site, frame), frame.wasm === true)}
        {named('viewport', 'width=device-width')}
        {named('referrer', 'no-referrer')}
        <title>{title}</title>
        {frame.description ? <meta name="description" property="og:description" content={frame.description} /> : null}
        {frame.movedTo === undefined ? null : (
          <meta http-equiv="refresh" content={`0; url=${href(site, frame.movedTo)}`} />
        )}
        {frame.noIndex ? named('robots', 'noindex') : <link rel="canonical" href={`${site.address}${frame.address}`} />}
        {linkTo('icon', href(site, '/icon.svg'))}
        {linkTo('stylesheet', site.stylesheet)}
        {frame.ofEntry ? null : linkTo('stylesheet', site.listsStylesheet)}
        {site.reading ? <link rel="stylesheet" href={site.reading.stylesheet} /> : null}
        {frame.beside ? null : feedLinks(site, frame.ofEntry === true)}
        {sharedHead(sharedPage(site, frame), frame.shared, frame.beside !== undefined)}
        {(frame.scripts ?? []).map((script) => (
          <script type="module" src={script}></script>
        ))}
        {site.reading ? <script type="module" src={site.reading.script}></script> : null}
      </head>
      <body>
        {toThePage}
        {head}
        <main id="main" class="frame" tabIndex={-1}>
          {frame.main}
          {frame.swatches ? onScreens(href(site, '/colours/how/')) : null}
        </main>
        {foot}
      </body>
    </html>
  );
  return { type: 'root', children: [{ type: 'doctype' }, document as Element] };
}
