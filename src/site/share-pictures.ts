// Pictures that are shown where an entry or a series is linked to: 1200 × 630 PNG of its swatches and its title, made
// at publication and kept in the journal's cache by what they show.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as fontkit from 'fontkit';
import { toHtml } from 'hast-util-to-html';
import sharp from 'sharp';
import { sharedPicture } from '../../templates/parts/shared-head.js';
import { card, hasFilms, painted } from '../../templates/pictures/swatch-strip.js';
import { group, shape } from '../../templates/pictures/shapes.js';
import type { Element } from 'hast';
import { recipe, type SharePicture } from './share-picture-list.js';

const { width, height } = sharedPicture;
const margin = 60;
/** Colours of the page in daylight. */
const ink = '#1c1f21';
const quiet = '#565c60';
const paper = '#f8f8f6';

const require = createRequire(import.meta.url);
const subsets = ['latin', 'latin-ext', 'greek', 'cyrillic'] as const;
let opened: readonly fontkit.Font[] | undefined;

/** The site's own letters, opened once: what fonts the machine has makes no difference. */
function fonts(): readonly fontkit.Font[] {
  opened ??= subsets.map((subset) => {
    const folder = join(dirname(require.resolve('@fontsource-variable/vollkorn/package.json')), 'files');
    return fontkit.openSync(join(folder, `vollkorn-${subset}-wght-normal.woff2`)) as fontkit.Font;
  });
  return opened;
}

const has = (font: fontkit.Font, sign: string): boolean => font.hasGlyphForCodePoint(sign.codePointAt(0)!);

/** Words in signs that some subset has; `CO₂` becomes `CO2`, what no subset has is left out. */
const drawable = (words: string): string =>
  [...words.normalize('NFC')]
    .map((sign) => (fonts().some((font) => has(font, sign)) ? sign : sign.normalize('NFKD')))
    .join('')
    .replace(/\s+/gu, ' ')
    .trim();

interface Line {
  readonly outlines: readonly Element[];
  readonly width: number;
}

/** Lining figures: old-style ones read as letters where they stand large. */
const features = ['lnum'];

/** Words in runs of one subset each. */
function runsOf(words: string): { readonly font: fontkit.Font; readonly words: string }[] {
  const runs: { font: fontkit.Font; words: string }[] = [];
  for (const sign of words) {
    const font = fonts().find((one) => has(one, sign));
    const last = runs.at(-1);
    if (font && last?.font === font) last.words += sign;
    else if (font) runs.push({ font, words: sign });
  }
  return runs;
}

/** Outlines of the letters that were drawn before: titles are made of few. */
const outlines = new WeakMap<fontkit.Font, Map<number, string>>();

function outlineOf(font: fontkit.Font, glyph: fontkit.Glyph): string {
  let known = outlines.get(font);
  if (!known) outlines.set(font, (known = new Map()));
  let path = known.get(glyph.id);
  if (path === undefined) known.set(glyph.id, (path = glyph.path.toSVG()));
  return path;
}

/** A line of words as outlines, beginning at nought. */
function line(words: string, size: number): Line {
  const drawn: Element[] = [];
  let x = 0;
  for (const { font, words: run } of runsOf(words)) {
    const scale = size / font.unitsPerEm;
    const { glyphs, positions } = font.layout(run, features);
    glyphs.forEach((glyph, at) => {
      const d = outlineOf(font, glyph);
      const place = `translate(${x.toFixed(2)} 0) scale(${scale} ${-scale})`;
      if (d !== '') drawn.push(shape('path', { d, transform: place }));
      x += positions[at]!.xAdvance * scale;
    });
  }
  return { outlines: drawn, width: x };
}

/** Breadths of words that were measured before, in ems. */
const breadths = new Map<string, number>();
const mostBreadths = 20_000;

/** Breadth of a word and the space before the next, in ems. */
function breadthOf(word: string): number {
  const known = breadths.get(word);
  if (known !== undefined) return known;
  const breadth = runsOf(`${word} `).reduce(
    (sum, { font, words: run }) => sum + font.layout(run, features).advanceWidth / font.unitsPerEm,
    0,
  );
  if (breadths.size >= mostBreadths) breadths.clear();
  breadths.set(word, breadth);
  return breadth;
}

