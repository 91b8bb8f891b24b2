// The table of results keeps its filters and order in the address; samples chosen there are compared on a page of
// their own.
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deltaE00 } from '../../public/scripts/colour-difference.js';
import { deltaE00 as reckoned } from '../../src/colour/difference.js';
import type { Triple } from '../../src/colour/numbers.js';
import { launch, plainHost, publishedDemo } from './browser.js';

let browser: Browser;
let site: string;
let host: Awaited<ReturnType<typeof plainHost>>;

beforeAll(async () => {
  site = await publishedDemo();
  host = await plainHost(site, '/journal');
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  await host?.close();
});

describe('the table of results', () => {
  it('takes filters and order from its address, and keeps them there', async () => {
    const page = await browser.newPage();
    await page.goto(`${host.url}/results/?elements=Cu&yield=50&sort=yield&down=1`);
    const shown = page.locator('#results tbody tr:visible');
    expect(await page.locator('select[name="elements"]').inputValue()).toBe('Cu');
    expect(await page.locator('th[data-key="yield"]').getAttribute('aria-sort')).toBe('descending');
    const before = await shown.count();
    expect(before).toBeGreaterThan(3);
    await page.locator('select[name="elements"]').selectOption('Fe');
    await page.locator('th[data-key="lightness"] button').click();
    expect(new URL(page.url()).search).toBe('?elements=Fe&yield=50&sort=lightness');
    const order = await page.locator('#results tbody tr:visible td:nth-child(8)').allInnerTexts();
    await page.reload();
    expect(await page.locator('#results tbody tr:visible td:nth-child(8)').allInnerTexts()).toEqual(order);
    await page.close();
  });

  it('says none where none is left', async () => {
    const page = await browser.newPage();
    await page.goto(`${host.url}/results/?words=zzzz`);
    await page.locator('[data-count]', { hasText: /^None of \d+ samples/ }).waitFor();
    await page.close();
  });

  it('sorts yields above 100 % after all others, whichever way round, and marks them', async () => {
    const page = await browser.newPage();
    for (const down of ['', '&down=1']) {
      await page.goto(`${host.url}/results/?sort=yield${down}`);
      const yields = (await page.locator('#results tbody td:nth-child(7)').allInnerTexts()).filter(Boolean);
      const over = yields.filter((text) => Number.parseFloat(text) > 100);
      expect(over.length).toBeGreaterThan(0);
      expect(yields.slice(-over.length)).toEqual(over);
      for (const text of over) expect(text).toContain('wet or impure');
    }
    await page.close();
  });

  it('leads to a comparison of the samples that were chosen', async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
    await page.goto(`${host.url}/results/`);
    await page.getByLabel('Compare 4/A').check();
    expect(await page.locator('a.compare').innerText()).toBe('Choose one more to compare');
    await page.getByLabel('Compare 17/D').check();
    await page.locator('a.compare').click();
    await page.locator('.compared li').first().waitFor();
    expect(new URL(page.url()).search).toBe('?samples=4/A,17/D');
    expect(await page.locator('.compared b a').allInnerTexts()).toEqual(['4/A', '17/D']);
    await page.close();
  });
});

describe('a comparison', () => {
  it('shows strips, figures, differences and curves of the samples in its address, and names what is not there', async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
    const errors: string[] = [];
    page.on('pageerror', (error) => errors.push(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error' && !/404/.test(message.text())) errors.push(message.text());
    });
    await page.goto(`${host.url}/compare/?samples=4/A,4/b,999/A`);
    await page.locator('.compared li').first().waitFor();
    expect(await page.locator('#compared').innerText()).toBe('2 samples; not in this journal: 999/A');
    expect(await page.locator('.compared svg').first().getAttribute('aria-label')).toMatch(/^4\/A: green, L\* \d+$/);
    expect(await page.getByRole('img', { name: 'Reflectance of 4/A, 4/B, 400 to 700 nm' }).count()).toBe(1);
    const apart = await page.locator('section', { hasText: 'Colour differences' }).locator('td').nth(1).innerText();
    const { samples } = JSON.parse(readFileSync(`${site}/compare/4.json`, 'utf8')) as {
      samples: { lab: Triple }[];
    };
    expect(apart).toBe(reckoned(samples[0]!.lab, samples[1]!.lab).toFixed(1));
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360);
    expect(errors).toEqual([]);
    await page.close();
  });

  it('takes no address for anything but names of samples', async () => {
    const page = await browser.newPage();
    await page.goto(
      `${host.url}/compare/?samples=${encodeURIComponent('4/<img src=x onerror=alert(1)>,../../x/A,4/A')}`,
    );
    await page.locator('.compared li').first().waitFor();
    expect(await page.locator('#comparison img').count()).toBe(0);
    await page.close();
  });

  it('reckons differences as published', () => {
    const pairs = parse(readFileSync(new URL('../reference/colour/ciede2000-pairs.csv', import.meta.url)), {
      columns: true,
    }) as Record<string, string>[];
    expect(pairs.length).toBeGreaterThan(15);
    const lab = (...texts: (string | undefined)[]) => texts.map(Number) as [number, number, number];
    for (const { L1, a1, b1, L2, a2, b2, dE00 } of pairs)
      expect(deltaE00(lab(L1, a1, b1), lab(L2, a2, b2))).toBeCloseTo(Number(dE00), 4);
  });

  it('reckons differences as everything else does', () => {
    const colour = fc.tuple(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: -120, max: 120, noNaN: true }),
      fc.double({ min: -120, max: 120, noNaN: true }),
    );
    fc.assert(
      fc.property(colour, colour, (one, other) => {
        // Hues that lie opposite leave open which way round is the shorter.
        fc.pre(Math.abs(one[1] * other[2] - one[2] * other[1]) > 1e-6);
        expect(deltaE00(one, other)).toBeCloseTo(reckoned(one, other), 6);
      }),
    );
  });
});
