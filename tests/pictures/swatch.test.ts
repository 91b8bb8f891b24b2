// Swatches: masstone and films over black and white. The colours in these tests are invented.
import { readFileSync } from 'node:fs';
import type { Element } from 'hast';
import { h } from 'hastscript';
import { toHtml } from 'hast-util-to-html';
import { describe, expect, test } from 'vitest';
import { swatchFigure } from '../../templates/parts/swatch-figure.js';
import { seriesCell, seriesGrid } from '../../templates/pictures/series-grid.js';
import {
  card,
  film as laid,
  painted,
  swatchNotes,
  swatchStrip,
  type PaintedSwatch,
} from '../../templates/pictures/swatch-strip.js';
import { classed, elements, expectSound, fills, markup, named, words } from './tree.js';

const opaque: PaintedSwatch = { hex: '#1b2c4d', mapped: false };
const film: PaintedSwatch = {
  hex: '#2c7a5b',
  overBlack: '#123a2c',
  overWhite: '#4fa27f',
  undertone: '#b5dccb',
  mapped: false,
};

/** From where to where each field of a colour lies: its left and right edge, its top and bottom. */
const spans = (tree: Element, fill: string): { from: number; to: number; top: number; bottom: number }[] =>
  elements(tree, ({ tagName, properties }) => tagName === 'path' && properties.fill === fill).map(({ properties }) => {
    const [, x, y, across, down] = /^M(\S+) (\S+)h(\S+)v(\S+)h/.exec(String(properties.d)) ?? [];
    return { from: Number(x), to: Number(x) + Number(across), top: Number(y), bottom: Number(y) + Number(down) };
  });

describe('a swatch', () => {
  test('with known opacity is masstone, then one film over black, over white and thin, each on its own ground', () => {
    const tree = h('g', painted(film));
    expectSound(tree);
    const [masstone] = spans(tree, film.hex);
    const [black] = spans(tree, '#111');
    const [white] = spans(tree, '#fff');
    const [overBlack] = spans(tree, film.overBlack!);
    const [overWhite] = spans(tree, film.overWhite!);
    const [undertone] = spans(tree, film.undertone!);
    expect([masstone!.to, black!.to]).toEqual([black!.from, white!.from]);
    expect([overBlack!.from, overBlack!.to]).toEqual([black!.from, black!.to]);
    expect([overWhite!.from, overWhite!.to]).toEqual([white!.from, undertone!.from]);
    // The ground shows above, below and at the end of the film: that is how its covering is judged.
    for (const laid of [overBlack!, overWhite!, undertone!]) {
      expect(laid.top).toBeGreaterThan(black!.top);
      expect(laid.bottom).toBeLessThan(black!.bottom);
    }
    expect(undertone!.to).toBeLessThan(white!.to);
  });

  test('on a page has the same fields, of which the style sheet knows places and grounds', () => {
    const tree = swatchStrip(film);
    expectSound(tree);
    const { hex, overBlack, overWhite, undertone } = film;
    expect(named(tree, 'rect').map(({ properties }) => properties)).toEqual(
      [hex, undefined, undefined, overBlack, overWhite, undertone].map((fill) => ({ fill })),
    );
    const styles = readFileSync(new URL('../../public/styles/pictures.css', import.meta.url), 'utf8');
    const rules = /\.dab:not\(\.mark\) rect \{\n([^]*?)\n\}/.exec(styles)![1]!;
    const percent = (part: number, whole: number): string => `${Number(((100 * part) / whole).toFixed(4))}%`;
    const across = (from: number, to: number): string =>
      `x: ${percent(from, card.width)}; width: ${percent(to - from, card.width)};`;
    expect(rules.split('\n').map((rule) => rule.trim())).toEqual([
      `width: ${percent(card.masstone, card.width)}; height: 100%;`,
      `&:nth-child(2) { ${across(card.masstone, card.black)} fill: #111; }`,
      `&:nth-child(3) { ${across(card.black, card.width)} fill: #fff; }`,
      `&:nth-child(n + 4) { y: ${percent(laid.top, card.height)}; height: ${percent(laid.height, card.height)}; }`,
      `&:nth-child(4) { ${across(card.masstone, card.black)} }`,
      `&:nth-child(5) { ${across(card.black, laid.thin)} }`,
      `&:nth-child(6) { ${across(laid.thin, laid.end)} }`,
    ]);
  });

  test('without known opacity is the masstone alone, so that no eye takes it for a film that covers', () => {
    const tree = swatchStrip(opaque);
    expectSound(tree);
    expect(fills(tree).filter((fill) => fill !== undefined)).toEqual([opaque.hex]);
    expect(classed(tree, 'bare')).toEqual([tree]);
    expect(spans(h('g', painted(opaque)), opaque.hex)).toEqual([
      { from: 0, to: card.masstone, top: 0, bottom: card.height },
    ]);
    expect(swatchNotes(opaque)).toEqual(['opacity not measured']);
  });

  test('has level edges only, and may be stretched', () => {
    const roughly = { ...film, approximate: true };
    expect(swatchStrip(roughly).properties.preserveAspectRatio).toBe('none');
    for (const one of [opaque, film, roughly]) {
      for (const { properties } of named(h('g', painted(one)), 'path'))
        expect(properties.d).toMatch(/^M[\d. ]+(?:[hv]-?[\d.]+)+z?$/);
    }
  });

  test('of a colour known only roughly is in slats, and says so', () => {
    const [block] = named(swatchStrip({ ...film, approximate: true }), 'path');
    expect(block?.properties).toMatchObject({ stroke: film.hex, strokeDashArray: '4 2' });
    expect(swatchNotes({ ...film, approximate: true })).toEqual(['masstone only roughly']);
  });

  test('says what was moved into what a screen shows, and what was estimated', () => {
    expect(swatchNotes({ ...film, mapped: true, filmEstimated: true })).toEqual([
      '† nearest colour a screen can show',
      'films estimated from two luminances',
    ]);
    expect(swatchNotes(film)).toEqual([]);
  });

  test('without a colour is an empty outline', () => {
    for (const hex of ['', 'red', '#12345', 'url(#x)', 'javascript:alert(1)']) {
      const tree = swatchStrip({ hex, mapped: false, overBlack: '#000000' }, 'A');
      expectSound(tree);
      expect(classed(tree, 'unpainted').length).toBe(1);
      expect(named(tree, 'path').length).toBe(1);
      expect(swatchNotes({ hex, mapped: false })).toEqual(['no colour known']);
      expect(toHtml(tree)).not.toContain('url(');
    }
  });

  test('with a label is an image of that name, without one it is left to the words beside it', () => {
    const labelled = swatchStrip(film, '14 A: green, L* 57');
    expect(labelled.properties).toMatchObject({ role: 'img', ariaLabel: '14 A: green, L* 57' });
    expect(swatchStrip(film).properties).toMatchObject({ ariaHidden: 'true' });
  });

  test('a label that looks like markup is text', () => {
    for (const label of ['</title><script>x</script>', '"><script>x</script>', "' onload='x"])
      expect(markup(swatchStrip(opaque, label))).not.toMatch(/<script|<[^>]*onload/);
  });

  test('costs under 300 bytes with everything on it', () => {
    expect(Buffer.byteLength(toHtml(swatchStrip(film, '1234 A: blue-green, L* 57')))).toBeLessThan(300);
  });
});

