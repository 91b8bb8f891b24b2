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
import { samplesByEntry } from '../../templates/parts/listed.js';
import { card, hasFilms, painted, type PaintedSwatch } from '../../templates/pictures/swatch-strip.js';
import { group, shape } from '../../templates/pictures/shapes.js';
import type { SiteContext } from '../../templates/frame.js';
import type { Element } from 'hast';
import type { JournalModel, SampleRow } from '../crosslinks/model.js';

/** What one picture shows: all that it is made of. */
export interface SharePicture {
  /** Address below the base: `/share/4.png`. */
  readonly address: string;
  /** The line above the title: number, journal. */
  readonly above: string;
  readonly title: string;
  readonly swatches: readonly { readonly letter: string; readonly swatch: PaintedSwatch }[];
}

/** Changes when pictures are drawn otherwise, so that nothing old is taken from the cache. */
const recipe = 'share-1200-630-2';

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

/** A line of words as outlines, beginning at nought. */
function line(words: string, size: number): Line {
  const outlines: Element[] = [];
  let x = 0;
  const runs = new Map<number, { font: fontkit.Font; words: string }>();
  let last = -1;
  for (const sign of words) {
    const font = fonts().find((one) => has(one, sign));
    if (!font) continue;
    const run = runs.get(last);
    if (run && run.font === font) run.words += sign;
    else runs.set((last += 1), { font, words: sign });
  }
  for (const run of runs.values()) {
    const scale = size / run.font.unitsPerEm;
    const { glyphs, positions } = run.font.layout(run.words);
    glyphs.forEach((glyph, at) => {
      const d = glyph.path.toSVG();
      const place = `translate(${x.toFixed(2)} 0) scale(${scale} ${-scale})`;
      if (d !== '') outlines.push(shape('path', { d, transform: place }));
      x += positions[at]!.xAdvance * scale;
    });
  }
  return { outlines, width: x };
}

/** Words broken into lines no wider than `most`; a word that is wider than that stands alone. */
function broken(words: string, size: number, most: number): Line[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)!} ${word}`;
    if (lines.length > 0 && line(longer, size).width <= most) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines.map((one) => line(one, size));
}

/** As few lines as there must be, each as narrow as that allows, so that no word is left alone. */
function balanced(words: string, size: number): Line[] {
  const most = width - 2 * margin;
  const lines = broken(words, size, most);
  for (let narrower = most - 60; narrower > most / 2; narrower -= 60) {
    const tighter = broken(words, size, narrower);
    if (tighter.length > lines.length || tighter.some((one) => one.width > narrower))
      return broken(words, size, narrower + 60);
  }
  return lines;
}

/** The title as large as three lines allow. */
function titleLines(title: string): { readonly lines: readonly Line[]; readonly size: number } {
  for (const size of [72, 64, 56, 48]) {
    const lines = balanced(title, size);
    if (lines.length <= 3 && lines.every((one) => one.width <= width - 2 * margin)) return { lines, size };
  }
  return { lines: balanced(title, 40).slice(0, 4), size: 40 };
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

const swatchesOf = (rows: readonly SampleRow[]): SharePicture['swatches'] =>
  rows.flatMap(({ sample, appearance }) => (appearance?.swatch ? [{ letter: sample, swatch: appearance.swatch }] : []));

const stateWords: Readonly<Record<string, string>> = {
  planned: 'planned, not done',
  running: 'not finished',
  failed: 'failed',
  abandoned: 'not done',
  withdrawn: 'withdrawn',
};

/** One sample of each family that a series was made in. */
const ofSeries = (rows: readonly SampleRow[]): SharePicture['swatches'] => {
  const byFamily = new Map<string, SampleRow>();
  for (const row of rows)
    if (row.family && row.appearance?.swatch && !byFamily.has(row.family)) byFamily.set(row.family, row);
  return swatchesOf([...byFamily.values()]).map(({ swatch }) => ({ letter: '', swatch }));
};

/** Every picture of the site: the journal's, one for each series, one for each entry. */
export function sharePictures(site: SiteContext, model: JournalModel): SharePicture[] {
  const rowsOf = samplesByEntry(model);
  return [
    {
      address: '/share/journal.png',
      above: site.subtitle ?? '',
      title: site.title,
      swatches: ofSeries(model.samples),
    },
    ...model.series.map(({ element, name, cells }) => ({
      address: `/share/series-${element}.png`,
      above: site.title,
      title: `${name[0]?.toUpperCase()}${name.slice(1)} across the colours`,
      swatches: ofSeries(cells.flatMap(({ entries }) => entries.flatMap(({ samples }) => samples))),
    })),
    ...model.entries.map(({ entry }) => ({
      address: `/share/${entry.number}.png`,
      above: [String(entry.number), stateWords[entry.status], site.title].filter(Boolean).join(' · '),
      title: entry.title,
      swatches: swatchesOf(rowsOf.get(entry.number) ?? []),
    })),
  ];
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
    .png({ compressionLevel: 9 })
    .toBuffer();
  mkdirSync(cache, { recursive: true });
  // Written beside and renamed, so that a kill leaves no half picture.
  const half = `${file}.${process.pid}`;
  writeFileSync(half, png);
  renameSync(half, file);
  return file;
}
