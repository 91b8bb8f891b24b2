// Swatches: brushed strips over black and white, large and small. The colours in these tests are invented.
import fc from 'fast-check';
import { toHtml } from 'hast-util-to-html';
import { describe, expect, test } from 'vitest';
import { seriesCell, seriesGrid } from '../../templates/pictures/series-grid.js';
import { swatchStrip, type PaintedSwatch } from '../../templates/pictures/swatch-strip.js';
import { classed, coordinates, elements, expectSound, fills, markup, named, words } from './tree.js';

const opaque: PaintedSwatch = { hex: '#1b2c4d', mapped: false };
const film: PaintedSwatch = {
  hex: '#2c7a5b',
  overBlack: '#123a2c',
  overWhite: '#4fa27f',
  undertone: '#b5dccb',
  mapped: false,
};

describe('the large swatch', () => {
  test('lies on neutral grey, over a band that is half black and half white', () => {
    const tree = swatchStrip({ ...opaque, size: 'large', label: 'Sample A' });
    expectSound(tree);
    expect(classed(tree, 'surround').map(({ properties }) => properties.fill)).toEqual(['#777']);
    const [black, white] = named(tree, 'rect').filter(
      ({ properties }) => properties.fill === '#111' || properties.fill === '#fff',
    );
    expect(black?.properties.fill).toBe('#111');
    expect(Number(black?.properties.x) + Number(black?.properties.width)).toBe(white?.properties.x);
  });

  test('of several on a page the first draws the ground and the others use it again', () => {
    const [first, again] = (['first', 'again'] as const).map((ground) =>
      swatchStrip({ ...film, size: 'large', label: 'Sample A', ground }),
    );
    expect(named(first!, 'rect').length).toBe(3);
    expect(named(again!, 'rect')).toEqual([]);
    expect(named(again!, 'use').map(({ properties }) => properties.href)).toEqual(
      named(first!, 'g').map(({ properties }) => `#${String(properties.id)}`),
    );
  });

  test('shows masstone, film over black, film over white and undertone where opacity is known', () => {
    const tree = swatchStrip({ ...film, size: 'large', label: 'Sample A' });
    expect(fills(tree)).toEqual(expect.arrayContaining([film.hex, film.overBlack, film.overWhite, film.undertone]));
    expect(words(tree)).toContain('over blackover white');
    expect(words(tree)).toContain('undertone #b5dccb');
    expect(words(tree)).not.toContain('not measured');
  });

  test('each film lies over its own ground', () => {
    const tree = swatchStrip({ ...film, size: 'large', label: 'Sample A' });
    const span = (fill: string | undefined): [number, number] => {
      const [path] = elements(tree, ({ tagName, properties }) => tagName === 'path' && properties.fill === fill);
      const across = coordinates(path).filter((_, i) => i % 2 === 0);
      return [Math.min(...across), Math.max(...across)];
    };
    const ground = (fill: string): [number, number] => {
      const [rect] = named(tree, 'rect').filter(({ properties }) => properties.fill === fill);
      return [Number(rect?.properties.x), Number(rect?.properties.x) + Number(rect?.properties.width)];
    };
    expect(span(film.overBlack)[0]).toBeGreaterThanOrEqual(ground('#111')[0]);
    expect(span(film.overBlack)[1]).toBeLessThanOrEqual(ground('#111')[1] + 1);
    for (const over of [film.overWhite, film.undertone]) {
      expect(span(over)[0]).toBeGreaterThanOrEqual(ground('#fff')[0]);
      expect(span(over)[1]).toBeLessThan(ground('#fff')[1]);
    }
    expect(span(film.hex)[1]).toBeLessThan(ground('#111')[0] + 10);
  });

  test('says that opacity was not measured rather than look opaque', () => {
    expect(words(swatchStrip({ ...opaque, size: 'large', label: 'A' }))).toMatch(
      /opacity not measured.*opacity not measured/,
    );
  });

  test('marks a colour moved into what a screen shows, with a sign and in words', () => {
    const tree = swatchStrip({ ...opaque, mapped: true, size: 'large', label: 'A' });
    expect(words(tree)).toContain('masstone †');
    expect(words(tree)).toContain('† nearest colour a screen can show');
    expect(words(swatchStrip({ ...opaque, size: 'large', label: 'A' }))).not.toContain('†');
  });

  test('says what is approximate or estimated', () => {
    expect(words(swatchStrip({ ...film, approximate: true, filmEstimated: true, size: 'large', label: 'A' }))).toMatch(
      /approximate.*estimated from two luminances.*masstone, roughly.*films estimated/s,
    );
  });

  test('without a colour it is an empty outline', () => {
    for (const hex of ['', 'red', '#12345', 'url(#x)', 'javascript:alert(1)']) {
      const tree = swatchStrip({ hex, mapped: false, size: 'large', label: 'A' });
      expectSound(tree);
      expect(classed(tree, 'unpainted').length).toBe(1);
      expect(words(tree)).toContain('no colour known');
      expect(toHtml(tree)).not.toContain('url(');
    }
  });

  test('the same sample is drawn by the same hand, another by another', () => {
    const draw = (seed: string): string => toHtml(swatchStrip({ ...film, size: 'large', label: 'A', seed }));
    expect(draw('14/A')).toBe(draw('14/A'));
    expect(draw('14/A')).not.toBe(draw('14/B'));
  });

  test('stays inside its frame, whatever the seed', () => {
    fc.assert(
      fc.property(fc.string(), (seed) => {
        const tree = swatchStrip({ ...film, mapped: true, size: 'large', label: seed || 'A', seed });
        expectSound(tree);
        for (const path of named(tree, 'path')) {
          coordinates(path).forEach((at, i) => {
            expect(at).toBeGreaterThan(0);
            expect(at).toBeLessThan(i % 2 === 0 ? 300 : 100);
          });
        }
      }),
    );
  });

  test('a name that looks like markup is text', () => {
    for (const label of ['</title><script>x</script>', '"><script>x</script>', "' onload='x"]) {
      for (const size of ['small', 'large'] as const) {
        const tree = swatchStrip({ ...opaque, size, label });
        expect(markup(tree)).not.toMatch(/<script|<[^>]*onload/);
        expect(words(tree)).toContain(label);
      }
    }
  });
});

