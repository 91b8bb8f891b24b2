// The entry's page on a phone of 360 × 740, measured over the whole demonstration journal: how soon the maker speaks,
// how long the page is, whether anything is cut off, and whether a finger finds every link.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, plainHost, publishedDemo } from './browser.js';

const screen = { width: 360, height: 740 };

let browser: Browser;
let site: string;
let host: Awaited<ReturnType<typeof plainHost>>;
let page: Page;

interface Measured {
  readonly number: number;
  /** Top of the first paragraph of the write-up, and height of the page, in screens. */
  readonly first: number;
  readonly pages: number;
  readonly smallTargets: readonly string[];
  readonly cutTables: readonly string[];
  readonly width: number;
  /** Text of the danger strip, and whether anything of it folds. */
  readonly strip: string;
  readonly stripFolds: boolean;
  /** Times each yield with its ± stands on the page in plain sight or folded. */
  readonly text: string;
}

const measures = `(() => {
  const seen = (one) => one.checkVisibility({ contentVisibilityAuto: true });
  const first = document.querySelector('.lead p, .write-up p:not(.video p), .write-up li');
  const small = [...document.querySelectorAll('a, button, input, select, summary')]
    .filter((one) => seen(one) && !one.classList.contains('skip'))
    .filter((one) => [...one.getClientRects()].some(({ width, height }) => Math.round(width) < 24 || Math.round(height) < 24))
    .map((one) => one.outerHTML.slice(0, 120));
  const cut = [...document.querySelectorAll('[role="region"]')]
    .filter((one) => seen(one) && one.scrollWidth > one.clientWidth + 1)
    .map((one) => one.getAttribute('aria-label'))
    .filter((label) => label !== 'Table');
  const strip = document.querySelector('.danger-strip');
  return {
    first: first.getBoundingClientRect().top + scrollY,
    pages: document.documentElement.scrollHeight,
    smallTargets: small,
    cutTables: cut,
    width: document.documentElement.scrollWidth,
    strip: strip.innerText,
    stripFolds: strip.querySelector('details') !== null || !seen(strip),
    text: document.querySelector('main').textContent,
  };
})()`;

let all: readonly Measured[];
let entries: readonly {
  readonly number: number;
  readonly precautions: readonly { readonly against: string; readonly do: string }[];
  readonly 'if-it-goes-wrong'?: string;
  readonly reckoned: {
    readonly amounts: { readonly samples: readonly { readonly percentYield?: { readonly text: string } }[] };
  };
}[];

beforeAll(async () => {
  site = await publishedDemo();
  host = await plainHost(site, '/journal');
  browser = await launch();
  page = await browser.newPage({ viewport: screen });
  entries = JSON.parse(readFileSync(join(site, 'data/entries.json'), 'utf8')) as typeof entries;
  const measured: Measured[] = [];
  for (const { number } of entries) {
    await page.goto(`${host.url}/${number}/`);
    await page.evaluate('document.fonts.ready.then(() => undefined)');
    const one = (await page.evaluate(measures)) as Omit<Measured, 'number'>;
    measured.push({ ...one, number, first: one.first / screen.height, pages: one.pages / screen.height });
  }
  all = measured;
});
afterAll(async () => {
  await browser?.close();
  await host?.close();
});

function median(values: readonly number[]): number {
  const sorted = [...values].sort((x, y) => x - y);
  const half = sorted.length / 2;
  return sorted.length % 2 === 1 ? sorted[Math.floor(half)]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

describe('on a phone', () => {
  it('the maker speaks within three screens', () => {
    expect(all.length).toBeGreaterThan(25);
    expect(median(all.map(({ first }) => first))).toBeLessThanOrEqual(3);
    expect(Math.max(...all.map(({ first }) => first))).toBeLessThanOrEqual(3);
  });

  it('an entry is nine screens long at the median, with its details folded', () => {
    expect(median(all.map(({ pages }) => pages))).toBeLessThanOrEqual(9);
  });

  // A maker's own table may be wider: then it scrolls, its first column stays and its edge is shaded.
  it('no page is wider than the screen, no table of ours in plain sight is cut off, every link is large enough', () => {
    expect(all.filter(({ width }) => width > screen.width).map(({ number }) => number)).toEqual([]);
    expect(all.flatMap(({ number, cutTables }) => cutTables.map((label) => `${number}: ${label}`))).toEqual([]);
    expect(all.flatMap(({ number, smallTargets }) => smallTargets.map((link) => `${number}: ${link}`))).toEqual([]);
  });
});

const plain = (text: string): string => text.replace(/\s+/g, ' ');

describe('nothing that keeps a reader safe is lost or folded', () => {
  it('every precaution of the maker stands in the danger strip, which never folds', () => {
    for (const { number, precautions } of entries) {
      const { strip, stripFolds } = all.find((one) => one.number === number)!;
      expect(stripFolds, String(number)).toBe(false);
      for (const precaution of precautions) expect(plain(strip), String(number)).toContain(plain(precaution.do));
    }
  });

  it('what to do if it goes wrong is in plain sight', async () => {
    for (const entry of entries.filter((one) => one['if-it-goes-wrong'])) {
      await page.goto(`${host.url}/${entry.number}/`);
      expect(plain(await page.locator('.if-wrong').innerText())).toContain(plain(entry['if-it-goes-wrong']!));
    }
  });
});

it('no yield is told more than twice on a page', () => {
  const often = entries.flatMap(({ number, reckoned }) => {
    const text = plain(all.find((one) => one.number === number)!.text);
    const yields = [...new Set(reckoned.amounts.samples.flatMap(({ percentYield }) => percentYield?.text ?? []))];
    // Samples that came out alike share a figure, which each of them may state.
    const samplesWith = (one: string): number =>
      reckoned.amounts.samples.filter(({ percentYield }) => percentYield?.text === one).length;
    return yields
      .filter((one) => text.split(plain(one)).length - 1 > 1 + samplesWith(one))
      .map((one) => `${number}: ${one}`);
  });
  expect(often).toEqual([]);
});