/** Words broken into lines no wider than `most`, in ems; a word that is wider than that stands alone. */
function broken(words: string, most: number): readonly { readonly words: string; readonly breadth: number }[] {
  const lines: { words: string; breadth: number }[] = [];
  for (const word of words.split(' ')) {
    const breadth = breadthOf(word);
    const last = lines.at(-1);
    if (last && last.breadth + breadth <= most) {
      last.words += ` ${word}`;
      last.breadth += breadth;
    } else lines.push({ words: word, breadth });
  }
  return lines;
}

/** As few lines as there must be, each as narrow as that allows, so that no word is left alone. */
function balanced(words: string, most: number): ReturnType<typeof broken> {
  const lines = broken(words, most);
  for (let narrower = most - 1; narrower > most / 2; narrower -= 1) {
    const tighter = broken(words, narrower);
    if (tighter.length > lines.length || tighter.some(({ breadth }) => breadth > narrower))
      return broken(words, narrower + 1);
  }
  return lines;
}

/** The title as large as three lines allow. */
function titleLines(title: string): { readonly lines: readonly Line[]; readonly size: number } {
  const set = (size: number) => balanced(title, (width - 2 * margin) / size);
  const fits = (size: number): boolean => {
    const lines = set(size);
    return lines.length <= 3 && lines.every(({ breadth }) => breadth * size <= width - 2 * margin);
  };
  const size = [72, 64, 56, 48].find(fits) ?? 40;
  const lines = set(size).slice(0, size === 40 ? 4 : 3);
  return { lines: lines.map((one) => line(one.words, size)), size };
}

const words = ({ outlines }: Line, x: number, y: number, fill: string): Element =>
  group({ transform: `translate(${x} ${y})`, fill }, [...outlines]);

/** So many swatches fit under one another. */
const mostSwatches = 6;

/** Swatches as strips across the picture, above `bottom`; masstone alone has its share of the width. */
function strips({ swatches }: SharePicture, bottom: number): Element[] {
  const shown = swatches.slice(0, mostSwatches);
  const gap = 12;
  const each = (bottom - margin - gap * (shown.length - 1)) / Math.max(1, shown.length);
  const x = shown.some(({ letter }) => letter !== '') ? margin + 70 : margin;
  return shown.flatMap(({ letter, swatch }, at) => {
    const y = margin + at * (each + gap);
    const span = hasFilms(swatch) ? card.width : card.masstone;
    const strip = shape(
      'svg',
      {
        x,
        y,
        width: ((width - margin - x) * span) / card.width,
        height: each,
        viewBox: `0 0 ${span} ${card.height}`,
        preserveAspectRatio: 'none',
        color: quiet,
      },
      painted(swatch),
    );
    return [words(line(letter, 44), margin, y + each / 2 + 14, ink), strip];
  });
}

/** The picture as SVG; letters are outlines. */
export function shareDrawing(picture: SharePicture): string {
  const { lines, size } = titleLines(drawable(picture.title));
  const leading = size * 1.14;
  // Below the swatches; without any, in the middle.
  const bottom = picture.swatches.length > 0 ? height - margin : (height + leading * lines.length) / 2;
  const titleTop = bottom - leading * (lines.length - 1);
  const above = titleTop - size - 14;
  const drawing = shape(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', width, height, viewBox: `0 0 ${width} ${height}` },
    [
      shape('rect', { width, height, fill: paper }),
      ...strips(picture, above - 56),
      words(line(drawable(picture.above), 32), margin, above, quiet),
      ...lines.map((one, at) => words(one, margin, titleTop + leading * at - 8, ink)),
    ],
  );
  return toHtml(drawing, { space: 'svg' });
}

/** Name in the cache: by what the picture shows and how it is drawn. */
const nameInCache = (picture: SharePicture): string =>
  `share-${createHash('sha256').update(recipe).update(JSON.stringify(picture)).digest('hex').slice(0, 32)}.png`;

/**
 * A picture's file, from the cache or made now.
 * @param cache folder that keeps what was made
 */
export async function sharePictureFile(picture: SharePicture, cache: string): Promise<string> {
  const file = join(cache, nameInCache(picture));
  if (existsSync(file)) return file;
  const png = await sharp(Buffer.from(shareDrawing(picture)))
    .png()
    .toBuffer();
  mkdirSync(cache, { recursive: true });
  // Written beside and renamed, so that a kill leaves no half picture.
  const half = `${file}.${process.pid}`;
  writeFileSync(half, png);
  renameSync(half, file);
  return file;
}
