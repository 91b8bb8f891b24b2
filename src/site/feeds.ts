// Atom and JSON feeds of the newest entries, and the sitemap.
import { Feed } from 'feed';
import { toHtml } from 'hast-util-to-html';
import type { SiteContext } from '../../templates/frame.js';
import { statusMark, statusWord } from '../../templates/parts/status.js';
import type { JournalModel } from '../crosslinks/model.js';
import { statusReason, type Entry } from '../journal/entry.js';
import { isGathered } from '../journal/register.js';
import type { SiteFile } from './assets.js';
import { gatheredAddresses } from './plan.js';

/** How many entries a feed holds. */
const newest = 30;

/** Characters that XML 1.0 has no place for: controls, halves of surrogate pairs, two noncharacters. */
const notInXml = /[^\u0009\u000A\u000D\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;
/** Words as they can stand in XML. */
const inXml = (words: string): string => words.replace(notInXml, '\uFFFD');

/**
 * Atom takes titles and summaries for HTML, so that words must be escaped there; the JSON feed takes them as they are.
 * Without `>` they can't end the CDATA section that they stand in either.
 */
const asHtml = (words: string): string => toHtml({ type: 'text', value: inXml(words) }).replaceAll('>', '&gt;');

/** An entry as feeds tell of it. */
interface FeedItem {
  readonly url: string;
  readonly title: string;
  readonly published: string;
  /** Day of the last correction, or that of publication. */
  readonly updated: string;
  readonly summary: string;
  readonly picture: string;
}

/** A month of which the day is not known stands at its first. */
const day = (date: string): Date => new Date(`${date.length === 7 ? `${date}-01` : date}T00:00:00Z`);

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** What became of work that is not simply finished: `Not done: There is no fume hood here.` */
function stateOf(entry: Entry): string | undefined {
  if (entry.status === 'withdrawn') return `Withdrawn${entry.withdrawn ? `: ${entry.withdrawn}` : '.'}`;
  const state = capital(statusMark({ status: entry.status, why: statusReason(entry) }));
  return state === '' ? undefined : `${state}.`;
}

/** Before the title of work that is not simply finished: `Not done: `. */
function titlePrefix(entry: Entry): string {
  const word = statusWord(entry);
  return word === '' ? '' : `${capital(word)}: `;
}

/** What a reader of feeds is told, in words: what became of it first; then question, answer, pigment, caution. */
function summaryOf(entry: Entry): string {
  return [
    stateOf(entry),
    entry.question,
    entry.answer,
    entry.pigment && `Pigment: ${entry.pigment.name}.`,
    'A record of what was done, not a procedure to follow; cautions are on the page.',
  ]
    .filter(Boolean)
    .join(' ');
}

/** The day of the last correction; else that of the entry. */
const updatedOf = ({ date, corrections }: Entry): string =>
  [date, ...corrections.map((one) => one.date).filter((one) => /^\d/.test(one))].sort().at(-1)!;

function itemsOf(site: SiteContext, model: JournalModel): FeedItem[] {
  return model.entries.slice(0, newest).map(({ entry }) => ({
    url: `${site.address}/${entry.number}/`,
    title: `${titlePrefix(entry)}${entry.number} ${entry.title}`,
    published: entry.date,
    updated: updatedOf(entry),
    summary: summaryOf(entry),
    picture: `${site.address}/share/${entry.number}.png`,
  }));
}

function atomFeed(site: SiteContext, items: readonly FeedItem[]): string {
  const feed = new Feed({
    id: `${site.address}/`,
    // Title and description of the whole are plain text in Atom; the library escapes them once.
    title: inXml(site.title),
    description: inXml(site.description ?? site.subtitle ?? site.title),
    link: `${site.address}/`,
    language: site.language,
    copyright: inXml(site.licence ?? ''),
    updated: day(
      items
        .map(({ updated }) => updated)
        .sort()
        .at(-1) ?? '1970-01-01',
    ),
    generator: 'Masstone',
    author: { name: inXml(site.author) },
    feedLinks: { atom: `${site.address}/feed.atom`, json: `${site.address}/feed.json` },
  });
  for (const { url, title, published, updated, summary, picture } of items)
    feed.addItem({
      id: url,
      link: url,
      title: asHtml(title),
      date: day(updated),
      published: day(published),
      description: asHtml(summary),
      content: `<p>${asHtml(summary)}</p><p><img src="${asHtml(picture)}" alt="" width="1200" height="630"></p>`,
    });
  return feed.atom1();
}

/** JSON Feed 1.1; source: jsonfeed.org/version/1.1, from memory. Words are taken as they are. */
const jsonFeed = (site: SiteContext, items: readonly FeedItem[]): unknown => ({
  version: 'https://jsonfeed.org/version/1.1',
  title: site.title,
  description: site.description ?? site.subtitle,
  home_page_url: `${site.address}/`,
  feed_url: `${site.address}/feed.json`,
  language: site.language,
  authors: [{ name: site.author }],
  items: items.map(({ url, title, published, updated, summary, picture }) => ({
    id: url,
    url,
    title,
    summary,
    content_text: summary,
    image: picture,
    date_published: day(published).toISOString(),
    date_modified: day(updated).toISOString(),
  })),
});

export function feeds(site: SiteContext, model: JournalModel): SiteFile[] {
  const items = itemsOf(site, model);
  return [
    { address: '/feed.atom', content: atomFeed(site, items) },
    { address: '/feed.json', content: `${JSON.stringify(jsonFeed(site, items), null, 1)}\n` },
  ];
}

/** Text between XML tags; addresses hold no other character that would need it. */
const asXml = (words: string): string => words.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** Addresses at which there is nothing but a way to another. */
function leadingElsewhere(model: JournalModel): ReadonlySet<string> {
  const { journal, reagents } = model;
  const there = new Set(gatheredAddresses(model));
  return new Set([
    ...journal.pages.flatMap(({ movedFrom = [] }) => movedFrom.map((old) => `/${old}/`)),
    ...reagents.flatMap(({ reagent }) => (reagent['moved-from'] ?? []).map((old) => `/reagents/${old}/`)),
    ...journal.register.filter((address) => isGathered(address) && !there.has(address)),
  ]);
}

/** The sitemap (protocol 0.9, sitemaps.org): every page to be found, with the date of an entry's. */
export function sitemap(site: SiteContext, model: JournalModel, addresses: Iterable<string>): SiteFile {
  const dates = new Map(model.entries.map(({ entry }) => [`/${entry.number}/`, updatedOf(entry)]));
  const moved = leadingElsewhere(model);
  const urls = [...addresses]
    .filter((address) => address.endsWith('/') && !address.endsWith('/labels/') && !moved.has(address))
    .map((address) => {
      const date = dates.get(address);
      const lastmod = date ? `<lastmod>${date}</lastmod>` : '';
      return `<url><loc>${asXml(`${site.address}${encodeURI(address)}`)}</loc>${lastmod}</url>`;
    });
  const content = [
    '<?xml version="1.0" encoding="utf-8"?>',
    '<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">',
    ...urls,
    '</urlset>',
    '',
  ].join('\n');
  return { address: '/sitemap.xml', content };
}
