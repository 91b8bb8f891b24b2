// Every kind of page, in a browser: nothing refused, nothing asked of other servers, accessible, fits a phone.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, plainHost, publishedDemo } from './browser.js';
import { quoted } from '../quoted.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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

/** Every kind of page of the demonstration journal. */
const pages = [
  '/',
  '/entries/',
  '/timeline/',
  '/1/',
  '/17/',
  '/26/',
  '/27/',
  '/30/',
  '/1/bench/',
  '/series/',
  '/series/Fe/',
  '/series/Cu/',
  '/colours/',
  '/colours/blue/',
  '/reagents/',
  '/reagents/copperas/',
  '/reagents/madder-extract/',
  '/elements/',
  '/results/',
  '/compare/?samples=4/A,17/D,9/A',
  '/ideas/',
  '/incidents/',
  '/search/',
  '/data/',
  '/about/',
  '/safety/',
  '/404.html',
];

interface Look {
  readonly javaScriptEnabled?: boolean;
  readonly colorScheme?: 'light' | 'dark';
  readonly forcedColors?: 'active';
}
interface Opened {
  readonly page: Page;
  readonly refused: readonly string[];
  readonly elsewhere: readonly string[];
}
const contexts = new Map<string, Promise<BrowserContext>>();

/** Pages that are looked at alike are opened beside each other: a context of its own takes as long as a page. */
function contextOf(width: number, look: Look): Promise<BrowserContext> {
  const key = JSON.stringify([width, look]);
  const context = contexts.get(key) ?? browser.newContext({ viewport: { width, height: 900 }, ...look });
  contexts.set(key, context);
  return context;
}

async function open(address: string, width: number, look: Look = {}): Promise<Opened> {
  const page = await (await contextOf(width, look)).newPage();
  const refused: string[] = [];
  const elsewhere: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' && !address.includes('404')) refused.push(message.text());
  });
  page.on('pageerror', (error) => refused.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(host.url)) elsewhere.push(request.url());
  });
  // Only these pages ask for more once they are there.
  const waitUntil = /search|results|compare/.test(address) ? 'networkidle' : 'load';
  await page.goto(`${host.url}${address}`, { waitUntil });
  // Until its letters are there a page is measured with others, which run wider.
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  return { page, refused, elsewhere };
}

