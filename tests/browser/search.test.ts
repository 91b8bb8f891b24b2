// The search page over the demonstration journal: what it finds first, what it loads, what it says of nothing.
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { gzipSync } from 'node:zlib';
import { dirname, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import type { SiteFile } from '../../src/site/assets.js';
import { searchIndex } from '../../src/site/search-index.js';
import { foundBy, namedEntry, type Findable } from '../../src/site/search-things.js';
import { demo, launch, plainHost, publishedDemo } from './browser.js';

const base = '/journal';

let browser: Browser;
let site: string;
let host: Awaited<ReturnType<typeof plainHost>>;

beforeAll(async () => {
  site = await publishedDemo();
  host = await plainHost(site, base);
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await host?.close();
});

/** What the page answers to what it was asked. */
async function answered(page: Page): Promise<{ said: string; addresses: string[] }> {
  const status = page.locator('#found');
  await page.waitForFunction(() => /pages?\b|Nothing/.test(document.querySelector('#found')!.textContent ?? ''));
  const said = await status.innerText();
  if (!/^Nothing found/.test(said)) await page.locator('.hit').first().waitFor();
  const addresses = await page
    .locator('.hit h2 a')
    .evaluateAll((links) => (links as HTMLAnchorElement[]).map((link) => new URL(link.href).pathname));
  return { said, addresses: addresses.map((address) => address.slice(base.length)) };
}

/** Asks one question of the page by its address and waits for the answer. */
async function ask(page: Page, question: string, url = host.url): ReturnType<typeof answered> {
  await page.goto(`${url}/search/?q=${encodeURIComponent(question)}`);
  return answered(page);
}

/** Asks the next question of a page that is there. */
async function askNext(page: Page, question: string): ReturnType<typeof answered> {
  await page.locator('#q').evaluate((field, words) => {
    (field as HTMLInputElement).value = words;
    (field as HTMLInputElement).form!.requestSubmit();
  }, question);
  return answered(page);
}

interface Query {
  readonly query: string;
  readonly accept: string;
}

const queriesOf = (file: string): Query[] =>
  parse(readFileSync(new URL(`../reference/search/${file}`, import.meta.url)), { columns: true }) as Query[];

/** Queries that are not met yet, each with the reason. */
const notMet: Readonly<Record<string, string>> = {
  'wrong bottle': 'the incident is told in other words: two bottles of a size, a label read aloud',
};

describe('queries written by readers of the journal', () => {
  it.each([
    ['queries.csv', 80, Object.keys(notMet)],
    ['queries-more.csv', 40, []],
  ])('%s: a right page is among the first three', { timeout: 120_000 }, async (file, count, unmet) => {
    const queries = queriesOf(file);
    const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
    const missed: string[] = [];
    await page.goto(`${host.url}/search/`);
    for (const { query, accept } of queries) {
      const { addresses } = await askNext(page, query);
      const right = accept.split(' ');
      if (!addresses.slice(0, 3).some((address) => right.includes(address))) missed.push(query);
    }
    await page.close();
    expect(queries).toHaveLength(count);
    expect(missed).toEqual(unmet);
  });
});

describe('the search page', () => {
  it.each(['malachite', 'caustic soda', 'prussain blu', 'copper sulphate'])(
    'answers a first query for %s with no more than 120 kB, the first result in sight on a phone',
    async (question) => {
      const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
      await page.goto(`${host.url}/search/`, { waitUntil: 'networkidle' });
      host.asked.length = 0;
      const script = page.waitForRequest(/\/find\/wasm/);
      await page.locator('#q').fill(question);
      await script;
      await page.locator('.hit').first().waitFor();
      await page.waitForLoadState('networkidle');
      const scripts = await page
        .locator('script[src]')
        .evaluateAll((all) => (all as HTMLScriptElement[]).map(({ src }) => new URL(src).pathname));
      const bytes = [...new Set([...host.asked, ...scripts])].map(
        (path) => gzipSync(readFileSync(join(site, path.slice(base.length)))).length,
      );
      expect(bytes.length).toBeGreaterThan(5);
      expect(bytes.reduce((sum, one) => sum + one, 0)).toBeLessThan(120 * 1024);
      const box = await page.locator('.hit h2 a').first().boundingBox();
      expect(box!.y + box!.height).toBeLessThan(740);
      expect(await page.locator('.search-filters').evaluate((one) => (one as HTMLDetailsElement).open)).toBe(false);
      await page.close();
    },
  );

  it('says what it searched for in place of a misspelt word', async () => {
    const page = await browser.newPage();
    const { said, addresses } = await ask(page, 'Prusian blue');
    expect(said).toMatch(/^Nothing here is called Prusian blue\. Found for prussian blue: \d+ pages\.$/);
    expect(['/1/', '/28/']).toContain(addresses[0]);
    await page.close();
  });

  it('says what a name of the trade means that no page of the journal bears', async () => {
    const page = await browser.newPage();
    const { said } = await ask(page, 'saltpetre');
    expect(said).toContain('saltpetre (potassium nitrate)');
    await page.close();
  });

  it('shows a piece of the page with the words marked, and no marks of Markdown or directives', async () => {
    const page = await browser.newPage();
    await ask(page, 'hole in the sleeve');
    const excerpt = page.locator('.hit .excerpt').first();
    expect(await excerpt.locator('mark').allInnerTexts()).toContain('hole');
    for (const words of await page.locator('.hit .excerpt').allInnerTexts())
      expect(words).not.toMatch(/:(?:value|chem|swatch|moment)\[|\*\*|`|\]\(/);
    await page.close();
  });

  it('says that filters leave nothing, and how much there is without them', async () => {
    const page = await browser.newPage();
    await page.goto(`${host.url}/search/?q=malachite&element=Bi`);
    await page.locator('#found', { hasText: /Nothing found with these filters; \d+ pages without them/ }).waitFor();
    expect(await page.locator('.search-filters').evaluate((one) => (one as HTMLDetailsElement).open)).toBe(true);
    await page.close();
  });
});

describe('an index in parts', () => {
  /** Things of one word each, and a word that only one of them has; with all others they are some six hundred. */
  const fillers = Array.from(
    { length: 500 },
    (_, at): Findable => ({
      thing: { address: `/filler/${at}/`, title: `Filler ${at}`, kind: 'page', facts: '' },
      names: [],
      words: at === 123 ? 'Of obsidian and malachite.' : 'Of nothing else.',
    }),
  );
  let filled = '';
  let other: Awaited<ReturnType<typeof plainHost>>;
  beforeAll(async () => {
    filled = mkdtempSync(join(tmpdir(), 'masstone-filled-'));
    cpSync(site, filled, { recursive: true, filter: (path) => !path.startsWith(join(site, 'find')) });
    const { model } = await openJournal(demo, { drafts: true });
    const entries = foundBy(model!).map((one) => namedEntry(one, model!.journal.shelf.reagents));
    const write = ({ address, content }: SiteFile): void => {
      const file = join(filled, address);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, content as string | Uint8Array);
    };
    await searchIndex(model!, write, { entries: [...entries, ...fillers] });
    other = await plainHost(filled, base);
  });
  afterAll(async () => {
    await other?.close();
    rmSync(filled, { recursive: true, force: true });
  });

  it('finds what stands in one of them, and nothing else in the others', async () => {
    expect(existsSync(join(filled, 'find/part-1'))).toBe(true);
    const page = await browser.newPage();
    for (const question of ['obsidian', 'obsidian malachite']) {
      const { said, addresses } = await ask(page, question, other.url);
      expect(said).toBe('1 page');
      expect(addresses).toEqual(['/filler/123/']);
    }
    await page.close();
  });
  it('finds as many pages as one in one part', async () => {
    const page = await browser.newPage();
    for (const question of ['froth', 'sleeve', 'ammonia', 'red lead', 'blue grey', 'paper filter']) {
      const whole = await ask(page, question);
      const parts = await ask(page, question, other.url);
      expect(parts.said, question).toBe(whole.said);
      expect(parts.addresses.slice(0, 3), question).toContain(whole.addresses[0]);
    }
    await page.close();
  });
});
