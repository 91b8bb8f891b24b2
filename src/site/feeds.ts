// Atom and JSON feeds of the newest entries, and the sitemap.
import { Feed } from 'feed';
import { toHtml } from 'hast-util-to-html';
import type { SiteContext } from '../../templates/frame.js';
import type { JournalModel } from '../crosslinks/model.js';
import type { SiteFile } from './assets.js';

/** How many entries a feed holds. */
const newest = 30;

/** Atom takes titles and summaries for HTML, so that words must be escaped there; the JSON feed takes them as they are. */
const asHtml = (words: string): string => toHtml({ type: 'text', value: words });

function feedOf(site: SiteContext, model: JournalModel, set: (words: string) => string): Feed {
  const shown = model.entries.filter(({ entry }) => entry.status !== 'withdrawn').slice(0, newest);
  const updated = new Date(`${shown[0]?.entry.date ?? '1970-01-01'}T00:00:00Z`);
  const feed = new Feed({
    id: `${site.address}/`,
    title: set(site.title),
    description: set(site.description ?? site.subtitle ?? site.title),
    link: `${site.address}/`,
    language: site.language,
    copyright: site.licence ?? '',
    updated,
    generator: 'Masstone',
    author: { name: site.author },
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
  { address: '/feed.atom', content: feedOf(site, model, asHtml).atom1() },
  { address: '/feed.json', content: feedOf(site, model, (words) => words).json1() },
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
