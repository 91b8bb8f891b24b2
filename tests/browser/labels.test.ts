// Labels as a browser prints them: nothing runs over the cut lines, pictograms and letters are as large as the law asks,
// and a sheet is a sheet.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { command } from '../../src/commands/labels.js';
import { folderOf } from '../journal-folder.js';
import { run } from '../commands/bench.js';
import { demo, launch } from './browser.js';

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launch();
  page = await browser.newPage();
});
afterAll(() => browser?.close());

/** Millimetres of a CSS pixel. */
const millimetre = 25.4 / 96;

async function opened(...words: string[]): Promise<void> {
  const { code, result, aside } = await run(command, '--journal', demo, ...words);
  expect([code, aside && '']).toEqual([0, '']);
  const file = join(folderOf({}), 'labels.html');
  writeFileSync(file, result);
  await page.goto(pathToFileURL(file).href);
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => document.fonts.ready);
}

/** How far what is in a label runs over its edges, mm; labels within half a tenth are left out. */
const overruns = (): Promise<number[]> =>
  page.$$eval('.label', (labels) =>
    labels
      .map((label) => {
        const edge = label.getBoundingClientRect();
        const parts = [...label.querySelectorAll('p, svg.code, svg.swatch, svg.pictogram')].map((part) =>
          part.getBoundingClientRect(),
        );
        return Math.max(...parts.map(({ right, bottom }) => Math.max(right - edge.right, bottom - edge.bottom)));
      })
      .map((over) => (over * 25.4) / 96)
      .filter((over) => over > 0.05),
  );

const numbers = ['4', '11', '15', '23'];

describe('nothing runs over the edge of a label', () => {
  it.each([
    ['of the usual size', []],
    ['of 40 by 20 mm', ['--size', '40x20mm']],
    ['of 52 by 30 mm', ['--size', '52x30mm']],
    ['of a third of A4', ['--grid', '1x3']],
  ])(
    '%s',
    async (_, options) => {
      for (const number of numbers) {
        const { code } = await run(command, '--journal', demo, number, ...options, '--json');
        // A label too small for its pictograms is refused, not printed over its edge.
        if (code !== 0) continue;
        await opened(number, '--count', '1', ...options);
        expect(await overruns(), number).toEqual([]);
      }
    },
    120_000,
  );
  it.each(['caustic-soda', 'acetic-acid', 'permanganate', 'bismuth-nitrate', 'spirit', 'sodium-metavanadate'])(
    'nor of a bottle of %s',
    async (jar) => {
      await opened('--shelf', jar, '--count', '1');
      expect(await overruns()).toEqual([]);
    },
    60_000,
  );
});

describe('sizes', () => {
  it('the sides of a pictogram are 10 mm or more (CLP Annex I 1.2.1.3, Table 1.3)', async () => {
    await opened('4', '--count', '1');
    const across = await page.$$eval('svg.pictogram', (all) => all.map((one) => one.getBoundingClientRect().width));
    expect(across.length).toBeGreaterThan(0);
    for (const one of across) expect((one * millimetre) / Math.SQRT2).toBeGreaterThanOrEqual(9.99);
  });
  it('the small x of the warnings is 1.2 mm or more (CLP Annex I 1.2.1.5)', async () => {
    await opened('--shelf', 'caustic-soda', '--count', '1');
    const heights = await page.$$eval('.hazard, .advice, .signal-word', (all) =>
      all.map((one) => {
        const measure = document.createElement('span');
        measure.style.cssText = 'position:absolute;height:1ex;width:1px';
        one.append(measure);
        return measure.getBoundingClientRect().height;
      }),
    );
    expect(heights.length).toBeGreaterThan(3);
    for (const height of heights) expect(height * millimetre).toBeGreaterThanOrEqual(1.19);
  });
  it('a module of the code is as large as is said', async () => {
    await opened('14', '--sample', 'A', '--count', '1');
    const [side, modules] = await page.$eval('svg.code', (code) => [
      code.getBoundingClientRect().width,
      Number(code.getAttribute('viewBox')!.split(' ')[2]),
    ]);
    const said = Number(/modules of ([\d.]+) mm/.exec(await page.innerText('.notes'))![1]);
    expect((side! * millimetre) / modules!).toBeCloseTo(said, 2);
  });
});

describe('on paper', () => {
  it.each([
    ['A4', 595, 842],
    ['Letter', 612, 792],
  ])(
    'a sheet of %s is one page, and the notes follow on their own',
    async (paper, width, height) => {
      await opened('14', '--paper', paper);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [
        Math.round(Number(x)),
        Math.round(Number(y)),
      ]);
      expect(boxes[0]).toEqual([width, height]);
      expect((pdf.match(/\/Type\s*\/Page[^s]/g) ?? []).length).toBe(2);
    },
    60_000,
  );
});
