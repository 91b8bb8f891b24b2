// Masthead and colophon are built once, and show what the site of each page is called all the same.
import { expect, it } from 'vitest';
import { stringify } from '../../src/site/page-text.js';
import { page, type SiteContext } from '../../templates/frame.js';

const site: SiteContext = {
  title: 'First',
  author: 'A',
  language: 'en',
  cautions: [],
  base: '',
  address: 'https://a.example',
  stylesheet: '/a.css',
  listsStylesheet: '/b.css',
  pictograms: '/style/',
  pages: [{ address: '/about/', title: 'About' }],
};

const textOf = (own: SiteContext): string => stringify(page(own, { title: 'One', address: '/1/', main: [] }));

it('stands around a page as its site is called, whatever other pages were made before', () => {
  const first = textOf(site);
  expect(textOf({ ...site, pictures: {} })).toBe(first);
  const others: [Partial<SiteContext>, string][] = [
    [{ title: 'Second' }, '>Second</a>'],
    [{ base: '/journal' }, 'href=/journal/about/'],
    [{ author: 'B' }, 'by B.'],
    [{ licence: 'CC0' }, '>First, by A. Words and data: CC0.'],
    [{ support: { name: 'Help', url: 'https://b.example' } }, 'https://b.example'],
    [{ pages: [{ address: '/tools/', title: 'Tools' }] }, 'href=/tools/'],
  ];
  for (const [other, shown] of others) {
    expect(first).not.toContain(shown);
    expect(textOf({ ...site, ...other })).toContain(shown);
  }
});
