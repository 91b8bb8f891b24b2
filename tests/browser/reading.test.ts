// The reading copy in a browser: remarks can be read by day and by night, and name file and place.
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { launch } from './browser.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;
let copy: ReadingCopy | undefined;

beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});
afterEach(async () => {
  await copy?.close();
  copy = undefined;
});

describe('the panel of remarks', () => {
  it.each(['light', 'dark'] as const)(
    'can be read in %s mode, with file, place and what to do',
    async (colorScheme) => {
      const folder = folderOf(smallJournal({ 'journal/entries/003-plan.md': `${entry(3)}\nIt is :value[Q.yield].\n` }));
      copy = await startReading(join(folder, 'journal'), { port: 0 });
      const page = await browser.newPage({ viewport: { width: 360, height: 900 }, colorScheme });
      await page.goto(`${copy.url}3/`);
      const panel = page.locator('.reading-remarks');
      await panel.locator('summary').click();
      const words = await panel.innerText();
      expect(words).toMatch(/entries\/003-plan\.md:\d+:\d+ There is no reckoned value 'Q\.yield'/);
      expect(words).toContain('Name a sample and a value');
      expect(words).not.toContain('`');
      await page.evaluate(axe);
      const faults = await page.evaluate(
        `axe.run('.reading-remarks', { runOnly: ['wcag2a', 'wcag2aa', 'wcag22aa'] }).then(({ violations }) => ` +
          `violations.map(({ id, nodes }) => id + ': ' + nodes[0].failureSummary))`,
      );
      expect(faults).toEqual([]);
      await page.close();
    },
  );
});

describe('while it is written', () => {
  it('keeps its place and what is open, shows the last good page over a slip, and says when it is stale', async () => {
    const long = (last: string): string => `${'A line of the write-up.\n\n'.repeat(60)}${last}\n`;
    const folder = folderOf(smallJournal({ 'journal/entries/003-plan.md': entry(3, '', long('Before.')) }));
    const file = join(folder, 'journal/entries/003-plan.md');
    copy = await startReading(join(folder, 'journal'), { port: 0, settle: 20 });
    const page = await browser.newPage({ viewport: { width: 800, height: 500 } });
    await page.goto(`${copy.url}3/`);
    await page.evaluate('document.querySelector("main details").open = true');
    await page.evaluate('scrollTo({ top: 700, behavior: "instant" })');
    const place = await page.evaluate('scrollY');
    expect(place).toBeGreaterThan(500);
    // Where the page stood on its way back: before its fonts are there and after, never on a way between.
    await page.addInitScript('passed = []; addEventListener("scroll", () => passed.push(scrollY))');
    writeFileSync(file, entry(3, '', long('After.')));
    await page.getByText('After.').waitFor();
    await expect.poll(() => page.evaluate('document.fonts.ready.then(() => scrollY)')).toBe(place);
    await page.evaluate('new Promise((seen) => requestAnimationFrame(() => requestAnimationFrame(seen)))');
    expect(await page.evaluate('passed.at(-1)')).toBe(place);
    expect(await page.evaluate('document.querySelector("main details").open')).toBe(true);
    writeFileSync(file, entry(3, 'answer: "not closed', long('Broken.')));
    await page
      .getByText(/entries\/003-plan\.md:\d+/)
      .first()
      .waitFor();
    expect(await page.getByText('After.').count()).toBe(1);
    await copy.close();
    copy = undefined;
    await page.getByText('The reading copy does not answer').waitFor();
    await page.close();
  }, 60_000);
});

describe('the search page', () => {
  it.each(['length=1', 'item=x', 'elements=1&namedItem=2', '__proto__=1'])(
    'finds, whatever else stands in its address: %s',
    async (more) => {
      copy = await startReading(join(folderOf(smallJournal()), 'journal'), { port: 0 });
      const page = await browser.newPage();
      const errors: string[] = [];
      page.on('pageerror', (error) => errors.push(error.message));
      await page.goto(`${copy.url}search/?${more}&q=words`);
      await page.locator('#hits li').first().waitFor();
      expect(await page.locator('#found').innerText()).toMatch(/^\d+ pages?$/);
      expect(errors).toEqual([]);
      await page.close();
    },
  );
});
