// Atom and JSON feeds of the newest entries, and the sitemap.
import { Feed } from 'feed';
import { toHtml } from 'hast-util-to-html';
import type { SiteContext } from '../../templates/frame.js';
import type { JournalModel } from '../crosslinks/model.js';
import type { SiteFile } from './assets.js';

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

/** How a feed takes words: those that it marks up, and plain ones. */
interface FeedWords {
  readonly set: (words: string) => string;
  readonly plain: (words: string) => string;
}

function feedOf(site: SiteContext, model: JournalModel, { set, plain }: FeedWords): Feed {
  const shown = model.entries.filter(({ entry }) => entry.status !== 'withdrawn').slice(0, newest);
  const updated = new Date(`${shown[0]?.entry.date ?? '1970-01-01'}T00:00:00Z`);
  const feed = new Feed({
    id: `${site.address}/`,
    title: set(site.title),
    description: set(site.description ?? site.subtitle ?? site.title),
    link: `${site.address}/`,
    language: site.language,
    copyright: plain(site.licence ?? ''),
    updated,
    generator: 'Masstone',
    author: { name: plain(site.author) },
    feedLinks: { atom: `${site.address}/feed.atom`, json: `${site.address}/feed.json` },
  });
  for (const { entry } of shown) {
    feed.addItem({
      id: `${site.address}/${entry.number}/`,
      link: `${site.address}/${entry.number}/`,
      title: set(`${entry.number} ${entry.title}`),
      date: new Date(`${entry.date}T00:00:00Z`),
      description: set(
        [
          entry.question,
          entry.pigment && `Pigment: ${entry.pigment.name}.`,
          'A record of what was done, not a procedure to follow; cautions are on the page.',
        ]
          .filter(Boolean)
          .join(' '),
      ),
    });
  }
  return feed;
}

export const feeds = (site: SiteContext, model: JournalModel): SiteFile[] => [
  { address: '/feed.atom', content: feedOf(site, model, { set: asHtml, plain: inXml }).atom1() },
  { address: '/feed.json', content: feedOf(site, model, { set: (words) => words, plain: (words) => words }).json1() },
];

/** Text between XML tags; addresses hold no other character that would need it. */
const asXml = (words: string): string => words.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** The sitemap (protocol 0.9, sitemaps.org): every page, with the date of an entry's. */
export function sitemap(site: SiteContext, model: JournalModel, addresses: Iterable<string>): SiteFile {
  const dates = new Map(model.entries.map(({ entry }) => [`/${entry.number}/`, entry.date]));
  const urls = [...addresses]
    .filter((address) => address.endsWith('/'))
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
