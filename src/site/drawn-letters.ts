// Letters as they stand in pictures: how much of each pixel a letter covers. Titles are made of few letters in few
// sizes, so that each is drawn once for all pictures, at quarters of a pixel; those that a picture is the first to have
// are drawn together.
import type { Font, Glyph } from 'fontkit';
import sharp from 'sharp';

/** A letter of a font in pixels to the em. */
export interface Letter {
  readonly font: Font;
  readonly glyph: Glyph;
  readonly size: number;
}

/** A letter and how far from a whole pixel it begins. */
export interface PlacedLetter {
  readonly letter: Letter;
  readonly x: number;
}

/** Steps from nothing to all of a pixel. */
export const depth = 64;
const quarters = 4;

/** What a letter covers of the pixels that it comes to. */
export interface DrawnLetter {
  /** From the whole pixel that it begins in, and from the line that it stands on. */
  readonly left: number;
  readonly top: number;
  readonly breadth: number;
  /** Row by row, less than `depth`. */
  readonly depths: Uint8Array;
}

interface ToDraw extends Omit<DrawnLetter, 'depths'> {
  readonly key: string;
  readonly height: number;
  /** Path of its outline, and where in its own pixels that begins. */
  readonly outline: string;
}

/** Letters that were drawn before. */
const drawnBefore = new WeakMap<Font, Map<string, DrawnLetter>>();
/** Of a font so many are held. */
const mostDrawn = 2000;

const quarterOf = (x: number): number => Math.round((x - Math.floor(x)) * quarters);
const keyOf = ({ letter: { glyph, size }, x }: PlacedLetter): string => `${glyph.id} ${size} ${quarterOf(x)}`;

function toDraw(placed: PlacedLetter): ToDraw {
  const { font, glyph, size } = placed.letter;
  const [scale, from] = [size / font.unitsPerEm, quarterOf(placed.x) / quarters];
  const { path } = glyph;
  const { minX, minY, maxX, maxY } = path.bbox;
  const isEmpty = !(maxX > minX && maxY > minY);
  const [left, top] = isEmpty ? [0, 0] : [Math.floor(from + minX * scale), Math.floor(-maxY * scale)];
  const [right, bottom] = isEmpty ? [0, 0] : [Math.ceil(from + maxX * scale), Math.ceil(-minY * scale)];
  const place = `translate(${from - left} ${-top}) scale(${scale} ${-scale})`;
  const outline = `<path d="${path.toSVG()}" transform="${place}"/>`;
  return { key: keyOf(placed), left, top, breadth: right - left, height: bottom - top, outline };
}

/** Draws letters below one another, white on black, and cuts them apart. */
async function drawn(letters: readonly ToDraw[]): Promise<(readonly [key: string, letter: DrawnLetter])[]> {
  const width = Math.max(1, ...letters.map(({ breadth }) => breadth));
  const height = Math.max(
    1,
    letters.reduce((sum, one) => sum + one.height, 0),
  );
  let y = 0;
  const placed = letters.map((one) => {
    const from = y;
    y += one.height;
    return { one, from, shape: `<g transform="translate(0 ${from})">${one.outline}</g>` };
  });
  const ground = `<rect width="${width}" height="${height}"/>`;
  const shapes = placed.map(({ shape }) => shape).join('');
  const drawing = `${ground}<g fill="#fff">${shapes}</g>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">${drawing}</svg>`;
  const pixels = await sharp(Buffer.from(svg)).extractChannel(0).raw().toBuffer();
  return placed.map(({ one: { key, left, top, breadth, height: rows }, from }) => {
    const depths = new Uint8Array(breadth * rows);
    for (let row = 0; row < rows; row += 1)
      for (let x = 0; x < breadth; x += 1)
        depths[row * breadth + x] = Math.round((pixels[(from + row) * width + x]! / 255) * (depth - 1));
    return [key, { left, top, breadth, depths }];
  });
}

/**
 * Draws letters that were not drawn before.
 * @returns what each of them covers
 */
export async function drawnLetters(letters: readonly PlacedLetter[]): Promise<(placed: PlacedLetter) => DrawnLetter> {
  const byFont = new Map<Font, Map<string, DrawnLetter>>();
  for (const font of new Set(letters.map(({ letter }) => letter.font))) byFont.set(font, await ofFont(font, letters));
  return (placed) => byFont.get(placed.letter.font)!.get(keyOf(placed))!;
}

async function ofFont(font: Font, letters: readonly PlacedLetter[]): Promise<Map<string, DrawnLetter>> {
  const before = drawnBefore.get(font);
  const own = new Map<string, DrawnLetter>();
  const missing = new Map<string, PlacedLetter>();
  for (const placed of letters) {
    if (placed.letter.font !== font) continue;
    const key = keyOf(placed);
    const known = before?.get(key);
    if (known) own.set(key, known);
    else missing.set(key, placed);
  }
  if (missing.size === 0) return own;
  const made = await drawn([...missing.values()].map(toDraw));
  const held = before && before.size + made.length <= mostDrawn ? before : new Map<string, DrawnLetter>();
  for (const [key, letter] of made) {
    own.set(key, letter);
    held.set(key, letter);
  }
  drawnBefore.set(font, held);
  return own;
}