/** In the dark nothing but paint is another. Of what is well, axe need not say where it stands. */
const resultTypes = ['violations'];
const axeOptions = {
  light: { resultTypes, runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
  dark: { resultTypes, runOnly: ['color-contrast', 'link-in-text-block'] },
};

describe.each(pages)('page %s', (address) => {
  let wide: Opened;
  beforeAll(async () => {
    const { page, refused, elsewhere } = await open(address, 1400);
    wide = { page, refused: [...refused], elsewhere: [...elsewhere] };
  });
  afterAll(() => wide?.page.close());

  it('loads without an error and asks no other server', async () => {
    const { page, refused, elsewhere } = wide;
    expect(refused).toEqual([]);
    expect(elsewhere).toEqual([]);
    expect(await page.locator('h1').count()).toBe(1);
  });

  it('has no accessibility fault that axe finds, in light and in dark', async () => {
    const { page } = wide;
    await page.evaluate(axe);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      const faults = await page.evaluate(async (options) => {
        const result = await (
          globalThis as never as {
            axe: {
              run: (
                document: unknown,
                options: unknown,
              ) => Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
            };
          }
        ).axe.run((globalThis as never as { document: unknown }).document, options);
        return result.violations.map(
          ({ id, nodes }) =>
            `${id}: ${nodes
              .slice(0, 3)
              .map((node) => `${node.html} (${node.failureSummary})`)
              .join(' | ')}`,
        );
      }, axeOptions[colorScheme]);
      expect(faults, colorScheme).toEqual([]);
    }
  });

  it('keeps its outline, its paint and its width in forced colours, at 200 % of the letters and 320 px wide', async () => {
    const { page } = await open(address, 640, { forcedColors: 'active' });
    const found = (await page.evaluate(`(() => {
      const heads = [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].filter((one) => one.checkVisibility());
      const levels = heads.map((one) => Number(one.tagName[1]));
      const { scrollWidth, clientWidth } = document.documentElement;
      document.documentElement.style.setProperty('font-size', '200%');
      const large = document.documentElement.scrollWidth - document.documentElement.clientWidth;
      document.documentElement.style.removeProperty('font-size');
      return {
        first: levels[0],
        leaps: levels.filter((level, at) => at > 0 && level > levels[at - 1] + 1),
        lostPaint: [...document.querySelectorAll('.dab, .drawing .colour')]
          .filter((one) => getComputedStyle(one).forcedColorAdjust !== 'none').length,
        nameless: [...document.querySelectorAll('svg')]
          .filter((one) => !one.closest('[aria-hidden="true"]'))
          .filter((one) => !one.getAttribute('aria-label') && !one.getAttribute('aria-labelledby'))
          .map((one) => one.outerHTML.slice(0, 120)),
        over: scrollWidth - clientWidth,
        large,
      };
    })()`)) as Record<string, unknown>;
    expect(found).toEqual({ first: 1, leaps: [], lostPaint: 0, nameless: [], over: 0, large: 0 });
    await page.setViewportSize({ width: 320, height: 600 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(320);
    await page.close();
  });

  it(
    'fits a phone 360 px wide without scrolling sideways, and a finger finds every button, field and set-apart ' +
      'link',
    async () => {
      const { page } = await open(address, 360);
      const { wide, view } = (await page.evaluate(
        '({ wide: document.documentElement.scrollWidth, view: document.documentElement.clientWidth })',
      )) as { wide: number; view: number };
      expect(wide).toBeLessThanOrEqual(view);
      const small = await page.evaluate(`[...document.querySelectorAll('a, button, input, select, summary')]
      .filter((one) => one.checkVisibility() && getComputedStyle(one).display !== 'inline' && !one.classList.contains('skip'))
      .filter((one) => { const { width, height } = one.getBoundingClientRect(); return Math.round(width) < 24 || Math.round(height) < 24; })
      .map((one) => one.outerHTML.slice(0, 120))`);
      expect(small).toEqual([]);
      await page.close();
    },
  );
});

describe('the site as a whole', () => {
  it('is valid HTML on every page', { timeout: 120_000 }, async () => {
    const validator = new HtmlValidate({ extends: ['html-validate:standard'] });
    const pagesOfSite = readdirSync(site, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.html'),
    );
    expect(pagesOfSite.length).toBeGreaterThan(100);
    const faults: string[] = [];
    for (const name of pagesOfSite) {
      const { results } = await validator.validateString(readFileSync(join(site, name), 'utf8'), name);
      for (const { messages } of results)
        faults.push(
          ...messages.map(({ line, column, ruleId, message }) => `${name}:${line}:${column} ${ruleId}: ${message}`),
        );
    }
    expect(faults).toEqual([]);
  });

  it('names swatches by sample, colour and lightness', () => {
    const page = quoted(readFileSync(join(site, '4/index.html'), 'utf8'));
    const names = [...page.matchAll(/<svg[^>]*aria-label="([A-Z]: [^"]*)"/g)].map((found) => found[1]);
    expect(names.length).toBeGreaterThan(1);
    for (const name of names) expect(name).toMatch(/^[A-Z]: (?:green|blue-green), L\* \d+$/);
  });

  it('has no link of its own that leads nowhere, down to the sample', () => {
    const namesIn = new Map<string, Set<string>>();
    const names = (file: string): Set<string> => {
      if (!namesIn.has(file))
        namesIn.set(
          file,
          new Set([...readFileSync(file, 'utf8').matchAll(/\sid="?([^"\s>]+)/g)].map((found) => found[1]!)),
        );
      return namesIn.get(file)!;
    };
    const lost: string[] = [];
    const files = readdirSync(site, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.html'));
    expect(files.length).toBeGreaterThan(100);
    for (const file of files) {
      const here = `${host.url}/${file.replace(/index\.html$/, '')}`;
      for (const [, quoted, bare] of readFileSync(join(site, file), 'utf8').matchAll(
        /\s(?:href|src)=(?:"([^"]*)"|([^\s>]+))/g,
      )) {
        const to = new URL((quoted ?? bare)!.replace(/&(?:amp|#x26);/g, '&'), here);
        if (to.origin !== new URL(host.url).origin) continue;
        let target = join(site, decodeURIComponent(to.pathname.slice(base.length)));
        if (existsSync(target) && statSync(target).isDirectory()) target = join(target, 'index.html');
        if (
          !to.pathname.startsWith(`${base}/`) ||
          !existsSync(target) ||
          (to.hash && target.endsWith('.html') && !names(target).has(decodeURIComponent(to.hash.slice(1))))
        )
          lost.push(`${file}: ${to.pathname}${to.hash}`);
      }
    }
    expect(lost).toEqual([]);
  });

  it('shows swatches on the same neutral grey of L* 50 by day, by night and on paper', async () => {
    // #777777 is L* 50.0; source: reference conditions of CIEDE2000, ISO/CIE 11664-6
    for (const [colorScheme, media] of [
      ['light', 'screen'],
      ['dark', 'screen'],
      ['light', 'print'],
    ] as const) {
      const { page } = await open('/1/', 1400, { colorScheme });
      await page.emulateMedia({ media, colorScheme });
      const greys = await page.evaluate(
        `[...new Set([...document.querySelectorAll('svg .surround')].map((one) => getComputedStyle(one).fill))]`,
      );
      expect(greys, `${colorScheme} ${media}`).toEqual(['rgb(119, 119, 119)']);
      await page.close();
    }
  });

  it('prints precautionary statements that are folded on the screen', async () => {
    const { page } = await open('/1/', 1400);
    const first = page.locator('.precautions li').first();
    expect(
      await first.evaluate((one) =>
        (one as unknown as { checkVisibility: (how: object) => boolean }).checkVisibility({
          contentVisibilityAuto: true,
        }),
      ),
    ).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect((await first.boundingBox())?.height).toBeGreaterThan(5);
    await page.close();
  });

  it('a reagent that meets danger in a hundred ways is short on a phone, and whole on paper', async () => {
    const { page } = await open('/reagents/nitric-acid-dilute/', 360);
    const rule = page.locator('.rule-lines li').last();
    const isSeen = () =>
      rule.evaluate((one) =>
        (one as unknown as { checkVisibility: (how: object) => boolean }).checkVisibility({
          contentVisibilityAuto: true,
        }),
      );
    expect(Number(await page.evaluate('document.documentElement.scrollHeight / 740'))).toBeLessThan(5);
    expect(await isSeen()).toBe(false);
    expect(await page.locator('.rules').innerText()).toMatch(/Explosion, bursting: with .*acetylene/);
    await page.emulateMedia({ media: 'print' });
    expect(await isSeen()).toBe(true);
    await page.close();
  });

  it('shows where the keyboard is', async () => {
    const { page } = await open('/results/', 1400);
    for (let step = 0; step < 12; step += 1) {
      await page.keyboard.press('Tab');
      const ring = await page.evaluate(
        '(() => { const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement); return ' +
          '`${outlineStyle} ${outlineWidth}`; })()',
      );
      expect(ring).toBe('solid 3px');
    }
    await page.close();
  });
});

describe('by keys alone', () => {
  it('the masthead is skipped, what has the focus is seen and in the order of the page, folds open and close', async () => {
    const { page } = await open('/4/', 360);
    const press = (key: string) => page.keyboard.press(key);
    await press('Tab');
    const skip = page.locator('.skip');
    expect(await page.evaluate('document.activeElement.className')).toBe('skip');
    expect((await skip.boundingBox())!.x).toBeGreaterThanOrEqual(0);
    await press('Enter');
    expect(await page.evaluate('document.activeElement.id')).toBe('main');
    await page.evaluate('globalThis.walked = []');
    for (let step = 0; step < 30; step += 1) {
      await press('Tab');
      await page.evaluate('walked.push(document.activeElement)');
    }
    expect(await page.evaluate('walked.filter((one) => !one.closest("main")).length')).toBe(0);
    expect(await page.evaluate('walked.filter((one) => !one.checkVisibility()).length')).toBe(0);
    const backwards = 'one.compareDocumentPosition(walked[at + 1] ?? document.body.lastChild) & 2';
    expect(await page.evaluate(`walked.filter((one, at) => ${backwards}).length`)).toBe(0);
    const fold = page.locator('.contents details');
    await fold.locator('summary').focus();
    await press('Enter');
    expect(await fold.getAttribute('open')).not.toBeNull();
    await press('Space');
    expect(await fold.getAttribute('open')).toBeNull();
    await page.close();
  });
});

describe('without script', () => {
  it('an entry and the table of results can be read whole', async () => {
    const { page } = await open('/results/', 1400, { javaScriptEnabled: false });
    expect(await page.locator('#results tbody tr').count()).toBeGreaterThan(20);
    expect(await page.locator('form').isVisible()).toBe(false);
    await page.goto(`${host.url}/1/`);
    expect(await page.locator('.write-up').first().innerText()).toMatch(/\w+/);
    await page.close();
  });
});

describe('the table of results', () => {
  it('is sorted by a click on a heading, both ways, what is above 100 % or was not measured last', async () => {
    const { page } = await open('/results/', 1400);
    const yields = async () =>
      (
        await page
          .locator('#results tbody tr td:nth-child(7)')
          .evaluateAll((cells) =>
            cells.map((cell) => (cell as unknown as { dataset: { sort?: string } }).dataset.sort ?? ''),
          )
      )
        .filter((text) => text !== '')
        .map(Number);
    await page.locator('th[data-key="yield"] button').click();
    const up = await yields();
    expect(up).toEqual([...up].sort((a, b) => a - b));
    expect(await page.locator('th[data-key="yield"]').getAttribute('aria-sort')).toBe('ascending');
    await page.locator('th[data-key="yield"] button').click();
    const down = await yields();
    const possible = (value: number): boolean => value <= 100;
    expect(down).toEqual([...up.filter(possible).reverse(), ...up.filter((value) => !possible(value)).reverse()]);
    await page.close();
  });

  it('shows a hundred rows of many until the rest is asked for, and all on paper', async () => {
    const page = await browser.newPage();
    let rows = 0;
    await page.route('**/results/', async (route) => {
      const response = await route.fetch();
      const body = (await response.text()).replace(/<tbody>(.*)<\/table>/s, (_, some: string) => {
        rows = some.split('<tr>').length - 1;
        return `<tbody>${some.repeat(4)}</table>`;
      });
      await route.fulfill({ response, body });
    });
    await page.goto(`${host.url}/results/`, { waitUntil: 'networkidle' });
    const shown = () => page.locator('#results tbody tr:visible').count();
    expect(rows * 4).toBeGreaterThan(100);
    expect(await shown()).toBe(100);
    await page.emulateMedia({ media: 'print' });
    expect(await shown()).toBe(rows * 4);
    await page.emulateMedia({ media: 'screen' });
    await page.getByRole('button', { name: `Show the other ${rows * 4 - 100}` }).click();
    expect(await shown()).toBe(rows * 4);
    await page.close();
  });

  it('is narrowed by element', async () => {
    const { page } = await open('/results/', 1400);
    await page.locator('select[name="elements"]').selectOption('Cu');
    const shown = await page.locator('#results tbody tr:visible td:nth-child(4)').allInnerTexts();
    expect(shown.length).toBeGreaterThan(0);
    expect(shown.every((text) => text.split(', ').includes('Cu'))).toBe(true);
    await page.close();
  });
});

describe('search', () => {
  it('finds an entry by a word of its body, and each hit shows date, element and swatch', async () => {
    const { page, refused } = await open('/search/?q=malachite', 1400);
    await page.locator('.hit').first().waitFor();
    expect(refused).toEqual([]);
    const words = await page.locator('.hit').first().innerText();
    expect(words).toMatch(/\d+ [A-Z][a-z]+ \d{4}/);
    expect(words).toMatch(/copper/);
    expect(await page.locator('.hit svg.dab').count()).toBeGreaterThan(0);
    await page.close();
  });

  it('is narrowed by element and sorted by yield', async () => {
    const { page } = await open('/search/?element=Fe&sort=yield', 1400);
    await page.locator('.hit').first().waitFor();
    const facts = await page.locator('.hit .kicker').allInnerTexts();
    expect(facts.every((text) => /iron/.test(text))).toBe(true);
    const yields = facts.flatMap((text) => /best yield ([\d.]+)/.exec(text)?.[1] ?? []).map(Number);
    expect(yields.length).toBeGreaterThan(2);
    expect(yields).toEqual([...yields].sort((a, b) => b - a));
    await page.close();
  });

  it('says so when nothing is found', async () => {
    const { page } = await open('/search/?q=xyzzyqqq', 1400);
    await page.locator('#found', { hasText: 'Nothing found' }).waitFor();
    await page.close();
  });

  it('leads from a hit to its entry under the base path', async () => {
    const { page } = await open('/search/?q=malachite', 1400);
    await page.locator('.hit a').first().click();
    await page.waitForURL(/\/journal\/\d+\//);
    expect(await page.locator('h1').innerText()).toMatch(/\w+/);
    await page.close();
  });
});
