// The reading copy's page on which a chart and samples are placed on a photograph: by keys and by pointer, on a
// telephone too, and what it prints is what the command and the journal read.
import { readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { startReading, type ReadingCopy } from '../../src/reading/server.js';
import { folderOf, masstone, smallJournal } from '../journal-folder.js';
import { launch } from './browser.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const photograph = readFileSync(fileURLToPath(new URL('../../content/photos/009-chart.jpg', import.meta.url)));
const corners = '90,90 390,88 390,259 90,269';

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

const open = async (width: number, files: Record<string, string> = {}): Promise<{ page: Page; folder: string }> => {
  const folder = folderOf({ ...smallJournal(files), 'journal/photos/a chart.jpg': photograph });
  copy = await startReading(join(folder, 'journal'), { port: 0 });
  const page = await browser.newPage({ viewport: { width, height: 900 } });
  await page.goto(`http://127.0.0.1:${copy.port}/~reading/chart`);
  await page.getByRole('link', { name: 'photos/a chart.jpg' }).click();
  await page.locator('.chart-corner').first().waitFor();
  return { page, folder };
};
const linesOf = async (page: Page) => parse(await page.locator('.chart-lines').innerText()).colour;

/** Fills in the corners as numbers. */
async function place(page: Page): Promise<void> {
  for (const [at, pair] of corners.split(' ').entries())
    for (const [k, value] of pair.split(',').entries()) {
      const field = page.locator(`[name="corner-${at}-${'xy'[k]}"]`);
      await field.fill(value);
      await field.blur();
    }
}

describe('a chart on a photograph', () => {
  it.each([360, 1400])('is placed with the keys alone at %i pixels', async (width) => {
    const { page } = await open(width);
    const before = await linesOf(page);
    const [x, y] = before.corners.split(' ')[0].split(',').map(Number);
    await page.locator('.chart-corner').first().focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    const after = await linesOf(page);
    expect(after.corners.split(' ')[0]).toBe(`${x + 1},${y + 10}`);
    await page.locator('.chart-sample').first().focus();
    await page.keyboard.press('+');
    const [, , w0] = before.sample.split(',').map(Number);
    expect((await linesOf(page)).sample.split(',')[2]).toBe(String(w0 + 2));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    await page.close();
  });
  it('is placed with the pointer, and keeps its place when the page is loaded again', async () => {
    const { page } = await open(360);
    const box = (await page.locator('.chart-picture').boundingBox())!;
    const handle = (await page.locator('.chart-corner').nth(2).boundingBox())!;
    const scale = 640 / box.width;
    const [fromX, fromY] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
    await page.mouse.move(fromX, fromY);
    await page.mouse.down();
    await page.mouse.move(fromX - 40, fromY + 20, { steps: 4 });
    await page.mouse.up();
    const [x, y] = (await linesOf(page)).corners.split(' ')[2].split(',').map(Number);
    expect(Math.abs(x - (448 - 40 * scale))).toBeLessThan(3);
    expect(Math.abs(y - (270 + 20 * scale))).toBeLessThan(3);
    await page.reload();
    expect((await linesOf(page)).corners.split(' ')[2]).toBe(`${x},${y}`);
    await page.close();
  });
  it('prints lines that the journal reads, and a command that gives the colours that the page shows', async () => {
    const { page, folder } = await open(1400);
    await place(page);
    const sample = page.getByRole('group', { name: 'Sample A' }).getByRole('spinbutton');
    for (const [at, value] of ['435', '73', '30', '30'].entries()) {
      await sample.nth(at).fill(value);
      await sample.nth(at).blur();
    }
    await page.getByRole('button', { name: 'Read the colours' }).click();
    const shown = page.locator('.chart-read li').first();
    await shown.waitFor();
    const words = (await shown.innerText())
      .match(/-?\d+\.\d/g)!
      .slice(0, 3)
      .map(Number);
    expect(await linesOf(page)).toEqual({
      photo: 'photos/a chart.jpg',
      chart: 'classic-24',
      corners,
      sample: '435,73,30,30',
    });
    const command = (await page.locator('.chart-command').innerText()).match(/'[^']*'|"[^"]*"|\S+/g)!;
    const told = masstone(
      [...command.slice(1).map((word) => word.replace(/^['"]|['"]$/g, '')), '--json'],
      join(folder, 'journal'),
    );
    const { lab } = JSON.parse(told.stdout).samples[0];
    lab.D65.forEach((value: number, i: number) => expect(Math.abs(value - words[i]!)).toBeLessThan(0.06));
    await page.close();
  });
  it('shows where an entry has placed it, and says what is wrong in a sentence', async () => {
    const { page } = await open(1400, {
      'journal/entries/003-x.md':
        '---\nnumber: 3\ntitle: X\ndate: 2026-02-03\nstatus: finished\nsamples: [{ sample: A, colour: { photo: photos/a chart.jpg,' +
        ` chart: classic-24, corners: "${corners}", sample: "435,73,30,30" } }]\n---\nWords.\n`,
    });
    expect(await linesOf(page)).toMatchObject({ corners, sample: '435,73,30,30' });
    await page.locator('[name=chart]').fill('classic-99');
    await page.getByRole('button', { name: 'Read the colours' }).click();
    await page
      .getByText('The chart ‘classic-99’ is not known.')
      .or(page.getByText("'classic-99' is not known"))
      .waitFor();
    await page.close();
  });
  it.each(['light', 'dark'] as const)('can be used by everybody: axe finds nothing in %s mode', async (colorScheme) => {
    const { page } = await open(360);
    await page.emulateMedia({ colorScheme });
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() =>
      (globalThis as unknown as { axe: { run: () => Promise<{ violations: { id: string }[] }> } }).axe.run(),
    );
    expect(violations.map(({ id }) => id)).toEqual([]);
    await page.close();
  });
  it('opens no file but photographs of the journal', async () => {
    const { page, folder } = await open(360);
    // Pictures all of them, so that nothing but where they lie keeps them back.
    for (const path of ['journal/private.jpg', 'outside.jpg']) writeFileSync(join(folder, path), photograph);
    symlinkSync(join(folder, 'outside.jpg'), join(folder, 'journal/photos/linked.jpg'));
    const elsewhere = [
      'private.jpg',
      '../outside.jpg',
      'photos/../private.jpg',
      'photos/linked.jpg',
      'photos/none.jpg',
    ];
    for (const path of elsewhere) {
      const answer = await page.request.get(
        `http://127.0.0.1:${copy!.port}/~reading/chart/picture?photo=${encodeURIComponent(path)}`,
      );
      expect(answer.status()).toBe(404);
    }
    await page.close();
  });
});
