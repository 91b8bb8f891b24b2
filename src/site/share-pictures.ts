// Pictures that are shown where an entry or a series is linked to: 1200 × 630 PNG of its swatches and its title, made
// at publication and kept in the journal's cache by what they show.
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as fontkit from 'fontkit';
import { sharedPicture } from '../../templates/parts/shared-head.js';
import { card, cardFields } from '../../templates/pictures/swatch-strip.js';
import { depth, drawnLetters, type DrawnLetter, type PlacedLetter } from './drawn-letters.js';
import { indexedPng } from './indexed-png.js';
import type { SharePicture } from './share-picture-list.js';

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

/** A line of words, beginning at nought. */
interface Line {
  readonly letters: readonly PlacedLetter[];
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

/** A line of words in letters of a size. */
function line(words: string, size: number): Line {
  const letters: PlacedLetter[] = [];
  let x = 0;
  for (const { font, words: run } of runsOf(words)) {
    const scale = size / font.unitsPerEm;
    const { glyphs, positions } = font.layout(run, features);
    glyphs.forEach((glyph, at) => {
      letters.push({ letter: { font, glyph, size }, x });
      x += positions[at]!.xAdvance * scale;
    });
  }
  return { letters };
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

/** So many swatches fit under one another. */
const mostSwatches = 6;

/** Shades of letters on paper, from paper to the colour of the letters. */
function shades(colour: string): string[] {
  const part = (hex: string, at: number): number => Number.parseInt(hex.slice(1 + 2 * at, 3 + 2 * at), 16);
  const between = (share: number, at: number): string =>
    Math.round(part(paper, at) + share * (part(colour, at) - part(paper, at)))
      .toString(16)
      .padStart(2, '0');
  return Array.from(
    { length: depth },
    (_, at) => `#${[0, 1, 2].map((rgb) => between(at / (depth - 1), rgb)).join('')}`,
  );
}

/** Places of the first shades of letters among the colours: of what is read first, and of what stands above it. */
const shadesOf = { ink: 0, quiet: depth } as const;
const ofLetters = [...shades(ink), ...shades(quiet)];

/** `#111` as `#111111`. */
const inFull = (hex: string): string => (hex.length === 4 ? hex.replace(/[0-9a-f]/gi, '$&$&') : hex);

/** Room for a picture, used for one after the other. Before each row stands a byte that is no pixel. */
const rowLength = width + 1;
const room = new Uint8Array(height * rowLength);

/** The picture while it is drawn: paper at first. */
class Sheet {
  readonly rows = room.fill(0);
  readonly colours = [...ofLetters];

  constructor(private readonly drawn: (placed: PlacedLetter) => DrawnLetter) {}

  /** A field of one colour, to whole pixels. */
  fill(from: number, to: number, top: number, bottom: number, hex: string): void {
    const colour = this.placeOf(inFull(hex).toLowerCase());
    const [left, right] = [Math.round(from), Math.round(to)];
    for (let y = Math.round(top); y < Math.round(bottom); y += 1)
      this.rows.fill(colour, y * rowLength + 1 + left, y * rowLength + 1 + right);
  }

  /** Words beginning at a whole pixel, standing on `y`. */
  write({ letters }: Line, x: number, y: number, shade: keyof typeof shadesOf): void {
    for (const placed of letters)
      this.letter(this.drawn(placed), x + Math.floor(placed.x), Math.round(y), shadesOf[shade]);
  }

  private letter({ left, top, breadth, depths }: DrawnLetter, x: number, y: number, first: number): void {
    const from = Math.max(0, -(x + left));
    const to = Math.min(breadth, width - (x + left));
    for (let row = 0; row * breadth < depths.length; row += 1) {
      const down = y + top + row;
      if (down < 0 || down >= height) continue;
      const begin = down * rowLength + 1 + x + left;
      for (let across = from; across < to; across += 1) {
        const covered = depths[row * breadth + across]!;
        if (covered > 0) this.rows[begin + across] = Math.max(this.rows[begin + across]!, first + covered);
      }
    }
  }

  private placeOf(hex: string): number {
    const known = this.colours.indexOf(hex, ofLetters.length);
    return known >= 0 ? known : this.colours.push(hex) - 1;
  }
}

/** Swatches as strips across the picture, above `bottom`; masstone alone has its share of the width. */
function paintStrips(sheet: Sheet, swatches: readonly ShownSwatch[], bottom: number): void {
  const gap = 12;
  const each = (bottom - margin - gap * (swatches.length - 1)) / Math.max(1, swatches.length);
  const isLettered = swatches.some(({ letter }) => letter !== undefined);
  const x = isLettered ? margin + 70 : margin;
  const [across, down] = [(width - margin - x) / card.width, each / card.height];
  for (const [at, { letter, swatch }] of swatches.entries()) {
    const y = margin + at * (each + gap);
    if (letter) sheet.write(letter, margin, y + each / 2 + 14, 'ink');
    for (const { from, to, top, height: tall, fill } of cardFields(swatch))
      sheet.fill(x + from * across, x + to * across, y + top * down, y + (top + tall) * down, fill);
  }
}

interface ShownSwatch extends Pick<SharePicture['swatches'][number], 'swatch'> {
  readonly letter: Line | undefined;
}

/** The picture as PNG. */
export async function shareDrawing(picture: SharePicture): Promise<Buffer> {
  const { lines, size } = titleLines(drawable(picture.title));
  const leading = size * 1.14;
  const { swatches } = picture;
  // Below the swatches; without any, in the middle.
  const bottom = swatches.length > 0 ? height - margin : (height + leading * lines.length) / 2;
  const titleTop = bottom - leading * (lines.length - 1);
  const above = titleTop - size - 14;
  const aboveLine = line(drawable(picture.above), 32);
  const shown = swatches.slice(0, mostSwatches).map(({ letter, swatch }): ShownSwatch => {
    return { letter: letter === '' ? undefined : line(letter, 44), swatch };
  });
  const lettered = shown.flatMap(({ letter }) => letter ?? []);
  const drawn = await drawnLetters([...lettered, aboveLine, ...lines].flatMap(({ letters }) => letters));
  const sheet = new Sheet(drawn);
  paintStrips(sheet, shown, above - 56);
  sheet.write(aboveLine, margin, above, 'quiet');
  for (const [at, one] of lines.entries()) sheet.write(one, margin, titleTop + leading * at - 8, 'ink');
  return indexedPng({ width, height, rows: sheet.rows, colours: sheet.colours });
}

/**
 * Draws a picture.
 * @param file where it is kept
 */
export async function drawSharePicture(picture: SharePicture, file: string): Promise<void> {
  const png = await shareDrawing(picture);
  mkdirSync(dirname(file), { recursive: true });
  // Written beside and renamed, so that a kill leaves no half picture.
  const half = `${file}.${process.pid}`;
  writeFileSync(half, png);
  renameSync(half, file);
}
