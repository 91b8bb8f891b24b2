// A sample as it lies on a test card: a block of masstone, then, where opacity is known, the same film drawn over a
// black and a white field, thinning to the undertone; where it is not known, the block alone. One drawing at every
// size: it has level edges only, so that a style sheet may stretch it.
import type { Element } from 'hast';
import { paint } from './hand.js';
import { shape } from './shapes.js';

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

/** Mark set beside a colour that was moved into what a screen shows. */
export const mappedMark = '†';
export const mappedWords = 'nearest colour a screen can show';

/**
 * Where the fields of the card begin and end, and the film on it. `.swatch-fields` and `.dab` in the style sheet have
 * the same shares.
 */
export const card = { width: 96, height: 20, masstone: 40, black: 58 } as const;
export const film = { top: 4, height: 12, thin: 78, end: 92 } as const;

/** Whether the strip shows films over black and white, or the masstone alone. */
export const hasFilms = (swatch: PaintedSwatch): boolean =>
  paint(swatch.hex) !== undefined && paint(swatch.overBlack) !== undefined;

/** What a swatch leaves open or only stands for, as words to set below it. */
export function swatchNotes(swatch: PaintedSwatch): string[] {
  if (!paint(swatch.hex)) return ['no colour known'];
  return [
    ...(swatch.approximate ? ['masstone only roughly'] : []),
    ...(swatch.mapped ? [`${mappedMark} ${mappedWords}`] : []),
    ...(hasFilms(swatch) ? [] : ['opacity not measured']),
    ...(hasFilms(swatch) && swatch.filmEstimated ? ['films estimated from two luminances'] : []),
  ];
}

/** A field of one colour on the card, in units of `card`. */
export interface CardField {
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly height: number;
  readonly fill: string;
}

const fieldOf = (from: number, to: number, fill: string, top = 0, height: number = card.height): CardField => ({
  from,
  to,
  top,
  height,
  fill,
});

const field = ({ from, to, top, height, fill }: CardField): Element =>
  shape('path', { d: `M${from} ${top}h${to - from}v${height}h${from - to}`, fill });

/** Slats of a masstone that is known only roughly, and the gaps between them. */
const slats = { broad: 4, gap: 2 } as const;

/** The block of masstone; in slats where it stands for the reading only roughly. */
const masstoneBlock = (hex: string, roughly: boolean): Element =>
  roughly
    ? shape('path', {
        d: `M0 ${card.height / 2}h${card.masstone}`,
        stroke: hex,
        strokeWidth: card.height,
        strokeDashArray: `${slats.broad} ${slats.gap}`,
      })
    : field(fieldOf(0, card.masstone, hex));

/** The same as fields. */
function masstoneFields(hex: string, roughly: boolean): CardField[] {
  if (!roughly) return [fieldOf(0, card.masstone, hex)];
  const { broad, gap } = slats;
  const count = Math.ceil(card.masstone / (broad + gap));
  return Array.from({ length: count }, (_, at) => {
    const from = at * (broad + gap);
    return fieldOf(from, Math.min(card.masstone, from + broad), hex);
  });
}

/** The film over white, and thin. */
function thinning(swatch: PaintedSwatch): readonly [string, string] {
  const overWhite = paint(swatch.overWhite) ?? swatch.hex;
  return [overWhite, paint(swatch.undertone) ?? overWhite];
}

/** The card with the film on it: over black, over white, thin. */
function filmFields(swatch: PaintedSwatch): CardField[] {
  const overBlack = paint(swatch.overBlack);
  if (!overBlack) return [];
  const { top, height, thin, end } = film;
  const [overWhite, undertone] = thinning(swatch);
  return [
    fieldOf(card.masstone, card.black, '#111'),
    fieldOf(card.black, card.width, '#fff'),
    fieldOf(card.masstone, card.black, overBlack, top, height),
    fieldOf(card.black, thin, overWhite, top, height),
    fieldOf(thin, end, undertone, top, height),
  ];
}

const unpainted = (): Element =>
  shape('path', {
    className: ['unpainted'],
    d: `M.5 .5h${card.masstone - 1}v${card.height - 1}h-${card.masstone - 1}z`,
    fill: 'none',
    stroke: 'currentColor',
    strokeDashArray: '2',
  });

/** What lies on the card, in units of `card`: the whole drawing, for where there is no style sheet. */
export function painted(swatch: PaintedSwatch): Element[] {
  const masstone = paint(swatch.hex);
  return masstone
    ? [masstoneBlock(masstone, swatch.approximate === true), ...filmFields(swatch).map(field)]
    : [unpainted()];
}

/** The fields of the card, each on those before it; none where no colour is known. */
export function cardFields(swatch: PaintedSwatch): CardField[] {
  const masstone = paint(swatch.hex);
  return masstone ? [...masstoneFields(masstone, swatch.approximate === true), ...filmFields(swatch)] : [];
}

/**
 * The same where `.dab` of the style sheet knows the fields, their places and the two grounds, so that only colours are
 * left to say: a journal has some thousands of swatches. Masstone, black, white, the film over black, over white, thin.
 */
function paintedByStyles(swatch: PaintedSwatch): Element[] {
  const colours = hasFilms(swatch) ? [undefined, undefined, paint(swatch.overBlack), ...thinning(swatch)] : [];
  return [swatch.hex, ...colours].map((fill) => shape('rect', { fill }));
}

/**
 * The swatch of a sample.
 * @param label its text alternative, as in `A: green, L* 57`; left out where the words stand beside it
 */
export function swatchStrip(swatch: PaintedSwatch, label?: string): Element {
  const films = hasFilms(swatch);
  const width = films ? card.width : card.masstone;
  const byStyles = swatch.approximate !== true && paint(swatch.hex) !== undefined;
  return shape(
    'svg',
    {
      className: films ? ['dab'] : ['dab', 'bare'],
      ...(byStyles ? {} : { viewBox: `0 0 ${width} ${card.height}`, preserveAspectRatio: 'none' }),
      role: label ? 'img' : undefined,
      ariaLabel: label,
      ariaHidden: label ? undefined : 'true',
    },
    byStyles ? paintedByStyles(swatch) : painted(swatch),
  );
}