describe('the small swatch', () => {
  test('costs under 400 bytes, with everything on it', () => {
    const html = toHtml(swatchStrip({ ...film, mapped: true, size: 'small', label: '1234 A' }));
    expect(Buffer.byteLength(html)).toBeLessThan(400);
    expect(html).toContain('†');
  });

  test('with a label it is an image of that name, without one it is left to the words beside it', () => {
    const labelled = swatchStrip({ ...film, size: 'small', label: '14 A' });
    expectSound(labelled);
    expect(words(labelled)).toBe('14 A');
    const bare = swatchStrip({ ...film, size: 'small', seed: '14/A' });
    expect(bare.properties.ariaHidden).toBe('true');
    expect(named(bare, 'title')).toEqual([]);
  });

  test('shows the film over black and the undertone only where opacity is known', () => {
    expect(fills(swatchStrip({ ...film, size: 'small' }))).toEqual(
      expect.arrayContaining([film.hex, film.overBlack, film.undertone]),
    );
    expect(named(swatchStrip({ ...opaque, size: 'small' }), 'path').length).toBe(3);
  });

  test('without a colour it is an outline', () => {
    const tree = swatchStrip({ hex: 'none', mapped: false, overBlack: '#000000', size: 'small', label: 'A' });
    expect(elements(tree, ({ properties }) => properties.fill === 'none').length).toBe(1);
    expect(named(tree, 'path').length).toBe(3);
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
          { family: 'red', made: [{ href: '/3/#A', label: '3 A' }], notMade: 2 },
          { family: 'blue', made: [{ href: '/14/#A', label: '14 A', swatch: film }] },
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
      ['14 A', 'none', '3 A2 more known, not made'],
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
