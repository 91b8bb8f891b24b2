// A sample as a brushed strip on neutral grey: masstone first, then, where opacity is known, its film over black and over
// white, thinning out to the undertone. Large and labelled for an entry's page; small for cards and table rows.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { handOf, paint, soft, straight, type Point } from './hand.js';
import { label as text, shape } from './shapes.js';

export interface PaintedSwatch {
  /** Masstone in sRGB, `#rrggbb`. */
  readonly hex: string;
  /** The same film over black and over white, where opacity is known. */
  readonly overBlack?: string;
  readonly overWhite?: string;
  /** A thin film over white, where opacity is known. */
  readonly undertone?: string;
  /** The film colours are estimates from two luminances. */
  readonly filmEstimated?: boolean;
  /** The colour lies outside what a screen shows and was moved to the nearest one that it does. */
  readonly mapped: boolean;
  /** The swatch stands for the reading only roughly. */
  readonly approximate?: boolean;
}

/** How a swatch is drawn. */
export type SwatchDrawing = PaintedSwatch & {
  /** The sample's name. The small swatch's text alternative; left out where the words stand beside it. */
  readonly label?: string;
  /** Words that the brush's unevenness follows; default the label. */
  readonly seed?: string;
  readonly size: 'small' | 'large';
  /** Of several large swatches on a page, the first draws the ground that the others use again; default: each its own. */
  readonly ground?: 'first' | 'again';
};

/** Mark set beside a colour that was moved into what a screen shows. */
export const mappedMark = '†';
export const mappedWords = 'nearest colour a screen can show';

/** What a swatch shows, in words. */
export function swatchWords(swatch: PaintedSwatch): string {
  if (!paint(swatch.hex)) return 'No colour known.';
  const masstone = [`Masstone, on screen ${swatch.hex}`];
  if (swatch.approximate) masstone.push('approximate');
  if (swatch.mapped) masstone.push(mappedWords);
  const said = [masstone.length > 1 ? `${masstone[0]} (${masstone.slice(1).join('; ')})` : masstone[0]];
  if (paint(swatch.overBlack)) {
    said.push(`over black ${swatch.overBlack}`, `over white ${paint(swatch.overWhite) ?? swatch.hex}`);
    if (paint(swatch.undertone)) said.push(`undertone ${swatch.undertone}`);
    if (swatch.filmEstimated) said.push('film colours estimated from two luminances');
  } else said.push('opacity not measured');
  return `${said.join('; ')}.`;
}

/** A swatch of a sample, small (48 × 20 units, under 400 bytes as HTML) or large (300 × 118 units, labelled). */
export function swatchStrip(swatch: SwatchDrawing): Element {
  return swatch.size === 'small' ? smallSwatch(swatch) : largeSwatch(swatch);
}

const groundId = 'swatch-ground';
const width = 300;
const card = { top: 6, bottom: 94, black: 118, white: 178, thin: 238, end: 292 };
const brush = { start: 13, top: 24, bottom: 76, lift: 278 };
const surround = 100;

/** One edge of a stroke, from x to x, wavering a little. */
function edge(hand: () => number, from: number, to: number, y: number, step = 50): Point[] {
  const points: Point[] = [];
  const steps = Math.max(2, Math.round((to - from) / step));
  for (let i = 0; i <= steps; i += 1) points.push([from + ((to - from) * i) / steps, y + hand() * 1.3]);
  return points;
}

/** Where the brush lifts: bristles of uneven breadth and reach, from top to bottom; those at the rim lift first. */
function bristles(hand: () => number, x: number, reach: number): Point[] {
  const points: Point[] = [];
  const { top, bottom } = brush;
  let y = top + 2.5 + hand();
  while (y < bottom - 3) {
    const rim = Math.abs((2 * (y - top)) / (bottom - top) - 1) ** 3;
    const tip = x + reach * (0.35 + 0.65 * hand() - rim);
    points.push([tip, y + 0.5]);
    y += 3.2 + 1.6 * hand();
    points.push([tip - 1.5 - 1.5 * hand(), y], [x - reach * (0.55 + 0.45 * hand() + 0.6 * rim), y + 0.4]);
    y += 2.2 + 1.1 * hand();
  }
  return points;
}

/** The stroke of full paint, from the left to where the bristles lift. */
function stroke(hand: () => number, to: number, reach: number): string {
  const from = brush.start + 4;
  const lower = edge(hand, from, to - reach, brush.bottom).reverse();
  const belly: Point[] = [
    [brush.start - 2 + hand(), 63],
    [brush.start - 4 + hand(), 50],
    [brush.start - 1 + hand(), 37],
  ];
  return `${soft([...lower, ...belly, ...edge(hand, from, to - reach, brush.top)])}${straight(bristles(hand, to, reach))}Z`;
}

/** A film from x to x: a straight side where the ground changes, bristles where it ends or thins. */
function film(hand: () => number, from: number, to: number, reach: number): string {
  const end = reach > 0 ? bristles(hand, to, reach) : [];
  const stop = to - reach * 0.5;
  const points = [
    ...edge(hand, from, stop, brush.top + 1, 14),
    ...end,
    ...edge(hand, from, stop, brush.bottom - 1, 14).reverse(),
  ];
  return `${straight(points, 'M')}Z`;
}