describe('a swatch set large', () => {
  test('names its fields where there are films, and what it leaves open', () => {
    expect(words(swatchFigure(film, 'A'))).toBe('Amasstoneover blackover whiteundertone');
    expect(words(swatchFigure({ ...opaque, mapped: true }, 'A'))).toBe(
      'A† nearest colour a screen can show; opacity not measured',
    );
  });
});

describe('the series grid', () => {
  const tree = seriesGrid({
    caption: 'Elements across the colours',
    families: [{ name: 'blue', href: '/colours/blue/' }, { name: 'green' }, { name: 'red' }],
    rows: [
      {
        name: 'iron',
        href: '/series/Fe/',
        cells: [
          { family: 'red', made: [{ href: '/3/#A', label: '3/A' }], notMade: 2 },
          { family: 'blue', made: [{ href: '/14/#A', label: '14/A', swatch: film }] },
        ],
      },
      { name: 'copper', cells: [{ family: 'green', made: [], notMade: 1 }] },
    ],
  });

  test('every cell stands under its family, whatever the order it was given in', () => {
    expectSound(tree);
    const cells = named(tree, 'tbody')
      .flatMap((body) => named(body, 'tr'))
      .map((row) => named(row, 'td').map(words));
    expect(cells).toEqual([
      ['14/A', 'none', '3/A2 more known, not made'],
      ['none', '1 known, not made', 'none'],
    ]);
    expect(
      named(tree, 'thead')
        .flatMap((head) => named(head, 'th'))
        .map(words),
    ).toEqual(['Element', 'blue', 'green', 'red']);
  });

  test('what was made is linked, with its swatch where the colour is known', () => {
    expect(named(tree, 'a').map(({ properties }) => properties.href)).toEqual([
      '/colours/blue/',
      '/series/Fe/',
      '/14/#A',
      '/3/#A',
    ]);
    expect(named(tree, 'svg').length).toBe(1);
  });

  test('a full cell counts what it does not show', () => {
    const full = seriesCell({
      family: 'red',
      made: Array.from({ length: 20 }, (_, i) => ({ href: `/${i}/`, label: `${i} A`, swatch: film })),
    });
    expect(named(full, 'svg').length).toBe(6);
    expect(words(full)).toContain('and 14 more');
  });
});
