// What pages say of the colours that they show: screens, how colours are read, curves for identification.
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kOverS } from '../../src/colour/kubelka-munk.js';
import { publish } from '../../src/site/publish.js';
import { absorptionCurves, slopeCurves } from '../../templates/pictures/curves.js';
import { quoted } from '../quoted.js';

const folder = mkdtempSync(join(tmpdir(), 'masstone-colour-pages-'));
const site = join(folder, 'site');
const content = fileURLToPath(new URL('../../content', import.meta.url));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const pages = new Map<string, string>();

beforeAll(async () => {
  const { published } = await publish(content, { to: site, search: false });
  expect(published).toBe(true);
  for (const path of readdirSync(site, { recursive: true, encoding: 'utf8' }))
    if (path.endsWith('.html')) pages.set(path.replaceAll('\\', '/'), quoted(readFileSync(join(site, path), 'utf8')));
}, 120_000);

describe('every page with swatches', () => {
  it('says once how the ± of colours from one photograph comes about, and of each how large it is', () => {
    const page = pages.get('9/index.html')!;
    expect(page.match(/leave-one-out over \d+ patches/g)).toHaveLength(1);
    expect(page).toMatch(/A(?:, B)?: ± ΔE00 \d\.\d by the photograph\./);
    expect(page).toMatch(/A, B: how that ± comes about: /);
  });
  it('says what a screen makes of them, and leads to how colours are read', () => {
    const shown = [...pages].filter(([, html]) => /class="(?:dab|swatch|drawing (?:lamps|ladder|plane))/.test(html));
    expect(shown.length).toBeGreaterThan(40);
    const silent = shown.filter(([, html]) => !/class="on-screens[^>]*>[^<]*screen/.test(html)).map(([path]) => path);
    expect(silent).toEqual([]);
    for (const [path, html] of shown) expect([path, html.includes('/colours/how/"')]).toEqual([path, true]);
  });
  it('and only such pages, of the entries', () => {
    const said = [...pages].filter(([path, html]) => /^\d+\/index/.test(path) && html.includes('class="on-screens'));
    for (const [path, html] of said) expect([path, html.includes('class="dab')]).toEqual([path, true]);
  });
});

describe('how colours are read', () => {
  it('is told with published accuracy, its thresholds and the families’ map', () => {
    const page = pages.get('colours/how/index.html')!;
    expect(existsSync(join(site, 'colours/how/index.html'))).toBe(true);
    expect(page).toMatch(
      /photographs without a chart[\s\S]{0,200}&gt; 10|photographs without a chart[\s\S]{0,200}> 10/,
    );
    expect(page).toMatch(/about half of the value without/);
    expect(page).toMatch(/50:50 perceptibility/);
    expect(page.match(/class="drawing family-map"/g)).toHaveLength(3);
    expect(pages.get('colours/index.html')!.match(/class="drawing family-map"/g)).toHaveLength(3);
  });
});

describe('colours of repeats', () => {
  it('are told as a group on the page of their entry, and each repeat says what it repeats', () => {
    const page = pages.get('17/index.html')!;
    expect(page).toMatch(/A, B and C repeat one recipe and lie /);
    expect(page).toMatch(/A, B and C against D, E and F/);
    expect(page).not.toMatch(/<b>B and C\. <\/b>/);
    expect(page).toMatch(/repeats A/);
  });
  it('are not told of samples that were made once each, whose single drawdowns the head names', () => {
    const page = pages.get('4/index.html')!;
    expect(page).not.toMatch(/repeat one recipe|made only once/);
    expect(page).toMatch(/class="findings"[^<]*, single drawdowns/);
  });
});

describe('colours in lists', () => {
  it('stand beside their pigment on the page of a colour, beside their colour in a series', () => {
    const heads = (path: string) => [...pages.get(path)!.matchAll(/<th[^>]*>([^<]*)(?=<)/g)].map(([, head]) => head);
    expect(heads('colours/green/index.html')).toContain('Pigment');
    expect(heads('colours/green/index.html')).not.toContain('Family');
    expect(heads('series/Cu/index.html')).toContain('Family');
  });
  it('count on the first page as they stand in the series, where what was not measured is no colour', () => {
    const told = [...pages.get('index.html')!.matchAll(/series\/(\w+)\/">[^]*?entr(?:y|ies), ([\w ]+?)</g)];
    expect(told.length).toBeGreaterThan(5);
    for (const [, element, words] of told) {
      const cells = [
        ...pages.get(`series/${element!}/index.html`)!.matchAll(/class="series-cell" [^>]*family-([\w-]+)"/g),
      ];
      const measured = cells.filter(([, family]) => family !== 'unmeasured').length;
      const expected = measured === 0 ? 'colour not measured' : `${measured} ${measured === 1 ? 'colour' : 'colours'}`;
      expect([element, words]).toEqual([element, expected]);
    }
  });
});

describe('curves for identification', () => {
  it('have a page beside that of an entry with spectra, and none without', () => {
    expect(pages.get('4/index.html')).toMatch(/href="\/journal\/4\/curves\/">K\/S and slope/);
    expect(pages.get('4/curves/index.html')).toMatch(
      /class="drawing curves absorption"[\s\S]*class="drawing curves slope"/,
    );
    expect(pages.get('9/index.html')).not.toMatch(/curves\/">/);
    expect(pages.has('9/curves/index.html')).toBe(false);
  });
  it('have marks of powers of ten around all that is drawn', () => {
    const points = [400, 500, 600].map((nm, i) => [nm, kOverS([0.04, 0.5, 0.8][i]!)] as const);
    const drawn = JSON.stringify(absorptionCurves({ curves: [{ label: 'A', points }] }));
    // Kubelka and Munk: (1 − R)²/2R of 0.04, 0.5, 0.8 is 11.52, 0.25, 0.025.
    for (const mark of ['0.01', '0.1', '1', '10', '100']) expect(drawn).toContain(`"value":"${mark}"`);
    expect(drawn).toContain('A: highest K/S 11.52 at 400 nm.');
  });
  it('have a slope that may fall', () => {
    const drawn = JSON.stringify(
      slopeCurves({
        curves: [
          {
            label: 'A',
            points: [
              [405, -0.004],
              [555, 0.012],
            ],
          },
        ],
      }),
    );
    expect(drawn).toContain('"value":"−0.5"');
    expect(drawn).toContain('steepest rise 1.20 % per nm at 555 nm.');
  });
});