function largeSwatch(swatch: SwatchDrawing): Element {
  const label = swatch.label ?? swatch.seed ?? 'sample';
  const seed = swatch.seed ?? label;
  const hand = handOf(seed);
  const masstone = paint(swatch.hex);
  const overBlack = masstone && paint(swatch.overBlack);
  const overWhite = paint(swatch.overWhite) ?? masstone;
  const undertone = paint(swatch.undertone);
  const estimated = overBlack !== undefined && swatch.filmEstimated === true;
  const grounds = (): Element[] => [
    shape('rect', { className: ['surround'], width, height: surround, fill: '#777' }),
    shape('rect', {
      x: card.black,
      y: card.top,
      width: card.white - card.black,
      height: card.bottom - card.top,
      fill: '#111',
    }),
    shape('rect', {
      x: card.white,
      y: card.top,
      width: card.end - card.white,
      height: card.bottom - card.top,
      fill: '#fff',
    }),
  ];
  const content: ElementContent[] =
    swatch.ground === 'again'
      ? [shape('use', { href: `#${groundId}` })]
      : swatch.ground === 'first'
        ? [shape('g', { id: groundId }, grounds())]
        : grounds();
  const under = 114;
  const footnote = 129;
  if (!masstone) {
    content.push(
      shape('path', {
        className: ['unpainted'],
        d: stroke(hand, brush.lift, 11),
        fill: 'none',
        stroke: '#000',
        strokeDashArray: '4 4',
      }),
      text(0, under, 'no colour known'),
    );
  } else {
    if (overBlack) {
      if (undertone) content.push(shape('path', { d: film(hand, card.thin - 12, brush.lift, 11), fill: undertone }));
      content.push(
        shape('path', {
          d: film(hand, card.white, undertone ? card.thin : brush.lift, undertone ? 8 : 11),
          fill: overWhite,
        }),
        shape('path', { d: film(hand, card.black, card.white + 0.4, 0), fill: overBlack }),
        shape('path', { d: stroke(hand, card.black - 6, 12), fill: masstone }),
        text((card.black + card.white) / 2, under, 'over black', 'middle'),
        text(undertone ? (card.white + card.thin) / 2 : (card.white + card.end) / 2, under, 'over white', 'middle'),
      );
      if (undertone) content.push(text(width, under, 'undertone', 'end'));
    } else
      content.push(
        shape('path', { d: stroke(hand, brush.lift, 11), fill: masstone }),
        text(width, under, 'opacity not measured', 'end'),
      );
    content.push(
      text(0, under, `masstone${swatch.approximate ? ', roughly' : ''}${swatch.mapped ? ` ${mappedMark}` : ''}`),
    );
    if (swatch.mapped) content.push(text(0, footnote, `${mappedMark} ${mappedWords}`));
    if (estimated) content.push(text(width, footnote, 'films estimated', 'end'));
  }
  return drawing(
    {
      title: `Swatch of ${label}`,
      description: swatchWords(swatch),
      kind: 'strip',
      width,
      height: swatch.mapped || estimated ? 134 : 118,
    },
    content,
  );
}

function smallSwatch(swatch: SwatchDrawing): Element {
  const { label } = swatch;
  const hand = handOf(swatch.seed ?? label ?? swatch.hex);
  const near = (value: number): number => Math.round((value + hand() * 0.9) * 2) / 2;
  const masstone = paint(swatch.hex);
  const overBlack = masstone && paint(swatch.overBlack);
  const undertone = overBlack && (paint(swatch.undertone) ?? paint(swatch.overWhite));
  const body = `M4 ${near(6)}Q14 ${near(4)} 24 ${near(5)}T39 5l-1 3 4 2-4 2 1 3Q30 ${near(16)} 23 ${near(15)}T4 ${near(14)}z`;
  const layers: (Element | undefined)[] = [
    label ? shape('title', {}, [{ type: 'text', value: swatch.mapped ? `${label} ${mappedMark}` : label }]) : undefined,
    shape('path', { d: 'M22 1h10v18H22z' }),
    shape('path', { d: 'M32 1h11v18H32z', fill: '#fff' }),
    shape(
      'path',
      masstone ? { d: body, fill: masstone } : { d: body, fill: 'none', stroke: '#000', strokeDashArray: '2' },
    ),
    overBlack ? shape('path', { d: 'M22 5h10v10H22z', fill: overBlack }) : undefined,
    undertone ? shape('path', { d: 'M36 5h3l-1 3 4 2-4 2 1 3h-3z', fill: undertone }) : undefined,
    swatch.mapped ? text(43, 8, mappedMark) : undefined,
  ];
  return shape(
    'svg',
    {
      className: ['dab'],
      viewBox: '0 0 48 20',
      role: label ? 'img' : undefined,
      ariaHidden: label ? undefined : 'true',
    },
    layers.filter((layer) => layer !== undefined),
  );
}
