// On paper: how many sheets, for the paper of two continents, and that nothing is split where a hand would lose its
// place.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, plainHost, publishedDemo } from './browser.js';

/** Printing the whole journal takes a while. */
const patience = 180_000;

let browser: Browser;
let site: string;
let host: Awaited<ReturnType<typeof plainHost>>;
let page: Page;

interface Listed {
  readonly number: number;
  readonly status: string;
  readonly samples: readonly unknown[];
}
let entries: readonly Listed[];

beforeAll(async () => {
  site = await publishedDemo();
  host = await plainHost(site, '/journal');
  browser = await launch();
  page = await browser.newPage();
  entries = JSON.parse(readFileSync(join(site, 'data/entries.json'), 'utf8')) as Listed[];
});
afterAll(async () => {
  await browser?.close();
  await host?.close();
});

/** Pages of a PDF: its page objects, which Chromium writes uncompressed. */
async function pagesOf(address: string, format: 'A4' | 'Letter'): Promise<number> {
  await page.goto(`${host.url}${address}`);
  // With stand-in letters, which run wider, it takes more paper.
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  const pdf = await page.pdf({ format, preferCSSPageSize: false });
  return (pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g) ?? []).length;
}

describe.each(['A4', 'Letter'] as const)('on %s', (format) => {
  it(
    'the bench sheet of an entry with two samples is two sheets',
    async () => {
      const two = entries.filter(({ samples, status }) => samples.length === 2 && status !== 'withdrawn');
      expect(two.length).toBeGreaterThan(20);
      const counts = [];
      for (const { number } of two) counts.push({ number, pages: await pagesOf(`/${number}/bench/`, format) });
      expect(counts.filter(({ pages }) => pages !== 2)).toEqual([]);
    },
    patience,
  );
});

/** What a page's script sees of an element; the tests have no types of the browser. */
interface Seen {
  readonly checkVisibility: (how: object) => boolean;
}

it(
  'an entry prints on five sheets at most, its details unfolded',
  async () => {
    const counts = [];
    for (const { number } of entries) counts.push({ number, pages: await pagesOf(`/${number}/`, 'A4') });
    expect(counts.filter(({ pages }) => pages > 5)).toEqual([]);
    await page.goto(`${host.url}/1/`);
    await page.emulateMedia({ media: 'print' });
    const folded = await page.locator('.entry-parts details').evaluateAll(
      (all) =>
        all.filter((one) => {
          const inside = [...(one as unknown as { children: Iterable<Seen> }).children].slice(1);
          return !inside.some((part) => part.checkVisibility({ contentVisibilityAuto: true }));
        }).length,
    );
    expect(folded).toBe(0);
    await page.emulateMedia({ media: 'screen' });
  },
  patience,
);

it('a withdrawn entry has no bench sheet', () => {
  const withdrawn = entries.filter(({ status }) => status === 'withdrawn');
  expect(withdrawn.length).toBeGreaterThan(0);
  for (const { number } of withdrawn)
    expect(() => readFileSync(join(site, String(number), 'bench/index.html'))).toThrow();
});
